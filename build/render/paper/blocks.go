package paper

import (
	"math"
	"slices"
	"strings"

	"wetside/build/render/draw"
	"wetside/build/render/typeset"
	"wetside/build/render/view"
	"wetside/procedures/page"
)

// blockEstimate is how the estimate measures one kind of block.
type blockEstimate struct {
	rows func(m *estimate, b page.Block, width float64) heights
	// ruled: its rows bring their own room and rules, so that the work adds none at its ends.
	ruled bool
	// beside puts it beside others before the work, and returns what it takes below
	// them besides; nil: it has the whole width.
	beside func(s *beside, b page.Block) (below float64)
	// apart is how much further than others it stands off from what is above it there.
	apart float64
}

// heights are those of one block: what stands above its rows, once on each sheet that
// it is cut to, its rows, and what stands below the last of them.
type heights struct {
	head float64
	rows []float64
	foot float64
	// whole is the height of a block that takes less than all its rows alone; else 0.
	whole float64
}

func (h heights) sum() float64 {
	if h.whole > 0 {
		return h.whole
	}
	sum := h.head + h.foot
	for _, row := range h.rows {
		sum += row
	}
	return sum
}

// uncut is the height of a block that has no rows.
func uncut(h float64) heights { return heights{rows: []float64{h}} }

// estimates has an entry for every kind of block.
var estimates = map[string]blockEstimate{
	"amount":    {rows: saidRows, beside: ofBlock(besideAmount)},
	"para":      {rows: saidRows, apart: -2},
	"heading":   {rows: saidRows},
	"gear":      {rows: ofRows(gearRows), ruled: true, beside: ofBlock(besideGear)},
	"cautions":  {rows: ofRows(cautionRows)},
	"checklist": {rows: saidRows, beside: ofBlock(besideChecklist)},
	"steps":     {rows: ofRows(stepRows), ruled: true},
	"clock":     {rows: ofRows(clockRows), ruled: true},
	"table":     {rows: ofRows(tableRows)},
	"temps":     {rows: ofRows(tempRows)},
	"list":      {rows: ofRows(listRows), apart: .6},
	"ticks":     {rows: ofRows(tickRows)},
	"chart":     {rows: ofRows(chartRows)},
	"blanks":    {rows: ofRows(blankRows)},
	"label":     {rows: nothing}, // drawn on a sheet of its own, as are signs and sheets of labels
	"sign":      {rows: nothing},
	"sheet":     {rows: nothing},
	"symbols":   {rows: ofRows(symbolRows)},
	"hazards":   {rows: ofRows(hazardRows)},
	"links":     {rows: ofRows(linkRows)},
	"holes":     {rows: ofRows(holeRows)},
	"plates":    {rows: ofRows(plateRows)},
	"discs":     {rows: ofRows(discRows), ruled: true},
	"ways":      {rows: ofRows(wayRows), ruled: true},
	"clashes":   {rows: ofRows(clashRows), ruled: true},
	"abreast":   {rows: ofRows(abreastRows)},
}

// ofRows measures blocks of one type.
func ofRows[B page.Block](f func(*estimate, B, float64) heights) func(*estimate, page.Block, float64) heights {
	return func(m *estimate, b page.Block, width float64) heights { return f(m, b.(B), width) }
}

// ofBlock puts blocks of one type beside others.
func ofBlock[B page.Block](f func(*beside, B) float64) func(*beside, page.Block) float64 {
	return func(s *beside, b page.Block) float64 { return f(s, b.(B)) }
}

func nothing(*estimate, page.Block, float64) heights { return heights{} }

// saidRows measures a block that is said in lines of words.
func saidRows(m *estimate, b page.Block, width float64) heights {
	h := 0.0
	for _, t := range page.Said(b) {
		h += m.lines(t, m.text, width, false)*m.text*m.Line.Text + m.stack
	}
	return uncut(h)
}

func clockRows(m *estimate, b page.Clock, _ float64) (h heights) {
	for _, r := range b.Rows {
		h.rows = append(h.rows, m.bathRow(r))
	}
	return h
}

