package cards

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/timing"
	"wetside/procedures/unit"
	"wetside/procedures/work"
)

// processCards makes one card for every process: its steps against the clock,
// for each film in each tank.
func processCards(c *Context) []page.Page {
	var out []page.Page
	for _, p := range c.Lab.Processes {
		out = append(out, (&processCard{c: c, p: p, t: timing.Times{Lab: c.Lab, Book: c.Book}}).page())
	}
	return out
}

// choice is one film in one vessel, at the temperature of the process, or where it
// has none at that of the measured time; where no time depends on the material, a
// vessel alone.
type choice struct {
	material *lab.Material // nil: any
	develop  int           // index of the development that the process uses, -1 without
	vessel   capacity.Vessel
	at       float64
	slow     bool // the tank drains slower than the process says
}

// running is the clock of one choice. It stops where nobody can say how long a
// step takes.
type running struct {
	*timing.Clock
	stopped bool
}

// tank is the id of the vessel, without the family of formats it is filled for.
func (ch choice) tank() string {
	tank, _, _ := strings.Cut(ch.vessel.Key, ",")
	return tank
}

func (ch choice) suffix() string {
	var by []string
	if ch.material != nil {
		by = append(by, ch.material.ID)
	}
	if ch.slow {
		by = append(by, ch.tank())
	}
	if ch.material != nil && ch.develop >= 0 {
		by = append(by, timing.Degrees(ch.at))
	}
	if len(by) == 0 {
		return ""
	}
	return "@" + strings.Join(by, ",")
}

// stepSuffix tells the variants of one step apart: by what its time hangs on.
func (ch choice) stepSuffix(s lab.ProcessStep) string {
	switch {
	case s.Time.Material:
		return ch.suffix()
	case s.Time.Clearing && ch.slow:
		return "@" + ch.material.ID + "," + ch.tank()
	case s.Time.Clearing:
		return "@" + ch.material.ID
	case ch.slow:
		return "@" + ch.tank()
	}
	return ""
}

type processCard struct {
	c *Context
	p *lab.Process
	t timing.Times

	choices   []choice
	devStep   int // the step whose time is the material's, -1 without
	developer lab.Bath
	baths     map[int]lab.Bath
	begins    int  // the first step that is not done before the baths
	any       bool // no time depends on the material
}

func (k *processCard) page() page.Page {
	k.resolve()
	p := page.Page{ID: "process/" + k.p.ID, Kind: "process", KindLine: "Process card", Title: capital(k.p.Name), Was: wasIDs("process/", k.p.Was)}
	if k.devStep >= 0 {
		p.Lead = page.Say(page.N(k.developer.Name()), page.W(", "), page.N(k.developer.Strength))
		if d := k.developer.Decl(); d != nil {
			p.Lead = append(append(p.Lead, page.W(" ")), dilutionText(d.Dilute.Dilution)...)
			if d.Use != "" && string(d.Use) != k.developer.Strength {
				p.Lead = append(p.Lead, page.W(", "+string(d.Use)))
			}
		}
	}
	for _, ch := range k.choices {
		p.Choices = append(p.Choices, page.Choice{Variant: k.variant(ch), Label: k.label(ch)})
	}
	p.Key = k.key()
	p.Before = k.before()
	p.Do = append(p.Do, k.clock())
	if t, ok := k.temps(); ok {
		p.Do = append(p.Do, t)
	}
	p.Tables = append(p.Tables, k.halfDegrees()...)
	p.Tables = append(p.Tables, k.clearingTable()...)
	p.Tables = append(p.Tables, k.pushTable()...)
	p.Tables = append(p.Tables, k.runsTable()...)
	p.Tables = append(p.Tables, k.shareTables()...)
	p.Never = neverBlock(k.p.Never, nil)
	if k.p.Like != "" {
		p.Why = append(p.Why, k.likeness())
	}
	if k.p.Note != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(k.p.Note))})
	}
	p.Do = append(p.Do, k.materialNotes()...) // the wall shows no reasons, and this is read there
	p.Why = append(p.Why, hazardBlock(k.known()))
	p.Today = k.today()
	p.Foot = k.c.foot(k.p.Def, k.holes())
	for i := range p.Choices {
		k.c.Variants = append(k.c.Variants, p.Choices[i].Variant)
		if k.c.wanted(p.Choices[i].Variant) {
			faces := k.c.faces("a4")
			if k.ruled(k.choices[i]) {
				faces = append(faces, "strip")
			}
			k.c.Prints = append(k.c.Prints, page.Print{Page: p.ID, Choice: i, Variant: p.Choices[i].Variant, Faces: faces})
		}
	}
	if len(p.Choices) == 0 {
		k.c.Prints = append(k.c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: k.p.ID, Faces: k.c.faces("a4")})
	}
	return p
}

// likeness says what this process is built on and which steps differ.
func (k *processCard) likeness() page.Block {
	title := k.p.Like
	for _, other := range k.c.Lab.Processes {
		if other.ID == k.p.Like {
			title = other.Name
		}
	}
	t := page.Say(page.W("Like "), page.L("process/"+k.p.Like, title))
	word := page.W("; what differs: ")
	for _, s := range k.p.Steps {
		if _, changed := k.p.Change[s.ID]; changed {
			t = append(t, word, page.N(stepName(s)))
			word = page.W(", ")
		}
	}
	return page.Para{Text: append(t, page.W("."))}
}

// wanted tells whether the lab prints a variant for the wall.
func (c *Context) wanted(variant string) bool {
	wall := c.Lab.Place.Print.Wall
	if len(wall) == 0 {
		return true
	}
	for _, w := range wall {
		if w == variant {
			return true
		}
	}
	return false
}

// resolve finds the baths, the developer, and each film in each tank.
func (k *processCard) resolve() {
	k.baths, k.devStep = map[int]lab.Bath{}, -1
	for i, s := range k.p.Steps {
		if s.Bath == "" {
			continue
		}
		b, bad := k.c.Lab.Bath(s.Bath, k.p.At(lab.StepKey(i)))
		if len(bad) > 0 || b.Zero() {
			continue
		}
		k.baths[i] = b
		if s.Time.Material && k.devStep < 0 {
			k.devStep, k.developer = i, b
		}
	}
	k.any = true
	for _, s := range k.p.Steps {
		k.any = k.any && !s.Time.Material && !s.Time.Clearing
	}
	vessels, trays := capacity.Vessels(k.c.Lab)
	if k.p.Base != "film" {
		vessels = trays
	}
	taken := map[string]bool{}
	for _, m := range k.c.Lab.Through(k.p) {
		develop, at := k.measured(m)
		if k.devStep >= 0 && develop < 0 {
			continue
		}
		for _, v := range vessels {
			ch := choice{material: m, develop: develop, vessel: v, at: at}
			ch.slow = v.Pour.Given() && v.Pour.Value() > drainOf(k.p).Value()
			same := m.ID + "/" + ch.tank() + "/" + v.Fill.Text()
			if k.any {
				ch.material, same = nil, ch.tank()+"/"+v.Fill.Text()
			}
			if !k.goesInto(m, v) || taken[same] {
				continue
			}
			taken[same] = true
			k.choices = append(k.choices, ch)
		}
	}
}

