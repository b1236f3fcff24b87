package cards

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/page"
	"wetside/procedures/timing"
	"wetside/procedures/unit"
)

// emergencyBoard is the card for when somebody is hurt. Numbers stand there
// only if the lab typed them.
func emergencyBoard(c *Context) []page.Page {
	e := c.W.Local.Emergency
	p := page.Page{ID: "board/emergency", Kind: "board", KindLine: "Hang this at the exit and at the sink", Title: "Somebody is hurt"}
	p.Before = []page.Block{
		page.Amount{Label: page.Say(page.W("emergency number")), Value: orAsk(e.Number)}, page.Amount{Label: page.Say(page.W("poison centre")), Value: orAsk(e.Poison)},
		page.List{Items: []page.Text{typed("say where you are", e.Address), typed("eyewash", e.Eyewash), typed("first aid", e.FirstAid), typed("way out", e.WayOut)}},
	}
	p.Do = []page.Block{page.Steps{Cases: true, Urgent: 4, Rows: []page.Step{
		{ID: "eyes", Amount: page.Say(page.S("until help")), What: page.Say(
			page.S("Eyes"), page.W(": water at once, lids held open, lenses out. "), page.S("Keep rinsing until help comes"), page.W(", at least "), page.F(c.W.FirstAid.Eyes), page.W(", after alkali "), page.F(c.W.FirstAid.EyesAlkali), page.W(" and on the way. A doctor, with the label.")),
			Note: []page.Text{page.Say(page.W("An eyewash bottle cannot last that long: start with it, then to the tap."))}},
		{ID: "skin", Amount: page.Say(page.S("until help")), What: page.Say(
			page.S("Skin"), page.W(": wet clothes off, water, at least "), page.F(c.W.FirstAid.Skin), page.W("; if it burns, "), page.S("until help comes"), page.W(". A burn or a rash: a doctor."))},
		{ID: "swallowed", What: page.Say(
			page.S("Swallowed"), page.W(": rinse the mouth. "), page.S("Do not make them vomit."), page.W(" Nothing by mouth if they are drowsy. Read the label to the poison centre."))},
		{ID: "breathed", What: page.Say(
			page.S("Breathed in"), page.W(": out, sit up, collar open. A cough or a tight chest: a doctor, because "), page.S("lungs can worsen a day later"), page.W("."))},
	}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("leave them alone")), page.Say(page.W("go back into a room that smells of gas")), page.Say(page.W("mix anything to put it right"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("What is written here is the usual first step. Local rules, the supplier’s safety sheet and trained people go first."))}}
	p.Foot = c.foot(c.W.Local.Def, c.emergencyHoles())
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "emergency", Faces: c.faces("a4")})
	return []page.Page{p}
}

var (
	notationRatios  = []string{"1+1", "1+2", "1+4", "1+9", "1+19", "1+39"}
	notationVolumes = []string{"300 mL", "600 mL", "1 L", "1.5 L", "2 L"}
)

// notationBoard says how dilutions, percentages and rolls are written and
// counted here.
func notationBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/notation", Kind: "board", KindLine: "Before you pour anything", Title: "How it is written here"}
	t := page.Table{ID: "dilution", Caption: page.Say(page.S("One plus some"), page.W(": parts of the solution and parts of water")), Head: []page.Text{page.Say(page.W("written"))}}
	for _, v := range notationVolumes {
		q := unit.MustParse[unit.Volume](v)
		t.Head = append(t.Head, page.Say(page.W("for "), page.F(c.Mix.VolumeFigure("notation/volume@"+mix.Tag(q.Exact()), q, figure.Where{}, figure.Standard, "volume made"))))
	}
	wrong := page.Table{ID: "colon", Caption: page.Say(page.S("Why no colon"), page.W(": the same pair of numbers can be read two ways")), Head: []page.Text{page.Say(page.W("meant")), page.Say(page.W("read as one in so many: too strong by"))}}
	for _, r := range notationRatios {
		var d unit.Dilution
		if err := d.UnmarshalText([]byte(r)); err != nil {
			panic(err)
		}
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(r))}}}
		for _, v := range notationVolumes {
			row.Cells = append(row.Cells, c.takeCell(c.Mix.Notation(d, unit.MustParse[unit.Volume](v))))
		}
		t.Rows = append(t.Rows, row)
		wrong.Rows = append(wrong.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.N(r))}, {Text: page.Say(page.F(c.Mix.ColonError(d)))}}})
	}
	t.Note = page.Say(page.W("Measure the solution, then fill up with water to the volume: the water is not measured."))
	p.Do = append(p.Do, t, c.rollsTable())
	p.Tables = append(p.Tables, wrong)
	var nine, thirtynine unit.Dilution
	if nine.UnmarshalText([]byte("1+9")) != nil || thirtynine.UnmarshalText([]byte("1+39")) != nil {
		panic("cards: the example of a chain")
	}
	p.Why = append(p.Why,
		page.Para{Text: page.Say(page.W("One dilution after another multiplies: "), page.N("1+9"), page.W(" and then "), page.N("1+39"), page.W(" is one part in "), page.F(c.Mix.Chain(nine, thirtynine)), page.W(", not the sum of the two."))},
		page.Para{Text: page.Say(page.W("Two strengths make a third between them: for "), page.N("20 %"), page.W(" from "), page.N("60 %"), page.W(" and "), page.N("10 %"), page.W(" take "), page.F(c.Mix.Blend(20, 10, 60)), page.W(" parts of the stronger for each part of the weaker, all w/v."))},
		page.Para{Text: page.Say(page.W("Per cent of what is always said: w/v is grams in a hundred millilitres of the finished solution, w/w grams in a hundred grams."))})
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("write a dilution with a colon"))}}}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("read the label twice")), Items: []page.Text{page.Say(page.W("what it is")), page.Say(page.W("which strength")), page.Say(page.W("until when"))}}}
	p.Foot = c.foot(c.Lab.Place.Def, nil)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "notation", Faces: c.wideFaces("a4")})
	return []page.Page{p}
}

