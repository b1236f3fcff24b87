package render

import (
	"html/template"
	"slices"
	"strconv"
	"strings"

	"wetside/build/render/draw"
	"wetside/build/render/typeset"
	"wetside/build/render/wording"
	"wetside/build/theme"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// view is a page in one face and one choice: what the templates see.
type view struct {
	typeset.Fonts
	// Page is what this face shows of the card in this choice; whole is all of it.
	Page          page.Page
	whole         page.Page
	Face          theme.Face
	Paper         page.Paper
	Lab, Day      string
	Demonstration bool
	Choice        int // -1: all choices are shown
	Bound         bool
	// Cut of Cuts: the card is cut over several; 0 where it is not.
	Cut, Cuts int
	// Contents and Leaves are the sheets of the whole binder.
	Contents [][][]entry
	Leaves   []boundLeaf
	// shared: it says what all cards of its sheet have in common.
	shared bool

	site *site
	path string
	size []float64
	// container is the name of the bottle that a label is drawn for.
	container string
	squared   *draw.Square
	tried     bool // squared is made, or there is none
	symbols   []string
	finger    string
	scale     int  // which step of type of the face
	close     bool // the head is as small as on a following card, so that one sheet holds all
	steps     int  // steps that stand on earlier sheets
}

// blockView is what a block's template sees.
type blockView struct {
	*view
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

func (s *site) view(p page.Page, f theme.Face, choice int, path string) *view {
	if choice >= 0 && f.Medium != theme.Site { // a sheet vouches for what stands on it
		p.Foot.Vouched = nil
		for _, w := range figure.Unvouched(page.FiguresOf(page.Lasting(p), choice)) {
			p.Foot.Vouched = append(p.Foot.Vouched, page.Vouch{Origin: w.Origin.String(), Count: w.Count})
		}
	}
	shown := page.OnScreen(p, choice)
	if f.Medium != theme.Site {
		shown = page.OnPaper(p, choice)
	}
	return &view{
		Fonts: typeset.FontsOf(s.theme),
		Page:  shown, whole: p, Face: f, Paper: s.binder.Paper, Lab: s.binder.Lab, Day: s.binder.Day,
		Demonstration: s.binder.Demonstration,
		Choice:        choice, site: s, path: path, size: f.Size,
	}
}

func (v *view) execute(name string, data any) (template.HTML, error) {
	var b strings.Builder
	if err := v.site.theme.Execute(&b, name, data); err != nil {
		return "", err
	}
	return template.HTML(b.String()), nil
}

// Pieces flattens a text for drawing, in the choice of the view.
func (v *view) Pieces(t page.Text, bold bool) []typeset.Piece {
	return typeset.Pieces(t, v.Choice, bold)
}

// Href is the way to another file of the site.
func (v *view) Href(to string) string { return href(v.path, to) }

// Card is the way to another card, or empty if the binder has none of that id.
func (v *view) Card(id string) string {
	card, anchor, has := strings.Cut(id, "#")
	if _, ok := v.site.pages[card]; !ok && !v.site.working[card] {
		return ""
	}
	if v.Bound {
		return "#p-" + slug(card)
	}
	if has {
		return v.Href(card + ".html#" + anchor)
	}
	return v.Href(card + ".html")
}

// Slug is the page's id as an anchor.
func (v *view) Slug() string { return slug(v.Page.ID) }

func slug(id string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' {
			return r
		}
		return '-'
	}, strings.ToLower(id))
}

// EmergencyCard is the way to the emergency card, or empty.
func (v *view) EmergencyCard() string { return v.Card(Emergency) }

// Nav lists the groups of the binder.
func (v *view) Nav() []navLink {
	var out []navLink
	group, _, _ := strings.Cut(v.Page.ID, "/")
	for _, g := range v.site.nav {
		out = append(out, navLink{g.Word, v.Href(g.Card + ".html"), g.ID == group})
	}
	return out
}

