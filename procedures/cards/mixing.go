package cards

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/procedures/work"
)

// mixingCards makes one card for every solution and product: what to weigh and
// measure, and what fills each vessel.
func mixingCards(c *Context) []page.Page {
	var out []page.Page
	for _, s := range c.Lab.Solutions {
		out = append(out, c.solutionCard(s))
	}
	for _, p := range c.Lab.Products {
		out = append(out, c.productCard(p))
	}
	return out
}

func (c *Context) solutionCard(s *lab.Solution) page.Page {
	made := lab.Bath{Solution: s, Strength: s.MadeStrength()}
	known := c.dangers(made)
	p := page.Page{
		ID: "mix/" + s.ID, Kind: "mixing", KindLine: "Mixing card", Title: capital(s.Name), Lead: page.Say(page.N(made.Strength)),
		Role: roleOf(s.Role), Was: wasIDs("mix/", s.Was),
	}
	c.approvedUnknown(s.Def, known)
	var batches []mix.Batch
	for _, v := range c.Mix.Batches(s) {
		batches = append(batches, c.Mix.Batch(s, v, c.batchAt(s, mix.Batch{Volume: v})))
	}
	p.Chosen = chosenBatch(batches)
	for _, b := range batches {
		p.Choices = append(p.Choices, page.Choice{Variant: s.ID + "." + made.Strength + "+" + b.Tag, Label: page.Say(page.F(c.volumeOf(s, b)))})
	}
	p.Key = append(p.Key, page.Amount{Label: page.Say(page.W("make")), Value: page.Say(page.F(c.fills(s, batches)...))})
	if start, ok := c.startAmounts(s, batches); ok {
		p.Key = append(p.Key, start...)
	}
	p.Before = append(beforeJob(work.Weigh, known), c.boardFirst(made)...)
	p.Do = append(p.Do, c.mixingSteps(s, batches), c.spentPara(made))
	p.Today = append(c.onShelf(s.ID), c.partsToday(made, batches)...)
	vessels, beside := c.vesselTables(s.StrengthNames(), func(name string) lab.Bath { return lab.Bath{Solution: s, Strength: name} })
	p.Tables = append(append(p.Tables, vessels...), beside...)
	p.Tables = append(p.Tables, c.coatTables(s)...)
	p.Tables = append(p.Tables, c.substitutions(s, batches, p.Chosen)...)
	p.Tables = append(p.Tables, c.contentsTable(made)...)
	p.Never = bottleNever(made, s.Never, append(c.nevers(s, batches, p.Chosen), mixingNevers(s)...))
	p.Why = append(reproductive(c.W.Bath(made.Ref())), hazardBlock(known))
	p.Why = append(p.Why, c.whyBlocks(s.Note, s.Dead, made)...)
	p.Record = c.keepsBlock(strengthsOf(s.StrengthNames(), made))
	keeps, _ := made.Keeps()
	p.Foot = c.foot(s.Def, c.holes(s.Def, keeps, s.Density.Given() || len(c.Mix.Made(made).Contents) == 0 && len(c.Mix.Made(made).Unknown) == 0, s.Waste))
	p.Foot.Holes = append(p.Foot.Holes, c.bathHoles(known, strengthsOf(s.StrengthNames(), made))...)
	for _, b := range batches {
		if b.StartWhy != "" {
			p.Foot.Holes = append(p.Foot.Holes, page.Hole{What: "how much water to start with: " + b.StartWhy, Until: "ask first", Key: b.StartWay})
			break
		}
	}
	for i := range p.Choices {
		c.Variants = append(c.Variants, p.Choices[i].Variant)
		if c.wanted(p.Choices[i].Variant) {
			c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: i, Variant: p.Choices[i].Variant, Faces: c.faces("a5")})
		}
	}
	return p
}

// approvedUnknown refuses a card that somebody has approved although nobody has
// looked up what is in it.
func (c *Context) approvedUnknown(d lab.Def, known work.Dangers) {
	if k, ok := c.Lab.ControlOf(d); !ok || k.Approved == "" || known.Status != work.Unknown {
		return
	}
	c.Problems = append(c.Problems, lab.Problem{At: c.Lab.ControlAt(d, "approved"), Code: "hazard",
		What: "approved, but nobody has looked up the hazards of " + strings.Join(known.Missing, ", ") + " (" + d.File + ")",
		Hint: `write [hazards] classes for it from the supplier’s sheet, or write approved = "none" under [control] in ` + d.File + ": unapproved, the card prints full precautions"})
}

func wasIDs(prefix string, was []string) []string {
	var out []string
	for _, w := range was {
		out = append(out, prefix+w)
	}
	return out
}

// chosenBatch is the litre, where one is made, else the middle batch.
func chosenBatch(batches []mix.Batch) int {
	litre := big.NewRat(1000, 1)
	for i, b := range batches {
		if b.Volume.Exact().Cmp(litre) == 0 {
			return i
		}
	}
	return (len(batches) - 1) / 2
}

func (c *Context) fills(s *lab.Solution, batches []mix.Batch) []*figure.Record {
	var out []*figure.Record
	for _, b := range batches {
		out = append(out, c.volumeOf(s, b))
	}
	return out
}

// volumeOf is the volume of a batch: the mark that it is filled to, or what is made.
func (c *Context) volumeOf(s *lab.Solution, b mix.Batch) *figure.Record {
	if b.Fill != nil {
		return b.Fill
	}
	made := lab.Bath{Solution: s, Strength: s.MadeStrength()}
	return c.Mix.VolumeFigure(made.Ref()+"/made@"+b.Tag, b.Volume, c.batchAt(s, b), figure.House, "volume made")
}

// batchAt is where the volume of a batch is written: in the list of batches, else as
// the volume of the formula; nowhere where it was asked for at the bench, or where a
// solution by parts says neither.
func (c *Context) batchAt(s *lab.Solution, b mix.Batch) figure.Where {
	for i, q := range s.Make.Batches {
		if q.Exact().Cmp(b.Volume.Exact()) == 0 {
			return s.At(fmt.Sprintf("make.batches[%d]", i))
		}
	}
	if s.Per.Given() && s.Per.Exact().Cmp(b.Volume.Exact()) == 0 {
		return s.At("per")
	}
	return figure.Where{}
}