// rollsTable counts films as rolls (E1), with one example worked out.
func (c *Context) rollsTable() page.Block {
	t := page.Table{ID: "rolls", Caption: page.Say(page.S("Rolls are counted as equivalents")), Head: []page.Text{page.Say(page.W("format")), page.Say(page.W("counts as")), page.Say(page.W("area of one"))}}
	for _, f := range c.allFormats() {
		q, ok := f.Rolls()
		if !ok {
			continue
		}
		name := f.Decl.Name
		if name == "" {
			name = f.ID
		}
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(name))}}}
		if f.Decl.Rolls.Given() {
			fig := figure.Declare(c.Book, "format."+f.ID+"/rolls", figure.KindCount, f.Decl.Rolls.Figure(name+" counts as"), unit.Short(float64(f.Decl.Rolls.Value())), unit.Plural(float64(f.Decl.Rolls.Value()), "roll"))
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(fig))})
		} else {
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(figure.Enter(c.Book, q)), page.W(", by its area"))})
		}
		row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(f.EnterArea(c.Book)))})
		t.Rows = append(t.Rows, row)
	}
	var shares []figure.Figure[unit.Rolls]
	for _, s := range []struct {
		n      int
		format string
	}{{1, "135-24"}, {2, "135-36"}, {4, "4x5"}} {
		if f, ok := capacity.Share(c.Lab, fmt.Sprintf("rolls/example.%d-%s", s.n, s.format), s.n, s.format); ok {
			shares = append(shares, f)
		}
	}
	if len(shares) == 3 {
		t.Note = page.Say(page.W("So one "), page.N("135-24"), page.W(", two "), page.N("135-36"), page.W(" and four sheets of "), page.N("4x5"), page.W(" are "), page.F(figure.Enter(c.Book, capacity.Sum("rolls/example", shares...))), page.W(" for the log."))
	}
	return t
}

// benchBoard says what each scale and cylinder may measure: why the cards
// choose the device they name.
func benchBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/bench", Kind: "board", KindLine: "At the bench", Title: "What each device may measure"}
	scales, cylinders := c.Mix.Windows()
	table := func(id, caption string, list []mix.Window) page.Table {
		t := page.Table{ID: id, Caption: page.Say(page.S(caption)), Head: []page.Text{page.Say(page.W("device")), page.Say(page.W("from")), page.Say(page.W("up to"))}}
		for _, w := range list {
			most := page.Say(page.W("not written "), page.Inline{Kind: page.Ask})
			if w.Most != nil {
				most = page.Say(page.F(w.Most))
			}
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: deviceName(w)}, {Text: page.Say(page.F(w.Least))}, {Text: most}}})
		}
		return t
	}
	var holes []page.Hole
	if len(scales) > 0 {
		p.Do = append(p.Do, table("scales", "Scales", scales))
	} else {
		holes = append(holes, page.Hole{What: "the scales", Until: "cards say what a scale must show", Key: "[scale.…] in lab.toml"})
	}
	if len(cylinders) > 0 {
		p.Do = append(p.Do, table("cylinders", "Cylinders and syringes, in one pour", cylinders))
	} else {
		holes = append(holes, page.Hole{What: "the measuring cylinders", Until: "cards say how a cylinder must be divided", Key: "[cylinder.…] in lab.toml"})
	}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("Below its least, a device may be off by more than this house allows: a card then takes a finer one, pours twice, or says no."))}}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("check them")), Items: []page.Text{page.Say(page.W("a known weight on the scale")), page.Say(page.W("water of the cylinder on the scale"))}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("read finer than half a mark of a cylinder"))}}}
	p.Foot = c.foot(c.Lab.Place.Def, holes)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "bench", Faces: c.wideFaces("a4")})
	return []page.Page{p}
}

