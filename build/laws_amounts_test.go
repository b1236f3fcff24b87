package build_test

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/lab"
	"wetside/procedures/page"
)

// rowOf is the row of a vessel in a table.
func rowOf(t page.Table, v capacity.Vessel) (page.Row, bool) {
	for _, r := range t.Rows {
		var names []string
		for _, in := range r.Cells[0].Text {
			if in.Kind == page.Name {
				names = append(names, in.Text)
			}
		}
		if names[0] == v.Name && (v.Tray || slices.Contains(names, lab.InSides(v.Family))) {
			return r, true
		}
	}
	return page.Row{}, false
}

func amountsAgree(c *court) {
	tanks, trays := capacity.Vessels(c.lab)
	for _, p := range c.lab.Processes {
		card := c.pages["process/"+p.ID]
		for i, s := range p.Steps {
			b, bad := c.lab.Bath(s.Bath, p.At(lab.StepKey(i)))
			row, found := clockRow(card, s.ID)
			if len(bad) > 0 || b.Zero() || !found || s.Fill.Given() || b.Decl() == nil || !b.Decl().Dilute.Given() || b.Decl().Dilute.None() {
				continue
			}
			for n, ch := range card.Choices {
				for _, v := range append(slices.Clone(tanks), trays...) {
					if !c.stands(ch, v) {
						continue
					}
					onCard := chosen(row.Bath, n)
					mixing, ok := c.tableOf("mix/"+b.Def().ID, b.Strength)
					if !ok {
						c.failed("%s uses %s, and its mixing card has no table for it", card.ID, b.Ref())
						continue
					}
					r, ok := rowOf(mixing, v)
					if !ok {
						c.failed("mix/%s, %s has no row for the %s, %s", b.Def().ID, b.Strength, v.Name, v.Family)
						continue
					}
					cell := r.Cells[1]
					refused := c.figures[onCard].Refused()
					switch {
					case cell.No != refused:
						c.failed("%s in the %s: %s says %q, the mixing card %v", b.Ref(), v.Name, card.ID, onCard, cell)
					case !cell.No && chosen(cell.Text, 0) != onCard:
						c.failed("%s in the %s: %s says %q, the mixing card %q", b.Ref(), v.Name, card.ID, onCard, chosen(cell.Text, 0))
					case !refused:
						c.enough(b, v, onCard)
					}
					if refused && !strings.Contains(words(row.Caution), "Not in the") {
						c.failed("%s refuses %s in the %s and does not say why", card.ID, b.Ref(), v.Name)
					}
				}
			}
		}
	}
}

// stands reports whether a choice of a card is for a vessel.
func (c *court) stands(ch page.Choice, v capacity.Vessel) bool {
	tank, family, _ := strings.Cut(v.Key, ",")
	_, last, _ := strings.Cut(ch.Variant, "+")
	if i := strings.LastIndex(last, "."); i >= 0 {
		last = last[i+1:]
	}
	id, only, split := strings.Cut(last, ",")
	m := c.materialOf(ch)
	if id != tank || split && only != family {
		return false
	}
	if m == nil || v.Tray {
		return true
	}
	for _, format := range m.Formats {
		if f, _, ok := c.lab.FormatOf(m, format); ok && f.Family == family {
			return true
		}
	}
	return false
}

func (c *court) tableOf(card, id string) (page.Table, bool) {
	p := c.pages[card]
	for _, b := range append(slices.Clone(p.Do), p.Tables...) {
		if t, ok := b.(page.Table); ok && t.ID == id {
			return t, true
		}
	}
	return page.Table{}, false
}

// enough works out once more what is drawn, that it is within the house's error of
// the dilution, and that it is enough for what the tank is said to serve.
func (c *court) enough(b lab.Bath, v capacity.Vessel, id string) {
	dil := b.Decl().Dilute
	if !dil.Given() {
		return
	}
	exact := float64(v.Fill.Value()) * dil.Stock.Float() / (dil.Stock.Float() + dil.Water.Float())
	shown, err := strconv.ParseFloat(c.figures[id].Rounded, 64)
	if err != nil {
		c.failed("%s is no number: %q", id, c.figures[id].Rounded)
		return
	}
	if c.figures[id].Unit == "L" {
		shown *= 1000
	}
	if math.Abs(shown-exact)/exact > .06 {
		c.failed("%s: %g ml, and the dilution wants %g", id, shown, exact)
	}
	needs := b.Decl().Needs
	if v.Tray || !needs.Given() {
		return
	}
	served := c.figures[b.Ref()+"/rolls@"+v.Key]
	each := float64(needs.Value()) * c.equivalent(v.Family)
	fits := math.Min(math.Floor(shown/each+1e-9), float64(v.Takes.N))
	if served.Value != fits {
		c.failed("%s serves %s in the %s, and %g is right", b.Ref(), served.Shown, v.Key, fits)
	}
}

// equivalent is how many rolls the largest format of a family counts as.
func (c *court) equivalent(family string) float64 {
	most := 0.0
	for _, f := range c.lab.Formats.Format {
		if f.Family == family && f.Rolls.Given() {
			most = math.Max(most, float64(f.Rolls.Value()))
		}
	}
	for _, m := range c.lab.Materials {
		for _, f := range m.Format {
			if f.Family == family && f.Rolls.Given() {
				most = math.Max(most, float64(f.Rolls.Value()))
			}
		}
	}
	if most == 0 {
		return 1
	}
	return most
}

// fillOf is the volume that a row of a card fills a vessel to.
func (c *court) fillOf(t page.Text, choice int) float64 {
	last := math.Inf(1)
	for _, in := range t {
		if n := len(in.Figures); in.Kind == page.Fig && n > 0 {
			last = in.Figures[min(choice, n-1)].Value
		}
	}
	return last
}

// drawnFrom is the strength that an amount on a card is drawn from.
func (c *court) drawnFrom(b lab.Bath, id string) string {
	if d := b.Decl(); strings.Contains(id, "/draw@") && d != nil && d.Dilute.Given() && !d.Dilute.None() {
		return undiluted(b, d).Ref()
	}
	return b.Ref()
}

// undiluted is what a strength is diluted from.
func undiluted(b lab.Bath, d *lab.Strength) lab.Bath {
	b.Strength = d.From
	if b.Strength == "" {
		b.Strength = lab.Supplied
		if b.Solution != nil {
			b.Strength = b.Solution.MadeStrength()
		}
	}
	return b
}