func (c *Context) startAmounts(s *lab.Solution, batches []mix.Batch) ([]page.Block, bool) {
	var ids []*figure.Record
	for _, b := range batches {
		if b.Start == nil {
			return nil, false
		}
		ids = append(ids, b.Start)
	}
	what := page.W("tap water")
	if s.Water == "deionised" {
		what = page.W("deionised water")
	}
	at, key := s.Start.At, "start.at"
	if d := s.Dissolve; d != nil {
		if in, bad := c.Lab.Resolve(d.In, s.At("dissolve.in")); len(bad) == 0 && !in.Water {
			what = page.N(in.Name())
		}
		if !at.Given() {
			at, key = d.At, "dissolve.at"
		}
	}
	start := page.Amount{Label: page.Say(page.W("start with "), what), Value: page.Say(figs(ids))}
	for _, b := range batches {
		if b.StartWhy != "" {
			start.Note = page.Say(page.N(b.StartWhy), page.W(": "), page.Inline{Kind: page.Ask, Text: "first"})
			break
		}
	}
	out := []page.Block{start}
	if at.Given() {
		id := c.W.Temperature(s.ID+"."+s.MadeStrength()+"/start.temperature", s.Def, key, at.Quantity, "what it starts with")
		out = append(out, page.Amount{Label: page.Say(page.W("at")), Value: page.Say(page.F(id)), Note: c.coolFirst(at.Quantity)})
	}
	return out, true
}

// coolFirst says what to do where a bath starts colder than the tap may be.
func (c *Context) coolFirst(at unit.Quantity[unit.Temperature]) page.Text {
	cold := c.Lab.Place.Water.Cold
	tap, key := cold.Year, "water.cold"
	if !tap.Given() {
		tap, key = cold.Summer, "water.cold.summer"
	}
	if !tap.Given() || at.High() >= tap.Low() {
		return nil
	}
	id := c.W.Temperature(strings.ReplaceAll(strings.ReplaceAll(key, "water.", "water/"), ".", "-"), c.Lab.Place.Def, key, tap.Quantity, "cold tap at its warmest")
	return page.Say(page.W("the tap may be at "), page.F(id), page.W(": cool the water first, in the refrigerator or in ice"))
}

// refusal says why there is no amount, how much was wanted, and what would help.
func (c *Context) refusal(what page.Text, t mix.Take) page.Text {
	out := append(what, page.W(": "), page.N(t.Refused))
	if t.Wanted != nil {
		out = append(out, page.W(" (wanted: "), page.F(t.Wanted), page.W(")"))
	}
	if t.Way != "" {
		out = append(out, page.W("; "), page.N(t.Way))
	}
	return out
}

func (c *Context) mixingSteps(s *lab.Solution, batches []mix.Batch) page.Steps {
	var steps page.Steps
	if len(batches) == 0 {
		return steps
	}
	for i, row := range batches[0].Rows {
		st := page.Step{ID: mix.StepID(row.Step), Caution: sentence(row.Step.Caution), What: c.ingredientText(row), Tick: true}
		var ids, pours []*figure.Record
		var devices []string
		refused := false
		percent := ""
		for _, b := range batches {
			take := b.Rows[i].Take
			ids = append(ids, take.Amount)
			pours = append(pours, take.Pour)
			devices = append(devices, c.handText(take.Hand, shownOf(take.Pour)))
			refused = refused || take.Refused != ""
			if b.Rows[i].Percent.Solution != nil {
				percent = b.Rows[i].Percent.Name()
			}
		}
		st.Amount = page.Say(page.F(ids...))
		st.Device = c.deviceText(batches, i, devices, pours)
		if percent != "" {
			st.Note = append(st.Note, page.Say(page.W("too little to weigh: measured as "), page.N(percent)))
		}
		if refused {
			for _, b := range batches {
				if take := b.Rows[i].Take; take.Refused != "" {
					st.Caution = append(st.Caution, c.refusal(page.Say(page.S("No amount"), page.W(" for "), page.F(c.volumeOf(s, b))), take))
				}
			}
		}
		if row.Step.Lots > 1 {
			st.Note = append(st.Note, page.Say(page.W("in "), page.N(lots(int(row.Step.Lots))), page.W(" lots, each one dissolved first")))
		}
		if row.Step.Wait != "" {
			st.Note = append(st.Note, page.Say(page.W("wait "), page.N(row.Step.Wait)))
		}
		if row.Step.Note != "" {
			st.Note = append(st.Note, page.Say(page.N(row.Step.Note)))
		}
		st.Note = append(st.Note, c.otherForms(s, batches, i)...)
		steps.Rows = append(steps.Rows, st)
	}
	if fills := marks(batches); len(fills) > 0 {
		mark := page.Step{ID: "fill", What: page.Say(page.W("Cold water "), page.S("to the mark"), page.W(", stir")), Amount: page.Say(page.F(fills...)), Tick: true, Mark: true}
		if s.Dissolve != nil && s.Dissolve.In != "water" {
			if in, bad := c.Lab.Resolve(s.Dissolve.In, s.At("dissolve.in")); len(bad) == 0 {
				mark.What = page.Say(page.N(capital(in.Name())), page.W(" "), page.S("to the mark"), page.W(", stir"))
			}
		} else if s.Water == "deionised" {
			mark.What = page.Say(page.W("Cold deionised water "), page.S("to the mark"), page.W(", stir"))
		}
		if s.Make.Stand.Given() {
			mark.Note = append(mark.Note, page.Say(page.W("let it stand "), page.F(c.W.Life(s.ID+"."+s.MadeStrength()+"/stand", s.Def, "make.stand", s.Make.Stand.Life, "stands before first use")), page.W(" before first use")))
		}
		steps.Rows = append(steps.Rows, mark)
	}
	return steps
}