func stepRows(m *estimate, b page.Steps, _ float64) (h heights) {
	columns := m.stepColumns(b)
	for _, r := range b.Rows {
		h.rows = append(h.rows, m.stepRow(r, columns))
	}
	return h
}

func tableRows(m *estimate, b page.Table, width float64) heights {
	cells := m.columnsOf(b, width)
	h := heights{head: m.tableHead(b, cells, width), foot: m.tableNote(b, width)}
	for _, r := range b.Rows {
		h.rows = append(h.rows, m.tableRow(r, cells))
	}
	return h
}

// blankRows measures lines for a pencil as a table with the same headings.
func blankRows(m *estimate, b page.Blanks, width float64) heights {
	h := 0.0
	if len(b.Rows) > 0 {
		h = tableRows(m, page.Table{Caption: b.Caption, Head: b.Head, Rows: b.Rows}, width).sum()
	} else {
		h = m.lines(b.Caption, m.text, width, true)*m.text*m.Line.Caption + m.Apart.Caption
	}
	for _, t := range b.Lines {
		h += m.lines(t, m.text, width, false)*m.text*2 + 2
	}
	return uncut(h)
}

func tempRows(m *estimate, b page.Temps, width float64) heights {
	caption := m.text * m.Times.TempsHead
	head := caption * m.Line.Text
	if m.wide(b.Caption, caption, true)+m.wide(b.Note, m.text, false) > width {
		head = m.lines(b.Caption, caption, width, true)*caption*m.Line.Large + m.lines(b.Note, m.text, width, false)*m.text*m.Line.Caption
	}
	return uncut(head + m.Apart.TempsAbove + m.Apart.Temps + m.small*m.Line.Text +
		m.word*m.Times.Temps*m.Line.Caption + m.Apart.TempsBelow + 3)
}

func listRows(m *estimate, b page.List, width float64) (h heights) {
	size, pitch := m.text, m.Line.Text
	lines := func(t page.Text) float64 { return m.lines(t, size, width, false) }
	switch {
	case b.Large:
		size, pitch = m.text*m.Times.ListLarge, m.Line.Caption+.01
		// Two sizes in one line break a little earlier than measured.
		lines = func(t page.Text) float64 { return float64(m.v.Lines(m.voiced(t, size), size, width*.97)) }
	case b.Small:
		size, pitch = m.small, m.Line.Small
		h.head = m.Apart.Lesser
	}
	if m.v.Bound && m.v.Page.Kind == "protect" && b.Lines {
		size, pitch = m.small, m.Line.Small
	}
	if m.v.Bound && b.RunsIn() {
		said := append(append(slices.Clone(b.Label), page.W(": ")), dotted(b.Items)...)
		h.whole = m.stack + lines(said)*size*pitch
	}
	// Beside "never" the items follow each other in one run of text.
	flows := len(b.Label) == 0 && !b.Lines && width < m.width
	apart := m.Apart.Items
	if flows {
		apart = 0
		h.whole = h.head + lines(dotted(b.Items))*size*pitch
		if b.Small && m.large && m.v.Page.Kind == "dispose" { // so long a run breaks a line more now and then
			h.whole += size * pitch
		}
	}
	if len(b.Label) > 0 {
		h.head += m.small*m.Line.Label + m.Apart.ListLabel
	}
	for _, item := range b.Items {
		h.rows = append(h.rows, lines(item)*size*pitch+apart)
	}
	return h
}

// voiced is a line in large type: what is said first is strong, and the reason after it
// smaller.
func (m *estimate) voiced(t page.Text, size float64) []typeset.Piece {
	var out []typeset.Piece
	for i, in := range t {
		for _, p := range m.pieced(page.Text{in}, size, i == 0) {
			if i > 0 {
				p.Grow = p.Times() * m.Times.Voice
			}
			out = append(out, p)
		}
	}
	return out
}