// deviceName names a device; a syringe also what it is kept for.
func deviceName(w mix.Window) page.Text {
	t := page.Say(page.N(w.Device))
	if len(w.Of) > 0 {
		t = append(t, page.W(", only for "), page.N(strings.Join(w.Of, ", ")))
	}
	return t
}

// allFormats are the formats of the table and those that materials have of their
// own, each once.
func (c *Context) allFormats() []capacity.Format {
	var ids []string
	for id := range c.Lab.Formats.Format {
		ids = append(ids, id)
	}
	sort.Strings(ids)
	var out []capacity.Format
	table := &lab.Material{}
	for _, id := range ids {
		out = append(out, capacity.Format{Material: table, ID: id, Decl: c.Lab.Formats.Format[id]})
	}
	for _, m := range c.Lab.Materials {
		for _, id := range m.Formats {
			if f, ok := m.Format[id]; ok {
				out = append(out, capacity.Format{Material: m, ID: id, Decl: f})
			}
		}
	}
	return out
}

var (
	usualTemperatures = []float64{18, 20, 24}
	temperVolumes     = []string{"1 L", "2 L", "5 L", "10 L"}
	stockAt           = []float64{10, 12, 14, 16, 18, 22, 24, 26}
)

// temperingBoard is the table at the tap: how much hot water, and how warm the
// water for a cold stock.
func temperingBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/tempering", Kind: "board", KindLine: "At the tap", Title: "Tempering water"}
	times := timing.Times{Lab: c.Lab, Book: c.Book}
	w := c.Lab.Place.Water
	degree := func(at float64) page.Text {
		g := figure.Constant(unit.Temperature(at), "temperature of the bath", "", figure.Standard)
		return page.Say(page.F(figure.Declare(c.Book, "degrees/"+timing.Degrees(at), figure.KindTemperature, g, unit.Format(at, unit.NewDecimal(1, 1)), "°C")))
	}
	var holes []page.Hole
	if w.Cold.Given() && w.Hot.Given() {
		for _, season := range w.Cold.List() {
			p.Do = append(p.Do, c.temperTable(times, season, degree))
		}
	} else {
		holes = append(holes, page.Hole{What: "how warm the taps are", Until: "no table: use the thermometer", Key: "[water] cold and hot in lab.toml"})
		p.Do = append(p.Do, page.Para{Text: page.Say(page.W("Nobody has written how warm the taps are "), page.Inline{Kind: page.Ask})})
	}
	cold := page.Table{ID: "stock", Caption: page.Say(page.S("Cold stock, one part and one part of water"), page.W(": water at")), Head: []page.Text{page.Say(page.W("stock at")), page.Say(page.W("for a bath of "), page.F(c.W.Degrees(20)))}}
	degree(20)
	for _, at := range stockAt {
		water := times.Dilute("tempering/water@300+300,stock-"+timing.Degrees(at)+","+timing.Degrees(20), 600, 300, 20, unit.Temperature(at))
		cell := page.Cell{Text: page.Say(page.F(water))}
		if water.Refused() {
			cell = page.Cell{No: true, Why: water.Why, Refused: water}
		} else if tap := coldestWater(w.Cold); tap.Given() && water.Value < float64(tap.Value()) {
			cell.Text = append(cell.Text, page.W(", colder than the summer tap: let the stock cool"))
		}
		cold.Rows = append(cold.Rows, page.Row{Cells: []page.Cell{{Text: degree(at)}, cell}})
	}
	p.Tables = append(p.Tables, cold)
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("trust the table without the thermometer")), page.Say(page.W("pour hot water into a loaded tank"))}}}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("have ready")), Items: []page.Text{page.Say(page.W("the thermometer")), page.Say(page.W("a jug that holds all of it"))}}}
	if names := c.deionisedBaths(); len(names) > 0 {
		p.Never = append(p.Never, page.Para{Text: page.Say(page.S("Not from the tap"), page.W(", but deionised water, warmed in its bottle: "), page.N(strings.Join(names, ", ")))})
	}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("The vessel’s own warmth is left out: the thermometer decides."))}}
	p.Foot = c.foot(c.Lab.Place.Def, holes)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "tempering", Faces: c.wideFaces("a4")})
	return []page.Page{p}
}