func lots(n int) string {
	words := []string{"", "one", "two", "three", "four", "five", "six"}
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

func marks(batches []mix.Batch) []*figure.Record {
	var ids []*figure.Record
	for _, b := range batches {
		if b.Fill == nil {
			return nil
		}
		ids = append(ids, b.Fill)
	}
	return ids
}

// handText says on what an amount is measured; pour is the shown text of a
// single pour where there are several.
func (c *Context) handText(h figure.Hand, pour string) string {
	_, weighed := c.Lab.Place.Scales[h.Device]
	switch {
	case h.Refused != "":
		return ""
	case h.Full.Sign() > 0:
		return h.Full.String() + " + " + pour + " ml: " + h.FullDevice + " full, then " + h.Device
	case h.Pours > 1:
		return fmt.Sprintf("%d × %s ml, %s", h.Pours, pour, h.Device)
	case weighed && !strings.HasSuffix(h.Device, "scale"):
		return h.Device + " scale"
	}
	return h.Device
}

// deviceText is the device for each choice, and the single pours where there
// are several.
func (c *Context) deviceText(batches []mix.Batch, i int, devices []string, pours []*figure.Record) page.Text {
	same := true
	for k := range devices {
		same = same && devices[k] == devices[0]
	}
	if same && pours[0] == nil {
		return page.Say(page.N(devices[0]))
	}
	ids := make([]*figure.Record, len(batches))
	for k, b := range batches {
		ids[k] = c.Book.Enter(figure.Of(figure.Core{ID: b.Rows[i].Take.Amount.ID + ",device", Origin: figure.House},
			figure.Face{Kind: figure.KindText, Name: "measured with", Shown: orDash(devices[k]), Rounded: orDash(devices[k]), Round: figure.Rounding{Rule: "chosen by the house’s error"}}))
	}
	return page.Say(page.F(ids...))
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

// shownOf is a figure as it is printed; empty where there is none.
func shownOf(r *figure.Record) string {
	if r == nil {
		return ""
	}
	return r.Shown
}

func (c *Context) ingredientText(row mix.Row) page.Text {
	switch {
	case row.Ing.Chemical != nil:
		return page.Say(page.L("chemical/"+row.Ing.Chemical.ID, capital(row.Ing.Name())))
	case row.Ing.Water:
		return page.Say(page.W("Water"))
	}
	return page.Say(page.L("mix/"+row.Ing.Bath.Def().ID, capital(row.Ing.Bath.Name())), page.W(", "), page.N(row.Ing.Bath.Strength))
}

// bottleVolumes are the volumes in which a strength is made that others are
// diluted from.
var bottleVolumes = []string{"100 mL", "250 mL", "500 mL", "1 L"}

// vesselTables are what fills each vessel, strength by strength, and beside them
// what a rest is enough for and why no strength may be skipped.
func (c *Context) vesselTables(names []string, bath func(string) lab.Bath) (vessels, beside []page.Block) {
	source := map[string]bool{}
	for _, n := range names {
		if from, _, ok := bath(n).From(); ok {
			source[from.Strength] = true
		}
	}
	for _, n := range names {
		b := bath(n)
		from, dil, ok := b.From()
		if !ok {
			continue
		}
		if source[n] {
			vessels = append(vessels, c.bottleTable(b, from, dil.Dilution))
			continue
		}
		if t, ok := c.vesselTable(b, from, dil.Dilution); ok {
			vessels = append(vessels, t)
			beside = append(beside, c.restTables(b, from)...)
			if straight := c.straightTable(b); straight != nil {
				beside = append(beside, straight)
			}
		}
	}
	return vessels, beside
}

// strengthsOf are the strengths of the definition that b belongs to.
func strengthsOf(names []string, b lab.Bath) []lab.Bath {
	var out []lab.Bath
	for _, n := range names {
		b.Strength = n
		out = append(out, b)
	}
	return out
}

func dilutionText(dil unit.Dilution) page.Text {
	if dil.None() {
		return page.Say(page.W("undiluted"))
	}
	return page.Say(page.N(dil.Text()))
}

func (c *Context) vesselTable(b, from lab.Bath, dil unit.Dilution) (page.Block, bool) {
	decl := b.Decl()
	water := "water"
	if decl.Water == "deionised" {
		water = "deionised water"
	}
	caption := append(page.Say(page.S(capital(b.Strength)), page.W(", ")), dilutionText(dil)...)
	if decl.Use != "" && string(decl.Use) != b.Strength {
		caption = append(caption, page.W(", "+string(decl.Use)))
	}
	t := page.Table{ID: b.Strength, Caption: caption,
		Head: []page.Text{page.Say(page.W("vessel")), page.Say(page.N(from.Strength)), page.Say(page.W(water + " to")), page.Say(page.W("measured in")), page.Say(page.W("serves"))}}
	if dil.None() { // filled as it is: nothing to measure
		t.Head = []page.Text{page.Say(page.W("vessel")), page.Say(page.N(from.Strength), page.W(" to fill it")), page.Say(page.W("serves"))}
	}
	seen := map[string]bool{}
	for _, v := range c.W.VesselsFor(b) {
		f := c.W.Fill(b, v)
		key := v.Name + "/" + f.Volume.ID
		row := page.Row{}
		name := page.Say(page.N(v.Name))
		if !v.Tray {
			name = append(name, page.W(", "), page.N(v.Family))
		}
		row.Cells = append(row.Cells, page.Cell{Text: name})
		switch {
		case f.No != nil && dil.None():
			row.Cells = append(row.Cells, c.fillCell(f))
		case f.No != nil:
			row.Cells = append(row.Cells, c.fillCell(f), page.Cell{Text: page.Say(page.F(f.Volume))}, page.Cell{Text: page.Say(page.W("–"))})
		case dil.None():
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(f.Volume))})
		default:
			row.Cells = append(row.Cells, c.fillCell(f), page.Cell{Text: page.Say(page.F(f.Volume))}, page.Cell{Text: c.handCell(f.Take)})
		}
		row.Cells = append(row.Cells, c.servedCell(f))
		if seen[key] && v.Tray {
			continue
		}
		seen[key] = true
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) == 0 {
		return nil, false
	}
	if decl.Needs.Given() {
		by, _ := c.Lab.OriginOf(b.Def(), "strength."+b.Strength+".needs")
		id := figure.Declare(c.Book, b.Ref()+"/needs", figure.KindAmount, figure.Given(decl.Needs, b.Def().At("strength."+b.Strength+".needs"), by, "least for one roll"), unit.Short(float64(decl.Needs.Value())), "ml a roll")
		t.Note = page.Say(page.W("At least "), page.F(id), page.W(" of "), page.N(from.Strength), page.W("; the tank is filled whatever is loaded."))
	}
	if all := c.W.Capacities(b, litre); len(all) > 0 && decl.Use != "one-shot" {
		if x := c.W.MostUsed(b, all); x.NoWhy == "" {
			if len(t.Note) > 0 {
				t.Note = append(t.Note, page.W(" "))
			}
			treats := page.Say(page.W("A litre treats "), page.B(x.N), page.W(" × "), page.N(x.Format.Name()), page.W(", by "+governWords(x.By)+": "))
			if x.ByUses() {
				treats = page.Say(page.W("Good for "), page.F(x.Uses), page.W(", however many at once: "))
			}
			t.Note = append(append(t.Note, treats...), page.L("capacity/"+b.Def().ID+"#"+idOf(b), "every format and limit"), page.W("."))
		}
	}
	t.Note = append(t.Note, c.strengthNote(b)...)
	return t, true
}

