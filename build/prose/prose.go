// Package prose turns a lab's own Markdown notices into pages. Raw HTML is a
// fault; <figure:ID> and <card:ID> put a figure or a link to a card into a
// sentence, and a fenced block headed "table CARD#TABLE" a card's table.
package prose

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"

	"wetside/build/load"
	"wetside/build/source"
	"wetside/procedures"
	"wetside/procedures/figure"
	"wetside/procedures/near"
	"wetside/procedures/page"
)

// Known is what a notice may refer to.
type Known struct {
	Figures map[string]*figure.Record
	Pages   map[string]page.Page
	binder  procedures.Binder // for its working pages
	figures []string
	pages   []string
}

// NewKnown prepares what a notice may refer to: the answers and pages of a binder, and
// the other notices.
func NewKnown(b procedures.Binder, notices []load.Notice) Known {
	k := Known{Figures: map[string]*figure.Record{}, Pages: map[string]page.Page{}, binder: b}
	for _, f := range b.Answers {
		k.Figures[f.ID], k.figures = f, append(k.figures, f.ID)
	}
	for _, p := range b.Pages {
		k.Pages[p.ID] = p
		k.pages = append(k.pages, p.ID)
	}
	for _, w := range b.Workings {
		k.pages = append(k.pages, w.ID())
	}
	for _, n := range notices {
		id := "notice/" + n.ID
		k.Pages[id] = page.Page{ID: id}
		k.pages = append(k.pages, id)
	}
	return k
}

// page finds a page by its id.
func (k Known) page(id string) (page.Page, bool) {
	if p, ok := k.Pages[id]; ok {
		return p, true
	}
	return k.binder.Working(id)
}

var markdown = goldmark.New()

// Page makes the page of a notice.
func Page(n load.Notice, known Known) (page.Page, source.Faults) {
	w := &writer{n: n, known: known, page: page.Page{ID: "notice/" + n.ID, Kind: "notice", KindLine: "Notice",
		Title: strings.ReplaceAll(n.ID, "-", " ")}}
	if !utf8.Valid(n.Text) {
		bad := 0
		for i := 0; i < len(n.Text); {
			r, size := utf8.DecodeRune(n.Text[i:])
			if r == utf8.RuneError && size < 2 {
				bad = i
				break
			}
			i += size
		}
		w.fault(bad, "encoding", "not UTF-8", "save the file as UTF-8")
		return w.page, w.faults
	}
	doc := markdown.Parser().Parse(text.NewReader(n.Text))
	for node := doc.FirstChild(); node != nil; node = node.NextSibling() {
		w.block(node)
	}
	w.page.Foot = page.Foot{Change: "the lab’s own words"}
	return w.page, w.faults
}

type writer struct {
	n      load.Notice
	known  Known
	page   page.Page
	faults source.Faults
	titled bool
}

func (w *writer) add(b page.Block) { w.page.Do = append(w.page.Do, b) }

// fault records a fault at a byte offset.
func (w *writer) fault(at int, code, what, hint string) {
	at = min(max(at, 0), len(w.n.Text))
	before := w.n.Text[:at]
	line := bytes.Count(before, []byte("\n")) + 1
	start := bytes.LastIndexByte(before, '\n') + 1
	end := len(w.n.Text)
	if i := bytes.IndexByte(w.n.Text[at:], '\n'); i >= 0 {
		end = at + i
	}
	pos := source.Pos{Line: line, Column: utf8.RuneCount(before[start:]) + 1, Offset: at}
	w.faults = append(w.faults, source.Fault{Span: source.Span{File: w.n.File, Start: pos, End: pos}, Code: code,
		What: what, Hint: hint, Line: string(w.n.Text[start:end])})
}

// offset is where a node begins, or where its first text stands.
func offset(n ast.Node) int {
	if n.Type() == ast.TypeBlock && n.Lines() != nil && n.Lines().Len() > 0 {
		return n.Lines().At(0).Start
	}
	if p := n.Pos(); p >= 0 {
		return p
	}
	if c := n.FirstChild(); c != nil {
		return offset(c)
	}
	return 0
}

func (w *writer) block(n ast.Node) {
	switch n := n.(type) {
	case *ast.Heading:
		t := w.inline(n)
		if n.Level == 1 && !w.titled {
			w.titled = true
			w.page.Title = plain(t)
			return
		}
		w.add(page.Heading{Text: t})
	case *ast.Paragraph, *ast.TextBlock:
		w.add(page.Para{Text: w.inline(n)})
	case *ast.List:
		l := page.List{}
		for item := n.FirstChild(); item != nil; item = item.NextSibling() {
			var t page.Text
			for c := item.FirstChild(); c != nil; c = c.NextSibling() {
				if len(t) > 0 {
					t = append(t, page.W(" "))
				}
				t = append(t, w.inline(c)...)
			}
			l.Items = append(l.Items, t)
		}
		w.add(l)
	case *ast.Blockquote:
		for c := n.FirstChild(); c != nil; c = c.NextSibling() {
			w.block(c)
		}
	case *ast.FencedCodeBlock:
		w.fenced(n)
	case *ast.CodeBlock:
		w.add(page.Para{Text: page.Say(page.N(string(n.Lines().Value(w.n.Text))))})
	case *ast.HTMLBlock:
		w.fault(offset(n), "html", "raw HTML in a notice",
			"write it in Markdown; figures and cards come by <figure:ID> and <card:ID>")
	case *ast.ThematicBreak, *ast.LinkReferenceDefinition:
	}
}

