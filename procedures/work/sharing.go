package work

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Sharing is which materials of a process may lie in one tank: those of one time.
type Sharing struct {
	// Within is how far apart their times may lie; nil without a developer.
	Within *figure.Record
	Pairs  []Shared
}

// Shared is a pair of materials at one temperature.
type Shared struct {
	One, Other *lab.Material
	// Apart is how far their times lie apart, and May whether they may share a tank.
	Apart *figure.Record
	May   bool
}

// MixedFill is one tank with two families of rolls of one material.
type MixedFill struct {
	One, Other string
	Vessel     Vessel
	// Fill is what fills the tank for both; No is why they must not lie together.
	Fill Fill
	No   string
}

// sharing works out which materials may lie in one tank, and which formats of one.
func (w *Work) sharing(p *Process) {
	if p.Developer == nil {
		return
	}
	same := w.lab.Place.House.Filled().SameTime
	within := same.Figure("films may share a tank when their times lie within")
	shown := unit.Short(float64(same.Value()))
	p.Sharing.Within = figure.Declare(w.mix.Book, figure.ID("house", "same-time"), figure.KindTime, within, shown, "s")
	films := p.films()
	for i, a := range films {
		for _, b := range films[i+1:] {
			if a.timed && b.timed && a.at == b.at {
				p.Sharing.Pairs = append(p.Sharing.Pairs, w.shared(p, a, b, same.Quantity))
			}
		}
	}
	w.mixedFormats(p)
}

// shared works out whether two materials may lie in one tank.
func (w *Work) shared(p *Process, a, b *Run, same unit.Quantity[unit.Seconds]) Shared {
	pair := []string{a.Material.ID, b.Material.ID}
	apart := w.times.Apart(figure.ID(p.Decl.ID, "apart", pair...), a.developing, b.developing)
	out := Shared{One: a.Material, Other: b.Material, Apart: figure.Enter(w.mix.Book, apart),
		May: apart.Value <= same.Value()}
	answer, why := "no", fmt.Sprintf("%s apart, and the lab allows %s", apart.Record().Shown, same.Text())
	if out.May {
		answer, why = "yes", fmt.Sprintf("%s apart, within the lab’s %s", apart.Record().Shown, same.Text())
	}
	tanks := w.lab.Place.Tanks
	for _, id := range slices.Sorted(maps.Keys(tanks)) {
		many := false
		for _, n := range tanks[id].Takes {
			many = many || n.N > 1
		}
		if many {
			w.mix.Book.EnterVerdict(figure.Verdict{ID: figure.ID(p.Decl.ID, "share", append(pair, id)...),
				Answer: answer,
				Limits: []string{"times within " + same.Text()}, Because: []string{why, "split by time, not by format"},
				Source: "common practice, no source"})
		}
	}
	return out
}

// mixedFormats works out in which tanks two formats of one material lie together, and
// what then fills them.
func (w *Work) mixedFormats(p *Process) {
	tanks, _ := capacity.Vessels(w.lab)
	for _, id := range slices.Sorted(maps.Keys(w.lab.Place.Tanks)) {
		var here []Vessel
		for _, v := range tanks {
			if tankOf(v) == id && v.Rolls {
				here = append(here, v)
			}
		}
		slices.SortFunc(here, func(a, b Vessel) int { return strings.Compare(a.Family, b.Family) })
		for i, a := range here {
			for _, b := range here[i+1:] {
				if both := w.inBoth(p, a.Family, b.Family); len(both) > 0 {
					p.Mixed = append(p.Mixed, w.mixed(p, a, b, both))
				}
			}
		}
	}
}

// inBoth lists the materials of a process that come in both families.
func (w *Work) inBoth(p *Process, one, other string) []*lab.Material {
	var out []*lab.Material
	for _, r := range p.Runs {
		m := r.Material
		if m != nil && w.takesFamily(m, one) && w.takesFamily(m, other) && (len(out) == 0 || out[len(out)-1] != m) {
			out = append(out, m)
		}
	}
	return out
}

// mixed works out one tank with two families of rolls.
func (w *Work) mixed(p *Process, a, b Vessel, materials []*lab.Material) MixedFill {
	fill := a
	if b.Fill.Value() > a.Fill.Value() {
		fill = b
	}
	small, large := a, b // the larger piece is the one of which fewer go in
	if a.Takes.N < b.Takes.N {
		small, large = b, a
	}
	out := MixedFill{One: lab.InSides(a.Family), Other: lab.InSides(b.Family), Vessel: fill, Fill: w.filled(p.Developer.Bath, fill)}
	out.No = "one " + lab.InSides(large.Family) + " film fills the whole column"
	// One of the larger must leave room for one of the smaller on the column.
	if room := float64(small.Takes.N) * (1 - 1/float64(large.Takes.N)); room >= 1 {
		out.No = ""
		for _, m := range materials {
			if why := capacity.Shares(w.mix, out.Fill, a.Family, b.Family, m); why != "" {
				out.No = why
			}
		}
	}
	answer, because := "no", out.No
	if out.No == "" {
		answer, because = "yes, filled to "+unit.Spoken(fill.Fill), "the larger format’s fill covers both"
	}
	for _, m := range materials {
		one, other := m.ID+"."+a.Family, m.ID+"."+b.Family
		w.mix.Book.EnterVerdict(figure.Verdict{ID: figure.ID(p.Decl.ID, "share", one, other, tankOf(a)), Answer: answer,
			Limits: []string{"fill of the larger format: " + mix.Tag(fill.Fill.Exact())}, Because: []string{because},
			Source: "common practice, no source"})
	}
	return out
}