// fillCell is the amount that is drawn for a vessel, or why none is.
func (c *Context) fillCell(f capacity.Fill) page.Cell {
	if f.No != nil {
		cell := page.Cell{No: true, Why: f.Why, Refused: f.No}
		if f.Wanted != nil {
			cell.Text = page.Say(page.W("wanted: "), page.F(f.Wanted))
		}
		return cell
	}
	return page.Cell{Text: page.Say(page.F(f.Take.Amount))}
}

// strengthNote says how long a strength keeps and what the lab says of it.
func (c *Context) strengthNote(b lab.Bath) page.Text {
	var out page.Text
	for i, life := range c.lives(b) {
		word := ", "
		if i == 0 {
			word = " Keeps "
		}
		out = append(append(out, page.W(word)), life...)
	}
	if len(out) > 0 {
		out = append(out, page.W("."))
	}
	if limits := c.limitsText(b); len(limits) > 0 {
		out = append(append(append(out, page.W(" Spent at ")), limits...), page.W("."))
	}
	if d := b.Decl(); d != nil && d.Temperature.StopAbove.Given() {
		id := c.W.Temperature(b.Ref()+"/stop-above", b.Def(), "strength."+b.Strength+".temperature.stop_above", d.Temperature.StopAbove.Quantity, "stop above")
		out = append(out, page.W(" "), page.S("Stop above "), page.F(id), page.W("."))
	}
	if decl := b.Decl(); decl != nil && decl.Note != "" {
		out = append(out, page.W(" "), page.N(capital(decl.Note)), page.W("."))
	}
	return out
}

// limitsText is when a strength is spent: each of its limits, with whom it is for.
func (c *Context) limitsText(b lab.Bath) page.Text {
	d := b.Decl()
	if d == nil {
		return nil
	}
	var out page.Text
	for i, l := range d.Limits {
		if len(out) > 0 {
			out = append(out, page.W(", "))
		}
		key := fmt.Sprintf("strength.%s.limits[%d].most", b.Strength, i)
		by, _ := c.Lab.OriginOf(b.Def(), key)
		out = append(out, page.F(c.W.Text(fmt.Sprintf("%s/limit.%d", b.Ref(), i+1), "a limit: by "+string(l.By), l.Spoken(), by, []figure.InputRef{{Name: "a limit by " + string(l.By), Where: b.Def().At(key), Text: l.Most.Text(), Origin: by}})))
		var of []string
		if l.For != "" {
			of = append(of, string(l.For))
		}
		if l.Place > 0 {
			of = append(of, placeWord(int(l.Place)))
		}
		if l.Of != "" {
			of = append(of, l.Of)
		}
		if len(of) > 0 {
			out = append(out, page.W(" ("), page.N(strings.Join(of, ", ")), page.W(")"))
		}
	}
	return out
}

// rests are what may be left in a bottle.
var rests = []string{"10 mL", "20 mL", "50 mL", "100 mL", "200 mL", "300 mL", "400 mL", "500 mL", "750 mL"}

// restTables say what rolls in a tank need, and what a rest is enough for.
func (c *Context) restTables(b, from lab.Bath) []page.Block {
	decl := b.Decl()
	if !decl.Needs.Given() || decl.Use != "one-shot" {
		return nil
	}
	need := page.Table{ID: b.Strength + "-need", Caption: page.Say(page.S("How much "), page.N(from.Strength), page.W(" so many rolls need")), Head: []page.Text{page.Say(page.W("tank"))}}
	most := 0
	all, _ := capacity.Vessels(c.Lab)
	var tanks []capacity.Vessel
	for _, v := range all {
		if v.Rolls {
			tanks = append(tanks, v)
			most = max(most, v.Takes.N)
		}
	}
	most = min(most, 8)
	for n := 1; n <= most; n++ {
		need.Head = append(need.Head, page.Say(page.F(figure.Declare(c.Book, fmt.Sprintf("rolls/%d", n), figure.KindCount, figure.Constant(unit.Rolls(n), "rolls", "", figure.Standard), fmt.Sprint(n), unit.Plural(n, "roll")))))
	}
	for _, v := range tanks {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(v.Name), page.W(", "), page.N(v.Family))}}}
		draw := c.W.Fill(b, v).Take.Amount
		for n := 1; n <= most; n++ {
			if n > v.Takes.N {
				if n == v.Takes.N+1 {
					id := fmt.Sprintf("%s/need@%s,%d", b.Ref(), v.Key, n)
					no := c.Book.Refuse(id, figure.KindAmount, "solution needed", "ml", fmt.Sprintf("the reels: it takes %d", v.Takes.N), v.Takes.By())
					row.Cells = append(row.Cells, page.Cell{No: true, Why: "the reels", Refused: no})
					continue
				}
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.W("–"))})
				continue
			}
			id, why := capacity.Need(c.Mix, b, v, n, draw)
			switch {
			case id == nil:
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.W("–"))})
			case why != "":
				row.Cells = append(row.Cells, page.Cell{No: true, Why: why, Refused: id})
			default:
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.B(id))})
			}
		}
		need.Rows = append(need.Rows, row)
	}
	left := page.Table{ID: b.Strength + "-left", Caption: page.Say(page.S("What is left is enough for")), Head: []page.Text{page.Say(page.N(from.Strength), page.W(" left")), page.Say(page.W("fills up to")), page.Say(page.W("and never more than"))}}
	for _, text := range rests {
		q := unit.MustParse[unit.Volume](text)
		volume, rolls := capacity.Left(c.Mix, b, q)
		if volume == nil {
			return nil
		}
		if rolls == nil || rolls.Value == 0 {
			continue
		}
		id := c.Mix.VolumeFigure("left/"+mix.Tag(q.Exact()), q, figure.Where{}, figure.Standard, "solution left")
		left.Rows = append(left.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.F(id))}, {Text: page.Say(page.F(volume))}, {Text: page.Say(page.F(rolls))}}})
	}
	left.Note = page.Say(page.W("Counted by the least for one roll; less than the first row is enough for none. A tank is filled whatever is loaded: one roll alone takes what fills the tank. A roll is a whole one here, such as "), page.N("135-36"), page.W("; smaller formats count for less."))
	out := []page.Block{left}
	if len(need.Rows) > 0 {
		out = []page.Block{need, left}
	}
	if t, ok := c.enoughTable(b, from, tanks); ok {
		out = append(out, t)
	}
	return out
}

