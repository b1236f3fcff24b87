package timing

import (
	"fmt"
	"math/big"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Times works out times, entering each figure once.
type Times struct {
	Lab  *lab.Lab
	Book *figure.Ledger
}

func (t Times) step() float64 { return float64(t.Lab.Place.House.Filled().TimeStep.Value()) }

// Degrees is the part of an id that names a temperature.
func Degrees(c float64) string { return fmt.Sprintf("%.1fc", c) }

// At is the development time of a material in a bath at a temperature (C5). A
// refused figure says why: outside the window, no slope, too short.
func (t Times) At(m *lab.Material, i int, b lab.Bath, at float64) (*figure.Record, figure.Figure[unit.Seconds], bool) {
	dev := m.Develop[i]
	id := figure.ID(m.ID, "time", b.Ref(), Degrees(at))
	name := fmt.Sprintf("time of %s in %s", m.Name, b.Name())
	measured := dev.Time.Figure("time measured")
	from := dev.At.Figure("its temperature")
	decl := b.Decl()
	var window lab.Window
	if decl != nil {
		window = decl.Temperature
	}
	wanted := figure.Constant(unit.Temperature(at), "temperature of the bath", "the card says for which", figure.House)
	refuse := func(why string) (*figure.Record, figure.Figure[unit.Seconds], bool) {
		no := t.Book.Refuse(id, figure.KindTime, name, "s", why, measured.Origin())
		return no, figure.Figure[unit.Seconds]{}, false
	}
	if window.From.Given() && (unit.Temperature(at) < window.From.Low() || unit.Temperature(at) > window.From.High()) {
		return refuse("outside " + unit.Spoken(window.From) + ": a time there would be a guess")
	}
	if stop := window.StopAbove; stop.Given() && unit.Temperature(at) > stop.Low() {
		return refuse("above " + unit.Spoken(stop) + " it does harm: cool it first")
	}
	same := unit.Snap(at) == unit.Snap(float64(dev.At.Value()))
	if !same && !window.HasSlope() {
		return refuse("no slope has been measured for this developer: develop only at " + dev.At.Text())
	}
	var fig figure.Figure[unit.Seconds]
	if same {
		fig = asMeasured.Of(id, measured)
	} else {
		fig = timeAt.Of(id, measured, from, t.slope(b, window), wanted)
	}
	step := t.step()
	if same {
		step = 1 // what somebody measured stands as it was written
	}
	if why := t.uneven(m, window, fig); why != "" {
		return refuse(why)
	}
	if why := t.beyond(fig, step, "slope"); why != "" {
		return refuse(why)
	}
	fig = figure.ShowTime(fig.Named(name), step, unit.Nearest)
	return figure.Enter(t.Book, fig), fig, true
}

// longest is the longest that a development takes: no clock of a card goes further.
const longest = unit.Seconds(24 * 60 * 60)

// beyond says why no clock of a card shows a time, or nothing: it is too long, or
// rounds to nothing. by is what it was worked out with.
func (t Times) beyond(fig figure.Figure[unit.Seconds], step float64, by string) string {
	switch {
	case fig.Value > longest:
		return "it comes to more than a day: look at the " + by + " and at the time that was measured"
	case float64(fig.Value)*2 < step:
		return "it is shorter than half of " + t.Lab.Place.House.Filled().TimeStep.Text() +
			", to which times are rounded here"
	}
	return ""
}

// uneven says why a development is too short to be even, or nothing: by the
// developer's own shortest time, else for film by the house's.
func (t Times) uneven(m *lab.Material, window lab.Window, fig figure.Figure[unit.Seconds]) string {
	shortest := window.Shortest
	if !shortest.Given() && m.Base == "film" {
		shortest = t.Lab.Place.House.Filled().Shortest
	}
	if unit.Snap(float64(fig.Value)) >= unit.Snap(float64(shortest.Value())) {
		return ""
	}
	return "under " + figure.Clock(float64(shortest.Value())) + ": too short to be even"
}

// slope is the developer's own, or worked out from two measured times (C6).
func (t Times) slope(b lab.Bath, w lab.Window) figure.Figure[unit.PerKelvin] {
	if w.Slope.Given() {
		return w.Slope.Figure("slope of the developer")
	}
	cold, warm := w.Measured[0], w.Measured[1]
	// The difference stands in neither of the two alone: its place is the list of both.
	pair := b.Def().At("strength." + b.Strength + ".temperature.measured")
	apart := figure.GivenNumber(warm.At.Value().Sub(cold.At.Value()), "", pair,
		figure.Weakest(cold.At.By(), warm.At.By()), "difference of the temperatures")
	return slopeOf.Of(figure.ID(b.Ref(), "slope"), cold.Time.Figure("time at the lower temperature"),
		warm.Time.Figure("time at the higher"), apart)
}

// asMeasured is a time as it was measured.
var asMeasured = figure.Register(&figure.F1[unit.Seconds, unit.Seconds]{
	Formula: figure.Formula{ID: "time.measured", Name: "time", Result: "t", Unit: "s",
		Terms: []figure.Term{{Symbol: "t_1", Meaning: "time measured", Unit: "s"}},
		Text:  "t_1", Source: "as declared", Origin: figure.Measured},
	Go: func(t unit.Seconds) unit.Seconds { return t },
})

// Pushed is the time of a material at another exposure index (D1, D2), from
// its time at a temperature.
func (t Times) Pushed(m *lab.Material, i int, b lab.Bath, stops int, at float64) (time, ei *figure.Record, ok bool) {
	plain, base, ok := t.At(m, i, b, at)
	if !ok || m.Speed.Count == 0 {
		return plain, nil, false
	}
	speed := figure.Cast[unit.Speed](m.Speed.Figure("the film's speed"))
	index := unit.Speed(m.Speed.Count)
	for range max(stops, -stops) {
		if stops > 0 {
			index *= 2
		} else {
			index /= 2
		}
	}
	word := unit.Short(float64(index))
	asked := figure.Constant(index, "exposure index", "", figure.Standard)
	ei = figure.Declare(t.Book, figure.ID(m.ID, "ei."+word), figure.KindCount, asked, word, "")
	id := figure.ID(m.ID, "time", b.Ref(), Degrees(at), "ei"+word)
	if stops == 0 {
		return plain, ei, true
	}
	decl := b.Decl()
	rule := (*lab.Stops)(nil)
	if decl != nil {
		rule = decl.Push
		if stops < 0 {
			rule = decl.Pull
		}
	}
	name := fmt.Sprintf("time of %s exposed at %s", m.Name, word)
	n := stopsOf.Of(figure.ID(m.ID, "stops.ei"+word), asked, speed).Show(figure.KindCount, "1", unit.Nearest, "")
	refuse := func(why string) (time, index *figure.Record, ok bool) {
		return t.Book.Refuse(id, figure.KindTime, name, "s", why, base.Origin()), ei, false
	}
	if rule == nil {
		if stops < 0 {
			return refuse("no pull has been tried in this developer")
		}
		return refuse("no push has been tried in this developer")
	}
	if max(stops, -stops) > int(rule.Most.Count) {
		if rule.Most.Count == 1 {
			return refuse("more than 1 stop has not been tried")
		}
		return refuse(fmt.Sprintf("more than %d stops have not been tried", rule.Most.Count))
	}
	formula := pushed
	if stops < 0 {
		formula = pulled
	}
	fig := formula.Of(id, base, rule.Factor.Figure("factor for one stop"), n)
	if why := t.uneven(m, decl.Temperature, fig); why != "" {
		return refuse(why)
	}
	if why := t.beyond(fig, t.step(), "factor for one stop"); why != "" {
		return refuse(why)
	}
	return figure.Enter(t.Book, figure.ShowTime(fig.Named(name), t.step(), unit.Nearest)), ei, true
}

// ClearingTimes is how many times its clearing time a material stays in the
// fixer: the house's rule for its grain.
func (t Times) ClearingTimes(m *lab.Material) figure.Figure[unit.Factor] {
	rule := t.Lab.Place.House.Filled().FixClearing
	if m.Grain == "tabular" {
		return rule.Tabular.Figure("times the clearing time")
	}
	return rule.Film.Figure("times the clearing time")
}

// Fix is the fixing time of a material (E8), never less than the step's least.
func (t Times) Fix(p *lab.Process, i int, m *lab.Material) (*figure.Record, figure.Figure[unit.Seconds], string) {
	s := p.Steps[i]
	id := figure.ID(p.ID, "time."+s.ID, m.ID)
	name := "fixing time of " + m.Name
	times := t.ClearingTimes(m)
	if !m.Clears.Given() {
		why := "the clearing time of this film has not been measured: fix for " + unit.Short(float64(times.Value)) +
			" times the time it takes to clear"
		return t.Book.Refuse(id, figure.KindTime, name, "s", why, figure.House), figure.Figure[unit.Seconds]{}, why
	}
	fig := fixing.Of(id, times, m.Clears.Figure("clearing time"))
	if s.Least.Given() {
		by := figure.ShowTime(fixing.Of(figure.Beside(id, "clearing"), times, m.Clears.Figure("clearing time")), 1,
			unit.Up)
		fig = fixingLeast.Of(id, by, s.Least.Figure("never less than"))
	}
	fig = figure.ShowTime(fig.Named(name), t.step(), unit.Up)
	return figure.Enter(t.Book, fig), fig, ""
}

// FixUsed is the fixing time of a material in a bath that takes ratio times as long
// to clear as it did fresh, never less than the step's least; nil where nobody has
// measured the material's clearing time.
func (t Times) FixUsed(id string, p *lab.Process, i int, m *lab.Material,
	ratio figure.Figure[unit.Factor]) *figure.Record {
	s := p.Steps[i]
	if !m.Clears.Given() {
		return nil
	}
	fig := fixingUsed.Of(id, t.ClearingTimes(m), m.Clears.Figure("clearing time in fresh fixer"), ratio)
	if s.Least.Given() {
		by := figure.ShowTime(fixingUsed.Of(figure.Beside(id, "clearing"), t.ClearingTimes(m),
			m.Clears.Figure("clearing time in fresh fixer"), ratio), 1, unit.Up)
		fig = fixingLeast.Of(id, by, s.Least.Figure("never less than"))
	}
	return figure.Enter(t.Book, figure.ShowTime(fig.Named("fixing time of "+m.Name+" in this bath"), t.step(), unit.Up))
}

// Fixed is a step's own time.
func (t Times) Fixed(p *lab.Process, i int) (*figure.Record, figure.Figure[unit.Seconds]) {
	return t.span(p, i, p.Steps[i].Time.Fixed)
}

// Over is the time in which the fills of a step are spread.
func (t Times) Over(p *lab.Process, i int) (*figure.Record, figure.Figure[unit.Seconds]) {
	return t.span(p, i, p.Steps[i].Over)
}

func (t Times) span(p *lab.Process, i int, q lab.Said[unit.Seconds]) (*figure.Record, figure.Figure[unit.Seconds]) {
	s := p.Steps[i]
	measured := q.Figure("time of the step")
	if q.Value() >= 3600 {
		hours := float64(q.Value()) / 3600
		g := figure.Cast[unit.Factor](measured).WithValue(unit.Factor(hours))
		printed := figure.Declare(t.Book, figure.ID(p.ID, "time."+s.ID), figure.KindTime, g, unit.Short(hours), "h")
		// The clock counts it in seconds, under an id of its own.
		return printed, figure.ShowTime(asMeasured.Of(figure.Beside(figure.ID(p.ID, "time."+s.ID), "seconds"),
			measured), 1, unit.Nearest)
	}
	fig := figure.ShowTime(asMeasured.Of(figure.ID(p.ID, "time."+s.ID), measured).Named("time of the step"), 1,
		unit.Nearest)
	return figure.Enter(t.Book, fig), fig
}

// Clock is the running clock of a process.
type Clock struct {
	times    Times
	process  string
	variants []string
	now      figure.Figure[unit.Seconds]
	from     string
}

// NewClock starts a clock at zero. variants tell the clocks of a process apart, such as
// "film-400" and "20.0c".
func (t Times) NewClock(process string, variants ...string) *Clock {
	zero := asMeasured.Of(figure.ID(process, "at.start"),
		figure.Constant(unit.Seconds(0), "the clock starts", "", figure.Standard))
	return &Clock{times: t, process: process, variants: variants, now: figure.ShowTime(zero, 1, unit.Nearest)}
}

// Step enters when a step begins and, when it drains, when draining begins,
// and moves the clock on.
func (c *Clock) Step(step string, length figure.Figure[unit.Seconds],
	drain figure.Figure[unit.Seconds]) (at, drains *figure.Record) {
	rounded := Rounded(length, c.times.step())
	at = figure.Enter(c.times.Book, c.now)
	if drain.Value > 0 && drain.Value < rounded.Value {
		d := drainAt.Of(figure.ID(c.process, "drain."+step, c.variants...), c.now, rounded,
			drain).Named("draining begins")
		drains = figure.Enter(c.times.Book, figure.ShowTime(d, 1, unit.Down))
	}
	next := clockAfter.Of(figure.ID(c.process, "at.after-"+step, c.variants...), c.now,
		rounded).Named("clock when the next step begins")
	c.now = figure.ShowTime(next, 1, unit.Nearest)
	return at, drains
}

// Now enters the clock as it stands.
func (c *Clock) Now() *figure.Record { return figure.Enter(c.times.Book, c.now) }

// Rounded is a time as the card prints it: what the hands follow from then on.
func Rounded(f figure.Figure[unit.Seconds], step float64) figure.Figure[unit.Seconds] {
	r := f.Record()
	v := float64(f.Value)
	if s, err := unit.ParseDecimal(r.Rounded); err == nil && r.Kind == figure.KindTime {
		v = s.Float()
	}
	return f.AsMeasured(unit.Seconds(v))
}

// Apart is how far two times of a card lie from each other.
func (t Times) Apart(id string, a, b figure.Figure[unit.Seconds]) figure.Figure[unit.Seconds] {
	return figure.ShowTime(apart.Of(id, Rounded(a, t.step()), Rounded(b, t.step())), 1, unit.Up)
}

// Draining is how long a tank takes to empty: the process's own figure, or what
// pouring into a large tank takes, if that is longer. vessel is the tank's id.
func (t Times) Draining(p *lab.Process, vessel string, pour lab.Said[unit.Seconds]) figure.Figure[unit.Seconds] {
	drain := p.Clock.Drain.OrDefault("0 s", "common practice, no source")
	name := "draining"
	if !drain.Written() {
		name += ": nobody has written how long it takes"
	}
	own := drain.Figure(name)
	if pour.Value() <= drain.Value() {
		return own
	}
	return figure.ShowTime(draining.Of(figure.ID(p.ID, "draining", vessel), own,
		pour.Figure("pouring into this tank")), 1,
		unit.Up)
}

// Agitation is the timeline of a step (D3).
type Agitation struct {
	// nil where there is none
	Count, Last, Turns, Marks, First, Lasts, Drain, Every *figure.Record
	// Times is how many later agitations there are.
	Times *figure.Record
}

// Agitate works out when a tank is turned during a step. The ids name the step and
// its variants, such as "film-negative/agitate.develop@film-400,20.0c".
func (t Times) Agitate(p *lab.Process, stepID string, variants []string, length,
	drain figure.Figure[unit.Seconds]) Agitation {
	step := lab.ProcessStep{}
	for _, s := range p.Steps {
		if s.ID == stepID {
			step = s
		}
	}
	a := p.Agitate[step.Agitate]
	out := Agitation{}
	id := func(what string, variants ...string) string { return figure.ID(p.ID, what+"."+stepID, variants...) }
	if a.First.Given() {
		first := a.First.Over.Figure("first agitation")
		out.First = figure.Declare(t.Book, id("first"), figure.KindTime, first,
			unit.Short(float64(a.First.Over.Value())), "s")
	}
	if !a.Then.Given() {
		return out
	}
	length = Rounded(length, t.step())
	lasts := min(10, a.Then.Over.Value()/2) // never the whole interval
	one := a.Lasts.OrDefault(unit.Short(float64(lasts))+" s", "common practice, no source")
	name := "one agitation lasts"
	if !one.Written() {
		name += ": nobody has written how long"
	}
	last := one.Figure(name)
	every := a.Then.Over.Figure("one every")
	n := events.Of(id("agitations", variants...), length, drain, last, every).
		Show(figure.KindCount, "1", unit.Down, "")
	interval := float64(a.Then.Over.Value())
	from := max(1, int(unit.Round(float64(a.First.Over.Value())/interval, 1, unit.Up)))
	var series []float64
	var words []string
	for k := from; k <= int(n.Value); k++ {
		series = append(series, float64(k)*interval)
		words = append(words, figure.Clock(float64(k)*interval))
	}
	if len(series) == 0 {
		return out
	}
	out.Count = figure.Enter(t.Book, n)
	times := figure.Core{ID: id("times", variants...), Value: float64(len(series)), Low: float64(len(series)),
		High: float64(len(series)), Origin: n.Origin()}
	out.Times = t.Book.Enter(figure.Of(times,
		figure.Face{Kind: figure.KindCount, Name: "agitations after the first", Unit: unit.Plural(len(series), "time"),
			Shown: fmt.Sprint(len(series)), Rounded: fmt.Sprint(len(series)),
			Round: figure.Rounding{Rule: "as the clock shows"}}, out.Count))
	final := lastEvent.Of(id("last", variants...), n, every).Named("last agitation")
	out.Last = figure.Enter(t.Book, figure.ShowTime(final, 1, unit.Nearest))
	marks := figure.Core{ID: id("agitate", variants...), Series: series, Value: float64(len(series)),
		Source: "common practice, no source", Origin: n.Origin()}
	out.Marks = t.Book.Enter(figure.Of(marks,
		figure.Face{Kind: figure.KindSeries, Name: "when the tank is turned", Unit: "s",
			Shown: strings.Join(words, " "), Rounded: strings.Join(words, " "),
			Round: figure.Rounding{Rule: "as the clock shows"}}, out.Count))
	out.Lasts = figure.Declare(t.Book, id("lasts"), figure.KindTime, last, unit.Short(float64(last.Value)),
		"s")
	out.Every = figure.Declare(t.Book, id("every"), figure.KindTime, every, unit.Short(interval), "s")
	if !a.First.Continuous() && a.First.Given() && from == 1 {
		n0 := a.First.Figure("turns at first")
		m := a.Then.Figure("turns each time")
		turns := turnsInAll.Of(id("turns", variants...), n0, m, n).Show(figure.KindCount, "1", unit.Nearest, "")
		out.Turns = figure.Enter(t.Book, turns)
	}
	zero := figure.Constant(unit.Seconds(0), "the step begins", "", figure.Standard)
	if drain.Value > 0 {
		d := drainAt.Of(id("drains", variants...), zero, length, drain).Named("draining begins, from the pour-in")
		out.Drain = figure.Enter(t.Book, figure.ShowTime(d, 1, unit.Down))
	}
	return out
}

// Hot and Cold work out C1 for a volume, a temperature and a season.
func (t Times) Hot(id string, volume unit.Volume, at unit.Temperature, cold lab.Season) figure.Figure[unit.Volume] {
	p := t.Lab.Place
	v := figure.Constant(volume, "volume wanted", "", figure.Standard)
	want := figure.Constant(at, "temperature wanted", "", figure.Standard)
	return hotWater.Of(id, v, want, cold.At.Figure("cold tap, "+cold.Name), p.Water.Hot.Figure("hot tap"))
}

// Cold is the rest of the volume. What is printed is the rest to the mark after
// the hot water as it was measured, so that the two make the whole.
func (t Times) Cold(id string, volume *big.Rat, hot figure.Figure[unit.Volume],
	measured *figure.Record) figure.Figure[unit.Volume] {
	whole, _ := volume.Float64()
	fig := coldWater.Of(id, figure.Constant(unit.Volume(whole), "volume wanted", "", figure.Standard), hot)
	shown, _ := unit.ParseDecimal(measured.Rounded) // none of what cannot be measured
	return fig.ShowAs(figure.KindAmount, unit.Snap(whole-shown.Float()), unit.NewDecimal(1, uint8(shown.Places())),
		unit.Nearest, "to the mark").RoundedTo(stepOf(measured))
}

// stepOf is the step that a measured figure was rounded to.
func stepOf(r *figure.Record) unit.Decimal {
	d, err := unit.ParseDecimal(r.Round.Step)
	if err != nil {
		return unit.NewDecimal(1, 0)
	}
	return d
}

// Dilute works out C2: how warm the water for a stock must be.
func (t Times) Dilute(id string, volume, stock unit.Volume, at, stockAt unit.Temperature) *figure.Record {
	fig := diluteTemperature.Of(id, figure.Constant(volume, "volume made", "", figure.Standard),
		figure.Constant(at, "temperature wanted", "", figure.Standard),
		figure.Constant(stock, "stock in it", "", figure.Standard),
		figure.Constant(stockAt, "temperature of the stock", "", figure.Standard))
	hot := t.Lab.Place.Water.Hot
	switch {
	case hot.Given() && fig.Value > hot.Value():
		return t.Book.Refuse(id, figure.KindTemperature, "water for a cold stock", "°C",
			"hotter than the hot tap ("+hot.Text()+"): warm the stock first", fig.Origin())
	case fig.Value < 1:
		return t.Book.Refuse(id, figure.KindTemperature, "water for a warm stock", "°C",
			"colder than any tap: cool the stock first", fig.Origin())
	}
	return figure.Enter(t.Book, fig.Show(figure.KindTemperature, "0.5", unit.Nearest, "thermometer"))
}
