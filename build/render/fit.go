package render

import (
	"math"
	"strconv"
	"strings"

	"wetside/build/theme"
	"wetside/procedures/page"
)

// fitting measures a card at one scale. Lengths are in mm and follow the
// stylesheet; a browser test holds them against what is printed.
type fitting struct {
	v                                                        *view
	width                                                    float64
	scale                                                    float64
	title, key, figure, word, text, reason, small, end       float64
	gap, pad, row, sign, plate, head, when, bath, long, tick float64
	fill, signWord, banner, kind                             float64
	large                                                    bool    // a paper read from a metre
	cells, apart                                             float64 // of tables
}

// The rules, how much wider a serif may run, and how much is added for good measure.
const (
	hair, firm, bold = .3, .75, 1.65
	serif            = 1.1
	careful          = 1.005
)

func (v *view) fitting(scale float64) *fitting {
	f, t := v.Face, v.Face.Type
	pt := point * scale
	r := f.Room.Filled()
	m := &fitting{
		v: v, width: f.Size[0] - f.Margin[1] - f.Margin[3], scale: scale,
		title: t.Title * pt, key: t.Key * pt, figure: t.Figure * pt, word: t.Word * pt, text: t.Text * pt, reason: t.Reason * pt, small: t.Small * pt, end: t.Foot * pt,
		gap: r.Gap, pad: r.Pad * scale, row: r.Row * scale, sign: r.Sign * scale, plate: r.Plate * scale, head: r.Head * scale, when: r.When * scale, bath: r.Bath * scale,
		long: r.Long, tick: r.Tick, fill: r.Fill, signWord: r.Word, banner: r.Banner, kind: r.Kind, cells: t.Text * pt * r.Table, apart: r.Cell,
		large: f.Size[0] >= 200,
	}
	if v.Follows() {
		m.title, m.key, m.head = m.title*theme.FollowOn, m.key*theme.FollowOn, m.head*theme.FollowOn
	}
	return m
}

// estimate is the height of the card at a scale, on one sheet however long.
func (v *view) estimate(scale float64) float64 {
	m := v.fitting(scale)
	h := m.headHeight()
	if v.GoesOn() != "" {
		h += 1 + m.text*1.2
	}
	side := v.codeSide()
	for _, name := range v.parts() {
		if side == 0 || name != "never" && name != "foot" {
			h += m.part(name)
		}
	}
	if side > 0 { // the code of its address stands beside these two
		m.width -= side + 3
		h += math.Max(side+2, m.part("never")+m.part("foot"))
	}
	return h*careful + 1
}

// lines counts the lines a text takes; serif text runs about as wide.
func (m *fitting) lines(t page.Text, size, width float64, strong bool) float64 {
	if len(t) == 0 {
		return 0
	}
	return float64(len(m.v.wrap(m.pieced(t, size, strong), size, width)))
}

// pieced is a text in pieces for measuring: the words of weak origins are set small,
// though not below a least size.
func (m *fitting) pieced(t page.Text, size float64, strong bool) []piece {
	const least = 6.2 * point
	const small = .5
	out := m.v.pieces(t, strong)
	for i := range out {
		if out[i].weak {
			out[i].grow = math.Min(1, math.Max(small, least/size))
		}
		if out[i].hole { // in one piece, with room to write behind it
			out[i].text = strings.ReplaceAll(out[i].text, " ", "\u00a0") + strings.Repeat("\u00a0", 6)
		}
	}
	return out
}

// grown is a text whose numbers are larger than the words around them; units are not.
func (m *fitting) grown(t page.Text) []piece {
	var out []piece
	for _, p := range m.pieced(t, m.text, false) {
		if p.id == "" {
			out = append(out, p)
			continue
		}
		unit := ""
		if i := strings.LastIndexAny(p.text, " \u00a0"); i > 0 {
			p.text, unit = p.text[:i], p.text[i:]
		}
		p.grow = m.fill
		out = append(out, p)
		if unit != "" {
			out = append(out, piece{text: strings.ReplaceAll(unit, " ", "\u00a0")})
		}
	}
	return out
}