// enoughTable says for each rest and each tank how many films it is enough for,
// and which says no: the rest, the solution in the tank, or the reels.
func (c *Context) enoughTable(b, from lab.Bath, tanks []capacity.Vessel) (page.Table, bool) {
	t := page.Table{ID: b.Strength + "-enough", Caption: page.Say(page.S("Enough?")), Head: []page.Text{page.Say(page.N(from.Strength), page.W(" left"))}}
	for _, v := range tanks {
		t.Head = append(t.Head, page.Say(page.N(v.Name), page.W(", "), page.N(v.Family)))
	}
	var before []int
	for _, text := range rests {
		q := unit.MustParse[unit.Volume](text)
		var now []int
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.F(c.Mix.VolumeFigure("left/"+mix.Tag(q.Exact()), q, figure.Where{}, figure.Standard, "solution left")))}}}
		for _, v := range tanks {
			id, governs, n := capacity.Enough(c.Mix, b, v, q, c.W.Fill(b, v).Take.Amount)
			now = append(now, n)
			switch {
			case id == nil:
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.W("–"))})
			case n == 0:
				row.Cells = append(row.Cells, page.Cell{No: true, Why: "too little", Refused: id})
			default:
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(id), page.W(", by "+governs))})
			}
		}
		if slices.Max(append(now, 0)) == 0 || slices.Equal(now, before) { // a row that tells nothing new
			continue
		}
		before = now
		t.Rows = append(t.Rows, row)
	}
	t.Note = page.Say(page.W("What lies between two rows counts as the smaller; less than the first is enough for none."))
	return t, len(t.Rows) > 0
}

// servedCell says how many rolls a tank of this strength really serves.
func (c *Context) servedCell(f capacity.Fill) page.Cell {
	switch {
	case f.Vessel.Tray || f.No != nil:
		return page.Cell{Text: page.Say(page.W("–"))}
	case f.Served.Verdict == "":
		return page.Cell{Text: page.Say(page.F(f.Served.Rolls), page.W(" by the reels"))}
	}
	return page.Cell{Text: page.Say(page.F(f.Served.Rolls), page.W(", by "+f.Served.Governs))}
}

func (c *Context) takeCell(t mix.Take) page.Cell {
	if t.Refused == "" {
		return page.Cell{Text: page.Say(page.F(t.Amount))}
	}
	cell := page.Cell{No: true, Why: t.Refused, Refused: t.Amount}
	if t.Wanted != nil {
		cell.Text = page.Say(page.W("wanted: "), page.F(t.Wanted))
	}
	return cell
}

func (c *Context) handCell(t mix.Take) page.Text {
	if t.Refused != "" {
		return page.Say(page.W("–"))
	}
	text := page.Say(page.N(t.Hand.Device))
	if t.Hand.Pours > 1 || t.Hand.FullDevice != "" {
		device := t.Hand.Device
		if t.Hand.FullDevice != "" {
			device = t.Hand.FullDevice + ", " + device
		}
		text = append(c.splitText(t), page.W(", "), page.N(device))
	}
	if t.Error != nil {
		text = append(text, page.W(" (± "), page.F(t.Error), page.W(")"))
	}
	return text
}

// splitText says in which pours an amount is measured: so many equal ones, or a
// full cylinder and the rest.
func (c *Context) splitText(t mix.Take) page.Text {
	if t.Hand.FullDevice != "" {
		full := c.Book.Enter(figure.Of(figure.Core{ID: t.Amount.ID + ",full", Value: t.Hand.Full.Float(), Origin: figure.House},
			figure.Face{Kind: figure.KindAmount, Name: "a full " + t.Hand.FullDevice, Unit: "ml", Shown: t.Hand.Full.String(), Rounded: t.Hand.Full.String(), Round: figure.Rounding{Rule: "the whole cylinder"}}))
		return page.Say(page.B(full), page.W(" + "), page.F(t.Pour))
	}
	if t.Hand.Pours > 1 {
		n := c.Book.Enter(figure.Of(figure.Core{ID: t.Amount.ID + ",pours", Value: float64(t.Hand.Pours), Origin: figure.House},
			figure.Face{Kind: figure.KindCount, Name: "pours", Shown: fmt.Sprint(t.Hand.Pours), Rounded: fmt.Sprint(t.Hand.Pours), Round: figure.Rounding{Rule: "fewest within the house’s error"}}))
		return page.Say(page.B(n), page.W(" × "), page.F(t.Pour))
	}
	return nil
}

func (c *Context) bottleTable(b, from lab.Bath, dil unit.Dilution) page.Block {
	t := page.Table{ID: b.Strength, Caption: append(page.Say(page.S(capital(b.Strength)), page.W(", ")), dilutionText(dil)...),
		Head: []page.Text{page.Say(page.W("make")), page.Say(page.N(from.Strength)), page.Say(page.W("water to")), page.Say(page.W("measured in"))}}
	if decl := b.Decl(); decl != nil && decl.Water == "deionised" {
		t.Head[2] = page.Say(page.W("deionised water to"))
	}
	for _, text := range bottleVolumes {
		v := unit.MustParse[unit.Volume](text)
		draw, ok := c.Mix.Draw(b, v, figure.Where{}, figure.House, "volume made", nil)
		if !ok {
			continue
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.F(draw.Fill))}, c.takeCell(draw.Take), {Text: page.Say(page.F(draw.Fill))}, {Text: c.handCell(draw.Take)}}})
	}
	return t
}

// straightTable shows what it would take to skip the strength in between.
func (c *Context) straightTable(b lab.Bath) page.Block {
	t := page.Table{ID: b.Strength + "-straight", Caption: page.Say(page.S("Not straight from the concentrate"), page.W(" where it cannot be measured")),
		Head: []page.Text{page.Say(page.W("vessel")), page.Say(page.W("concentrate"))}}
	var overall *figure.Record
	for _, v := range c.W.VesselsFor(b) {
		draw, ok := c.Mix.Straight(b, v.Fill.Quantity, v.Fill.Where(), v.Fill.By(), "fill of the "+v.Name)
		if !ok {
			return nil
		}
		overall = draw.Overall
		name := page.Say(page.N(v.Name))
		if !v.Tray {
			name = append(name, page.W(", "), page.N(v.Family))
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: name}, c.takeCell(draw.Take)}})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	t.Note = page.Say(page.W("One part in "), page.F(overall), page.W(" overall; the strength between is there to be measured."))
	return t
}

