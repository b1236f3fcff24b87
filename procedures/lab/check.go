package lab

import (
	"fmt"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// checker gathers problems while it walks the declarations.
type checker struct {
	lab      *Lab
	day      unit.Date
	problems []Problem
	prices   []SaidPrice // all of them
}

// Check finds everything that cannot be so in what was declared, all at once.
// day is the binder's; zero where no date is held against one.
func Check(l *Lab, day unit.Date) []Problem {
	c := &checker{lab: l, day: day}
	c.place()
	for _, d := range l.Chemicals {
		c.chemical(d)
	}
	c.species()
	for _, d := range l.Products {
		c.product(d)
	}
	for _, d := range l.Solutions {
		c.solution(d)
	}
	for _, d := range l.Materials {
		c.material(d)
	}
	for _, d := range l.Processes {
		c.process(d)
	}
	for _, d := range l.Batches {
		c.batch(d)
	}
	c.store()
	c.use()
	c.storage()
	c.packsInStore()
	c.oneCurrency()
	c.loops()
	c.unprocessed()
	c.sameNames()
	c.controls()
	c.names()
	c.problems = append(c.problems, l.buildProblems...)
	return once(c.problems)
}

// once drops repetitions: what is wrong with a step is wrong in every process
// that takes it over, and is said where it stands.
func once(problems []Problem) []Problem {
	seen := map[Problem]bool{}
	var out []Problem
	for _, p := range problems {
		if !seen[p] {
			seen[p] = true
			out = append(out, p)
		}
	}
	return out
}

func (c *checker) add(at figure.Where, code, what, hint string) {
	c.problems = append(c.problems, Problem{At: at, Code: code, What: what, Hint: hint})
}

func (c *checker) missing(d Def, key, what, example string) {
	hint := "write " + key + " = " + example
	if strings.HasPrefix(key, "[[") {
		hint = "write " + key + " on a line of its own, and below it " + example
	}
	c.problems = append(c.problems, Problem{At: d.At(""), OnKey: true, Code: "missing", What: what, Hint: hint})
}

// positive demands that a quantity, when written, is above zero.
func positive[T unit.Kind](c *checker, q Said[T]) {
	if q.Given() && !q.Positive() {
		name := strings.TrimPrefix(strings.TrimPrefix(unit.DimOf[T]().Name(), "a "), "an ")
		c.add(q.Where(), "range", fmt.Sprintf("%q: %s must be above zero", q.Text(), name), "write a positive number")
	}
}

// sensible demands that a quantity lies within bounds of sense: outside them somebody
// has mistyped it. The bounds are the program's own: common practice, no source.
func sensible[T unit.Kind](c *checker, q Said[T], low, high string) {
	l, h := unit.MustParse[T](low), unit.MustParse[T](high)
	if l.Positive() && !q.Positive() { // a fault of its own
		return
	}
	if q.Given() && (q.Low() < l.Value() || q.High() > h.Value()) {
		c.add(q.Where(), "range", fmt.Sprintf("%q is outside what is possible here (%s to %s)", q.Text(), low, high),
			"look for a typing mistake: a decimal point, a unit, a zero too many")
	}
}

// wet demands that a bath or water is neither ice nor steam.
func (c *checker) wet(q Said[unit.Temperature]) {
	if !q.Given() || q.Low() > 0 && q.High() < 100 {
		return
	}
	hint := `write its temperature in °C, for example "20 °C"`
	if q.High() >= 100 {
		hint += "; " + inCelsius(q.High())
	}
	c.add(q.Where(), "range", fmt.Sprintf("%q: a bath lies between freezing and boiling", q.Text()), hint)
}

// hottest is the temperature above which nothing is worked in a bath, in °C: the hottest toners stand at
// about 49 °C (common practice, no source).
const hottest = 50

// bearable demands that a bath is wet, and warns of one that scalds: somebody has most likely copied degrees
// Fahrenheit.
func (c *checker) bearable(q Said[unit.Temperature]) {
	c.wet(q)
	c.scalds(q, hottest, "%q scalds: film and paper are worked in nothing hotter than %d °C")
}

// scalds warns of what is hotter than so many °C.
func (c *checker) scalds(q Said[unit.Temperature], than int, what string) {
	if q.Given() && q.High() > unit.Temperature(than) && q.High() < 100 {
		c.problems = append(c.problems, Problem{At: q.Where(), Code: "range", Warning: true,
			What: fmt.Sprintf(what, q.Text(), than), Hint: inCelsius(q.High())})
	}
}

// inCelsius says what a temperature is if somebody has copied degrees Fahrenheit.
func inCelsius(t unit.Temperature) string {
	return fmt.Sprintf("if the sheet says %s °F, that is %s °C", unit.Short(float64(t)),
		unit.Format(unit.Round((float64(t)-32)/1.8, 0.1, unit.Nearest), unit.NewDecimal(1, 1)))
}

// hottestStart is the temperature above which no powder is started in water, in °C: sheets ask for 50 to
// 55 °C (common practice, no source).
const hottestStart = 60

// startable demands that water to start with is wet, and warns of what scalds. Degrees Fahrenheit of a
// sheet are above it, cool ones too.
func (c *checker) startable(q Said[unit.Temperature]) {
	c.wet(q)
	c.scalds(q, hottestStart, "%q scalds: no powder is started in water hotter than %d °C")
}

// density demands one that a liquid of this trade can have.
func (c *checker) density(q Said[unit.Density]) {
	if q.Given() && (q.Low() < 0.5 || q.High() > 3) {
		c.add(q.Where(), "range", fmt.Sprintf("%q: no liquid here is lighter than 0.5 or heavier than 3 g/ml", q.Text()), `write it in g/mL, as the supplier's sheet does`)
	}
}

// past demands that somebody's own look does not lie in the future.
func (c *checker) past(d unit.Date, at figure.Where, what string) {
	if !c.day.IsZero() && !d.IsZero() && c.day.Before(d) {
		c.add(at, "date", fmt.Sprintf("%s %s has not come yet: this binder is made for %s", what, d, c.day),
			"correct the date")
	}
}

func (c *checker) oneOf(word string, among []string, at figure.Where, what string) {
	if word != "" && !contains(among, word) {
		c.add(at, "word", fmt.Sprintf("%q is not %s", word, what), Near(word, among, "write one of "+list(among)))
	}
}

func (c *checker) currencyOf(p SaidPrice) {
	if p.Given() {
		c.prices = append(c.prices, p)
	}
}

// oneCurrency demands that all prices are in one: that of most of them, or of the first.
func (c *checker) oneCurrency() {
	times := map[string]int{}
	most := ""
	for _, p := range c.prices {
		times[p.Currency]++
	}
	for _, p := range c.prices {
		if times[p.Currency] > times[most] {
			most = p.Currency
		}
	}
	for _, p := range c.prices {
		if p.Currency != most {
			c.add(p.Where(), "price", fmt.Sprintf("%q: this lab counts in %s elsewhere", p.Text(), most),
				"write every price in one currency")
		}
	}
}

func (c *checker) origins(d Def) {
	for _, k := range sortedKeys(d.Origin) {
		key := "origin." + k
		if strings.ContainsAny(k, ".[ ") {
			key = `origin."` + k + `"`
		}
		c.originWord(d.Origin[k], d.At(key))
	}
}

// originWord checks a word that says who vouches for something.
func (c *checker) originWord(word string, at figure.Where) {
	if _, ok := c.lab.Sources[word]; ok || word == "" {
		return
	}
	if _, err := figure.ParseOrigin(word); err != nil {
		c.add(at, "origin", fmt.Sprintf("%q is not an origin and not in sources.toml", word),
			"write measured, standard, supplier, handbook, house, estimate, memory or invented, or the id of a source")
	}
}

// sameNames finds two solutions or products of one name: their bottles would bear
// the same label.
func (c *checker) sameNames() {
	first := map[string]string{}
	look := func(d Def, name string) {
		if name == "" {
			return
		}
		key := strings.ToLower(name)
		if other, again := first[key]; again {
			c.add(d.At("name"), "id", fmt.Sprintf("%q is also the name of %s: two bottles would have the same label",
				name, other), "give one of them another name")
			return
		}
		first[key] = d.File
	}
	for _, s := range c.lab.Solutions {
		look(s.Def, s.Name)
	}
	for _, p := range c.lab.Products {
		look(p.Def, p.Name)
	}
}