// measured finds the time of a material in the developer of this process, and the
// temperature that the card is for: that of the process, else that of the time.
func (k *processCard) measured(m *lab.Material) (develop int, at float64) {
	develop = -1
	for i, d := range m.Develop {
		if b, bad := k.c.Lab.Bath(d.In, m.At("develop")); len(bad) == 0 && !b.Zero() && k.devStep >= 0 && b.Ref() == k.developer.Ref() {
			develop, at = i, float64(d.At.Value())
		}
	}
	if q := k.p.Temperature.At; q.Given() {
		at = float64(q.Value())
	}
	return develop, at
}

// materialNotes are what is said of each material, for the choices of that material.
func (k *processCard) materialNotes() []page.Block {
	var notes []page.Text
	for i, ch := range k.choices {
		if ch.material == nil || !ch.material.Note.Given() {
			continue
		}
		by, _ := k.c.Lab.OriginOf(ch.material.Def, "note")
		note := k.c.W.Text(ch.material.ID+"/note", "what is said of it", ch.material.Name+": "+ch.material.Note.Text, by, nil)
		notes = forChoice(notes, page.Say(page.F(note)), i)
	}
	var out []page.Block
	for _, t := range notes {
		out = append(out, page.Para{Only: t.When(), Text: t})
	}
	return out
}

// forChoice adds a sentence that holds for one choice: each is said once, for all its
// choices.
func forChoice(list []page.Text, said page.Text, choice int) []page.Text {
	for i, t := range list {
		if sameText(t, said) {
			list[i] = t.With(page.Only{For: append(t.When().For, choice)})
			return list
		}
	}
	return append(list, said.With(page.Only{For: []int{choice}}))
}

// takesFamily reports whether a material comes in a family of formats.
func (k *processCard) takesFamily(m *lab.Material, family string) bool {
	for _, id := range m.Formats {
		if f, _, ok := k.c.Lab.FormatOf(m, id); ok && f.Family == family {
			return true
		}
	}
	return false
}

// goesInto tells whether a vessel takes any format of a material.
func (k *processCard) goesInto(m *lab.Material, v capacity.Vessel) bool {
	if len(m.Formats) == 0 {
		return v.Tray && len(v.Formats) == 0
	}
	return slices.ContainsFunc(capacity.Formats(k.c.Lab, m), v.Fits)
}

// variant names a print: the vessel's family only where one tank has two fills.
func (k *processCard) variant(ch choice) string {
	_, family, _ := strings.Cut(ch.vessel.Key, ",")
	tank := ch.tank()
	name := k.p.ID + "+" + tank
	if ch.material != nil {
		name = k.p.ID + "+" + ch.material.ID + "." + tank
	}
	for _, o := range k.choices {
		ot, of, _ := strings.Cut(o.vessel.Key, ",")
		if o.material == ch.material && ot == tank && of != family {
			return name + "," + family
		}
	}
	return name
}

func (k *processCard) label(ch choice) page.Text {
	t := page.Say(page.N(ch.vessel.Name))
	if ch.material != nil {
		t = page.Say(page.N(ch.material.Name), page.W(", "), page.N(ch.vessel.Name))
	}
	if strings.Contains(k.variant(ch), ",") {
		t = append(t, page.W(", "), page.N(ch.vessel.Family))
	}
	return t
}

// each collects one figure for each choice.
func (k *processCard) each(f func(choice) *figure.Record) []*figure.Record {
	ids := make([]*figure.Record, len(k.choices))
	for i, ch := range k.choices {
		ids[i] = f(ch)
	}
	return ids
}

// figs is one figure for each choice, or a single one where all are the same.
func figs(each []*figure.Record) page.Inline {
	if len(each) > 0 && !slices.ContainsFunc(each, func(f *figure.Record) bool { return f.ID != each[0].ID }) {
		return page.F(each[0])
	}
	return page.F(each...)
}

func (k *processCard) key() []page.Block {
	var out []page.Block
	by := func(key string) figure.Origin { o, _ := k.c.Lab.OriginOf(k.p.Said(key)); return o }
	if k.p.Temperature.At.Given() {
		q := k.p.Temperature.At
		id := figure.Declare(k.c.Book, k.p.ID+"/temperature", figure.KindTemperature, figure.Given(q, k.p.At("temperature.at"), by("temperature.at"), "temperature of all baths"), unit.Format(float64(q.Value()), unit.NewDecimal(1, 1)), "°C")
		a := page.Amount{Label: page.Say(page.W("all baths")), Value: page.Say(page.F(id))}
		if w := k.p.Temperature.Within; w.Given() {
			a.Note = page.Say(page.W("within "), page.F(figure.Declare(k.c.Book, k.p.ID+"/temperature.within", figure.KindTemperature, figure.Given(w, k.p.At("temperature.within"), by("temperature.within"), "all baths within"), unit.Short(float64(w.Value())), "K")))
		}
		out = append(out, a)
	} else if k.devStep >= 0 && len(k.choices) > 0 { // the time holds at this temperature only
		var ids []*figure.Record
		for _, ch := range k.choices {
			ids = append(ids, k.c.W.Degrees(ch.at))
		}
		out = append(out, page.Amount{Label: page.Say(page.W("develop at")), Value: page.Say(figs(ids))})
	}
	if ids := k.serving(); ids != nil {
		out = append(out, page.Amount{Label: page.Say(page.W("the tank serves")), Value: page.Say(figs(ids))})
	}
	return out
}

