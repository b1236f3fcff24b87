package text

import (
	"strconv"
	"strings"

	"wetside/build/render/wording"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// blocks has an entry for every kind of block: how the terminal writes it.
var blocks = map[string]func(t *terminal, b page.Block){
	"amount":    inTerminal((*terminal).amount),
	"para":      inTerminal(func(t *terminal, b page.Para) { t.put("  ", t.say(b.Text)) }),
	"heading":   inTerminal((*terminal).heading),
	"gear":      inTerminal((*terminal).gear),
	"cautions":  inTerminal(func(t *terminal, b page.Cautions) { t.list(nil, b.Items, "  ! ") }),
	"checklist": inTerminal(func(t *terminal, b page.Checklist) { t.list(b.Label, b.Items, "  [ ] ") }),
	"steps":     inTerminal((*terminal).steps),
	"clock":     inTerminal((*terminal).clock),
	"table":     inTerminal((*terminal).table),
	"temps":     inTerminal((*terminal).temps),
	"list":      inTerminal(func(t *terminal, b page.List) { t.list(b.Label, b.Items, "  - ") }),
	"ticks":     inTerminal(func(t *terminal, b page.Ticks) { t.put("  ", t.say(b.Label)) }),
	"chart":     inTerminal((*terminal).chart),
	"blanks":    inTerminal((*terminal).blanks),
	"label":     inTerminal((*terminal).label),
	"sign":      inTerminal((*terminal).sign),
	"symbols":   inTerminal((*terminal).symbols),
	"sheet":     inTerminal((*terminal).sheet),
	"hazards":   inTerminal((*terminal).hazards),
	"links":     inTerminal((*terminal).links),
	"holes":     inTerminal((*terminal).holes),
	"plates": inTerminal(func(t *terminal, b page.Plates) {
		for _, i := range b.Items {
			t.pair("  "+t.say(i.Label), t.say(i.Value))
		}
	}),
	"discs":   inTerminal((*terminal).discs),
	"ways":    inTerminal((*terminal).ways),
	"clashes": inTerminal((*terminal).clashes),
	"abreast": inTerminal(func(t *terminal, b page.Abreast) {
		for _, c := range b.Columns {
			t.list(c.Head, c.Items, "  - ")
		}
	}),
}

// inTerminal writes blocks of one type.
func inTerminal[B page.Block](write func(*terminal, B)) func(*terminal, page.Block) {
	return func(t *terminal, b page.Block) { write(t, b.(B)) }
}

func (t *terminal) amount(a page.Amount) {
	t.pair("  "+t.say(a.Label), t.say(a.Value))
	t.put("    ", t.say(a.Note))
}

func (t *terminal) heading(h page.Heading) {
	t.line("")
	t.line(t.say(h.Text))
}

func (t *terminal) holes(b page.HolesList) {
	for _, h := range b.Items {
		t.put("  ____ ask: ", h.What+"; "+h.Until)
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
		if !wording.Single(row.Amount) {
			amounts[i].other = t.say(row.Amount)
			continue
		}
		r := wording.Pick(row.Amount[0].Figures, t.v.Choice)
		if r == nil || r.Refused() {
			amounts[i].other = t.say(row.Amount)
			continue
		}
		a := amount{unit: wording.Unit(r)}
		a.whole, a.rest = wording.SplitPoint(r.Shown)
		if r.Origin.Weak() {
			a.mark = wording.Mark(r.Origin.String())
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
		said := padLeft(a.whole, whole) + padRight(a.rest, fraction)
		said += " " + padRight(a.unit, unit) + " " + padRight(a.mark, 1)
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
		whole := t.say(row.What)
		if len(row.Part) > 0 {
			whole = t.say(row.Part) + ": " + whole
		}
		what := wrapText(whole, max(room, 12))
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
			t.line(mark + padRight(w, max(room, 12)) + padRight(amountText, column) + "  " + padRight(m, device) +
				" " + tick)
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
		r := wording.Pick(c.Time, t.v.Choice)
		said := "?"
		switch {
		case r == nil:
		case r.Refused():
			said = strings.TrimSpace("NO  " + r.Why)
		default:
			said = wording.Shown(r, true)
			if r.Origin.Weak() {
				said += " [" + wording.Mark(r.Origin.String()) + "]"
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

// chart writes the points of each line as a table, then its limits.
func (t *terminal) chart(c page.Chart) {
	t.line("")
	t.put("", t.say(c.Caption))
	rows := [][]string{{c.X, c.Y, ""}}
	for _, l := range c.Lines {
		if l.FromZero {
			rows = append(rows, []string{"0", "0", l.Label})
		}
		for _, p := range l.Points {
			rows = append(rows, []string{t.figure(p.X), t.figure(p.Y), l.Label})
		}
	}
	t.columns(rows)
	for _, l := range c.Limits {
		said := strings.TrimSpace(l.Label + " " + t.figure(l.At))
		if l.Beyond {
			said += ": not beyond it"
		}
		t.put("  - ", said)
	}
	if len(c.Note) > 0 {
		t.put("  ", t.say(c.Note))
	}
}

// figure is one figure with its unit.
func (t *terminal) figure(r *figure.Record) string { return t.say(page.Say(page.F(r))) }

func (t *terminal) blanks(b page.Blanks) {
	if len(b.Rows) > 0 {
		t.table(page.Table{Caption: b.Caption, Head: b.Head, Rows: b.Rows})
	} else if len(b.Caption) > 0 {
		t.put("", t.say(b.Caption))
	}
	for _, l := range b.Lines {
		t.put("  ", t.say(l)+" ________")
	}
}

// label writes the words of a label, and the bottles that it is made for.
func (t *terminal) label(l page.Label) {
	name := strings.ToUpper(l.Name)
	if l.Strength != "" {
		name += ", " + l.Strength
	}
	t.put("  ", name)
	if len(l.Use) > 0 {
		t.put("  ", t.say(l.Use))
	}
	t.hazards(l.Hazards)
	var advice []page.Text
	for _, a := range l.Advice {
		advice = append(advice, a.Full)
	}
	t.list(nil, advice, "  - ")
	dates, lives := l.Dates, l.Lives
	if len(l.Ladder) > 0 {
		dates, lives = l.Ladder, l.Rest
	}
	for _, lines := range [][]page.Text{dates, lives} {
		t.list(nil, lines, "  - ")
	}
	var sizes []string
	for _, c := range l.For {
		sizes = append(sizes, t.figure(c.Holds))
	}
	if len(sizes) > 0 {
		t.put("  for ", strings.Join(sizes, ", "))
	}
	for _, c := range l.For {
		for _, tally := range c.Tally {
			t.put("  ", t.figure(c.Holds)+": "+t.say(tally.Label))
		}
	}
	if len(l.Foot) > 0 {
		t.put("  ", t.say(l.Foot))
	}
}

func (t *terminal) sign(s page.Sign) {
	t.put("  ", strings.ToUpper(s.Letters))
	t.list(nil, s.Under, "  ")
	t.list(nil, s.Blanks, "  ")
}

func (t *terminal) symbols(b page.Symbols) {
	var rows [][]string
	for _, s := range b.Items {
		rows = append(rows, []string{s.Code, s.Word, s.Shows, s.Stands})
	}
	t.columns(rows)
}

// discs says each row in words.
func (t *terminal) discs(d page.Discs) {
	t.line("")
	for _, r := range d.Rows {
		t.put("  - ", t.say(d.Line(r)))
	}
}

// ways says what goes where.
func (t *terminal) ways(w page.Ways) {
	t.line("")
	for _, r := range w.Rows {
		for _, n := range r.Names {
			said := t.say(n.Text)
			if len(n.Sub) > 0 {
				said += " (" + t.say(n.Sub) + ")"
			}
			t.put("  - ", said)
		}
		if len(r.To) > 0 {
			mark := "    -> "
			if r.No {
				mark = "    NO: "
			}
			to := t.say(r.To)
			if len(r.Over) > 0 {
				to = t.say(r.Over) + " " + to
			}
			t.put(mark, to)
		}
		for _, u := range r.Under {
			t.put("       ", t.say(u))
		}
	}
}

// clashes puts pairs into columns.
func (t *terminal) clashes(c page.Clashes) {
	t.line("")
	rows := [][]string{{"this", "never meets", "what comes of it"}}
	for _, r := range c.Rows {
		gives := t.say(r.Gives)
		if len(r.Note) > 0 {
			gives += ": " + t.say(r.Note)
		}
		rows = append(rows, []string{t.say(r.These), t.say(r.Those), gives})
	}
	t.columns(rows)
}

// sheet names the cards whose labels a sheet bears.
func (t *terminal) sheet(s page.Sheet) {
	t.put("  ", "labels on "+s.Paper+" paper:")
	for _, l := range s.Labels {
		t.put("  - ", strings.TrimSpace(l.Card+" "+l.For))
	}
}

func (t *terminal) links(l page.Links) {
	if len(l.Label) > 0 {
		t.put("  ", t.say(l.Label))
	}
	for _, e := range l.Entries {
		said := e.Title
		for _, text := range []page.Text{e.Value, e.Sub} {
			if len(text) > 0 {
				said += ": " + t.say(text)
			}
		}
		t.put("  - ", said)
	}
}