// coldestWater is what the cold tap gives when it is warmest: nothing colder can
// be promised all year.
func coldestWater(s lab.Seasons) unit.Quantity[unit.Temperature] {
	var out unit.Quantity[unit.Temperature]
	for _, season := range s.List() {
		if !out.Given() || season.At.Value() > out.Value() {
			out = season.At.Quantity
		}
	}
	return out
}

// deionisedBaths names the solutions that tap water would spoil.
func (c *Context) deionisedBaths() []string {
	var out []string
	seen := map[string]bool{}
	for _, b := range c.Lab.Baths() {
		s, d := b.Solution, b.Decl()
		if (s != nil && s.Water == "deionised" && b.Strength == s.MadeStrength() || d != nil && d.Water == "deionised") && !seen[b.Name()] {
			seen[b.Name()] = true
			out = append(out, b.Name())
		}
	}
	return out
}

func (c *Context) temperTable(times timing.Times, season lab.Season, degree func(float64) page.Text) page.Block {
	word := season.Name
	t := page.Table{ID: "tap-" + word, Caption: page.Say(page.S("Cold tap in "+word), page.W(": hot water, then cold to the mark")), Head: []page.Text{page.Say(page.W("bath of"))}}
	if season.Key == "" {
		t.ID, t.Caption = "tap", page.Say(page.S("From the two taps"), page.W(": hot water, then cold to the mark"))
	}
	key := "water.cold"
	if season.Key != "" {
		key += "." + season.Key
	}
	tap := c.W.Temperature("tempering/cold-"+dashed(word), c.Lab.Place.Def, key, season.At.Quantity, "cold tap")
	hotTap := c.W.Temperature("tempering/hot", c.Lab.Place.Def, "water.hot", c.Lab.Place.Water.Hot.Quantity, "hot tap")
	t.Note = page.Say(page.W("Cold tap "), page.F(tap), page.W(", hot tap "), page.F(hotTap), page.W("."))
	for _, v := range temperVolumes {
		q := unit.MustParse[unit.Volume](v)
		t.Head = append(t.Head, page.Say(page.W("for "), page.F(c.Mix.VolumeFigure("tempering/volume@"+mix.Tag(q.Exact()), q, figure.Where{}, figure.Standard, "volume wanted"))))
	}
	for _, at := range c.temperAt() {
		row := page.Row{Cells: []page.Cell{{Text: degree(at)}}}
		for _, v := range temperVolumes {
			q := unit.MustParse[unit.Volume](v)
			suffix := "@" + mix.Tag(q.Exact()) + "," + timing.Degrees(at) + "," + dashed(word)
			hotID := "tempering/hot" + suffix
			if unit.Temperature(at) < season.At.Value() || unit.Temperature(at) > c.Lab.Place.Water.Hot.Value() {
				why := "not between the two taps"
				no := c.Book.Refuse(hotID, figure.KindAmount, "hot water", "ml", why, figure.Standard)
				row.Cells = append(row.Cells, page.Cell{No: true, Why: why, Refused: no})
				continue
			}
			hot := times.Hot(hotID, q.Value(), unit.Temperature(at), season)
			h := c.Mix.Pour(hot, "hot water", unit.Nearest)
			if h.Refused != "" {
				row.Cells = append(row.Cells, page.Cell{No: true, Why: h.Refused, Refused: h.Amount})
				continue
			}
			cold := times.Cold("tempering/cold"+suffix, q.Exact(), hot, h.Amount)
			cell := page.Say(page.F(h.Amount))
			if h.Hand.Pours > 1 || h.Hand.FullDevice != "" {
				cell = append(cell, page.W(" ("))
				cell = append(cell, c.splitText(h)...)
				cell = append(cell, page.W(")"))
			}
			row.Cells = append(row.Cells, page.Cell{Text: append(cell, page.W(" + "), page.F(figure.Enter(c.Book, cold)))})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// temperAt are the temperatures of the board: the usual ones, and those of the lab's own
// processes.
func (c *Context) temperAt() []float64 {
	out := slices.Clone(usualTemperatures)
	for _, p := range c.Lab.Processes {
		if q := p.Temperature.At; q.Given() && !slices.Contains(out, float64(q.Value())) {
			out = append(out, float64(q.Value()))
		}
	}
	slices.Sort(out)
	return out
}

func dashed(s string) string { return strings.ReplaceAll(s, " ", "-") }