// serving is how many rolls or sheets of each choice's film the tank serves with
// the developer in it: never more than the reels, and never more than its stock
// is enough for.
func (k *processCard) serving() []*figure.Record {
	i := k.filled()
	if i < 0 || len(k.choices) == 0 || k.choices[0].vessel.Tray || k.p.Steps[i].Fill.Given() {
		return nil
	}
	tanks, _ := capacity.Vessels(k.c.Lab)
	return k.each(func(ch choice) *figure.Record {
		var words []string
		var in []*figure.Record
		for _, v := range tanks {
			same := ch
			same.vessel = v
			if same.tank() != ch.tank() || v.Fill.Text() != ch.vessel.Fill.Text() || ch.material != nil && !k.takesFamily(ch.material, v.Family) {
				continue
			}
			v.Material = ch.material
			f := capacity.FillOf(k.c.Mix, k.baths[i], v)
			if f.No != nil || f.Served.Count == 0 {
				continue
			}
			in = append(in, f.Served.Rolls)
			words = append(words, fmt.Sprintf("%d × %s", f.Served.Count, v.Family))
		}
		if len(words) == 0 {
			return k.c.W.Word("nothing", "nothing")
		}
		return k.c.W.Text(k.variant(ch)+"/serves", "what the tank serves", strings.Join(words, " or "), figure.Standard, nil, in...)
	})
}

// filled is the bath by which the card tells what a tank serves: the developer that
// the material times, else the first bath of which somebody has written what a roll
// needs; -1 without one.
func (k *processCard) filled() int {
	if k.devStep >= 0 {
		return k.devStep
	}
	for i := range k.p.Steps {
		if b, ok := k.baths[i]; ok && b.Decl() != nil && b.Decl().Needs.Given() {
			return i
		}
	}
	return -1
}

// ruled reports whether the step that the material times has a timeline to draw for
// a choice.
func (k *processCard) ruled(ch choice) bool {
	if k.devStep < 0 {
		return false
	}
	a, ok := k.p.Agitate[k.p.Steps[k.devStep].Agitate]
	if !ok || !a.First.Given() && !a.Then.Given() {
		return false
	}
	_, _, timed := k.t.At(ch.material, ch.develop, k.developer, ch.at)
	return timed
}

// unturned reports a developer or a fixer in a tank of which nobody has written
// how the tank is turned.
func (k *processCard) unturned(step int) bool {
	b, ok := k.baths[step]
	return ok && k.p.Base == "film" && k.p.Steps[step].Agitate == "" && (b.Role() == "developer" || b.Role() == "fixer")
}

// holes are what nobody has written about a process.
func (k *processCard) holes() []page.Hole {
	var out []page.Hole
	for i, s := range k.p.Steps {
		if !k.unturned(i) {
			continue
		}
		d, key := k.p.Said(lab.StepKey(i))
		out = append(out, page.Hole{What: "how the tank is turned in " + stepName(s), Until: "ask first", Key: "agitate in " + key + " of " + d.File + ", and [agitate.…] there"})
	}
	return out
}

func (k *processCard) known() work.Dangers { return k.c.W.Process(k.p.ID).Dangers }

func (k *processCard) before() []page.Block {
	out := append(beforeJob(work.AtWork, k.known()), k.dilutes()...)
	l := page.Checklist{Label: page.Say(page.W("have ready"))}
	if k.p.Base == "film" {
		l.Label = page.Say(page.W("before the light goes out"))
	}
	for _, b := range k.p.Bench {
		l.Items = append(l.Items, page.Say(page.N(b)))
	}
	l.Items = append(l.Items, k.first()...)
	if len(k.c.Lab.Batches) > 0 {
		l.Items = append(l.Items, page.Say(page.W("look at the shelf board first")))
	}
	if len(l.Items) > 0 {
		out = append(out, l)
	}
	return out
}

// firstBath is the bath of the first step that has one.
func (k *processCard) firstBath() lab.Bath {
	for i := range k.p.Steps {
		if b, ok := k.baths[i]; ok {
			return b
		}
	}
	return lab.Bath{}
}

// shortLived is the figure of how long a bath keeps once it is mixed, where that is not
// much longer than a process: two hours at most. It is nil for all others.
func (c *Context) shortLived(b lab.Bath) *figure.Record {
	keeps, key := b.Keeps()
	life, state := capacity.LifeInUse(keeps)
	if state != "poured" || life.Seconds <= 0 || life.Seconds > 2*60*60 {
		return nil
	}
	return c.W.Life(b.Ref()+"/keeps."+state, b.Def(), key+state, life.Life, state)
}