func chartRows(m *estimate, b page.Chart, width float64) heights {
	h := m.lines(b.Caption, m.text, width, true)*m.text*m.Line.Caption + 1.4
	return uncut(h + width*draw.ChartHigh/draw.ChartWide + m.lines(b.Note, m.reason, width, false)*m.reason*m.Line.Small + 3)
}

func tickRows(m *estimate, b page.Ticks, width float64) heights {
	box := m.Side.Tick + m.Apart.Ticks
	across := math.Max(1, math.Floor(width/(box+m.Apart.TicksFive/5)))
	label := m.lines(b.Label, m.small, width, false) * m.small * m.Line.Label
	if m.v.Bound {
		return uncut(m.stack + label + m.Apart.TicksAbove + math.Ceil(float64(min(b.Boxes, view.MostBoxes))/across)*box + .8)
	}
	return uncut(label + 3 + math.Ceil(float64(min(b.Boxes, view.MostBoxes))/across)*box + 3)
}

func cautionRows(m *estimate, b page.Cautions, width float64) heights {
	h := 0.0
	for _, t := range b.Items {
		h += m.lines(t, m.text, width-m.bar(), true)*m.text*m.Line.Label + m.Apart.Caution
	}
	return uncut(h)
}

func hazardRows(m *estimate, b page.Hazards, width float64) heights {
	if m.v.Bound {
		return m.boundHazards(b, width)
	}
	h := math.Ceil(float64(len(b.Pictograms))/4) * 24
	side := m.word * m.Line.Caption
	for _, t := range b.Statements {
		side += m.lines(t, m.text, width/2, false) * m.text * m.Line.Small
	}
	return uncut(math.Max(h, side+m.lines(b.Note, m.reason, width/2, false)*m.reason*m.Line.Small+1))
}

func linkRows(m *estimate, b page.Links, width float64) heights {
	h := m.lines(b.Label, m.text, width, true)*m.text*m.Line.Caption + 1.4
	for _, e := range b.Entries {
		said := append(page.Say(page.N(e.Title), page.W(" ")), e.Value...)
		h += m.lines(said, m.text, width, true)*m.text*m.Line.Caption + m.lines(e.Sub, m.text, width, false)*m.text*m.Line.Caption + 2
	}
	return uncut(h)
}

func gearRows(m *estimate, b page.Gear, _ float64) heights {
	_, h := m.gear(b)
	return uncut(h + m.lines(b.Note, m.small, m.width, false)*m.small*m.Line.Caption)
}

// symbolRows measures signs in columns, the words below each.
func symbolRows(m *estimate, b page.Symbols, width float64) heights {
	column, apart, sign := m.Side.Shown, m.Apart.Shown, 40.0
	across := max(1, int((width+apart)/(column+apart)))
	total := 0.0
	for i := 0; i < len(b.Items); i += across {
		words := 0.0
		for _, item := range b.Items[i:min(i+across, len(b.Items))] {
			said := page.Say(page.N(item.Code + ", " + item.Shows + " " + item.Stands))
			if m.v.Bound { // its words stand beside a smaller sign
				words = math.Max(words, 2+m.lines(said, m.text, column-m.Side.ShownBound-18, false))
				continue
			}
			words = math.Max(words, 2+m.lines(said, m.text, column, false))
		}
		if m.v.Bound {
			total += math.Max(m.Side.ShownBound, words*m.text*m.Line.Text) + apart
			continue
		}
		total += sign + 2 + words*m.text*m.Line.Text + apart
	}
	return uncut(total)
}