// Back is the way from what is printed to its page; from what has no other page, to the
// front page. It is nil where there is none.
func (v *view) Back() *navLink {
	to := v.whole.ID
	if v.Bound || v.path == to+".html" {
		to = "index"
	}
	i, ok := v.site.pages[to]
	if !ok {
		return nil
	}
	return &navLink{Word: v.site.binder.Pages[i].Title, Href: v.Href(to + ".html")}
}

type navLink struct {
	Word, Href string
	Here       bool
}

// Site tells whether the page is read on a screen first.
func (v *view) Site() bool { return v.Face.Medium == theme.Site }

// Brief tells whether a kind of block is shown short on this face.
func (v *view) Brief(kind string) bool { return slices.Contains(v.Face.Brief, kind) }

// Of is the page's own class on a face that has steps of type for it.
func (v *view) Of() string {
	if v.Face.ScaleOf[v.Page.ID] == nil {
		return ""
	}
	return strings.ReplaceAll(v.Page.ID, "/", "-")
}

// Bare tells whether a kind of block takes one line a row on this face.
func (v *view) Bare(kind string) bool { return slices.Contains(v.Face.Bare, kind) }

// Fit is the class of the step of type that the card is set in.
func (v *view) Fit() string {
	if len(v.Face.Scale) == 0 {
		return ""
	}
	return "fit-" + strconv.Itoa(v.scale)
}

// CardOf says which sheet of a cut card this is.
func (v *view) CardOf() string {
	switch {
	case v.Cuts < 2 || v.Bound && v.Cut == 1:
		return ""
	case v.Bound:
		return "continued"
	case v.Cut == 1:
		return "card 1 of " + strconv.Itoa(v.Cuts)
	}
	return "card " + strconv.Itoa(v.Cut) + " of " + strconv.Itoa(v.Cuts) + "; read card 1 first"
}

// GoesOn ends a card that another one follows: nobody may think it finished.
func (v *view) GoesOn() string {
	if v.Cut < 1 || v.Cut >= v.Cuts {
		return ""
	}
	if v.Bound {
		return "continues on the next sheet"
	}
	return "continues on card " + strconv.Itoa(v.Cut+1)
}

// Follows tells whether this card goes on from another one: its head and its foot
// are short, and what they leave out stands on the first.
func (v *view) Follows() bool { return v.Cut > 1 }

// Close tells whether the head is small, so that the card stays on one sheet.
func (v *view) Close() bool { return v.close }

// Last tells whether nothing follows: there the symbols are kept.
func (v *view) Last() bool { return !v.Bound && v.Cut == v.Cuts }

// Trim tells whether the card has an outline inside its trim.
func (v *view) Trim() bool { return v.Paper.Laminate && onWall(v.Face) }

// StepNo is the number of a step where earlier ones stand on another sheet; else
// the stylesheet counts.
func (v *view) StepNo(i int) string {
	if v.steps == 0 {
		return ""
	}
	return strconv.Itoa(v.steps + i + 1)
}

// ChoiceLabel is the label of the choice shown, empty where all are.
func (v *view) ChoiceLabel() page.Text {
	if v.Choice < 0 || v.Choice >= len(v.Page.Choices) {
		return nil
	}
	return v.Page.Choices[v.Choice].Label
}