// filled is the height of what is in a vessel, whose volumes are larger than the
// words around them.
func (m *fitting) filled(t page.Text, width float64) float64 {
	if len(t) == 0 {
		return 0
	}
	h := 0.0
	list := m.grown(t)
	for _, line := range m.v.wrap(list, m.text, width) {
		grown := 1.0
		for _, p := range line {
			grown = math.Max(grown, p.times())
		}
		h += m.text * 1.17 * grown
	}
	return h
}

func (m *fitting) wide(t page.Text, size float64, strong bool) float64 {
	w := 0.0
	for _, p := range m.pieced(t, size, strong) {
		w += m.v.measure(p.text, p.bold, size*p.times())
	}
	return w
}

// big is the width of a large figure: its unit is half as large, and the word of
// its origin hangs beside it.
func (m *fitting) big(t page.Text, size float64) float64 {
	w := 0.0
	for _, in := range t {
		if in.Kind != page.Fig {
			w += m.wide(page.Text{in}, size, true)
			continue
		}
		if r, ok := m.v.lookUp(pick(in.IDs, m.v.Choice)); ok {
			bare := shownText(r, true)
			w += m.v.measure(bare, true, size) + m.v.measure(strings.TrimPrefix(shownText(r, false), bare), false, size*.56)
		}
	}
	return w
}

func (m *fitting) headHeight() float64 {
	v := m.v
	h := 0.0
	if v.Demonstration {
		h += m.small*1.2 + m.banner + 1.5
	}
	h += m.kindLines()*m.small*1.3 + m.kind
	q, _ := v.Quantity()
	right := 0.0
	quantity := 0.0
	if len(q.Value) > 0 {
		right = math.Max(m.big(q.Value, m.key)+m.marked(q.Value), m.wide(q.Label, m.small, false)+m.wide(q.Note, m.small, false)) + m.gap
		quantity = m.key
		if len(q.Label)+len(q.Note) > 0 {
			lines := 1.0
			if most := math.Min(70, m.width*.54); right > most {
				right, lines = math.Max(most, m.big(q.Value, m.key))+m.gap, 2
			}
			quantity += lines * m.small * 1.15
		}
	}
	plate := 0.0
	if v.Page.Role != "" {
		plate = m.head
		right += plate + m.gap
	}
	left := m.lines(page.Say(page.S(v.Page.Title)), m.title, m.width-right-m.gap, true) * m.title
	if v.ChoiceSays() {
		left += .8 + m.lines(v.ChoiceLabel(), m.title*.62, m.width-right-m.gap, true)*m.title*.62*1.1
	}
	if len(v.Page.Lead) > 0 {
		left += 1.4 + m.lines(v.Page.Lead, m.text*1.12, m.width-right-m.gap, false)*m.text*1.12*1.2
	}
	below := 1.6
	if m.large {
		below = 2.2
	}
	return h + math.Max(left, math.Max(quantity, plate)) + below + bold
}

// kindLines is how many lines the small print above the title takes.
func (m *fitting) kindLines() float64 {
	v := m.v
	var said []string
	if !v.Follows() {
		said = append(said, v.Page.KindLine)
	}
	if v.Page.Foot.Version != "" && !v.Follows() {
		said = append(said, "version "+v.Page.Foot.Version+" · "+v.Page.Foot.Date)
	}
	if v.Controlled() && !v.Follows() && v.Page.Foot.Approved == "" {
		said = append(said, "not approved: ask first")
	}
	if since := v.Page.Foot.Overdue; v.Controlled() && !v.Follows() && since != "" {
		said = append(said, "review overdue since "+since+": ask first")
	}
	if v.CardOf() != "" {
		said = append(said, v.CardOf())
	}
	lines, at := 1.0, 0.0
	for _, s := range said {
		w := v.measure(s, false, m.small) * 1.02
		if at > 0 && at+m.gap+w > m.width {
			lines, at = lines+1, 0
		}
		if at > 0 {
			at += m.gap
		}
		at += w
		if at > m.width {
			lines += math.Ceil(at/m.width) - 1
		}
	}
	return lines
}