// discRows measures columns of discs: each row is as high as its names or its highest
// cell.
func discRows(m *estimate, b page.Discs, width float64) (h heights) {
	if m.v.Brief("discs") {
		for _, r := range b.Rows {
			h.rows = append(h.rows, m.lines(b.Line(r), m.text, width, false)*m.text*m.Line.Caption+2*m.Apart.DiscLine+m.hair)
		}
		return h
	}
	said := m.spoken()
	column := said * m.Times.DiscColumn
	if m.v.Face.Name == "wall-a6" {
		column = said * m.Times.DiscColumnA6
	}
	names := width - column*float64(len(b.Pieces)) - m.Apart.DiscRight
	disc, plate := m.sign*m.Times.Disc, m.sign*m.Times.DiscPlate
	word := func(s string, strong bool, room float64) float64 {
		return float64(m.v.Lines([]typeset.Piece{{Text: s, Bold: strong}}, said, column-room))
	}
	frame, around := 2.1, 2.0 // of a mark: none on the smallest paper
	if m.v.Face.Name == "wall-a6" {
		frame, around = 0, 0
	}
	mark := func(s string) float64 { return word(strings.ToUpper(s), true, frame)*said*m.Line.Large + around }
	for _, p := range b.Pieces {
		high := m.Apart.DiscWord + word(p.Word, false, 0)*said*m.Line.Narrow
		if p.Sign != "" {
			high += disc
		}
		h.head = math.Max(h.head, high+2*m.Apart.Disc+m.firm)
	}
	for _, r := range b.Rows {
		left := m.discNames(r.Names, m.small, names, plate)
		if len(r.Ask) > 0 {
			left += m.Apart.DiscAsk + m.lines(r.Ask, said, names, false)*said*m.Line.Narrow
		}
		cell := 0.0
		for i, c := range r.Cells {
			if !c.Worn {
				continue
			}
			high := disc
			if b.Pieces[i].Sign == "" {
				high = math.Max(disc, mark(b.Pieces[i].Mark))
			}
			if c.Word != "" {
				high += m.Apart.DiscSort + word(c.Word, true, 0)*said*m.Line.Narrow
			}
			cell = math.Max(cell, high)
		}
		h.rows = append(h.rows, math.Max(left, cell)+2*m.Apart.Disc+m.hair)
	}
	return h
}

// discNames is the height of names that follow each other, each with its plate, in lines.
func (m *estimate) discNames(list []page.DiscName, size, width, plate float64) float64 {
	apart, between := m.Apart.Names, m.Apart.NamesRows
	total, line, at := 0.0, 0.0, 0.0
	for _, n := range list {
		said, high, side := append(m.pieced(n.Text, size, true), typeset.Piece{Text: " "}), 0.0, 0.0
		for _, p := range m.pieced(n.Sub, m.spoken(), false) {
			p.Grow = p.Times() * m.spoken() / size
			said = append(said, p)
		}
		if n.Role != "" {
			high, side = plate, plate+m.Apart.NamePlate
		}
		wide := side
		for _, p := range said {
			wide += m.v.Measure(p.Text, p.Bold, size*p.Times()) * 1.03
		}
		high = math.Max(high, float64(m.v.Lines(said, size, width-side))*size*m.Line.Beside)
		if at > 0 && at+apart+wide > width {
			total, line, at = total+line+between, 0, 0
		}
		if at > 0 {
			at += apart
		}
		at, line = at+wide, math.Max(line, high)
	}
	return total + line
}

// spoken is the size of the words beside discs and names: the least in which a word of
// safety may stand.
func (m *estimate) spoken() float64 {
	if m.v.Face.Floor > 0 {
		return m.v.Face.Floor * typeset.Point
	}
	return m.small
}

// plateRows measures boxes beside each other.
func plateRows(m *estimate, b page.Plates, width float64) heights {
	if len(b.Items) == 0 {
		return heights{}
	}
	each := (width - m.gap*float64(len(b.Items)-1)) / float64(len(b.Items))
	label, box, size := 0.0, m.sign*m.Times.NumberedHigh, m.word*m.Times.Numbered
	if m.v.Page.Kind == "spill" { // which holds more than first aid
		box = m.sign * m.Times.NumberedSpill
	}
	if m.v.Bound {
		box = m.Side.NumberedBound
	}
	for _, i := range b.Items {
		label = math.Max(label, m.lines(i.Label, m.small, each, true)*m.small*m.Line.Label)
		if !i.Hole() {
			box = math.Max(box, m.lines(i.Value, size, each, true)*size*m.Line.Narrow)
		}
	}
	return uncut(label + m.Apart.Numbered + box)
}