// dilutes says who leaves it to somebody else to fill the tank, where what is in the
// tank may be handled and what it is diluted from may not.
func (k *processCard) dilutes() []page.Block {
	if k.known().For(work.AtWork).NotPregnant {
		return nil
	}
	var names []string
	for i := range k.p.Steps {
		b, ok := k.baths[i]
		if !ok || !k.c.mixedOnTheSpot(b) {
			continue
		}
		from, _, diluted := b.From()
		if diluted && k.c.dangers(from).For(work.Dilute).NotPregnant && !slices.Contains(names, from.Name()) {
			names = append(names, from.Name())
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Pregnant or breast-feeding: do not dilute "), page.S(strings.Join(names, ", ")), page.S("."), page.W(" No need to explain yourself."))}}}
}

// first lists what is done before the first bath goes in.
func (k *processCard) first() []page.Text {
	var items []page.Text
	for i, s := range k.p.Steps {
		if s.Do == "" || s.Time.Given() || s.Until != "" || s.Optional {
			break
		}
		item := page.Say(page.N(s.Do))
		if s.Light != "" {
			item = append(item, page.W(" ("), page.N(s.Light), page.W(")"))
		}
		items = append(items, item)
		k.begins = i + 1
	}
	return items
}

// clock lays the steps out against the clock, for every choice at once.
func (k *processCard) clock() page.Clock {
	var out page.Clock
	clocks := make([]*running, len(k.choices))
	for i, ch := range k.choices {
		clocks[i] = &running{Clock: k.t.NewClock(k.p.ID, ch.suffix())}
	}
	drains := make([]figure.Figure[unit.Seconds], len(k.choices))
	for i, ch := range k.choices {
		drains[i] = k.t.Draining(k.p, ch.tank(), ch.vessel.Pour)
	}
	begun, stopped := false, false
	for i, s := range k.p.Steps {
		if i < k.begins {
			continue
		}
		row := page.ClockRow{ID: s.ID, Caution: sentence(s.Caution), Word: page.Say(page.N(stepName(s))), Gate: s.Gate != ""}
		if s.Gate != "" {
			row.Caution = append(row.Caution, page.Say(page.S("Do not shorten this: "), page.N(s.Gate)))
		}
		if s.Light != "" {
			row.Light = page.Say(page.N(s.Light))
		}
		if s.Note != "" {
			row.ForNote = page.Say(page.N(s.Note))
		}
		if stop, d, key := k.stopAbove(i, s); stop.Given() {
			id := k.c.W.Temperature(k.p.ID+"/stop-above."+s.ID, d, key, stop, "stop above")
			row.Caution = append(row.Caution, page.Say(page.S("Stop above "), page.F(id), page.W(": cool it first.")))
			k.c.Book.EnterVerdict(figure.Verdict{ID: k.p.ID + "/stop-above." + s.ID, Answer: "stop above " + unit.Spoken(stop), Limits: []string{unit.Spoken(stop)}, Because: []string{"warmer, this step does harm: cool it first"}, Source: "written in " + d.File})
		}
		if own := k.outside(i); own.Given() {
			id := k.c.W.Temperature(k.baths[i].Ref()+"/window", k.baths[i].Def(), "strength."+k.baths[i].Strength+".temperature.from", own, "this bath is for")
			row.Caution = append(row.Caution, page.Say(page.S("This bath is for "), page.F(id), page.W(": bring it there first.")))
		}
		if s.Place > 0 {
			row.Word = append(row.Word, page.W([]string{"", ", first of two", ", second of two"}[s.Place]))
		}
		if s.Optional {
			row.Word = append(row.Word, page.W(", if wanted"))
			stopped = true
		}
		b, isBath := k.baths[i]
		switch {
		case isBath:
			begun = true
			k.bathRow(&row, i, s, b, clocks, drains, stopped)
		case len(s.Fills) > 0:
			k.fillsRow(&row, i, s, clocks, begun, &stopped)
			begun = begun || s.Time.Given() || s.Over.Given()
		case s.Flow.Given():
			begun = true
			row.Role = page.Wash
			flow := figure.Declare(k.c.Book, k.p.ID+"/flow."+s.ID, figure.KindAmount, figure.Given(s.Flow, k.p.At(lab.StepKey(i)+".flow"), figure.House, "running water"), unit.Short(float64(s.Flow.Value())), "L/min")
			row.Bath = page.Say(page.W("running water, "), page.F(flow))
			k.plainTime(&row, i, s, clocks, stopped)
			row.Goes = k.left(s)
		default:
			row.Bath = page.Say(page.N(s.Do))
			row.Role = ""
			begun = begun || s.Time.Given()
			long := !s.Time.Given() || s.Time.Fixed.Value() >= 3600
			k.plainTime(&row, i, s, clocks, stopped || long)
			stopped = stopped || begun && long
			row.Goes = k.left(s)
		}
		if s.Until != "" {
			row.Cue = append(join(row.Cue), page.W("until "), page.N(s.Until))
			by := page.W("judge by eye: no clock from here")
			if s.Time.Given() {
				by = page.W("about so long: judge by eye, no clock from here")
			}
			row.ForNote = append(page.Say(by), noteAfter(row.ForNote)...)
			stopped = true
		}
		if s.Below.Given() {
			row.Cue = append(row.Cue, page.W("below "), page.F(k.temperature("below."+s.ID, lab.StepKey(i)+".below", s.Below.Quantity, "below")))
		}
		if s.Within.Given() {
			id := figure.Declare(k.c.Book, k.p.ID+"/within."+s.ID, figure.KindTemperature, figure.Given(s.Within, k.p.At(lab.StepKey(i)+".within"), figure.House, "within"), unit.Short(float64(s.Within.Value())), "K")
			row.Cue = append(join(row.Cue), page.W("within "), page.F(id), page.W(" of the baths"))
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// outside is the window of a bath that the temperature of the process lies outside;
// of a development the time says so.
func (k *processCard) outside(i int) (own unit.Quantity[unit.Temperature]) {
	b, ok := k.baths[i]
	at := k.p.Temperature.At
	if !ok || !at.Given() || b.Decl() == nil || k.p.Steps[i].Time.Material {
		return own
	}
	if w := b.Decl().Temperature.From; w.Given() && (at.Value() < w.Low() || at.Value() > w.High()) {
		return w.Quantity
	}
	return own
}

// stopAbove is the temperature above which a step does harm, and who says so: the
// step itself or its bath, the lower of the two.
func (k *processCard) stopAbove(i int, s lab.ProcessStep) (q unit.Quantity[unit.Temperature], d lab.Def, key string) {
	d, key = k.p.Said(lab.StepKey(i) + ".stop_above")
	q = s.StopAbove.Quantity
	b, ok := k.baths[i]
	if !ok || b.Decl() == nil || !b.Decl().Temperature.StopAbove.Given() {
		return q, d, key
	}
	if own := b.Decl().Temperature.StopAbove; !q.Given() || own.Low() < q.Low() {
		return own.Quantity, b.Def(), "strength." + b.Strength + ".temperature.stop_above"
	}
	return q, d, key
}

// temperature enters a temperature that the process declares.
func (k *processCard) temperature(what, key string, q unit.Quantity[unit.Temperature], name string) *figure.Record {
	d, in := k.p.Said(key)
	return k.c.W.Temperature(k.p.ID+"/"+what, d, in, q, name)
}

// plainTime is how long a step without a bath takes, and the clock at its start.
func (k *processCard) plainTime(row *page.ClockRow, i int, s lab.ProcessStep, clocks []*running, stopped bool) {
	if !s.Time.Fixed.Given() {
		k.now(row, clocks, stopped || s.Until == "")
		return
	}
	id, length := k.t.Fixed(k.p, i)
	row.For = page.Say(page.F(id))
	if s.Until != "" {
		k.now(row, clocks, stopped)
		return
	}
	k.advance(row, s, clocks, same(length, len(clocks)), nil, stopped)
}

// same is one length for every choice.
func same(length figure.Figure[unit.Seconds], n int) []*figure.Figure[unit.Seconds] {
	out := make([]*figure.Figure[unit.Seconds], n)
	for i := range out {
		out[i] = &length
	}
	return out
}

// now puts the clock into a row without moving it on.
func (k *processCard) now(row *page.ClockRow, clocks []*running, stopped bool) {
	row.At = page.Say(page.W("then"))
	if stopped || len(clocks) == 0 {
		return
	}
	var at []*figure.Record
	for _, c := range clocks {
		if c.stopped {
			at = append(at, k.c.W.Word("then", "then"))
			continue
		}
		at = append(at, c.Now())
	}
	row.At = page.Say(figs(at))
}

func noteAfter(t page.Text) page.Text {
	if len(t) == 0 {
		return nil
	}
	return append(page.Say(page.W("; ")), t...)
}

// left says where what a step without a bath leaves goes, where it is not the
// drain's.
func (k *processCard) left(s lab.ProcessStep) page.Text {
	switch {
	case s.Waste == "":
		return nil
	case s.Flow.Given():
		return append(page.Say(page.W("the first of it ")), k.c.routeOf(s.Waste)...)
	}
	return k.c.routeOf(s.Waste)
}

func join(t page.Text) page.Text {
	if len(t) > 0 {
		return append(t, page.W("; "))
	}
	return t
}

func drainOf(p *lab.Process) unit.Quantity[unit.Seconds] {
	if p.Clock.Drain.Given() {
		return p.Clock.Drain.Quantity
	}
	return unit.MustParse[unit.Seconds]("0 s")
}

func stepName(s lab.ProcessStep) string {
	if s.Name != "" {
		return s.Name
	}
	return lab.Title(s.ID)
}

// advance puts the clock into a row and moves it on by each choice's length; the
// clock of a choice without one (nil) stops there. drains may be nil.
func (k *processCard) advance(row *page.ClockRow, s lab.ProcessStep, clocks []*running, lengths []*figure.Figure[unit.Seconds], drains []figure.Figure[unit.Seconds], stopped bool) {
	if stopped || len(clocks) == 0 {
		row.At = page.Say(page.W("then"))
		return
	}
	var at, out []*figure.Record
	drained := false
	for n, c := range clocks {
		switch {
		case c.stopped:
			at, out = append(at, k.c.W.Word("then", "then")), append(out, k.c.W.Word("none", "–"))
			continue
		case lengths[n] == nil:
			at, out = append(at, c.Now()), append(out, k.c.W.Word("none", "–"))
			c.stopped = true
			continue
		}
		var drain figure.Figure[unit.Seconds]
		if drains != nil {
			drain = drains[n]
		}
		a, d := c.Step(s.ID, *lengths[n], drain)
		at = append(at, a)
		drained = drained || d != nil
		if d == nil {
			d = k.c.W.Word("none", "–")
		}
		out = append(out, d)
	}
	row.At = page.Say(figs(at))
	if drained {
		row.Drain = page.Say(figs(out))
	}
}

func (k *processCard) bathRow(row *page.ClockRow, i int, s lab.ProcessStep, b lab.Bath, clocks []*running, drains []figure.Figure[unit.Seconds], stopped bool) {
	row.Role = roleOf(b.Role())
	text, refusals := k.bathText(i, s, b)
	row.Bath, row.Caution = text, append(row.Caution, refusals...)
	row.Goes = k.goes(s, b)
	lengths := make([]*figure.Figure[unit.Seconds], len(k.choices))
	var ids []*figure.Record
	timed := false
	var whys []page.Text
	for n, ch := range k.choices {
		var id *figure.Record
		var fig figure.Figure[unit.Seconds]
		ok := true
		switch {
		case s.Time.Material:
			id, fig, ok = k.t.At(ch.material, ch.develop, b, ch.at)
		case s.Time.Clearing:
			var no string
			id, fig, no = k.t.Fix(k.p, i, ch.material)
			ok = no == ""
		case s.Time.Given():
			id, fig = k.t.Fixed(k.p, i)
		default:
			continue
		}
		ids = append(ids, id)
		if ok {
			lengths[n], timed = &fig, true
			continue
		}
		why := page.Say(page.S("No time"), page.W(" for "), page.N(ch.material.Name), page.W(": "), page.N(id.Why))
		whys = forChoice(whys, why, n)
	}
	row.Caution = append(row.Caution, whys...)
	if len(ids) > 0 {
		row.For = page.Say(figs(ids))
	}
	if d := b.Decl(); s.Time.Material && d != nil && d.Longer.Given() {
		if len(row.ForNote) > 0 {
			row.ForNote = append(row.ForNote, page.W("; "))
		}
		row.ForNote = append(row.ForNote, page.S("in fresh developer only"), page.W(": in a used one by the strip of its bottle"))
	}
	if s.Time.Clearing {
		row.ForNote = append(row.ForNote, page.W("or "), figs(k.each(k.factor)), page.W(" clearing, if longer"))
	}
	if life := k.c.shortLived(b); life != nil && b.Ref() != k.firstBath().Ref() {
		if len(row.ForNote) > 0 {
			row.ForNote = append(row.ForNote, page.W("; "))
		}
		row.ForNote = append(row.ForNote, page.W("mixed only while the step before runs: it keeps "), page.F(life))
	}
	if s.Until != "" {
		k.now(row, clocks, stopped)
	} else {
		k.advance(row, s, clocks, lengths, drains, stopped)
	}
	switch {
	case timed && s.Agitate != "":
		k.agitate(row, s, lengths, drains)
	case k.unturned(i):
		row.Cue = page.Say(page.W("how it is turned: "), page.Inline{Kind: page.Ask, Text: "first"})
	}
}

// factor is how many times its clearing time the film of a choice is fixed: the
// house's rule for its grain.
func (k *processCard) factor(ch choice) *figure.Record {
	g := k.t.ClearingTimes(ch.material)
	grain := "film"
	if ch.material.Grain == "tabular" {
		grain = "tabular"
	}
	return figure.Declare(k.c.Book, "house/fix-clearing."+grain, figure.KindCount, g, unit.Short(float64(g.Value)), "×")
}

func sameText(a, b page.Text) bool {
	return slices.EqualFunc(a, b, func(x, y page.Inline) bool {
		return x.Kind == y.Kind && x.Text == y.Text && x.Card == y.Card &&
			slices.EqualFunc(x.Figures, y.Figures, func(f, g *figure.Record) bool { return f.ID == g.ID })
	})
}

// agitate says what the hands do, and draws the ruler of the step that the
// material times.
func (k *processCard) agitate(row *page.ClockRow, s lab.ProcessStep, lengths []*figure.Figure[unit.Seconds], drains []figure.Figure[unit.Seconds]) {
	a := k.p.Agitate[s.Agitate]
	all := make([]timing.Agitation, len(k.choices))
	for n, ch := range k.choices {
		if lengths[n] != nil {
			all[n] = k.t.Agitate(k.p, s.ID, ch.stepSuffix(s), *lengths[n], drains[n])
		}
	}
	// pick is one figure for each choice, a dash where it has none; nothing where none has.
	pick := func(f func(timing.Agitation) *figure.Record) []*figure.Record {
		var ids []*figure.Record
		some := false
		for _, x := range all {
			id := f(x)
			some = some || id != nil
			if id == nil {
				id = k.c.W.Word("none", "–")
			}
			ids = append(ids, id)
		}
		if !some {
			return nil
		}
		return ids
	}
	first := pick(func(x timing.Agitation) *figure.Record { return x.First })
	cue := page.Text{}
	if a.First.Given() && len(first) > 0 {
		if a.First.Continuous() {
			cue = append(cue, page.W("keep moving for the first "), figs(first))
		} else {
			n := figure.Declare(k.c.Book, k.p.ID+"/first-turns."+s.ID, figure.KindCount, figure.GivenNumber(unit.Factor(a.First.Count), a.First.Text(), k.p.At("agitate."+s.Agitate+".first"), figure.House, "turns at first"), fmt.Sprint(a.First.Count), "")
			cue = append(cue, page.F(n), page.W(" turns in the first "), figs(first))
		}
		if a.Note != "" {
			cue = append(cue, page.W(", "), page.N(a.Note))
		}
	}
	last := pick(func(x timing.Agitation) *figure.Record { return x.Last })
	if len(last) > 0 {
		m := figure.Declare(k.c.Book, k.p.ID+"/then-turns."+s.ID, figure.KindCount, figure.GivenNumber(unit.Factor(a.Then.Count), a.Then.Text(), k.p.At("agitate."+s.Agitate+".then"), figure.House, "turns each time"), fmt.Sprint(a.Then.Count), "")
		cue = append(cue, page.W("; then "), page.F(m), page.W(" every "), figs(pick(func(x timing.Agitation) *figure.Record { return x.Every })), page.W(", "), figs(pick(func(x timing.Agitation) *figure.Record { return x.Times })), page.W(", the last at "), figs(last))
		if !s.Time.Material {
			cue = append(cue, page.W(" after pour-in"))
		}
		if turns := pick(func(x timing.Agitation) *figure.Record { return x.Turns }); len(turns) > 0 {
			cue = append(cue, page.W(" ("), figs(turns), page.W(" in all)"))
		}
	}
	row.Cue = cue
	if s.Time.Material {
		row.Ruler = page.Ruler{
			Length: k.each(func(ch choice) *figure.Record {
				id, _, _ := k.t.At(ch.material, ch.develop, k.developer, ch.at)
				return id
			}),
			First: first, Marks: pick(func(x timing.Agitation) *figure.Record { return x.Marks }), Lasts: pick(func(x timing.Agitation) *figure.Record { return x.Lasts }), Drain: pick(func(x timing.Agitation) *figure.Record { return x.Drain }),
		}
	}
}

// bathText is what is in the vessel: so much stock, water to so much; or what is
// brushed onto a sheet. Where it must not be made up like that in some vessel, the
// reasons come besides.
func (k *processCard) bathText(i int, s lab.ProcessStep, b lab.Bath) (text page.Text, refusals []page.Text) {
	name := page.L("mix/"+b.Def().ID, b.Name())
	if d := b.Decl(); d != nil && d.Coat.Given() {
		return k.coatText(b, name), nil
	}
	if len(k.choices) == 0 {
		return page.Say(name, page.W(", "), page.N(b.Strength)), nil
	}
	var draws, volumes []*figure.Record
	from, diluted := b, false
	for n, ch := range k.choices {
		v := k.vesselOf(i, s, ch)
		f := k.c.W.Fill(b, v)
		from, diluted = f.From, diluted || f.Diluted
		volumes = append(volumes, f.Volume)
		if f.No == nil {
			draws = append(draws, f.Take.Amount)
			continue
		}
		draws = append(draws, f.No)
		if !f.Diluted {
			volumes[len(volumes)-1] = f.No
		}
		why := page.Say(page.S("Not in the "), page.N(v.Name), page.W(": "), page.N(f.Why), page.W(" (wanted: "), page.F(f.Wanted), page.W("); "), page.N(f.Way))
		refusals = forChoice(refusals, why, n)
	}
	if !diluted {
		return page.Say(figs(volumes), page.W(" "), name, page.W(", "), page.N(b.Strength)), refusals
	}
	water := "water"
	if b.Decl().Water == "deionised" {
		water = "deionised water"
	}
	return page.Say(figs(draws), page.W(" "), page.L("mix/"+b.Def().ID, from.Name()), page.W(" "), page.N(from.Strength), page.W(", "+water+" to "), figs(volumes)), refusals
}

// vesselOf is what a step's bath stands in: the vessel of the choice, or the dish
// that the step names a fill for.
func (k *processCard) vesselOf(i int, s lab.ProcessStep, ch choice) capacity.Vessel {
	v := ch.vessel
	if s.Fill.Given() {
		v.Fill, v.Name, v.Tray = s.Fill, "dish of this step", true
	}
	return v
}

// coatText is what is brushed onto a sheet, by the sheet where the lab has formats
// for it.
func (k *processCard) coatText(b lab.Bath, name page.Inline) page.Text {
	t := page.Say(page.W("brush on "))
	for _, f := range capacity.Formats(k.c.Lab, k.c.Lab.Through(k.p)...) {
		id := capacity.CoatSheet(k.c.Mix, b, f)
		if id == nil {
			continue
		}
		if len(t) > 1 {
			t = append(t, page.W(", "))
		}
		t = append(t, page.F(id), page.W(" a sheet of "), page.N(f.ID))
	}
	if len(t) == 1 {
		t = append(t, page.Inline{Kind: page.Ask})
	}
	return append(t, page.W(" of "), name, page.W(", "), page.N(b.Strength))
}

// goes says where the bath goes afterwards. An empty answer is never 'down the
// drain'.
func (k *processCard) goes(s lab.ProcessStep, b lab.Bath) page.Text {
	if s.Waste != "" {
		return append(page.Say(page.W("spent: ")), k.c.routeOf(s.Waste)...)
	}
	if d := b.Decl(); d != nil && (d.Use == "re-use" || d.Use == "replenish") {
		word := "prints"
		if k.p.Base == "film" {
			word = "roll"
		}
		t := page.Say(page.W("back to its bottle, tick the " + word))
		if k.any {
			return append(t, k.treatedAny(b, int(s.Place))...)
		}
		return append(t, k.treated(b, int(s.Place))...)
	}
	spent := append(page.Say(page.W("spent: ")), k.c.spent(b)...)
	if d := b.Decl(); s.Place > 0 && !k.any && d != nil && len(d.Limits) > 0 { // when the next takes its place
		return append(spent, k.treated(b, int(s.Place))...)
	}
	return spent
}

// treatedAny is what a litre of a bath treats of what a process without films is
// mostly used for.
func (k *processCard) treatedAny(b lab.Bath, place int) page.Text {
	var mine []capacity.Capacity
	for _, x := range k.c.W.Capacities(b, litre) {
		if x.Format.Material.Base == k.p.Base && (x.Place == 0 || x.Place == max(place, 1)) {
			mine = append(mine, x)
		}
	}
	if len(mine) == 0 {
		return page.Say(page.W(": how many a litre treats, "), page.Inline{Kind: page.Ask, Text: "first"})
	}
	x := k.c.W.MostUsed(b, mine)
	switch {
	case x.ByUses():
		return page.Say(page.W(": good for "), page.F(x.Uses), page.W(", however many at once"))
	case x.NoWhy != "":
		return page.Say(page.W("; "), page.N(x.NoWhy))
	}
	what := " prints of "
	if k.p.Base == "film" {
		what = " rolls of "
	}
	return page.Say(page.W(": a litre treats "), page.B(x.N), page.W(what), page.N(x.Format.ID))
}

// fits reports whether a format goes into the vessel of a choice, filled as it is.
func (k *processCard) fits(ch choice, f capacity.Format) bool {
	if ch.vessel.Tray {
		return ch.vessel.Fits(f)
	}
	tanks, _ := capacity.Vessels(k.c.Lab)
	for _, v := range tanks {
		same := ch
		same.vessel = v
		if same.tank() == ch.tank() && v.Fill.Text() == ch.vessel.Fill.Text() && v.Family == f.Decl.Family {
			return true
		}
	}
	return false
}

// treated is how many of its own format each choice may put through a litre of a
// bath at a place of two.
func (k *processCard) treated(b lab.Bath, place int) page.Text {
	all := k.c.W.Capacities(b, litre)
	for _, x := range all {
		if x.ByUses() && x.Format.Material.Base == k.p.Base {
			return page.Say(page.W(": good for "), page.F(x.Uses), page.W(", however many at once"))
		}
	}
	some := false
	var of []*figure.Record
	ids := k.each(func(ch choice) *figure.Record {
		var id *figure.Record
		format, least := "", 0
		for _, x := range all {
			if x.Format.Material != ch.material || x.NoWhy != "" || x.Place != 0 && x.Place != max(place, 1) || !k.fits(ch, x.Format) {
				continue
			}
			// One vessel may take two formats: the lower number holds for both.
			if id == nil || x.Count < least {
				id, format, least = x.N, x.Format.ID, x.Count
			}
		}
		some = some || id != nil
		if id == nil {
			of = append(of, k.c.W.Word("no-format", "for this film"))
			return k.c.W.Word("ask", "ask first")
		}
		of = append(of, k.c.W.Text("word/format."+format, "the format", "of "+format, figure.Standard, nil))
		return id
	})
	if !some {
		return page.Say(page.W(": how many a litre treats, "), page.Inline{Kind: page.Ask, Text: "first"})
	}
	return page.Say(page.W(": a litre treats: "), figs(ids), page.W(" "), figs(of))
}

func (k *processCard) fillsRow(row *page.ClockRow, i int, s lab.ProcessStep, clocks []*running, begun bool, stopped *bool) {
	row.Role = page.Wash
	words := make([]string, len(s.Fills))
	series := make([]float64, len(s.Fills))
	for n, turns := range s.Fills {
		words[n], series[n] = fmt.Sprint(turns), float64(turns)
	}
	by, _ := k.c.Lab.OriginOf(k.p.Said(lab.StepKey(i) + ".fills"))
	at := k.p.At(lab.StepKey(i) + ".fills")
	core := figure.Core{ID: k.p.ID + "/fills." + s.ID, Series: series, Value: float64(len(series)), Source: "common practice, no source", Origin: by,
		Inputs: []figure.InputRef{{Name: "turns in each fill", Where: at, Text: strings.Join(words, ", "), Origin: by}}}
	id := k.c.Book.Enter(figure.Of(core, figure.Face{Kind: figure.KindSeries, Name: "turns in each fill", Unit: "turns",
		Shown: strings.Join(words, " · "), Rounded: strings.Join(words, " "), Round: figure.Rounding{Rule: "as declared"}}))
	row.Bath = page.Say(page.W("fill, close, turn, dump: "), page.B(id), page.W(" turns"))
	switch {
	case s.Over.Given():
		over, length := k.t.Over(k.p, i)
		row.For = page.Say(page.F(over))
		k.advance(row, s, clocks, same(length, len(clocks)), nil, *stopped)
	case s.Time.Fixed.Given():
		id, length := k.t.Fixed(k.p, i)
		row.For = page.Say(page.F(id))
		k.advance(row, s, clocks, same(length, len(clocks)), nil, *stopped)
	default:
		row.ForNote = append(page.Say(page.W("count, not clock")), noteAfter(row.ForNote)...)
		k.now(row, clocks, *stopped || !begun)
		*stopped = true
	}
	if s.CollectFirst.N > 0 {
		n := figure.Declare(k.c.Book, k.p.ID+"/collect."+s.ID, figure.KindCount, figure.GivenNumber(unit.Factor(s.CollectFirst.N), fmt.Sprint(s.CollectFirst.N), k.p.At(lab.StepKey(i)+".collect_first"), by, "fills collected"), fmt.Sprint(s.CollectFirst.N), "")
		first := page.Say(page.W("the first "), page.F(n), page.W(" fills "))
		if s.CollectFirst.N == 1 {
			first = page.Say(page.W("the first fill "))
		}
		row.Goes = append(slices.Clone(first), page.W("to a drum: ask first"))
		for j := i - 1; j >= 0; j-- {
			if b, ok := k.baths[j]; ok {
				row.Goes = append(first, k.c.spent(b)...)
				break
			}
		}
	}
}

// window is the range of temperatures of the developer in half degrees.
func (k *processCard) window() []float64 {
	if k.devStep < 0 || len(k.choices) == 0 {
		return nil
	}
	d := k.developer.Decl()
	if d == nil || !d.Temperature.From.IsRange() || !d.Temperature.HasSlope() {
		return nil
	}
	low, high := float64(d.Temperature.From.Low()), float64(d.Temperature.From.High())
	first := unit.Round(low, 0.5, unit.Up)
	last := unit.Round(high, 0.5, unit.Down)
	if last-first > 30 {
		return nil
	}
	var out []float64
	for at := first - 0.5; at <= last+0.5; at = unit.Snap(at + 0.5) {
		out = append(out, at)
	}
	return out
}

func (k *processCard) timesAt(at float64) []*figure.Record {
	return k.each(func(ch choice) *figure.Record {
		id, _, _ := k.t.At(ch.material, ch.develop, k.developer, at)
		return id
	})
}

func (k *processCard) degree(at float64) page.Text { return page.Say(page.F(k.c.W.Degrees(at))) }

func (k *processCard) temps() (page.Temps, bool) {
	window := k.window()
	if window == nil {
		return page.Temps{}, false
	}
	t := page.Temps{Caption: page.Say(page.W("Not at that temperature? Develop for"))}
	for i, at := range window {
		end := i == 0 || i == len(window)-1
		cell := page.Temp{At: k.degree(at), Time: k.timesAt(at), Whole: end || at == float64(int(at))}
		cell.Ref = len(k.choices) > 0 && at == k.choices[0].at
		t.Cells = append(t.Cells, cell)
	}
	t.Note = page.Say(page.W("Every later time moves by as much. "), page.S("NEVER"), page.W(" outside the window: any time is a guess"))
	return t, true
}

// halfDegrees is the same for every film at once, for the binder.
func (k *processCard) halfDegrees() []page.Block {
	window := k.window()
	if window == nil {
		return nil
	}
	t := page.Table{ID: "temperature", Caption: page.Say(page.S("Time at each temperature"), page.W(", "), page.N(k.developer.Name()), page.W(" "), page.N(k.developer.Strength)), Head: []page.Text{page.Say(page.W("bath at"))}}
	var films []choice
	for _, ch := range k.choices {
		if len(films) == 0 || films[len(films)-1].material != ch.material {
			films = append(films, ch)
			t.Head = append(t.Head, page.Say(page.N(ch.material.Name)))
		}
	}
	for _, at := range window {
		row := page.Row{Cells: []page.Cell{{Text: k.degree(at)}}}
		for _, ch := range films {
			id, _, ok := k.t.At(ch.material, ch.develop, k.developer, at)
			row.Cells = append(row.Cells, k.timeCell(id, ok, at == ch.at))
		}
		t.Rows = append(t.Rows, row)
	}
	return []page.Block{t}
}

func (k *processCard) timeCell(time *figure.Record, ok, chosen bool) page.Cell {
	if !ok {
		return page.Cell{No: true, Why: time.Why, Refused: time}
	}
	return page.Cell{Text: page.Say(page.B(time)), Chosen: chosen}
}

// clearingTable is how long each film takes to clear in fresh fixer, and how to
// find out what it takes today.
func (k *processCard) clearingTable() []page.Block {
	t := page.Table{ID: "clearing", Caption: page.Say(page.S("Clearing time"), page.W(": measure it before the first film of the evening")),
		Head: []page.Text{page.Say(page.W("film")), page.Say(page.W("clears in fresh fixer in")), page.Say(page.W("fix at least"))}}
	for i, s := range k.p.Steps {
		if !s.Time.Clearing {
			continue
		}
		seen := map[string]bool{}
		for _, ch := range k.choices {
			if seen[ch.material.ID] {
				continue
			}
			seen[ch.material.ID] = true
			row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(ch.material.Name))}}}
			if !ch.material.Clears.Given() {
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.W("not measured: "), page.Inline{Kind: page.Ask, Text: "first"})}, page.Cell{Text: page.Say(page.W("–"))})
			} else {
				by, _ := k.c.Lab.OriginOf(ch.material.Def, "clears")
				fresh := figure.Declare(k.c.Book, ch.material.ID+"/clears", figure.KindTime, figure.Given(ch.material.Clears, ch.material.At("clears"), by, "clearing time in fresh fixer"), unit.Short(float64(ch.material.Clears.Value())), "s")
				id, _, _ := k.t.Fix(k.p, i, ch.material)
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(fresh))}, page.Cell{Text: page.Say(page.F(id))})
			}
			t.Rows = append(t.Rows, row)
		}
		break
	}
	if len(t.Rows) == 0 {
		return nil
	}
	t.Note = page.Say(page.W("A drop of the bath on a piece of leader of the same film; after half a minute the whole piece into the bath, and start the clock. When the edge of the drop can no longer be seen, that is the clearing time. Twice the fresh time: the bath is spent."))
	return []page.Block{t}
}