// keys is the height of the figures that do not stand in the head.
func (m *fitting) keys() float64 {
	if len(m.v.furtherKeys()) == 0 {
		return 0
	}
	return m.key*.62*1.15 + 2*m.pad + firm
}

func (m *fitting) part(name string) float64 {
	v := m.v
	h := 0.0
	switch name {
	case "key":
		return 0
	case "foot":
		return m.foot()
	case "before":
		h = m.before(v.Page.Before)
	case "never":
		for _, b := range v.nevers() {
			h += m.block(b, m.width-m.v.measure("NEVER", true, m.text)*1.1-3)
		}
	case "do":
		keys := m.keys()
		for _, b := range v.Page.Do {
			h += m.block(b, m.width)
		}
		if h == 0 {
			return keys
		}
		if n := len(v.Page.Do); rowless(v.Page.Do[0]) || rowless(v.Page.Do[n-1]) {
			h += 2.6
		}
		return keys + h + bold
	default:
		for _, b := range v.part(name) {
			h += m.block(b, m.width)
		}
	}
	if h == 0 {
		return 0
	}
	return h + 2*m.pad + firm
}

// rowless tells a block that stands off from the rules around it: the rows of a
// clock and of steps bring their own room.
func rowless(b page.Block) bool {
	switch b.(type) {
	case page.Clock, page.Steps:
		return false
	}
	return true
}

// marked is the room that the mark of a weak origin takes at the end of a line.
func (m *fitting) marked(t page.Text) float64 {
	for _, in := range t {
		if in.Kind != page.Fig && in.Kind != page.BareFig {
			continue
		}
		if r, ok := m.v.lookUp(pick(in.IDs, m.v.Choice)); ok && r.Origin.Weak() {
			return 2.6
		}
	}
	return 0
}

// before flows its blocks beside each other where they fit; cautions and notes
// take the whole width below them.
func (m *fitting) before(list []page.Block) float64 {
	h, at, deep, below := 0.0, 0.0, 0.0, 0.0
	add := func(w, high float64) {
		if at > 0 && at+8+w > m.width {
			h, at, deep = h+deep+1.6, 0, 0
		}
		at, deep = at+w+8, math.Max(deep, high)
	}
	checklists := 0
	for _, b := range list {
		if b.Block() == "checklist" {
			checklists++
		}
	}
	alone := checklists == 1
	for i, b := range list {
		if m.v.Face.Leaves(b.Block(), m.v.Page.Kind) {
			continue
		}
		switch b := b.(type) {
		case page.Gear:
			add(m.gear(b))
			if len(b.Note) > 0 {
				below += 1.6 + m.lines(b.Note, m.small, m.width, false)*m.small*1.2
			}
		case page.Amount:
			big := m.key * .62
			lab := m.wide(b.Label, m.small, false) + 1.6
			if len(b.Note) > 0 {
				lab += m.wide(b.Note, m.reason*serif, false) + 1.6
			}
			w := m.wide(b.Value, big, true)
			add(math.Min(m.width, lab+w)+1, 1.2+math.Max(1, math.Ceil(w/math.Max(10, m.width-lab)))*big*1.05)
		case page.Checklist:
			for _, t := range textsOf(b) {
				w := m.width * .33
				size := m.small * 1.25
				left := m.width - at - 8
				high := m.lines(t, m.small, w, false) * size
				switch {
				case alone && at == 0 && i == len(list)-1:
					high = m.lines(t, m.small, m.width, false) * size
				case alone && at > 0 && math.Abs(left-w) < 8:
					// Beside what stands there or below it: the higher of the two.
					below := deep + 1.6 + m.lines(t, m.small, m.width, false)*size
					at, deep, w, high = 0, math.Max(below, math.Max(deep, high)), 0, 0
				case alone && at > 0 && left < w: // a line of its own
					high = m.lines(t, m.small, m.width, false) * size
				case at > 0 && left > w:
					high = m.lines(t, m.small, left, false) * size
				}
				add(w, high)
			}
		case page.List:
			below += 2.2 + m.block(b, m.width)
		case page.Para:
			below += 1.6 + m.lines(b.Text, m.text, m.width, false)*m.text*1.3
		default:
			below += 1.6 + m.block(b, m.width)
		}
	}
	return h + deep + below
}

