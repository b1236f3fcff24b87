// Package text writes cards as plain text for a terminal.
package text

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"wetside/build/render/view"
	"wetside/build/render/wording"
	"wetside/procedures/page"
)

// Card writes a page as plain text, in one of its choices, in lines of at most width letters
// and never of fewer than 40. Cautions stand
// before the amounts they guard; figures below the rank 'house' carry a letter
// that the foot explains.
func Card(p page.Page, choice, width int) string {
	if len(p.Choices) == 0 {
		choice = -1
	}
	whole := p
	p = page.OnScreen(p, choice)
	t := &terminal{v: &view.View{Page: p, Whole: whole, Choice: choice}, width: max(width, 40)}
	t.head()
	t.part("BEFORE", p.Before)
	t.part("TODAY", p.Today)
	t.keys()
	t.blocks(p.Do)
	t.part("NEVER", p.Never)
	t.blocks(p.Tables)
	t.blocks(p.Why)
	t.foot()
	return t.b.String()
}

type terminal struct {
	b     strings.Builder
	v     *view.View
	width int
}

func (t *terminal) say(text page.Text) string {
	var b strings.Builder
	for _, in := range text {
		switch in.Kind {
		case page.Fig, page.BareFig:
			r := wording.Pick(in.Figures, t.v.Choice)
			if r == nil {
				b.WriteString("?")
				continue
			}
			b.WriteString(strings.ReplaceAll(wording.Shown(r, in.Kind == page.BareFig), "\u00a0", " "))
			if r.Refused() && r.Why != "" {
				b.WriteString(" (" + r.Why + ")")
			}
			if r.Origin.Weak() {
				b.WriteString(" [" + wording.Mark(r.Origin.String()) + "]")
			}
		case page.Ask:
			b.WriteString(strings.TrimSpace("____ ask " + in.Text))
		case page.Blank:
			b.WriteString("________")
		default:
			b.WriteString(in.Text)
		}
	}
	return b.String()
}

func cells(s string) int { return utf8.RuneCountInString(s) }

func padRight(s string, n int) string { return s + strings.Repeat(" ", max(0, n-cells(s))) }

func padLeft(s string, n int) string { return strings.Repeat(" ", max(0, n-cells(s))) + s }

// wrapText breaks text at spaces.
func wrapText(s string, width int) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(s) {
		if line != "" && cells(line)+1+cells(word) > width {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

func (t *terminal) line(s string) {
	t.b.WriteString(strings.TrimRight(s, " "))
	t.b.WriteByte('\n')
}

// put writes a text with its first line behind a mark and the others below it.
func (t *terminal) put(mark, s string) {
	room := t.width - cells(mark)
	for i, l := range wrapText(s, room) {
		if i > 0 {
			mark = strings.Repeat(" ", cells(mark))
		}
		t.line(mark + l)
	}
}

func (t *terminal) rule(c string) { t.line(strings.Repeat(c, t.width)) }

// pair writes one text at the left and one at the right, on two lines if they
// do not fit on one.
func (t *terminal) pair(left, right string) {
	if cells(left)+2+cells(right) > t.width {
		t.put("", left)
		t.line(padLeft(right, t.width))
		return
	}
	t.line(left + padLeft(right, t.width-cells(left)))
}

func (t *terminal) head() {
	p := t.v.Page
	edition := ""
	if p.Foot.Version != "" {
		edition = strings.TrimSpace("version " + p.Foot.Version + "  " + p.Foot.Date)
	}
	t.pair(p.KindLine, edition)
	title := strings.ToUpper(p.Title)
	if len(p.Lead) > 0 {
		title += ", " + t.say(p.Lead)
	}
	q, _ := t.v.Quantity()
	t.pair(title, strings.TrimSpace(t.say(q.Label)+"  "+t.say(q.Value)))
	if len(q.Note) > 0 {
		t.line(padLeft(t.say(q.Note), t.width))
	}
	if label := t.v.ChoiceLabel(); len(label) > 0 && len(q.Value) == 0 {
		t.put("", t.say(label))
	}
	t.rule("=")
}

func (t *terminal) keys() {
	var said []string
	for _, b := range t.v.Page.Key[min(1, len(t.v.Page.Key)):] {
		if a, ok := b.(page.Amount); ok {
			said = append(said, strings.TrimSpace(t.say(a.Label)+"  "+t.say(a.Value)))
		}
	}
	if len(said) > 0 {
		t.put("", strings.Join(said, "   "))
		t.rule("-")
	}
}

func (t *terminal) part(word string, list []page.Block) {
	if len(list) == 0 {
		return
	}
	t.line(word)
	t.blocks(list)
	t.rule("-")
}

func (t *terminal) blocks(list []page.Block) {
	for _, b := range list {
		t.block(b)
	}
}

func (t *terminal) block(b page.Block) { blocks[b.Block()](t, b) }

func (t *terminal) foot() {
	f := t.v.Page.Foot
	t.rule("=")
	for _, h := range f.Holes {
		t.put("____ ask: ", h.What+"; "+h.Until+" ("+h.Key+")")
	}
	var vouched []string
	for _, o := range f.Vouched {
		letter := ""
		if o.Origin != "" {
			letter = o.Origin[:1] + " = "
		}
		vouched = append(vouched, letter+o.Origin+": "+strconv.Itoa(o.Count))
	}
	if len(vouched) > 0 {
		t.put("", "figures not checked by this lab: "+strings.Join(vouched, ", "))
	}
	if f.Change != "" {
		t.put("", "last change: "+f.Change)
	}
	t.put("", t.v.Control(false))
}