// ChoiceSays tells whether the choice's label says more than the figure of the
// head does.
func (v *view) ChoiceSays() bool {
	label := v.ChoiceLabel()
	q, _ := v.Quantity()
	return len(label) > 0 && v.Words(label) != v.Words(q.Value)
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
func (v *view) Runs() ([]run, error) {
	var runs []run
	var aside []part
	at := -1
	for _, name := range v.parts() {
		if name == "key" || name == "foot" || name == "never" && v.HasCode() {
			continue
		}
		h, err := v.blocks(name, v.part(name))
		if err != nil {
			return nil, err
		}
		if name == "do" {
			keys, err := v.blocks("key", v.furtherKeys())
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

// Tail is what stands beside the code of the card's address, above the foot.
func (v *view) Tail() ([]part, error) {
	h, err := v.blocks("never", v.part("never"))
	if err != nil || h == "" {
		return nil, err
	}
	return []part{{"never", h}}, nil
}

// furtherKeys are the figures that do not stand in the head.
func (v *view) furtherKeys() []page.Block { return v.Page.Key[min(1, len(v.Page.Key)):] }

// parts are the parts that the face shows. A page that says all it says in tables
// keeps them on a face that leaves tables to the binder.
func (v *view) parts() []string {
	parts := v.Face.Parts
	shown := func(b page.Block) bool { return !v.Face.Leaves(b.Block(), v.Page.Kind) }
	work := slices.ContainsFunc(v.Page.Do, shown)
	if spare := v.Face.Spare[v.Page.Kind]; work && len(spare) > 0 {
		return slices.DeleteFunc(slices.Clone(parts), func(name string) bool { return slices.Contains(spare, name) })
	}
	if v.Face.Medium != theme.Paper || slices.Contains(parts, "tables") || work {
		return parts
	}
	if i := slices.Index(parts, "do"); i >= 0 {
		parts = slices.Insert(slices.Clone(parts), i+1, "tables")
	}
	return parts
}

func (v *view) part(name string) []page.Block {
	switch name {
	case "key":
		return v.Page.Key
	case "before":
		return v.Page.Before
	case "do":
		return v.Page.Do
	case "tables":
		return v.Page.Tables
	case "today":
		return v.Page.Today
	case "never":
		return v.nevers()
	case "why":
		return v.Page.Why
	case "record":
		return v.Page.Record
	}
	return nil
}

// nevers is what must never be done. On a screen each line stands below the word; on
// paper the lines run on, and every line that does not stand straight behind the word
// says it again, so that none reads as an order.
func (v *view) nevers() []page.Block {
	if v.Site() {
		return v.Page.Never
	}
	return v.neversRunOn()
}

// neversRunOn are the lines as they run on behind the word.
func (v *view) neversRunOn() []page.Block {
	var out []page.Block
	for i, b := range v.Page.Never {
		if l, ok := b.(page.List); ok && !l.Lines {
			items := slices.Clone(l.Items)
			for k, t := range items {
				if i > 0 || k > 0 {
					items[k] = append(page.Say(page.W("never ")).With(t.When()), t...)
				}
			}
			l.Items = items
			b = l
		}
		out = append(out, b)
	}
	return out
}

// blocks are the blocks of a part.
func (v *view) blocks(part string, list []page.Block) (template.HTML, error) {
	var b strings.Builder
	for _, bl := range list {
		if v.Face.Leaves(bl.Block(), v.Page.Kind) {
			continue
		}
		class := v.forClass(bl.When())
		if class != "" {
			b.WriteString(`<div class="only` + class + `">`)
		}
		if err := v.site.theme.Execute(&b, "blocks/"+bl.Block()+".html", blockView{v, bl, part}); err != nil {
			return "", err
		}
		if class != "" {
			b.WriteString("</div>")
		}
	}
	return template.HTML(b.String()), nil
}

// Quantity is the one figure of the head.
func (v *view) Quantity() (page.Amount, error) {
	if len(v.Page.Key) > 0 {
		if a, ok := v.Page.Key[0].(page.Amount); ok {
			return a, nil
		}
	}
	return page.Amount{}, nil
}

// HasQuantity tells whether the head has a figure.
func (v *view) HasQuantity() bool {
	q, _ := v.Quantity()
	return len(q.Value) > 0
}

// Fingerprint is the card's, as given or worked out.
func (v *view) Fingerprint() string {
	if v.Page.Foot.Fingerprint != "" {
		return v.Page.Foot.Fingerprint
	}
	if v.finger == "" {
		v.finger = page.Digest(v.whole)[:8]
	}
	return v.finger
}

// Controlled tells whether the page has a foot to show.
func (v *view) Controlled() bool {
	f := v.Page.Foot
	if v.shared {
		return false
	}
	switch v.Page.Kind {
	case "front", "index", "working":
		return f.Version != "" || len(f.Holes) > 0
	}
	return true
}

// HoleCount counts the holes of the page.
func (v *view) HoleCount() string { return strconv.Itoa(len(v.Page.Foot.Holes)) }

// Mark is the letter that stands for an origin where its word would not fit.
func (v *view) Mark(origin string) string { return wording.Mark(origin) }

// Has tells whether the page holds a label.
func (v *view) HasLabel() bool {
	_, ok := labelOf(v.Page)
	return ok
}

// LabelCards are the ways to the labels of the page on their own sheets.
func (v *view) LabelCards() []navLink {
	f, ok := v.site.theme.Face("label")
	if !ok {
		return nil
	}
	l, _ := labelOf(v.Page)
	var out []navLink
	for _, c := range l.For {
		out = append(out, navLink{Word: v.holds(c), Href: v.Href(labelPath(f, v.Page.ID, c))})
	}
	return out
}

// PrintCards are the ways to the paper cards of the page.
func (v *view) PrintCards() []printLink {
	var out []printLink
	for _, i := range v.site.printsOf[v.Page.ID] {
		pr := v.site.prints[i]
		l := printLink{Face: strings.ReplaceAll(paper(pr.face), "/", " "), Href: v.Href(pr.path), Choice: pr.choice}
		if pr.choice >= 0 && pr.choice < len(v.Page.Choices) {
			l.Label = v.Page.Choices[pr.choice].Label
		}
		out = append(out, l)
	}
	return out
}

type printLink struct {
	Face   string
	Label  page.Text
	Choice int
	Href   string
}

// Beside is what stands below a bath of a clock that is shown short, in the order
// of use: the light, what its time hangs on, what the hands do, where it goes. A
// paper for the pocket leaves where it goes to the disposal sheet.
func (v *view) Beside(r page.ClockRow) []page.Text {
	const pocket = 120 // mm
	list := []page.Text{r.Light, r.ForNote, r.Cue}
	if v.Face.Size[0] > pocket {
		list = append(list, r.Goes)
	}
	return slices.DeleteFunc(list, func(t page.Text) bool { return len(t) == 0 })
}

// VClass is the class of what belongs to one choice only.
func (v *view) VClass(i int) string {
	if i < 0 {
		return ""
	}
	return strings.TrimSpace(v.forClass(page.Only{For: []int{i}}))
}

// held is what may hold for some choices of its page only: a row, or a line of a list.
type held interface{ When() page.Only }

// Held are the classes, behind others, of what holds for some choices of the page only:
// where all choices are shown, only these show it.
func (v *view) Held(h held) string { return v.forClass(h.When()) }

// HeldAttr are the same as an attribute of an element that has no other class.
func (v *view) HeldAttr(h held) template.HTMLAttr {
	class := v.forClass(h.When())
	if class == "" {
		return ""
	}
	return template.HTMLAttr(` class="` + strings.TrimSpace(class) + `"`)
}

func (v *view) forClass(o page.Only) string {
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
func (v *view) PrintsOf(card string) *navLink {
	n := len(v.site.printsOf[card])
	if n == 0 || !v.Site() {
		return nil
	}
	word := "one card to print"
	if n > 1 {
		word = strconv.Itoa(n) + " cards to print"
	}
	return &navLink{Word: word, Href: v.Href(card+".html") + "#print"}
}

// Boxes are the boxes of a ladder, at most what a sheet of paper bears; true where
// one is struck.
func (v *view) Boxes(t page.Ticks) []bool {
	out := make([]bool, min(t.Boxes, mostBoxes))
	for i := range min(t.Done, len(out)) {
		out[i] = true
	}
	return out
}

const mostBoxes = 120

// Entry is the way to an entry of an index, or empty if there is no such card.
func (v *view) Entry(e page.Entry) string {
	id := e.Card
	if e.Anchor != "" {
		id += "#" + e.Anchor
	}
	return v.Card(id)
}

// Time writes the time at one temperature; where it is refused, the hatched NO.
func (v *view) Time(list []*figure.Record) template.HTML {
	return v.write(page.Say(page.B(list...)), writing{links: true})
}