// pushTable is the time at other exposure indexes.
func (k *processCard) pushTable() []page.Block {
	if k.devStep < 0 {
		return nil
	}
	d := k.developer.Decl()
	if d == nil || d.Push == nil && d.Pull == nil {
		return nil
	}
	lo, hi := 0, 0
	if d.Pull != nil {
		lo = -int(d.Pull.Most.Count)
	}
	if d.Push != nil {
		hi = int(d.Push.Most.Count)
	}
	t := page.Table{ID: "push", Caption: page.Say(page.S("Push and pull"), page.W(", starting points: shadows do not come back")), Head: []page.Text{page.Say(page.W("film")), page.Say(page.W("exposed at")), page.Say(page.W("develop for"))}}
	seen := map[string]bool{}
	for _, ch := range k.choices {
		if seen[ch.material.ID] || ch.material.Speed.Count == 0 {
			continue
		}
		seen[ch.material.ID] = true
		for stops := lo; stops <= hi+1; stops++ {
			id, ei, ok := k.t.Pushed(ch.material, ch.develop, k.developer, stops, ch.at)
			if ei == nil {
				continue
			}
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.N(ch.material.Name))}, {Text: page.Say(page.F(ei))}, k.timeCell(id, ok, stops == 0)}})
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{t}
}