// wayRows measures what goes beside where to.
func wayRows(m *estimate, b page.Ways, width float64) (h heights) {
	if m.v.Brief("ways") {
		for _, r := range b.Rows {
			h.rows = append(h.rows, m.lines(b.Line(r), m.text, width, false)*m.text*m.Line.Caption+2*m.Apart.DiscLine+m.hair)
		}
		return h
	}
	plate := m.sign * m.Times.WayPlate
	for _, r := range b.Rows {
		names := width
		to := 0.0
		if len(r.To) > 0 {
			names = (width - m.Side.Arrow) / 2
			large := m.word * m.Times.WhereTo
			if r.No {
				large = m.word
			}
			to = m.lines(r.To, large, names, true) * large * m.Line.Large
			if len(r.Over) > 0 {
				to += m.Apart.WayUnder + m.small*m.Line.Label
			}
			for _, t := range r.Under {
				to += m.Apart.WayUnder + m.lines(t, m.small, names, false)*m.small*m.Line.Label
			}
		}
		high := math.Max(m.discNames(r.Names, m.text, names, plate), to) + 2*m.Apart.Way + m.hair
		if r.No {
			high += m.firm
		}
		h.rows = append(h.rows, high)
	}
	return h
}

// clashRows measures pairs in three columns.
func clashRows(m *estimate, b page.Clashes, width float64) (h heights) {
	over := m.Apart.ClashAbove + m.Apart.ClashBelow
	h.head = m.small*m.Line.Narrow + over + m.firm
	these, gives := m.Share.ClashThese, m.Share.ClashGives
	for _, r := range b.Rows {
		size := m.text
		if r.Lesser {
			size = m.small
		}
		left := m.lines(r.These, size, width*these-m.Apart.ClashRight-m.Side.ClashBar, !r.Lesser)
		mid := m.lines(r.Those, size, width*(1-these-gives)-2*m.Apart.ClashRight, false)
		run := append(m.pieced(r.Gives, size, true), typeset.Piece{Text: ", "})
		for _, p := range m.pieced(r.Note, m.small, false) {
			p.Grow = p.Times() * m.small / size
			run = append(run, p)
		}
		right := float64(m.v.Lines(run, size, width*gives))
		h.rows = append(h.rows, math.Max(math.Max(left, mid), right)*size*m.Line.Narrow+over+m.hair)
	}
	return h
}

// abreastRows measures pieces beside each other, as many as have room: a row is as high as
// its highest piece. On the smallest paper they follow each other, and may be cut apart.
func abreastRows(m *estimate, b page.Abreast, width float64) heights {
	shown := func(c page.Column) bool { return !c.Elsewhere || !m.v.Brief("abreast") }
	count := 0
	for _, c := range b.Columns {
		if shown(c) {
			count++
		}
	}
	across := max(1, min(count, int((width+m.gap)/(m.Em.Column*m.small+m.gap))))
	if m.v.Bare("abreast") {
		across = 1
	}
	each := (width - m.gap*float64(across-1)) / float64(across)
	each *= .97
	if across > 1 {
		each *= .98 // lines so short break unevenly
	}
	var out heights
	k, first := 0, 0 // the pieces so far, and the first one of their row
	for i, c := range b.Columns {
		if !shown(c) {
			out.rows = append(out.rows, 0)
			continue
		}
		h := m.lines(c.Head, m.reason, each, true) * m.reason * m.Line.Label
		if len(c.Signs) > 0 && !m.v.Bound && !m.v.Brief("abreast") {
			h += m.Side.ColumnSign + m.Apart.Column
		}
		for _, item := range c.Items {
			h += m.Apart.Column + m.lines(item, m.small, each, false)*m.small*m.Line.Caption
		}
		if k%across > 0 {
			out.rows[first] = max(out.rows[first], h)
			h = 0
		} else {
			first = i
			if k > 0 {
				h += m.Apart.ColumnRows
			}
		}
		out.rows = append(out.rows, h)
		k++
	}
	out.head = m.stack/2 + m.hair + m.Apart.ColumnsAbove
	if m.v.Bound {
		out.head = m.stack/2 + m.Apart.ColumnsAbove/2 + m.hair
	}
	return out
}