// otherForms say at the step what to weigh if the jar holds another form.
func (c *Context) otherForms(s *lab.Solution, batches []mix.Batch, row int) []page.Text {
	var out []page.Text
	for j, in := range c.Mix.Instead(s, batches[0].Rows[row], batches[0].Tag, batches[0].Volume) {
		var ids []*figure.Record
		for _, b := range batches {
			if all := c.Mix.Instead(s, b.Rows[row], b.Tag, b.Volume); j < len(all) && all[j].Refused == "" {
				ids = append(ids, all[j].Take.Amount)
			}
		}
		line := page.Say(page.W("the jar says "), page.N(in.Name), page.W(": "))
		if len(ids) == len(batches) {
			out = append(out, append(line, page.F(ids...), page.W(" instead")))
		} else {
			out = append(out, append(line, page.S("do not weigh it: "), page.Inline{Kind: page.Ask, Text: "first"}))
		}
	}
	return out
}

// substitutions are the other hydrates that may be weighed instead.
func (c *Context) substitutions(s *lab.Solution, batches []mix.Batch, chosen int) []page.Block {
	if len(batches) == 0 {
		return nil
	}
	t := page.Table{ID: "instead", Caption: page.Say(page.S("If they sent another form"), page.W(", weigh this instead")),
		Head: []page.Text{page.Say(page.W("instead of")), page.Say(page.W("the other form"))}}
	for _, b := range batches {
		t.Head = append(t.Head, page.Say(page.W("for "), page.F(c.volumeOf(s, b))))
	}
	for i, row := range batches[0].Rows {
		columns := make([][]mix.Instead, len(batches))
		for k, b := range batches {
			columns[k] = c.Mix.Instead(s, b.Rows[i], b.Tag, b.Volume)
		}
		for j, in := range columns[0] {
			r := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(capital(row.Ing.Name())))}, {Text: page.Say(page.N(in.Name))}}}
			for k := range batches {
				if j >= len(columns[k]) {
					r.Cells = append(r.Cells, page.Cell{Text: page.Say(page.W("–"))})
					continue
				}
				o := columns[k][j]
				if o.Refused != "" {
					r.Cells = append(r.Cells, page.Cell{No: true, Why: o.Refused, Refused: o.Take.Amount})
				} else {
					r.Cells = append(r.Cells, page.Cell{Text: page.Say(page.F(o.Take.Amount))})
				}
			}
			t.Rows = append(t.Rows, r)
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{t}
}

// contentsTable says what is really in it, by volume and by mass.
func (c *Context) contentsTable(b lab.Bath) []page.Block {
	made := c.Mix.Made(b)
	if len(made.Contents) == 0 {
		return nil
	}
	t := page.Table{ID: "contents", Caption: page.Say(page.S("What is in it"), page.W(", "), page.N(b.Strength)),
		Head: []page.Text{page.Say(page.W("substance")), page.Say(page.W("by volume")), page.Say(page.W("by mass"))}}
	spread := false
	for _, content := range made.Contents {
		conc := figure.Enter(c.Book, content.Conc)
		ww := c.Mix.MassPercent(made, content)
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(capital(content.Chemical.ContentName(content.Form))))}, {Text: page.Say(page.F(conc))}, {Text: page.Say(page.F(figure.Enter(c.Book, ww)))}}}
		span := page.Say(page.W("–"))
		if low, high := c.Mix.Between(ww); low != nil && content.Conc.Low == content.Conc.High {
			span, spread = page.Say(page.B(low), page.W("–"), page.B(high)), true
		}
		row.Cells = append(row.Cells, page.Cell{Text: span})
		t.Rows = append(t.Rows, row)
	}
	if spread {
		t.Head = append(t.Head, page.Say(page.W("between")))
	} else {
		for i := range t.Rows {
			t.Rows[i].Cells = t.Rows[i].Cells[:len(t.Head)]
		}
	}
	if made.DensityAssumed {
		t.Note = page.Say(page.W("Nobody has measured the density: water’s is taken, and the stricter side of every limit counts."))
	}
	return []page.Block{t}
}

// compositionTable says what the supplier's sheet says is in a product.
func (c *Context) compositionTable(p *lab.Product) []page.Block {
	if len(p.Contains) == 0 {
		return nil
	}
	t := page.Table{ID: "contents", Caption: page.Say(page.S("What is in it"), page.W(", as bought")),
		Head: []page.Text{page.Say(page.W("substance")), page.Say(page.W("by volume")), page.Say(page.W("by mass"))}}
	conc := map[string]*figure.Record{}
	made := c.Mix.Made(lab.Bath{Product: p, Strength: lab.Supplied})
	for i, part := range c.Lab.Parts(p) {
		conc[part.Key] = figure.Enter(c.Book, made.Contents[i].Conc)
	}
	var names []string
	for name := range p.Contains {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		key, share := lab.ContainsKey(name), p.Contains[name]
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(capital(lab.Title(name))))}, {Text: page.Say(page.W("–"))}, {Text: page.Say(page.W("the rest"))}}}
		if id, known := conc[key]; known {
			row.Cells[1].Text = page.Say(page.F(id))
		}
		if !share.Rest {
			by, _ := c.Lab.OriginOf(p.Def, key)
			shown := unit.Short(float64(share.Of.Value()))
			if share.Of.Spread() {
				shown = unit.Short(float64(share.Of.Low())) + "–" + unit.Short(float64(share.Of.High()))
			}
			row.Cells[2].Text = page.Say(page.F(figure.Declare(c.Book, p.ID+"."+lab.Supplied+"/share."+strings.ReplaceAll(name, " ", "-"), figure.KindRatio, figure.Given(share.Of, p.At(key), by, "share of "+name), shown, "% w/w")))
		}
		t.Rows = append(t.Rows, row)
	}
	if made.DensityAssumed && len(conc) > 0 {
		t.Note = page.Say(page.W("Nobody has written the density: water’s is taken."))
	}
	return []page.Block{t}
}

// nevers are the mistakes that every made-up solution knows.
func (c *Context) nevers(s *lab.Solution, batches []mix.Batch, chosen int) []page.Text {
	if len(batches) == 0 || batches[chosen].Fill == nil || len(s.Steps) == 0 {
		return nil
	}
	return []page.Text{page.Say(page.W("start with the full "), page.F(marks(batches)...), page.W(" of water"))}
}