func (m *fitting) gear(g page.Gear) (width, height float64) {
	space := 1.4 * m.gap
	most := m.signWord * m.text
	at, row := 0.0, 0.0
	for _, item := range g.Items {
		w, deep := m.v.measure(item.Word, false, m.small), m.small*1.2
		if item.Sign != "" {
			words := float64(len(m.v.wrap([]piece{{text: item.Word}}, m.text, most)))
			w = m.sign + 1.6 + math.Min(m.v.measure(item.Word, false, m.text), most)
			deep = math.Max(m.sign, words*m.text*1.12)
		}
		if at > 0 && at+w > m.width*.95 { // words there may break or not
			height, at, row = height+row+1.4, 0, 0
		}
		at, row = at+w+space, math.Max(row, deep)
		width = math.Max(width, at-space)
	}
	return width, height + row
}

func (m *fitting) block(b page.Block, width float64) float64 {
	if m.v.Face.Leaves(b.Block(), m.v.Page.Kind) {
		return 0
	}
	switch b := b.(type) {
	case page.Clock:
		h := 0.0
		for _, r := range b.Rows {
			h += m.bathRow(r)
		}
		return h
	case page.Steps:
		columns := m.stepColumns(b)
		h := 0.0
		for _, r := range b.Rows {
			h += m.stepRow(r, columns)
		}
		return h
	case page.Temps:
		head := m.text * 1.1 * 1.3
		if m.wide(b.Caption, m.text*1.1, true)+m.wide(b.Note, m.text, false) > width {
			head = m.lines(b.Caption, m.text*1.1, width, true)*m.text*1.1*1.05 + m.lines(b.Note, m.text, width, false)*m.text*1.2
		}
		return head + 1.2 + .6 + m.small*1.3 + m.word*.9*1.2 + 1.4 + 3
	case page.Table:
		return m.table(b, width)
	case page.List:
		if len(b.Label) == 0 && !b.Lines && width < m.width {
			return m.lines(dotted(b.Items), m.text, width, false) * m.text * 1.3
		}
		h := 0.0
		if len(b.Label) > 0 {
			h = m.small*1.15 + .6
		}
		for _, item := range b.Items {
			h += m.lines(item, m.text, width, false)*m.text*1.3 + .8
		}
		return h
	case page.Chart:
		h := m.lines(b.Caption, m.text, width, true)*m.text*1.2 + 1.4
		return h + width*chartHigh/chartWide + m.lines(b.Note, m.reason, width, false)*m.reason*1.25 + 3
	case page.Ticks:
		across := math.Max(1, math.Floor(width/6.8))
		return m.lines(b.Label, m.small, width, false)*m.small*1.15 + 3 + math.Ceil(float64(min(b.Boxes, mostBoxes))/across)*6.4 + 3
	case page.Cautions:
		h := 0.0
		for _, t := range b.Items {
			h += m.lines(t, m.text, width-3.6, true)*m.text*1.15 + 1
		}
		return h
	case page.Hazards:
		h := math.Ceil(float64(len(b.Pictograms))/4) * 24
		side := m.word * 1.2
		for _, t := range b.Statements {
			side += m.lines(t, m.text, width/2, false) * m.text * 1.25
		}
		return math.Max(h, side+m.lines(b.Note, m.reason, width/2, false)*m.reason*1.25+1)
	}
	h := 0.0
	for _, t := range textsOf(b) {
		h += m.lines(t, m.text, width, false)*m.text*1.3 + 2
	}
	return h
}

