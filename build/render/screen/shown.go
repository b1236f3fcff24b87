package screen

import (
	"bytes"
	"html/template"
	"slices"
	"strconv"
	"strings"
	"sync"

	"wetside/build/render/paper"
	"wetside/build/render/view"
	"wetside/build/render/wording"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// shown is a page as the templates see it.
type shown struct {
	*view.View
	// Contents and Leaves are the sheets of the whole binder.
	Contents [][][]paper.Entry
	Leaves   []boundLeaf

	pages *Pages
	path  string
	size  []float64 // of the paper of a drawing
	// container is the name of the bottle that a label is drawn for.
	container string
}

// blockView is what a block's template sees.
type blockView struct {
	*shown
	B    page.Block
	Part string
}

// Folded tells whether a block stands folded on a screen, where its first line says what
// is in it: tables that nobody needs at every turn, and all that a hazard is made of.
func (b blockView) Folded() bool {
	if !b.Site() {
		return false
	}
	switch b.Page.Kind {
	case "process", "mixing":
		return b.Part == "tables" || b.B.Block() == "hazards"
	case "working":
		return b.Part == "tables"
	}
	return false
}

// execute runs a template.
func (v *shown) execute(name string, data any) (template.HTML, error) {
	return written(func(b *bytes.Buffer) error { return v.pages.binder.Theme.Execute(b, name, data) })
}

// buffers are those of what was written before: a binder is written in very many small pieces.
var buffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// written is what write writes.
func written(write func(b *bytes.Buffer) error) (template.HTML, error) {
	b := buffers.Get().(*bytes.Buffer)
	defer buffers.Put(b)
	b.Reset()
	if err := write(b); err != nil {
		return "", err
	}
	return template.HTML(b.String()), nil
}

// Href is the way to another file of the site.
func (v *shown) Href(to string) string { return Href(v.path, to) }

// Card is the way to another card, or empty if the binder has none of that id.
func (v *shown) Card(id string) string {
	card, anchor, has := strings.Cut(id, "#")
	if _, ok := v.pages.binder.Find(card); !ok && !v.pages.working[card] {
		return ""
	}
	if v.Bound {
		return "#p-" + view.Slug(card)
	}
	if has {
		return v.Href(card + ".html#" + anchor)
	}
	return v.Href(card + ".html")
}

// EmergencyCard is the way to the emergency card, or empty.
func (v *shown) EmergencyCard() string { return v.Card(Emergency) }

// Nav lists the groups of the binder.
func (v *shown) Nav() []navLink {
	var out []navLink
	group, _, _ := strings.Cut(v.Page.ID, "/")
	for _, g := range v.pages.nav {
		out = append(out, navLink{g.Word, v.Href(g.Card + ".html"), g.ID == group})
	}
	return out
}

// Back is the way from what is printed to its page; from what has no other page, to the
// front page. It is nil where there is none.
func (v *shown) Back() *navLink {
	to := v.Whole.ID
	if v.Bound || v.path == to+".html" {
		to = "index"
	}
	p, ok := v.pages.binder.Find(to)
	if !ok {
		return nil
	}
	return &navLink{Word: p.Title, Href: v.Href(to + ".html")}
}

type navLink struct {
	Word, Href string
	Here       bool
}

// run is a part of a page, or on a wide screen one with others beside it.
type run struct {
	Parts []part
	Aside []part
}

type part struct {
	Name string
	HTML template.HTML
}

// Runs are the parts of the page in the order of the face, except the key, which
// stands in the head, and the foot.
func (v *shown) Runs() ([]run, error) {
	var runs []run
	var aside []part
	at := -1
	for _, name := range v.Parts() {
		if name == "key" || name == "foot" || name == "never" && v.HasCode() {
			continue
		}
		h, err := v.blocks(name, v.Part(name))
		if err != nil {
			return nil, err
		}
		if name == "do" {
			keys, err := v.blocks("key", v.FurtherKeys())
			if err != nil {
				return nil, err
			}
			if keys != "" {
				runs = append(runs, run{Parts: []part{{"keys", keys}}})
			}
		}
		if h == "" {
			continue
		}
		p := part{name, h}
		if v.Face.Columns > 1 && slices.Contains(v.Face.Aside, name) {
			aside = append(aside, p)
			continue
		}
		if name == "do" {
			at = len(runs)
		}
		runs = append(runs, run{Parts: []part{p}})
	}
	switch {
	case len(aside) == 0:
	case at >= 0:
		runs[at].Aside = aside
	default:
		runs = append(runs, run{Parts: aside})
	}
	return runs, nil
}

// jump leads to a place further down on the page.
type jump struct {
	Href string
	Word page.Text
}

// longPage is from how many tables and headings on a page has a list of them.
const longPage = 5

// Jumps lead to the tables and headings of a page that has many; to none of a short page, and
// to none of a page that begins with its work: the first clock comes first there, and its
// tables are folded to a list as they are.
func (v *shown) Jumps() []jump {
	var out []jump
	add := func(id string, word page.Text) {
		if id != "" && len(word) > 0 && !slices.ContainsFunc(out, func(j jump) bool { return j.Href == "#"+id }) {
			out = append(out, jump{"#" + id, word})
		}
	}
	for _, name := range v.Parts() {
		for _, b := range v.Part(name) {
			switch b := b.(type) {
			case page.Heading:
				add(b.ID, b.Text)
			case page.Table:
				add(b.ID, b.Caption)
			}
		}
	}
	if !v.Site() || len(out) < longPage || v.Page.Kind == "process" || v.Page.Kind == "mixing" {
		return nil
	}
	return out
}

// Tail is what stands beside the code of the card's address, above the foot.
func (v *shown) Tail() ([]part, error) {
	h, err := v.blocks("never", v.Part("never"))
	if err != nil || h == "" {
		return nil, err
	}
	return []part{{"never", h}}, nil
}

// blocks are the blocks of a part.
func (v *shown) blocks(part string, list []page.Block) (template.HTML, error) {
	return written(func(b *bytes.Buffer) error {
		for _, bl := range list {
			if v.Face.Leaves(bl.Block(), v.Page.Kind) {
				continue
			}
			class := v.forClass(bl.When())
			if class != "" {
				b.WriteString(`<div class="only` + class + `">`)
			}
			if err := v.pages.binder.Theme.Execute(b, "blocks/"+bl.Block()+".html", blockView{v, bl, part}); err != nil {
				return err
			}
			if class != "" {
				b.WriteString("</div>")
			}
		}
		return nil
	})
}

// PrintCards are the ways to the paper cards of the page.
func (v *shown) PrintCards() []printLink {
	var out []printLink
	var bare []int // choices that nothing is printed of: they show what there is
	for n := range v.Page.Choices {
		if !slices.ContainsFunc(v.pages.printsOf[v.Page.ID], func(i int) bool { return v.pages.prints[i].Choice == n }) {
			bare = append(bare, n)
		}
	}
	for _, i := range v.pages.printsOf[v.Page.ID] {
		pr := v.pages.prints[i]
		l := printLink{Face: strings.ReplaceAll(paper.Word(pr.Face), "/", " "), Href: v.Href(pr.Path)}
		if pr.Choice >= 0 && pr.Choice < len(v.Page.Choices) {
			l.Label = v.Page.Choices[pr.Choice].Label
			l.For = append([]int{pr.Choice}, bare...)
		}
		out = append(out, l)
	}
	return out
}

type printLink struct {
	page.Only
	Face  string
	Label page.Text
	Href  string
}

// Of is the page's own class on a face that has steps of type for it.
func (v *shown) Of() string {
	if v.Face.ScaleOf[v.Page.ID] == nil {
		return ""
	}
	return strings.ReplaceAll(v.Page.ID, "/", "-")
}

// Fit is the class of the step of type that the card is set in.
func (v *shown) Fit() string {
	if len(v.Face.Scale) == 0 {
		return ""
	}
	return "fit-" + strconv.Itoa(v.Scale)
}

// Trim tells whether the card has an outline inside its trim.
func (v *shown) Trim() bool { return v.Paper.Laminate && v.Face.OnWall() }

// Last tells whether nothing follows: there the symbols are kept.
func (v *shown) Last() bool { return !v.Bound && v.Cut == v.Cuts }

// StepNo is the number of a step where earlier ones stand on another sheet; else
// the stylesheet counts.
func (v *shown) StepNo(i int) string {
	if v.Steps == 0 {
		return ""
	}
	return strconv.Itoa(v.Steps + i + 1)
}

// HasQuantity tells whether the head has a figure.
func (v *shown) HasQuantity() bool {
	q, _ := v.Quantity()
	return len(q.Value) > 0
}

// Boxes are the boxes of a ladder, at most what a sheet of paper bears; true where
// one is struck.
func (v *shown) Boxes(t page.Ticks) []bool {
	out := make([]bool, min(t.Boxes, view.MostBoxes))
	for i := range min(t.Done, len(out)) {
		out[i] = true
	}
	return out
}

// Mark is the letter that stands for an origin where its word would not fit.
func (v *shown) Mark(origin string) string { return wording.Mark(origin) }

// held is what may hold for some choices of its page only: a row, or a line of a list.
type held interface{ When() page.Only }

// Held are the classes, behind others, of what holds for some choices of the page only:
// where all choices are shown, only these show it.
func (v *shown) Held(h held) string { return v.forClass(h.When()) }

// HeldAttr are the same as an attribute of an element that has no other class.
func (v *shown) HeldAttr(h held) template.HTMLAttr {
	class := v.forClass(h.When())
	if class == "" {
		return ""
	}
	return template.HTMLAttr(` class="` + strings.TrimSpace(class) + `"`)
}

func (v *shown) forClass(o page.Only) string {
	if o.For == nil || v.Choice >= 0 || len(v.Page.Choices) < 2 {
		return ""
	}
	class := " v"
	for _, i := range o.For {
		class += " v" + strconv.Itoa(i)
	}
	return class
}

// phoneWidth is what a page has on a screen of 320 px, phoneText its type and
// phoneGap what stands between two columns, in mm of the stylesheet; the face of a
// screen is a little wider than ours.
const (
	phoneWidth   = 74.0
	phoneText    = 4.5
	phoneGap     = 4.8
	phoneFace    = 1.15
	phoneRefusal = 8*phoneText + 3 // the least width of a refused cell
)

// Stacks tells whether a table has too many columns, or words too long, for a
// narrow screen: each row is then a block, with the heading beside each cell.
func (b blockView) Stacks() bool {
	c, ok := b.B.(page.Columned)
	if !ok || !b.Site() {
		return false
	}
	head, rows := c.Columns()
	if len(head) == 0 {
		return false
	}
	widths := make([]float64, len(head))
	for i, h := range head {
		widths[i] = b.Longest(b.Pieces(h, false), phoneText) * phoneFace
	}
	for _, r := range rows {
		for i, c := range r.Cells[:min(len(r.Cells), len(head))] {
			widths[i] = max(widths[i], b.Longest(b.Pieces(c.Text, false), phoneText)*phoneFace)
			if c.No {
				widths[i] = max(widths[i], phoneRefusal)
			}
		}
	}
	need := phoneGap * float64(len(widths)-1)
	for _, w := range widths {
		need += w
	}
	return len(head) > 3 || need > phoneWidth
}

// HeadOf is the heading of a column in words, for a table whose rows are stacked.
func (b blockView) HeadOf(i int) string {
	c, ok := b.B.(page.Columned)
	if !ok {
		return ""
	}
	head, _ := c.Columns()
	if i >= len(head) {
		return ""
	}
	return b.Words(head[i])
}

// PrintsOf is the way to the cards of another page that are there to print, and how many
// there are; nil where there are none.
func (v *shown) PrintsOf(card string) *navLink {
	n := len(v.pages.printsOf[card])
	if n == 0 || !v.Site() {
		return nil
	}
	word := "one card to print"
	if n > 1 {
		word = strconv.Itoa(n) + " cards to print"
	}
	return &navLink{Word: word, Href: v.Href(card+".html") + "#print"}
}

// Entry is the way to an entry of an index, or empty if there is no such card.
func (v *shown) Entry(e page.Entry) string {
	id := e.Card
	if e.Anchor != "" {
		id += "#" + e.Anchor
	}
	return v.Card(id)
}

// Time writes the time at one temperature; where it is refused, the hatched NO.
func (v *shown) Time(list []*figure.Record) template.HTML {
	return v.write(page.Say(page.B(list...)), writing{links: true})
}

// CalendarPath is where the calendar of discard dates lies.
const CalendarPath = "shelf/discard.ics"

// Calendar is the way to the calendar from the board it belongs to, or empty.
func (v *shown) Calendar() string {
	if v.Page.Kind != "shelf" || len(v.pages.binder.Discards) == 0 {
		return ""
	}
	return v.Href(CalendarPath)
}