// mixingNevers are the mistakes that only somebody who mixes it can make.
func mixingNevers(s *lab.Solution) []page.Text {
	var out []page.Text
	for _, n := range s.NeverMixing {
		out = append(out, page.Say(page.N(n)))
	}
	return out
}

// bottleNever is what never to do with something in a bottle. Where nobody has
// written a mistake, the one that every bottle knows stands there: unless one of its
// strengths is used again, and goes back into its bottle.
func bottleNever(b lab.Bath, own []string, more []page.Text) []page.Block {
	if len(own)+len(more) == 0 {
		mistake := "pour a rest back into the bottle"
		if goesBack(b) {
			mistake = "pour another bath into its bottle"
		}
		more = []page.Text{page.Say(page.W(mistake))}
	}
	return neverBlock(own, more)
}

// goesBack reports whether any strength of a solution or product is poured back into
// its bottle after use.
func goesBack(b lab.Bath) bool {
	declared := map[string]*lab.Strength{}
	if b.Solution != nil {
		declared = b.Solution.Strengths
	} else if b.Product != nil {
		declared = b.Product.Strengths
	}
	for _, s := range declared {
		if s.Use == "re-use" || s.Use == "replenish" {
			return true
		}
	}
	return false
}

func neverBlock(own []string, more []page.Text) []page.Block {
	l := page.List{}
	l.Items = append(l.Items, more...)
	for _, n := range own {
		l.Items = append(l.Items, page.Say(page.N(n)))
	}
	if len(l.Items) == 0 {
		return nil
	}
	return []page.Block{l}
}

func (c *Context) whyBlocks(note, dead string, b lab.Bath) []page.Block {
	var out []page.Block
	if note != "" {
		out = append(out, page.Para{Text: page.Say(page.N(note))})
	}
	if dead != "" {
		out = append(out, page.Para{Text: page.Say(page.S("Dead when"), page.W(": "), page.N(strings.TrimPrefix(dead, "when ")))})
	}
	out = append(out, c.coldBlocks(b)...)
	if id, why := c.Mix.Cost(b); id != nil {
		out = append(out, page.Para{Text: page.Say(page.W("A litre of "), page.N(b.Strength), page.W(" costs "), page.F(id), page.W("."))})
	} else if why != "" {
		out = append(out, page.Para{Text: page.Say(page.W("Cost of a litre: not worked out, because "), page.N(why), page.W("."))})
	}
	return out
}

// coatSheets are the numbers of sheets for which sensitiser is worked out.
var coatSheets = []int{1, 5, 10, 20}

// coatTables say how much sensitiser so many sheets take, and how much of each
// part (G4).
func (c *Context) coatTables(s *lab.Solution) []page.Block {
	var out []page.Block
	for _, n := range s.StrengthNames() {
		b := lab.Bath{Solution: s, Strength: n}
		d := b.Decl()
		if d == nil || !d.Coat.Given() || b.Strength != s.MadeStrength() {
			continue
		}
		for _, base := range lab.Bases {
			if !c.W.On(b, base) {
				continue
			}
			for _, f := range capacity.Formats(c.Lab, c.Lab.Treated(b, base)...) {
				if t, ok := c.coatTable(s, b, f); ok {
					out = append(out, t)
				}
			}
		}
	}
	return out
}

func (c *Context) coatTable(s *lab.Solution, b lab.Bath, f capacity.Format) (page.Table, bool) {
	t := page.Table{ID: "coat-" + f.ID, Caption: page.Say(page.S("To coat"), page.W(" "), page.N(f.Name())), Head: []page.Text{page.Say(page.W("sheets")), page.Say(page.W("need")), page.Say(page.W("mix"))}}
	for _, step := range s.Steps {
		if ing, bad := c.Lab.Resolve(step.Add, s.At("step")); len(bad) == 0 {
			t.Head = append(t.Head, page.Say(page.N(ing.Name())))
		}
	}
	for _, n := range coatSheets {
		v, ok := capacity.Coat(c.Mix, b, f, n)
		if !ok {
			return t, false
		}
		need := figure.Enter(c.Book, v)
		sheets := figure.Declare(c.Book, fmt.Sprintf("sheets/%d", n), figure.KindCount, figure.Constant(unit.Factor(n), "sheets", "", figure.Standard), fmt.Sprint(n), "")
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.F(sheets))}, {Text: page.Say(page.F(need))}}}
		batch, mixed := c.measurable(s, v)
		row.Cells = append(row.Cells, mixed)
		for _, r := range batch.Rows {
			row.Cells = append(row.Cells, c.takeCell(r.Take))
		}
		t.Rows = append(t.Rows, row)
	}
	return t, len(t.Rows) > 0
}

// measurable is the smallest batch, in whole even millilitres from what is
// needed up to the largest that a tray of work would take, of which every part
// can be measured here.
func (c *Context) measurable(s *lab.Solution, need figure.Figure[unit.Volume]) (mix.Batch, page.Cell) {
	first := int(unit.Round(float64(need.Value), 2, unit.Up))
	for v := max(first, 2); v <= first+mostOver; v += 2 {
		q := unit.MustParse[unit.Volume](fmt.Sprintf("%d mL", v))
		if !c.Mix.Try(s, q) {
			continue
		}
		id := c.Book.Enter(figure.Of(figure.Core{ID: strings.Replace(need.ID(), "/coat@", "/coat.mix@", 1), Value: float64(v), Source: "the house’s error", Origin: need.Origin()},
			figure.Face{Kind: figure.KindAmount, Name: "mix", Unit: "ml", Shown: fmt.Sprint(v), Rounded: fmt.Sprint(v), Round: figure.Rounding{Rule: "up until every part can be measured", Step: "2"}}, need.Record()))
		return c.Mix.Batch(s, q, figure.Where{}), page.Cell{Text: page.Say(page.F(id))}
	}
	q := unit.MustParse[unit.Volume](fmt.Sprintf("%d mL", first))
	return c.Mix.Batch(s, q, figure.Where{}), page.Cell{Text: page.Say(page.W("–"))}
}

// mostOver is how much more than needed is mixed, so that it can be measured.
const mostOver = 40

// coldBlocks warn of what comes out of a solution on a cold shelf.
func (c *Context) coldBlocks(b lab.Bath) []page.Block {
	var out []page.Block
	for _, cold := range c.Mix.ColdShelf(c.Mix.Made(b)) {
		if text := coldText(cold); text != nil {
			out = append(out, page.Cautions{Items: []page.Text{text}})
		}
	}
	return out
}

