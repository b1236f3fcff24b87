package screen

import (
	"bytes"
	"cmp"
	"html/template"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"wetside/build/render/view"
	"wetside/build/render/wording"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// writing says in which way a text is written.
type writing struct {
	links   bool // figures lead to their working page, cards to their page
	aligned bool // a figure is split at its decimal point
}

// Say writes a text, with links where a screen has them.
func (v *shown) Say(t page.Text) template.HTML { return v.write(t, writing{links: true}) }

// Plain writes a text without links.
func (v *shown) Plain(t page.Text) template.HTML { return v.write(t, writing{}) }

// Aligned writes a text so that decimal points in one column stand below each
// other.
func (v *shown) Aligned(t page.Text) template.HTML {
	return v.write(t, writing{links: true, aligned: wording.Single(t)})
}

func (v *shown) write(t page.Text, how writing) template.HTML {
	out, _ := written(func(b *bytes.Buffer) error { // which never fails
		open := "" // the classes of the span that is open
		mark := func(class string) {
			if class == open {
				return
			}
			if open != "" {
				b.WriteString("</span>")
			}
			if class != "" {
				b.WriteString(`<span class="` + strings.TrimSpace(class) + `">`)
			}
			open = class
		}
		for _, in := range t {
			mark(v.forClass(in.When()))
			v.inline(b, in, how)
		}
		mark("")
		return nil
	})
	return out
}

func (v *shown) inline(b *bytes.Buffer, in page.Inline, how writing) {
	text := template.HTMLEscapeString(wording.KeepUnits(in.Text))
	switch in.Kind {
	case page.Word:
		b.WriteString(text)
	case page.Strong:
		b.WriteString("<strong>" + text + "</strong>")
	case page.Fig, page.BareFig:
		v.figures(b, in.Figures, in.Kind == page.BareFig, how)
	case page.Name:
		b.WriteString(`<span class="n">` + text + `</span>`)
	case page.Link, page.File:
		to := ""
		switch {
		case in.Card == "" || !(v.Site() || v.Bound) || !how.links:
		case in.Kind == page.File:
			to = v.Href(in.Card)
		default:
			to = v.Card(in.Card)
		}
		if to == "" {
			b.WriteString(`<span class="n">` + text + `</span>`)
			return
		}
		b.WriteString(`<a class="n" href="` + template.HTMLEscapeString(to) + `">` + text + `</a>`)
	case page.Ask:
		b.WriteString(`<span class="hole">ask`)
		if text != "" {
			b.WriteString(" " + text)
		}
		b.WriteString("</span>")
	case page.Blank:
		b.WriteString(`<span class="blank"></span>`)
	}
}

// figures writes the figure of the choice shown, or one for each choice.
func (v *shown) figures(b *bytes.Buffer, list []*figure.Record, bare bool, how writing) {
	switch {
	case len(list) == 0:
		return
	case len(list) == 1:
		v.figure(b, list[0], bare, how)
		return
	case v.Choice >= 0:
		v.figure(b, wording.Pick(list, v.Choice), bare, how)
		return
	}
	ids := make([]string, len(list))
	of := map[string]*figure.Record{}
	for i, f := range list {
		if f != nil {
			ids[i], of[f.ID] = f.ID, f
		}
	}
	each(ids, func(id, class string) {
		if class == "" {
			v.figure(b, of[id], bare, how)
			return
		}
		b.WriteString(`<span class="` + class + `">`)
		v.figure(b, of[id], bare, how)
		b.WriteString(`</span>`)
	})
}

// each calls back once for every different value, with the class that shows it
// in its choices only; no class if all choices agree.
func each(values []string, write func(value, class string)) {
	var done []string
	for _, value := range values {
		if slices.Contains(done, value) {
			continue
		}
		done = append(done, value)
		class := "v"
		same := 0
		for i, other := range values {
			if other == value {
				class += " v" + strconv.Itoa(i)
				same++
			}
		}
		if same == len(values) {
			class = ""
		}
		write(value, class)
	}
}

func (v *shown) figure(b *bytes.Buffer, r *figure.Record, bare bool, how writing) {
	attr := template.HTMLEscapeString(r.ID)
	if r.Refused() {
		b.WriteString(`<span class="no" data-f="` + attr + `"><b>NO</b></span>`)
		if r.Why != "" && v.saysWhy() {
			b.WriteString(` <span class="reason">` + template.HTMLEscapeString(r.Why) + `</span>`)
		}
		return
	}
	to := ""
	if how.links {
		to = v.working(r.ID)
	}
	class := "q"
	text := r.Shown
	if r.Kind == figure.KindText || r.Kind == figure.KindSeries { // may break on a telephone, but not before a unit
		class = "q told"
		if len(text) > longTold { // a sentence breaks on paper, too
			class += " whole"
		}
		text = beforeUnit.ReplaceAllString(text, "$1\u00a0$2")
	}
	b.WriteString(`<span class="` + class + `">`)
	if to != "" {
		b.WriteString(`<a class="f" href="` + template.HTMLEscapeString(to) + `">`)
	}
	shown := template.HTMLEscapeString(text)
	if how.aligned {
		whole, rest := wording.SplitPoint(shown)
		shown = `<span class="i">` + whole + `</span><span class="d">` + rest + `</span>`
	}
	if r.Kind == figure.KindDate {
		day := template.HTMLEscapeString(cmp.Or(r.Date, r.Rounded))
		b.WriteString(`<time datetime="` + day + `" data-f="` + attr + `">` + shown + `</time>`)
	} else {
		value := template.HTMLEscapeString(cmp.Or(r.Rounded, r.Shown))
		b.WriteString(`<data value="` + value + `" data-f="` + attr + `">` + shown + `</data>`)
	}
	if u := wording.Unit(r); u != "" && !bare {
		b.WriteString(`<span class="u">&nbsp;` + template.HTMLEscapeString(u) + `</span>`)
	} else if how.aligned {
		b.WriteString(`<span class="u"></span>`)
	}
	if to != "" {
		b.WriteString("</a>")
	}
	if r.Origin.Weak() {
		word := r.Origin.String()
		b.WriteString(`<abbr class="o" title="` + word + `">` + wording.Mark(word) + `</abbr>`)
	}
	b.WriteString("</span>")
}

// longTold is the length from which a text that is a figure is a sentence.
const longTold = 40

var beforeUnit = regexp.MustCompile(`(\d) (\pL)`)

// saysWhy tells whether a refusal gives its reason on this face.
func (v *shown) saysWhy() bool { return v.Site() || v.Bound }

// working is the way to a figure's working page, on a screen.
func (v *shown) working(id string) string {
	if !v.Site() {
		return ""
	}
	subject, rest, ok := strings.Cut(id, "/")
	if !ok {
		return ""
	}
	card := "why/" + subject
	if !v.pages.working[card] {
		return ""
	}
	if v.Page.ID == card {
		return "#" + view.EscapePath(rest)
	}
	return v.Href(card + ".html#" + rest)
}
