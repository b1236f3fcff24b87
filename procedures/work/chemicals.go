package work

import (
	"maps"
	"slices"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/rules"
	"wetside/procedures/unit"
)

// Chemical is a substance that is used here, stands in the store, or is the lab's own.
type Chemical struct {
	Decl    *lab.Chemical
	Dangers Dangers
	// Shelf says beside what it must not stand; empty where no rule says so.
	Shelf string
	Forms []Form
	// UsedIn are the solutions that it goes into.
	UsedIn []*lab.Solution
	Meets  []Meeting
	// Said: somebody has said what it reacts like.
	Said bool
	// Spill is what is done with a little of it, out of its pack.
	Spill Spill
}

// Form is one form of a chemical, such as a hydrate.
type Form struct {
	ID, Name string
	Decl     *lab.Form
	// Formula is as chemists write it; empty where there is none.
	Formula string
	// Molar is its molar mass; nil without a fixed composition.
	Molar *figure.Record
}

// Dusty reports a substance that comes as a powder in any of its forms.
func (c *Chemical) Dusty() bool {
	for _, f := range c.Forms {
		if !hazard.Liquid(f.Decl) {
			return true
		}
	}
	return len(c.Forms) == 0
}

// chemicals is the stage of the substances.
func (w *Work) chemicals() {
	used, forms := w.usedChemicals()
	stored := map[string]bool{}
	for _, p := range w.lab.Store.Packs {
		if ing, bad := w.lab.InPack(p, w.lab.Store.At("pack")); len(bad) == 0 && ing.Chemical != nil {
			stored[ing.Chemical.ID] = true
			forms[ing.Chemical.ID] = append(forms[ing.Chemical.ID], ing.FormID)
		}
	}
	for _, d := range w.lab.Chemicals {
		if len(used[d.ID]) == 0 && !stored[d.ID] && d.Library {
			continue
		}
		c := &Chemical{Decl: d, Dangers: dangersOf(hazard.OfChemical(w.mix.Rules, d, forms[d.ID]...), nil),
			Shelf: w.mix.Rules.Shelf(d), UsedIn: used[d.ID],
			Meets: w.meetings(w.mix.Rules.Never([]rules.Kinds{w.mix.Rules.OfChemical(d)}, true)),
			Said:  w.mix.Rules.Said(d)}
		c.Spill = w.spillOf(c.Dangers.Known)
		for _, id := range d.FormIDs() {
			f := Form{ID: id, Name: d.FormName(id), Decl: d.Forms[id]}
			if f.Decl.Formula != "none" {
				f.Formula = f.Decl.Formula
			}
			if parsed, err := chem.Parse(f.Decl.Formula); err == nil {
				g := figure.Constant(unit.Molar(parsed.MolarMass()), "sum of atomic weights", "IUPAC/CIAAW 2021",
					figure.Standard)
				f.Formula = parsed.String()
				f.Molar = figure.Declare(w.mix.Book, figure.ID(d.ID+"."+id, "molar-mass"), figure.KindAmount, g,
					unit.Format(unit.Round(float64(parsed.MolarMass()), 0.01, unit.Nearest), unit.NewDecimal(1, 2)),
					"g/mol")
			}
			c.Forms = append(c.Forms, f)
		}
		w.Chemicals = append(w.Chemicals, c)
	}
}

// Shelf is one shelf of the store: chemicals that stand together, and what never stands
// beside them.
type Shelf struct {
	Group string
	Holds []*Chemical
	Meets []Meeting
}

// shelves is the stage of the shelves of the store, in the order of their groups.
func (w *Work) shelves() {
	groups := map[string][]*Chemical{}
	for _, c := range w.Chemicals {
		if c.Shelf != "" && c.Decl.Keep != "never" {
			groups[c.Shelf] = append(groups[c.Shelf], c)
		}
	}
	for _, group := range slices.Sorted(maps.Keys(groups)) {
		s := Shelf{Group: group, Holds: groups[group]}
		var kinds []rules.Kinds
		for _, c := range s.Holds {
			kinds = append(kinds, w.mix.Rules.OfChemical(c.Decl))
		}
		s.Meets = w.meetings(w.mix.Rules.Never(kinds, true))
		w.Shelves = append(w.Shelves, s)
	}
}

// usedChemicals are the solutions that each chemical goes into, and the forms in which it does.
func (w *Work) usedChemicals() (used map[string][]*lab.Solution, forms map[string][]string) {
	used, forms = map[string][]*lab.Solution{}, map[string][]string{}
	note := func(ref string, s *lab.Solution, at figure.Where) {
		ing, bad := w.lab.Resolve(ref, at)
		if len(bad) > 0 || ing.Chemical == nil {
			return
		}
		id := ing.Chemical.ID
		forms[id] = append(forms[id], ing.FormID)
		if list := used[id]; len(list) == 0 || list[len(list)-1] != s {
			used[id] = append(list, s)
		}
	}
	for _, s := range w.lab.Solutions {
		for i, step := range s.Steps {
			note(step.Add, s, s.At(lab.StepKey(i)))
		}
		if s.Dissolve != nil {
			note(s.Dissolve.Add, s, s.At("dissolve.add"))
			note(s.Dissolve.In, s, s.At("dissolve.in"))
		}
	}
	return used, forms
}

// amongChemicals reports a chemical that a solution holds or that stands in the store.
func (w *Work) amongChemicals(c *lab.Chemical) bool {
	used, _ := w.usedChemicals()
	if len(used[c.ID]) > 0 {
		return true
	}
	for _, p := range w.lab.Store.Packs {
		if ing, bad := w.lab.InPack(p, w.lab.Store.At("pack")); len(bad) == 0 && ing.Chemical != nil &&
			ing.Chemical.ID == c.ID {
			return true
		}
	}
	return false
}
