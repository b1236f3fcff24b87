package mix

import (
	"slices"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Poured is how much of a strength is poured together with others.
type Poured struct {
	Made   *Made
	Volume figure.Figure[unit.Volume]
}

// densityBrought is what one strength brings to the density of several that are poured together.
var densityBrought = figure.Register(&figure.F3[unit.Density, unit.Density, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "density.brought", Name: "what it brings to the density", Result: "rho", Unit: "g/ml",
		Terms: []figure.Term{{Symbol: "rho_0", Meaning: "density of the bath", Unit: "g/ml"},
			{Symbol: "v", Meaning: "its volume", Unit: "ml"},
			{Symbol: "V", Meaning: "volume of all together", Unit: "ml"}},
		Text: "rho_0 * v / V", Valid: "volumes taken as additive", Source: balance, Origin: figure.Estimate},
	Go: func(rho unit.Density, v, whole unit.Volume) unit.Density {
		return rho * unit.Density(v) / unit.Density(whole)
	},
})

// densityTogether adds what each strength brings.
var densityTogether = figure.Register(&figure.FN[unit.Density, unit.Density]{
	Formula: figure.Formula{ID: "density.together", Name: "density of what is poured together", Result: "rho",
		Unit: "g/ml", Terms: []figure.Term{{Symbol: "rho", Meaning: "what each bath brings to it", Unit: "g/ml"}},
		Text: "sum(rho)", Source: balance, Origin: figure.Estimate},
	Go: figure.Total[unit.Density],
})

// Together is what several strengths are together, as fresh as they were made: nothing has reacted.
// whole is the volume of all of them, and named what stands in its ids. Volumes count by their best
// value, contents with their bounds: all strengths come from the same month's work. There is at
// least one.
func (m *Mixer) Together(named lab.Bath, whole figure.Figure[unit.Volume], poured ...Poured) *Made {
	out := &Made{Bath: named, Accounted: true}
	whole = whole.Best()
	ref := named.Ref()
	var densities []figure.Figure[unit.Density]
	contents := &heap[Content]{}
	others := &heap[Other]{}
	for _, p := range poured {
		of, v := p.Made.Bath.Ref(), p.Volume.Best()
		out.Accounted = out.Accounted && p.Made.Accounted
		out.DensityAssumed = out.DensityAssumed || p.Made.DensityAssumed
		for _, b := range p.Made.Unknown {
			if !slices.ContainsFunc(out.Unknown, func(have lab.Bath) bool { return have.Ref() == b.Ref() }) {
				out.Unknown = append(out.Unknown, b)
			}
		}
		densities = append(densities, densityBrought.Of(figure.ID(ref, "density", of), p.Made.Density, v, whole))
		for _, c := range p.Made.Contents {
			have := contents.add(c.Ref(), c, carried.Of(figure.ID(ref, "brings."+c.Ref(), of), c.Conc, v, whole))
			if have.Product != c.Product {
				have.Product = nil
			}
		}
		for _, o := range p.Made.Others {
			have := others.add(o.Key(), o, carried.Of(figure.ID(ref, "brings."+o.Key(), of), o.Conc, v, whole))
			have.Share = worse(have.Share, o.Share)
		}
	}
	out.Density = densityTogether.Of(figure.ID(ref, "density"), densities...)
	for _, key := range contents.order {
		c := *contents.of[key]
		c.Conc = contents.sum(figure.ID(ref, "content."+key), key)
		out.Contents = append(out.Contents, c)
	}
	for _, key := range others.order {
		o := *others.of[key]
		o.Conc = others.sum(figure.ID(ref, "content."+key), key)
		out.Others = append(out.Others, o)
	}
	return out
}

// worse is what two sheets say of a part of one name: what nobody has said of one of them is said of
// neither, and else all that both say.
func worse(a, b lab.Share) lab.Share {
	out := a
	out.Classes, out.Extra = both(a.Classes, b.Classes), both(a.Extra, b.Extra)
	if a.Classes == nil || b.Classes == nil {
		out.Classes = nil
	}
	return out
}

func both(a, b []string) []string {
	out := slices.Clone(a)
	for _, word := range b {
		if !slices.Contains(out, word) {
			out = append(out, word)
		}
	}
	return out
}

// heap is what several strengths bring of each thing, in the order in which they came.
type heap[T any] struct {
	order  []string
	of     map[string]*T
	brings map[string][]figure.Figure[unit.Concentration]
}

// add brings something, and gives what was brought of it first.
func (h *heap[T]) add(key string, x T, conc figure.Figure[unit.Concentration]) *T {
	if h.of == nil {
		h.of, h.brings = map[string]*T{}, map[string][]figure.Figure[unit.Concentration]{}
	}
	if h.of[key] == nil {
		h.order, h.of[key] = append(h.order, key), &x
	}
	h.brings[key] = append(h.brings[key], conc)
	return h.of[key]
}

// sum is what all bring of one thing.
func (h *heap[T]) sum(id, key string) figure.Figure[unit.Concentration] {
	return showConc(summed.Of(id, h.brings[key]...))
}
