package render

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// Terminal writes a page as plain text, in one of its choices. Cautions stand
// before the amounts they guard; figures below the rank 'house' carry a letter
// that the foot explains.
func Terminal(p page.Page, figs func(id string) (figure.Record, bool), choice int, width int) string {
	if len(p.Choices) == 0 {
		choice = -1
	}
	t := &terminal{v: &view{Page: p, Choice: choice, figs: figs}, width: max(width, 40)}
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
	v     *view
	width int
}

func (t *terminal) say(text page.Text) string {
	var b strings.Builder
	for _, in := range text {
		switch in.Kind {
		case page.Fig, page.BareFig:
			id := pick(in.IDs, t.v.Choice)
			r, ok := t.v.figs(id)
			if !ok {
				b.WriteString("?")
				continue
			}
			b.WriteString(strings.ReplaceAll(shownText(r, in.Kind == page.BareFig), "\u00a0", " "))
			if r.Refused() && r.Why != "" {
				b.WriteString(" (" + r.Why + ")")
			}
			if r.Origin.Weak() {
				b.WriteString(" [" + t.v.Mark(r.Origin.String()) + "]")
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

func (t *terminal) block(b page.Block) {
	switch b := b.(type) {
	case page.Amount:
		t.pair("  "+t.say(b.Label), t.say(b.Value))
		t.put("    ", t.say(b.Note))
	case page.Para:
		t.put("  ", t.say(b.Text))
	case page.Heading:
		t.line("")
		t.line(t.say(b.Text))
	case page.Gear:
		t.gear(b)
	case page.Cautions:
		for _, c := range b.Items {
			t.put("  ! ", t.say(c))
		}
	case page.Checklist:
		t.list(b.Label, b.Items, "  [ ] ")
	case page.List:
		t.list(b.Label, b.Items, "  - ")
	case page.Ticks:
		t.put("  ", t.say(b.Label))
	case page.Steps:
		t.steps(b)
	case page.Clock:
		t.clock(b)
	case page.Table:
		t.table(b)
	case page.Temps:
		t.temps(b)
	case page.Hazards:
		t.hazards(b)
	case page.HolesList:
		for _, h := range b.Items {
			t.put("  ____ ask: ", h.What+"; "+h.Until)
		}
	}
}

func (t *terminal) list(label page.Text, items []page.Text, mark string) {
	if len(label) > 0 {
		t.line("  " + t.say(label))
	}
	for _, item := range items {
		t.put(mark, t.say(item))
	}
}

func (t *terminal) gear(g page.Gear) {
	var words []string
	for _, item := range g.Items {
		words = append(words, item.Word)
	}
	mark := "  "
	if g.Job != "" {
		mark = "  " + g.Job + ": "
	}
	t.put(mark, strings.Join(words, ", "))
	for _, note := range []page.Text{g.Note, g.Basis} {
		if len(note) == 0 {
			continue
		}
		t.put("  ", t.say(note))
	}
}

// steps puts number, substance, amount, device and tick box into columns.
func (t *terminal) steps(s page.Steps) {
	whole, fraction, unit, device := 0, 0, 0, 0
	type amount struct{ whole, rest, unit, mark, other string }
	amounts := make([]amount, len(s.Rows))
	devices := make([]string, len(s.Rows))
	for i, row := range s.Rows {
		devices[i] = t.say(row.Device)
		device = max(device, min(cells(devices[i]), 18))
		if !single(row.Amount) {
			amounts[i].other = t.say(row.Amount)
			continue
		}
		r, ok := t.v.figs(pick(row.Amount[0].IDs, t.v.Choice))
		if !ok || r.Refused() {
			amounts[i].other = t.say(row.Amount)
			continue
		}
		a := amount{unit: unitOf(r)}
		a.whole, a.rest = splitPoint(r.Shown)
		if r.Origin.Weak() {
			a.mark = t.v.Mark(r.Origin.String())
		}
		whole, fraction, unit = max(whole, cells(a.whole)), max(fraction, cells(a.rest)), max(unit, cells(a.unit))
		amounts[i] = a
	}
	number := cells(strconv.Itoa(len(s.Rows))) + 1
	column := whole + fraction + 1 + unit + 2
	room := t.width - number - 2 - column - 2 - device - 4
	for i, row := range s.Rows {
		if row.Mark {
			t.rule("-")
		}
		indent := strings.Repeat(" ", number+2)
		lead := padLeft(strconv.Itoa(i+1), number) + "  "
		if s.Cases {
			lead = indent
		}
		for _, c := range row.Caution {
			t.put(lead+"! ", t.say(c))
			lead = indent
		}
		a := amounts[i]
		said := padLeft(a.whole, whole) + padRight(a.rest, fraction) + " " + padRight(a.unit, unit) + " " + padRight(a.mark, 1)
		long := ""
		if a.other != "" {
			said = a.other
			if cells(said) > column {
				long, said = said, ""
			}
		}
		if a.whole == "" && a.other == "" {
			said = ""
		}
		measured := wrapText(devices[i], max(device, 1))
		what := wrapText(t.say(row.What), max(room, 12))
		for k := range max(len(what), len(measured), 1) {
			mark, w, m, tick := indent, "", "", ""
			amountText := ""
			if k == 0 {
				mark = lead
				amountText = said
				if row.Tick {
					tick = "[ ]"
				}
			}
			if k < len(what) {
				w = what[k]
			}
			if k < len(measured) {
				m = measured[k]
			}
			t.line(mark + padRight(w, max(room, 12)) + padRight(amountText, column) + "  " + padRight(m, device) + " " + tick)
		}
		if long != "" {
			t.put(indent, long)
		}
		for _, n := range row.Note {
			t.put(indent, t.say(n))
		}
	}
	t.rule("-")
}

func (t *terminal) clock(c page.Clock) {
	for _, row := range c.Rows {
		for _, caution := range row.Caution {
			t.put("          ! ", t.say(caution))
		}
		t.pair(padRight(t.say(row.At), 10)+strings.ToUpper(t.say(row.Word)), t.say(row.For))
		for _, text := range []page.Text{row.Bath, row.Cue, row.Light, row.ForNote, row.Goes} {
			if len(text) > 0 {
				t.put("          ", t.say(text))
			}
		}
		if len(row.Drain) > 0 {
			t.put("          ", "drain "+t.say(row.Drain))
		}
	}
	t.rule("-")
}

func (t *terminal) table(tb page.Table) {
	t.line("")
	t.put("", t.say(tb.Caption))
	rows := [][]string{}
	if len(tb.Head) > 0 {
		var head []string
		for _, h := range tb.Head {
			head = append(head, t.say(h))
		}
		rows = append(rows, head)
	}
	for _, r := range tb.Rows {
		var row []string
		for _, c := range r.Cells {
			s := t.say(c.Text)
			if c.No {
				s = strings.Join(strings.Fields("NO "+s+" "+c.Why), " ")
			}
			if c.Chosen {
				s += " <"
			}
			row = append(row, s)
		}
		rows = append(rows, row)
	}
	t.columns(rows)
	if len(tb.Note) > 0 {
		t.put("  ", t.say(tb.Note))
	}
}

// columns lays rows out in columns; where they are too wide, the widest gives.
func (t *terminal) columns(rows [][]string) {
	var widths []int
	for _, r := range rows {
		for c, s := range r {
			if c == len(widths) {
				widths = append(widths, 0)
			}
			widths[c] = max(widths[c], cells(s))
		}
	}
	for {
		sum, widest := 2, 0
		for c, w := range widths {
			sum += w + 2
			if w > widths[widest] {
				widest = c
			}
		}
		if sum <= t.width || len(widths) == 0 || widths[widest] <= 8 {
			break
		}
		widths[widest]--
	}
	for _, r := range rows {
		var wrapped [][]string
		high := 1
		for c, s := range r {
			lines := wrapText(s, widths[c])
			wrapped = append(wrapped, lines)
			high = max(high, len(lines))
		}
		for k := range high {
			line := "  "
			for c, lines := range wrapped {
				s := ""
				if k < len(lines) {
					s = lines[k]
				}
				line += padRight(s, widths[c]) + "  "
			}
			t.line(line)
		}
	}
}

func (t *terminal) temps(tp page.Temps) {
	t.line("")
	t.put("", t.say(tp.Caption))
	for _, c := range tp.Cells {
		r, ok := t.v.figs(pick(c.Time, t.v.Choice))
		said := "?"
		switch {
		case ok && r.Refused():
			said = strings.TrimSpace("NO  " + r.Why)
		case ok:
			said = shownText(r, true)
			if r.Origin.Weak() {
				said += " [" + t.v.Mark(r.Origin.String()) + "]"
			}
		}
		mark := ""
		if c.Ref {
			mark = " <"
		}
		t.put("  "+padLeft(t.say(c.At), 10)+"  ", said+mark)
	}
	if len(tp.Note) > 0 {
		t.put("  ", t.say(tp.Note))
	}
}

func (t *terminal) hazards(h page.Hazards) {
	words := strings.ToUpper(h.Signal)
	if h.Status == "unknown" {
		words = strings.TrimSpace(words + " HAZARDS NOT LOOKED UP")
	} else if words == "" && len(h.Statements) == 0 {
		words = h.Status
	}
	if words != "" {
		t.put("  ", words)
	}
	for _, s := range h.Statements {
		t.put("  ", t.say(s))
	}
	if len(h.Note) > 0 {
		t.put("  ", t.say(h.Note))
	}
}

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
		t.put("", "figures not vouched for here: "+strings.Join(vouched, ", "))
	}
	if f.Change != "" {
		t.put("", "last change: "+f.Change)
	}
	t.put("", t.v.control(false))
}
