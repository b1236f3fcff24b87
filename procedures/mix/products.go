package mix

import (
	"math/big"
	"sort"

	"wetside/procedures/lab"
)

// ProductShare is how much of a bath is a product as it was bought, or of what its pack
// makes, by volume.
type ProductShare struct {
	Product *lab.Product
	Share   *big.Rat
}

// Products lists the products in a bath by their names, through every dilution
// and every bath that is poured in.
func (m *Mixer) Products(b lab.Bath) []ProductShare {
	shares := map[*lab.Product]*big.Rat{}
	m.products(b, big.NewRat(1, 1), shares)
	var out []ProductShare
	for p, s := range shares {
		out = append(out, ProductShare{p, s})
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Product.ID < out[j].Product.ID })
	return out
}

func (m *Mixer) products(b lab.Bath, share *big.Rat, into map[*lab.Product]*big.Rat) {
	if from, dil, ok := b.From(); ok {
		if !dil.None() {
			share = new(big.Rat).Mul(share, dil.Share())
		}
		m.products(from, share, into)
		return
	}
	if b.Product != nil {
		if into[b.Product] == nil {
			into[b.Product] = new(big.Rat)
		}
		into[b.Product].Add(into[b.Product], share)
		return
	}
	for _, in := range m.Ingredients(b) {
		if in.Share != nil {
			m.products(in.Bath, new(big.Rat).Mul(share, in.Share), into)
		}
	}
}

// BathIn is a bath that is poured into another, and its share by volume; Share is
// nil for the percent solution that stands in for what is too little to weigh, and for a
// pack that is made up whole.
type BathIn struct {
	Bath  lab.Bath
	Share *big.Rat
	// At is the key of the step that adds it.
	At string
}

// Ingredients lists the baths that the steps of a solution add; of what a pack makes, the
// pack.
func (m *Mixer) Ingredients(b lab.Bath) []BathIn {
	s := b.Solution
	if p := b.Product; p != nil && p.Makes != nil && b.Strength == p.MadeStrength() {
		return []BathIn{{Bath: lab.Bath{Product: p, Strength: lab.Supplied}, At: "makes"}}
	}
	if s == nil || b.Strength != s.MadeStrength() {
		return nil
	}
	all := new(big.Rat)
	for _, step := range s.Steps {
		if step.Parts.Given() {
			all.Add(all, step.Parts.Exact())
		}
	}
	var out []BathIn
	for i, step := range s.Steps {
		ing, bad := m.Lab.Resolve(step.Add, s.At(lab.StepKey(i)).At("add"))
		if len(bad) > 0 || ing.Bath.Zero() {
			continue
		}
		in := BathIn{Bath: ing.Bath, At: lab.StepKey(i)}
		switch {
		case step.Parts.Given():
			in.Share = new(big.Rat).Quo(step.Parts.Exact(), all)
		case step.Amount.Volume.Given() && s.Per.Positive():
			in.Share = new(big.Rat).Quo(step.Amount.Volume.Exact(), s.Per.Exact())
		default:
			continue
		}
		out = append(out, in)
	}
	if d := s.Dissolve; d != nil {
		if in, bad := m.Lab.Resolve(d.In, s.At("dissolve.in")); len(bad) == 0 && !in.Bath.Zero() {
			out = append(out, BathIn{Bath: in.Bath, Share: big.NewRat(1, 1), At: "dissolve.in"})
		}
	}
	return out
}