func (m *fitting) bathRow(r page.ClockRow) float64 {
	if m.v.Bare("clock") {
		return m.bareBath(r)
	}
	when := m.figure * .95
	drain := m.small
	if m.large {
		drain = m.text
	}
	if len(r.Drain) > 0 {
		when += drain*1.5*1.1 + 1.2
	}
	long := m.big(r.For, m.figure*.7) + m.marked(r.For)
	aside := m.lines(r.For, m.figure*.7, 99, true) * m.figure * .7
	said := dotted(m.v.Beside(r))
	if !m.v.Brief("clock") {
		most := m.long
		long = math.Min(most, math.Max(long, math.Max(m.wide(r.ForNote, m.small, false), m.wide(r.Light, m.small, false))))
		aside += .8 + (m.lines(r.ForNote, m.small, most-.6, false)+m.lines(r.Light, m.small, most-.6, false))*m.small*1.12 + .6
		said = joined(r.Cue, r.Goes)
	}
	width := m.width - m.when - m.plate - long - 3*m.gap - 1
	what := m.word + m.filled(r.Bath, width) + 1.6
	for _, c := range r.Caution {
		what += m.lines(c, m.reason, width-3.6, true)*m.reason*1.15 + 1
	}
	if len(said) > 0 {
		what += m.lines(said, m.reason, width, false) * m.reason * 1.18
	}
	if width < 30 { // a column so narrow breaks its lines unevenly
		what *= 1.06
	}
	h := math.Max(math.Max(when, what), math.Max(aside, m.plate)) + 2*m.bath + hair
	if m.v.HasRuler(r.Ruler) {
		h += 14.5 + 2
	}
	return h
}

// dotted is several texts in one run.
func dotted(list []page.Text) page.Text {
	var out page.Text
	for i, t := range list {
		if i > 0 {
			out = append(out, page.W(" · "))
		}
		out = append(out, t...)
	}
	return out
}

// bareBath is a bath in one run of text beside its clock and its time.
func (m *fitting) bareBath(r page.ClockRow) float64 {
	long := math.Min(m.long, m.big(r.For, m.figure*.7)+m.marked(r.For))
	said := m.v.pieces(r.Word, true)
	for i := range said {
		said[i].text, said[i].grow = strings.ToUpper(said[i].text), m.word/m.text
	}
	for _, t := range []page.Text{r.Bath, r.ForNote, r.Light} {
		if len(t) == 0 {
			continue
		}
		said = append(append(said, piece{text: "  · "}), m.grown(t)...)
	}
	width := m.width - m.when - m.plate - long - 3*m.gap
	what := float64(len(m.v.wrap(said, m.text, width))) * m.word * 1.17
	for i, c := range r.Caution {
		if i == 0 { // it parts the word from what follows
			what += m.word * 1.17
		}
		what += m.lines(c, m.reason, width-3.6, true)*m.reason*1.15 + 1
	}
	if len(r.Cue) > 0 {
		what += m.lines(r.Cue, m.reason, width, false)*m.reason*1.18 + .7
	}
	when := m.figure * .95
	if len(r.Drain) > 0 {
		when += m.small*1.1 + .3
	}
	return math.Max(math.Max(when, what), m.plate) + 2*m.bath + hair
}

// stepColumns are the widths of the columns that all steps of a run share.
type stepColumns struct {
	amount, device, tick float64
	cases                bool
}

