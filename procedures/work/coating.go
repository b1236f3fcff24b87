package work

import (
	"fmt"
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Coating is what so many sheets of one format take of a sensitiser.
type Coating struct {
	Format capacity.Format
	// Of is the format and the materials.
	Of Alike
	// Parts name what the sensitiser is mixed from.
	Parts  []string
	Sheets []CoatSheets
}

// CoatSheets is what a number of sheets takes.
type CoatSheets struct {
	Sheets, Need *figure.Record
	// Mix is the volume that is mixed so that every part can be measured; nil where none
	// can be.
	Mix *figure.Record
	// Takes are the amounts of the parts.
	Takes []Take
	need  figure.Figure[unit.Volume]
}

// coatSheets are the numbers of sheets for which sensitiser is worked out.
var coatSheets = []int{1, 5, 10, 20}

// coatings are what sheets of each format take of what a solution makes.
func (w *Work) coatings(s *lab.Solution) []Coating {
	b := lab.Bath{Solution: s, Strength: s.MadeStrength()}
	if d := b.Decl(); d == nil || !d.Coat.Given() {
		return nil
	}
	var all []Coating
	for _, base := range lab.Bases {
		if !w.on(b, base) {
			continue
		}
		for _, k := range capacity.Kinds(w.lab, b, w.formatsOfAll(w.lab.Treated(b, base))) {
			if c, ok := w.coating(b, k.Format); ok {
				c.Of = Alike{Format: k.Format, Others: k.Others}
				all = append(all, c)
			}
		}
	}
	kept, of := oneRow(w, all, -1, func(c Coating) capacity.Kind { return c.Of.kind() }, func(x, y Coating) bool {
		return slices.EqualFunc(x.Sheets, y.Sheets, func(a, b CoatSheets) bool { return sameRecord(a.Need, b.Need) })
	})
	tried := map[int]measured{}
	for k := range kept {
		c := &kept[k]
		c.Of = of[k]
		for i, n := range coatSheets {
			w.measurable(b.Solution, c.Sheets[i].need, figure.ID(b.Ref(), "coat.mix", c.Format.Ref(), fmt.Sprint(n)),
				&c.Sheets[i], tried)
		}
	}
	return kept
}

// coating is what sheets of one format take; false where nobody has written it.
func (w *Work) coating(b lab.Bath, f capacity.Format) (Coating, bool) {
	out := Coating{Format: f}
	for _, step := range b.Solution.Steps {
		if ing, bad := w.lab.Resolve(step.Add, b.Solution.At("step")); len(bad) == 0 {
			out.Parts = append(out.Parts, ing.Name())
		}
	}
	for _, n := range coatSheets {
		need, ok := capacity.Coat(w.mix, b, f, n)
		if !ok {
			return out, false
		}
		row := CoatSheets{Need: figure.Enter(w.mix.Book, need), need: need}
		count := figure.Constant(unit.Factor(n), "sheets", "", figure.Standard)
		row.Sheets = figure.Declare(w.mix.Book, figure.ID("sheets", fmt.Sprint(n)), figure.KindCount, count,
			fmt.Sprint(n), "")
		out.Sheets = append(out.Sheets, row)
	}
	return out, true
}

// mostOver is how many millilitres more than needed are mixed, so that every part can be
// measured.
const mostOver = 40

// measured is the smallest batch of which every part can be measured here.
type measured struct {
	mixed int // ml; what is needed, where none is found
	found bool
	takes []Take
}

// measurable is the smallest batch, in whole even millilitres from what is needed
// upwards, of which every part can be measured here; it goes by id. What was found for as
// much before stands in tried.
func (w *Work) measurable(s *lab.Solution, need figure.Figure[unit.Volume], id string, row *CoatSheets,
	tried map[int]measured) {
	millilitres := func(v int) unit.Quantity[unit.Volume] {
		return unit.MustParse[unit.Volume](fmt.Sprintf("%d mL",
			v))
	}
	first := int(unit.Round(float64(need.Value), 2, unit.Up))
	m, before := tried[first]
	if !before {
		m.mixed = first
		for v := max(first, 2); v <= first+mostOver && !m.found; v += 2 {
			if w.mix.Try(s, millilitres(v)) {
				m.mixed, m.found = v, true
			}
		}
	}
	if m.found {
		core := figure.Core{ID: id, Value: float64(m.mixed),
			Source: "the house’s error", Origin: need.Origin()}
		face := figure.Face{Kind: figure.KindAmount, Name: "mix", Unit: "ml", Shown: fmt.Sprint(m.mixed),
			Rounded: fmt.Sprint(m.mixed),
			Round:   figure.Rounding{Rule: "up until every part can be measured", Step: "2"}}
		row.Mix = w.mix.Book.Enter(figure.Of(core, face, need.Record()))
	}
	if !before {
		for _, r := range w.mix.Batch(s, millilitres(m.mixed), figure.Where{}).Rows {
			m.takes = append(m.takes, r.Take)
		}
		tried[first] = m
	}
	row.Takes = m.takes
}