func besideAmount(s *beside, b page.Amount) float64 {
	m := s.m
	big := m.key * m.Times.Further
	lab := m.wide(b.Label, m.small, false) + m.Apart.Amount
	if len(b.Note) > 0 {
		lab += m.wide(b.Note, m.reason*serif, false) + m.Apart.Amount
	}
	w := m.wide(b.Value, big, true)
	lines := math.Max(1, math.Ceil(w/math.Max(10, m.width-lab)))
	s.add(math.Min(m.width, lab+w)+1, 1.2+lines*big*m.Line.Large)
	return 0
}

func besideChecklist(s *beside, b page.Checklist) float64 {
	m := s.m
	size := m.small * m.Line.Small
	t := dotted(b.Items)
	if len(b.Label) > 0 {
		t = append(append(slices.Clone(b.Label), page.W(": ")), t...)
	}
	w := m.width * m.Share.Checklist
	left := m.width - s.at - m.Apart.Before
	high := m.lines(t, m.small, w, false) * size
	switch {
	case s.alone && s.at == 0 && s.last:
		high = m.lines(t, m.small, m.width, false) * size
	case s.alone && s.at > 0 && math.Abs(left-w) < 14:
		// Beside what stands there or below it: the higher of the two.
		below := s.line + m.Apart.BeforeRows + m.lines(t, m.small, m.width, false)*size
		s.at, s.line, w, high = 0, math.Max(below, math.Max(s.line, high)), 0, 0
	case s.alone && s.at > 0 && left < w: // a line of its own
		high = m.lines(t, m.small, m.width, false) * size
	case s.at > 0 && left > w:
		high = m.lines(t, m.small, left, false) * size
	}
	s.add(w, high)
	return 0
}

func besideGear(s *beside, b page.Gear) float64 {
	s.add(s.m.gear(b))
	if len(b.Note) == 0 {
		return 0
	}
	return s.m.Apart.BeforeRows + s.m.lines(b.Note, s.m.small, s.m.width, false)*s.m.small*s.m.Line.Caption
}

// boxed is the room of what has no sign: its words in capitals, in a box as high as a sign.
func (m *estimate) boxed(word string) (width, height float64) {
	around := 2 * (m.Apart.Boxed + m.firm)
	said := []typeset.Piece{{Text: strings.ToUpper(word), Bold: true}}
	most := m.Em.Boxed*m.small - around
	lines := float64(m.v.Lines(said, m.small, most))
	return math.Min(m.v.Measure(said[0].Text, true, m.small), most) + around,
		math.Max(m.sign, lines*m.small*m.Line.Beside+2*m.firm)
}

// gear is the room of what to wear, each item with its sign.
func (m *estimate) gear(g page.Gear) (width, height float64) {
	space := m.Times.Gear * m.gap
	most := m.signWord * m.text
	at, row := 0.0, 0.0
	for _, item := range g.Items {
		w, high := m.v.Measure(item.Word, false, m.small), m.small*m.Line.Caption
		if item.Sign == "" && m.v.Face.OnWall() && m.v.Face.Name != "index" {
			w, high = m.boxed(item.Word)
		}
		if item.Sign != "" {
			words := float64(m.v.Lines([]typeset.Piece{{Text: item.Word}}, m.text, most))
			w = m.sign + m.Apart.GearSign + math.Min(m.v.Measure(item.Word, false, m.text), most)
			high = math.Max(m.sign, words*m.text*m.Line.Beside)
		}
		if at > 0 && at+w > m.width*.97 { // words there may break or not
			height, at, row = height+row+m.Apart.Gear, 0, 0
		}
		at, row = at+w+space, math.Max(row, high)
		width = math.Max(width, at-space)
	}
	return width, height + row
}