// runCounts are the numbers of rolls that the table of runs shows.
var runCounts = []int{2, 3, 5, 7, 10}

// serves reports whether a tank takes a format of any film of this process.
func (k *processCard) serves(v capacity.Vessel) bool {
	for _, ch := range k.choices {
		if ch.material != nil && k.takesFamily(ch.material, v.Family) {
			return true
		}
	}
	return false
}

// runsTable says how many runs a number of rolls takes in each tank (I1).
func (k *processCard) runsTable() []page.Block {
	if k.devStep < 0 {
		return nil
	}
	t := page.Table{ID: "runs", Caption: page.Say(page.S("How many runs"), page.W(" so many films or sheets of one time take")), Head: []page.Text{page.Say(page.W("tank"))}}
	for _, n := range runCounts {
		g := figure.Constant(unit.Factor(n), "pieces", "", figure.Standard)
		t.Head = append(t.Head, page.Say(page.F(figure.Declare(k.c.Book, fmt.Sprintf("pieces/%d", n), figure.KindCount, g, fmt.Sprint(n), ""))))
	}
	tanks, _ := capacity.Vessels(k.c.Lab)
	for _, v := range tanks {
		if !k.serves(v) {
			continue
		}
		f := k.c.W.Fill(k.developer, v)
		if f.No != nil {
			continue
		}
		per := figure.Entered[unit.Factor](f.Served.Rolls)
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(v.Name), page.W(", "), page.N(v.Family))}}}
		for _, n := range runCounts {
			f := capacity.Runs(fmt.Sprintf("%s/runs@%s,%d", k.p.ID, v.Key, n), n, per)
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.B(figure.Enter(k.c.Book, f)))})
		}
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{t}
}