func (m *fitting) stepColumns(b page.Steps) stepColumns {
	c := stepColumns{cases: b.Cases}
	zero := m.v.measure("0", true, m.figure)
	for _, class := range strings.Fields(m.v.StepFit(b.Rows)) {
		n, err := strconv.Atoi(class[1:])
		if err != nil {
			continue
		}
		switch class[0] {
		case 'i':
			c.amount += float64(n) * zero
		case 'd':
			c.amount += math.Max(0, float64(n)-.5) * zero
		case 'u':
			c.amount += unitRoom[min(n, len(unitRoom)-1)] * m.figure * .52
		}
	}
	mark := 0.0
	for _, r := range b.Rows {
		mark = math.Max(mark, m.marked(r.Amount))
		c.amount = math.Max(c.amount, m.big(r.Amount, m.figure))
		c.device = math.Max(c.device, math.Max(math.Min(18, m.wide(r.Device, m.small, false)), m.v.longest(r.Device, m.small)))
		if r.Tick {
			c.tick = m.tick
		}
	}
	c.amount += mark
	return c
}

// longest is the width of the longest stretch of a text that does not break: a
// figure keeps to its unit.
func (v *view) longest(t page.Text, size float64) float64 {
	pieces := v.pieces(t, false)
	for i := range pieces {
		if pieces[i].id != "" {
			pieces[i].text = strings.ReplaceAll(pieces[i].text, " ", "\u00a0")
		}
	}
	most := 0.0
	for _, word := range glue(pieces) {
		w := 0.0
		for _, p := range word {
			w += v.measure(strings.TrimRight(p.text, " "), p.bold, size)
		}
		most = math.Max(most, w)
	}
	return most
}

// unitRoom is the room of a unit by its letters, in em, as in the stylesheet.
var unitRoom = []float64{0, 1.1, 1.5, 2.1, 2.7, 3.3, 3.9, 4.4, 5}

func (m *fitting) stepRow(r page.Step, c stepColumns) float64 {
	width := m.width - 2*m.text - c.amount - c.device - c.tick - 9.5
	switch {
	case c.cases && len(r.Amount) == 0:
		width = m.width - .5
	case c.cases:
		width = m.width - c.amount - 6.5
	}
	what := m.lines(r.What, m.word, width, false) * m.word * 1.15
	below := m.width - 2*m.text - 2.5
	if c.cases {
		below = m.width - .5
	}
	under := 0.0
	for _, c := range r.Caution {
		under += m.lines(c, m.text, below-3.6, true)*m.text*1.15 + .8
	}
	for _, n := range r.Note {
		under += m.lines(n, m.reason, below, false)*m.reason*1.22 + .4
	}
	device := m.lines(r.Device, m.small, 18, false) * m.small * 1.15
	// Everything stands on the first line: a large figure rises above it.
	figure := m.figure
	if len(r.Amount) == 0 {
		figure = 0
	}
	h := math.Max(.86*figure, .925*m.word) + math.Max(what, math.Max(device, 5)) - .925*m.word + under + 2*m.row + hair
	if r.Mark {
		h += firm
	}
	return h
}

func (m *fitting) table(t page.Table, width float64) float64 {
	cells := m.columnsOf(t, width)
	h := m.tableHead(t, cells, width) + m.tableNote(t, width)
	for _, r := range t.Rows {
		h += m.tableRow(r, cells)
	}
	return h
}

func (m *fitting) columnsOf(t page.Table, width float64) []float64 {
	n := len(t.Head)
	for _, r := range t.Rows {
		n = max(n, len(r.Cells))
	}
	return m.columns(t, n, width)
}

func (m *fitting) tableHead(t page.Table, cells []float64, width float64) float64 {
	head := 0.0
	for i, c := range t.Head {
		head = math.Max(head, m.lines(c, m.small, cells[i], false)*m.small*1.15)
	}
	return m.lines(t.Caption, m.cells, width, true)*m.cells*1.2 + 1.4 + head + 2.5 + firm
}

func (m *fitting) tableRow(r page.Row, cells []float64) float64 {
	deep := 1.0
	for i, c := range r.Cells {
		room := cells[i]
		if c.No { // both words stand on grounds of their own in the hatching
			room = (room - 1.2*m.cells) / 1.04
		}
		deep = math.Max(deep, m.lines(said(c), m.cells, room, false))
	}
	return deep*m.cells*1.3 + 2.6 + hair
}