func (w *writer) fenced(n *ast.FencedCodeBlock) {
	info := ""
	if n.Info != nil {
		info = string(n.Info.Segment.Value(w.n.Text))
	}
	ref, isTable := strings.CutPrefix(info, "table ")
	if !isTable {
		w.add(page.Para{Text: page.Say(page.N(string(n.Lines().Value(w.n.Text))))})
		return
	}
	at := n.Info.Segment.Start
	card, id, _ := strings.Cut(strings.TrimSpace(ref), "#")
	p, ok := w.known.page(card)
	if !ok {
		w.fault(at, "reference", fmt.Sprintf("there is no card %q", card),
			w.near(card, w.known.pages,
				"the id of a card is its address in the binder without .html, for example mix/film-developer"))
		return
	}
	var ids []string
	for _, list := range [][]page.Block{p.Do, p.Tables} {
		for _, b := range list {
			if t, ok := b.(page.Table); ok {
				if t.ID == id {
					w.add(single(t, p.Chosen))
					return
				}
				ids = append(ids, t.ID)
			}
		}
	}
	w.fault(at, "reference", fmt.Sprintf("the card %q has no table %q", card, id),
		w.near(id, ids, "its tables are "+strings.Join(ids, ", ")))
}

// single keeps one choice of a table's figures: a notice has no choices.
func single(t page.Table, chosen int) page.Table {
	one := func(in page.Text) page.Text {
		out := append(page.Text{}, in...)
		for i := range out {
			if len(out[i].Figures) > 1 && chosen < len(out[i].Figures) {
				out[i].Figures = out[i].Figures[chosen : chosen+1]
			}
		}
		return out
	}
	rows := make([]page.Row, len(t.Rows))
	for i, r := range t.Rows {
		rows[i].Cells = append([]page.Cell{}, r.Cells...)
		for j := range rows[i].Cells {
			rows[i].Cells[j].Text = one(rows[i].Cells[j].Text)
		}
	}
	heads := make([]page.Text, len(t.Head))
	for i, h := range t.Head {
		heads[i] = one(h)
	}
	t.Rows, t.Head, t.Caption, t.Note = rows, heads, one(t.Caption), one(t.Note)
	return t
}

func (w *writer) near(word string, among []string, otherwise string) string {
	if meant := near.Word(word, among); meant != "" {
		return fmt.Sprintf("did you mean %q?", meant)
	}
	return otherwise
}

func plain(t page.Text) string {
	var b strings.Builder
	for _, i := range t {
		b.WriteString(i.Text)
	}
	return b.String()
}

func (w *writer) inline(n ast.Node) page.Text {
	var out page.Text
	var walk func(ast.Node)
	walk = func(n ast.Node) {
		switch n := n.(type) {
		case *ast.Text:
			s := string(n.Segment.Value(w.n.Text))
			if n.SoftLineBreak() || n.HardLineBreak() {
				s += " "
			}
			out = append(out, page.N(s))
		case *ast.String:
			out = append(out, page.N(string(n.Value)))
		case *ast.AutoLink:
			w.auto(n, &out)
		case *ast.Link:
			for c := n.FirstChild(); c != nil; c = c.NextSibling() {
				walk(c)
			}
			out = append(out, page.N(" ("+string(n.Destination)+")"))
		case *ast.Image:
			w.fault(offset(n), "picture", "a picture in a notice",
				"notices hold words, figures and tables; keep pictures in supplier-sheets/")
		case *ast.RawHTML:
			at := 0
			if n.Segments.Len() > 0 {
				at = n.Segments.At(0).Start
			}
			w.fault(at, "html", "raw HTML in a notice",
				"write it in Markdown; figures and cards come by <figure:ID> and <card:ID>")
		default:
			for c := n.FirstChild(); c != nil; c = c.NextSibling() {
				walk(c)
			}
		}
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		walk(c)
	}
	return out
}

func (w *writer) auto(n *ast.AutoLink, out *page.Text) {
	url := string(n.URL(w.n.Text))
	at := offset(n)
	if id, ok := strings.CutPrefix(url, "figure:"); ok {
		f, found := w.known.Figures[id]
		if !found {
			w.fault(at, "reference", fmt.Sprintf("there is no figure %q", id),
				w.near(id, w.known.figures,
					"wetside why CARD lists the figures of a card, for example wetside why mix/film-developer"))
			return
		}
		*out = append(*out, page.F(f))
		return
	}
	if id, ok := strings.CutPrefix(url, "card:"); ok {
		p, found := w.known.page(id)
		if !found {
			w.fault(at, "reference", fmt.Sprintf("there is no card %q", id),
				w.near(id, w.known.pages,
					"the id of a card is its address in the binder without .html, for example mix/film-developer"))
			return
		}
		title := p.Title
		if title == "" {
			title = id
		}
		*out = append(*out, page.L(id, title))
		return
	}
	*out = append(*out, page.N(url))
}