func coldText(cold mix.Cold) page.Text {
	switch {
	case cold.Above != nil:
		return page.Say(page.S("Keep above "), page.F(cold.Above), page.W(": colder, "), page.N(cold.Content.Chemical.Name), page.W(" crystallises. Warm the bottle until it is clear, then measure; never pour it off the crystals."))
	case cold.Crystals:
		return page.Say(page.S("Nearly saturated"), page.W(" with "), page.N(cold.Content.Chemical.Name), page.W(": crystals may come out even in a warm room. Warm the bottle until it is clear, then measure."))
	}
	return nil
}

// keepsBlock says how long each strength keeps in each state of its vessel.
func (c *Context) keepsBlock(strengths []lab.Bath) []page.Block {
	l := page.List{Label: page.Say(page.W("keeps"))}
	for _, b := range strengths {
		lives := c.lives(b)
		if len(lives) == 0 {
			continue
		}
		item := page.Say(page.S(b.Strength), page.W(": "))
		for i, life := range lives {
			if i > 0 {
				item = append(item, page.W(", "))
			}
			item = append(item, life...)
		}
		l.Items = append(l.Items, item)
	}
	if len(l.Items) == 0 {
		l.Items = append(l.Items, page.Say(page.W("nobody has said how long it keeps: "), page.Inline{Kind: page.Ask, Text: "first"}))
	}
	return []page.Block{l}
}

// lives are how long a strength keeps, one text for each state of its vessel.
func (c *Context) lives(b lab.Bath) []page.Text {
	keeps, key := b.Keeps()
	var out []page.Text
	for _, s := range livesOf(keeps) {
		out = append(out, page.Say(page.W(s.words+" "), page.F(c.W.Life(b.Ref()+"/keeps."+s.key, b.Def(), key+s.key, s.life, s.words))))
	}
	return out
}

type lifeState struct {
	key, words string
	life       unit.Life
}

func livesOf(k lab.Keeps) []lifeState {
	var out []lifeState
	for _, s := range []lifeState{{"full", "full", k.Full.Life}, {"part", "opened", k.Part.Life}, {"low", "below half", k.Low.Life}, {"tray", "in the tray", k.Tray.Life}, {"poured", "poured", k.Poured.Life}} {
		if s.life.Given() {
			out = append(out, s)
		}
	}
	return out
}

// holes are what nobody has filled in about the subject of a mixing card.
func (c *Context) holes(d lab.Def, k lab.Keeps, density bool, waste string) []page.Hole {
	var out []page.Hole
	if !k.Given() {
		out = append(out, page.Hole{What: "how long it keeps", Until: "no discard date: ask first", Key: "keeps in " + d.File})
	}
	if !density {
		out = append(out, page.Hole{What: "its density", Until: "water’s is taken, and the stricter side counts", Key: "density in " + d.File})
	}
	if waste == "" {
		out = append(out, page.Hole{What: "where it goes when spent", Until: "to a drum: ask first", Key: "waste in " + d.File})
	}
	return out
}

// bathHoles are what nobody has looked up of what is in a bath, and how long
// each strength keeps that stands in a bottle or a tray.
func (c *Context) bathHoles(known work.Dangers, strengths []lab.Bath) []page.Hole {
	var out []page.Hole
	for _, name := range known.Missing {
		out = append(out, page.Hole{What: "the hazards of " + name, Until: "full precautions", Key: "[hazards] classes in its file, from section 2 of the supplier’s sheet"})
	}
	for _, b := range strengths {
		d := b.Decl()
		if d == nil || d.Use != "re-use" && d.Use != "tray" && d.Use != "replenish" {
			continue
		}
		if keeps, _ := b.Keeps(); !keeps.Given() {
			out = append(out, page.Hole{What: "how long " + b.Strength + " keeps", Until: "no discard date: ask first", Key: "keeps under [strength." + b.Strength + "] in " + b.Def().File})
		}
	}
	for _, b := range strengths {
		out = append(out, lifeHoles(b)...)
	}
	return out
}

// lifeHoles are the lives in a bottle that nobody has written beside others: what
// stands in that state cannot be judged.
func lifeHoles(b lab.Bath) []page.Hole {
	keeps, key := b.Keeps()
	if !keeps.Full.Given() && !keeps.Part.Given() && !keeps.Low.Given() {
		return nil
	}
	var out []page.Hole
	for _, l := range []struct {
		life       unit.Life
		key, words string
	}{{keeps.Full.Life, "full", "sealed"}, {keeps.Part.Life, "part", "opened"}, {keeps.Low.Life, "low", "below half"}} {
		if !l.life.Given() {
			out = append(out, page.Hole{What: "how long " + b.Strength + " keeps " + l.words, Until: "such a bottle cannot be judged: ask first", Key: key + l.key + " in " + b.Def().File})
		}
	}
	return out
}

func (c *Context) productCard(s *lab.Product) page.Page {
	supplied := lab.Bath{Product: s, Strength: lab.Supplied}
	known := c.dangers(supplied)
	p := page.Page{ID: "mix/" + s.ID, Kind: "mixing", KindLine: "Mixing card", Title: capital(s.Name), Lead: page.Say(page.W("bought ready made")), Role: roleOf(s.Role), Was: wasIDs("mix/", s.Was)}
	c.approvedUnknown(s.Def, known)
	p.Before = beforeJob(work.Dilute, known)
	// The tables are the work here: what stands beside them may be left out on
	// a small sheet.
	p.Do, p.Tables = c.vesselTables(s.StrengthNames(), func(name string) lab.Bath { return lab.Bath{Product: s, Strength: name} })
	p.Do = append(p.Do, c.spentPara(supplied))
	p.Tables = append(p.Tables, c.compositionTable(s)...)
	p.Never = bottleNever(supplied, s.Never, nil)
	p.Today = c.onShelf(s.ID)
	p.Why = append(p.Why, hazardBlock(known))
	if s.Note != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(s.Note))})
	}
	p.Record = c.keepsBlock(strengthsOf(s.StrengthNames(), supplied))
	p.Foot = c.foot(s.Def, append(c.holes(s.Def, s.Keeps, s.Density.Given(), s.Waste), c.bathHoles(known, strengthsOf(s.StrengthNames(), supplied))...))
	c.Variants = append(c.Variants, s.ID)
	if c.wanted(s.ID) {
		c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: s.ID, Faces: c.faces("a5")})
	}
	return p
}