func (m *fitting) tableNote(t page.Table, width float64) float64 {
	return m.lines(t.Note, m.reason, width, false)*m.reason*1.25 + 1.2
}

// said is what a cell shows.
func said(c page.Cell) page.Text {
	if c.No {
		return append(append(page.Say(page.S("NO ")), c.Text...), page.W(" "), page.N(c.Why))
	}
	return c.Text
}

// columns shares a width among the columns of a table as browsers do: each has
// room for its longest word, and what is left goes where lines would break.
func (m *fitting) columns(t page.Table, n int, width float64) []float64 {
	apart := m.apart
	word, line := make([]float64, n), make([]float64, n)
	measure := func(i int, text page.Text, size float64) {
		line[i] = math.Max(line[i], m.wide(text, size, false)*1.01)
		for _, p := range m.v.pieces(text, false) {
			for _, w := range strings.Split(p.text, " ") {
				word[i] = math.Max(word[i], m.v.measure(w, p.bold, size)*1.01)
			}
		}
	}
	marks := make([]float64, n) // what a column needs beside its words
	for _, r := range t.Rows {
		for i, c := range r.Cells {
			measure(i, said(c), m.cells)
			if single(c.Text) && m.marked(c.Text) > 0 {
				marks[i] = math.Max(marks[i], 1.2)
				if i == n-1 {
					marks[i] = math.Max(marks[i], m.marked(c.Text))
				}
			}
			if i > 0 && r.Cells[i-1].No && !c.No { // it stands off from the hatching
				marks[i] = math.Max(marks[i], 2)
			}
			if c.No { // hatching has a least width of its own
				word[i] = math.Max(word[i], 8*m.cells-apart)
				line[i] = math.Max(line[i], math.Max(word[i], m.wide(said(c), m.cells, false)*1.04+1.2*m.cells))
			}
		}
	}
	for i, class := range m.v.Columns(t) {
		if class != "" { // figures stay in one line; their heading may break
			word[i] = line[i]
		}
	}
	for i, c := range t.Head {
		measure(i, c, m.small)
	}
	for i, mark := range marks {
		word[i], line[i] = word[i]+mark, line[i]+mark
	}
	room, more := width-apart*float64(n-1), 0.0
	for i := range word {
		room -= word[i]
		more += line[i] - word[i]
	}
	out := make([]float64, n)
	for i := range out {
		out[i] = word[i]
		if room > 0 && more > 0 {
			out[i] += (line[i] - word[i]) * math.Min(1, room/more)
		}
	}
	return out
}

func (m *fitting) foot() float64 {
	v := m.v
	if !v.Controlled() {
		return 0
	}
	foot := v.Page.Foot
	if v.Follows() {
		return float64(len(v.wrap([]piece{{text: v.control(false) + " written " + foot.Written}}, m.end, m.width)))*m.end*1.3 + 2
	}
	var said strings.Builder
	say := func(words ...string) {
		for _, s := range words {
			said.WriteString(s)
		}
	}
	say(v.control(true), " written ", foot.Written)
	if len(foot.Vouched) > 0 {
		say(" Not vouched for here: ")
	}
	holes := len(foot.Holes) > 0
	if v.Bare("holes") && holes {
		say(" ", v.HoleCount(), " not filled in: ask first ")
		foot.Holes = nil
	}
	for _, h := range foot.Holes {
		say(" ask ", h.What, ": ", h.Until, "      ")
	}
	if v.HasCode() {
		say(" ", v.own())
	}
	lines := v.wrap([]piece{{text: said.String()}}, m.end, m.width)
	h := float64(len(lines))*m.end*1.24 + 1.9
	last := 0.0
	for _, p := range lines[len(lines)-1] {
		last += v.measure(p.text, false, m.end)
	}
	if last+v.CheckLength()+28 > m.width || holes {
		h += 3.8
	}
	return h
}
