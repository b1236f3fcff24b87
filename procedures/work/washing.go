package work

import (
	"fmt"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Washing is what is known of the last water: which materials need a bath before it,
// what fills of it save, and what they leave.
type Washing struct {
	Serves []Serving
	Saves  []FillsSave
	// Decay follows one wash of film fill by fill; nil where there is none to follow.
	Decay *Decay
	// Fibre is the refusal to work out a wash of fibre paper.
	Fibre *figure.Record
}

// Serving says which materials need a bath, may have it, or must not.
type Serving struct {
	Bath *Bath
	On   []ServingOn
}

// ServingOn is the answer for the materials on one base.
type ServingOn struct {
	Base   lab.Base
	Answer lab.Serving
	// Litre is how many a litre treats of each format on the base that has a number.
	Litre []FormatCapacity
}

// FillsSave is what the fills of a step save against running water.
type FillsSave struct {
	Process *lab.Process
	Step    lab.ProcessStep
	Tanks   []TankSaves
	// Within is how near the water must come to the temperature of the baths, or nil.
	Within *figure.Record
}

// TankSaves is what the fills save in one tank.
type TankSaves struct {
	capacity.Saved
	Name string
	// Family is the family of formats that the tank has this fill for; empty where it is
	// filled alike for all.
	Family string
}

// Decay is a film wash, fill by fill, in the smallest tank.
type Decay struct {
	capacity.Decay
	// Format is one roll of it, and Tank the tank by name.
	Format, Tank string
	// Fills are the numbers of the fills in the order of After.
	Fills []*figure.Record
}

// washing is the stage of the last water.
func (w *Work) washing() {
	var out Washing
	for _, b := range w.Baths {
		if s := w.serving(b); len(s.On) > 0 {
			out.Serves = append(out.Serves, s)
		}
	}
	for _, p := range w.Processes {
		if p.Decl.Like != "" { // its wash is told with the process it is built on
			continue
		}
		for i, s := range p.Decl.Steps {
			if len(s.Fills) == 0 {
				continue
			}
			if saves := w.fillsSave(p.Decl, i); len(saves.Tanks) > 0 {
				out.Saves = append(out.Saves, saves)
			}
			if p.Decl.Base == lab.Film && out.Decay == nil {
				out.Decay = w.decay(p, i)
			}
		}
	}
	if len(out.Serves)+len(out.Saves)+len(w.Washes) == 0 && out.Decay == nil {
		return
	}
	out.Fibre = w.mix.Book.Refuse(figure.ID("wash", "fibre"), figure.KindTime, "wash of fibre paper, worked out", "s",
		"fibre holds thiosulfate in itself and gives it up by diffusion: neither fills nor flow can be reckoned",
		figure.House)
	w.Washing = &out
}

// serving is what a bath says of the materials that need it, with a verdict for each.
func (w *Work) serving(b *Bath) Serving {
	out := Serving{Bath: b}
	d := b.Decl()
	if d == nil {
		return out
	}
	for _, base := range lab.Bases {
		answer, ok := d.Serves[base]
		if !ok {
			continue
		}
		w.mix.Book.EnterVerdict(figure.Verdict{ID: figure.ID(b.Ref(), "serves."+string(base)), Answer: string(answer),
			Because: []string{"written in " + b.Def().File}, Source: "common practice, no source"})
		on := ServingOn{Base: base, Answer: answer}
		if answer != "never" {
			for _, p := range w.passingsOn(b.Bath, base) {
				if x := w.capacityFor(b.Bath, Litre, p); x.NoWhy == "" && !x.ByUses() {
					on.Litre = append(on.Litre,
						FormatCapacity{Capacity: x, Of: Alike{Format: x.Format, Others: p.Others}})
				}
			}
			kept, of := oneRow(w, on.Litre, -1, func(x FormatCapacity) capacity.Kind { return x.Of.kind() },
				func(a, b FormatCapacity) bool { return sameRecord(a.N, b.N) && a.Place == b.Place })
			for i := range kept {
				kept[i].Of = of[i]
			}
			on.Litre = kept
		}
		out.On = append(out.On, on)
	}
	return out
}

// fillsSave is what the fills of a step save in each tank.
func (w *Work) fillsSave(p *lab.Process, i int) FillsSave {
	s := p.Steps[i]
	out := FillsSave{Process: p, Step: s}
	tanks, _ := capacity.Vessels(w.lab)
	seen := map[string]bool{}
	for _, v := range tanks {
		id, _, _ := strings.Cut(v.Key, ",")
		if seen[id+v.Fill.Text()] {
			continue
		}
		seen[id+v.Fill.Text()] = true
		saved, ok := capacity.FillsSave(w.mix, p, i, v)
		if !ok {
			continue
		}
		tank := TankSaves{Saved: saved, Name: v.Name}
		fill := w.lab.Place.Tanks[id].Fill
		if q := fill.Of(v.Family); len(fill.For) > 0 && q.Given() {
			tank.Family = v.Family
		}
		out.Tanks = append(out.Tanks, tank)
	}
	if len(out.Tanks) > 0 && s.Within.Given() {
		given := figure.Given(s.Within, p.At(lab.StepKey(i)+".within"), figure.House, "within")
		out.Within = figure.Declare(w.mix.Book, figure.ID(p.ID, "within."+s.ID), figure.KindTemperature, given,
			unit.Short(float64(s.Within.Value())), "K")
	}
	return out
}

// decay follows the thiosulfate of the last fixer before a step through the fills of the
// smallest tank.
func (w *Work) decay(p *Process, i int) *Decay {
	var fixer *Bath
	for j := i - 1; j >= 0 && fixer == nil; j-- {
		if b := p.Baths[j]; b != nil && b.Role() == "fixer" {
			fixer = b
		}
	}
	tanks, _ := capacity.Vessels(w.lab)
	formats := capacity.Formats(w.lab, w.lab.OfBase(p.Decl.Base)...)
	vessel, format, ok := tankFor(tanks, formats)
	if fixer == nil || !ok {
		return nil
	}
	d := &Decay{Decay: capacity.FillsDecay(w.mix, p.Decl, fixer.Bath, vessel, format), Format: format.Name(),
		Tank: vessel.Name}
	for _, x := range d.After {
		n := figure.Constant(unit.Factor(x.N), "fills", "", figure.Standard)
		d.Fills = append(d.Fills, figure.Declare(w.mix.Book, figure.ID("fills", fmt.Sprint(x.N)), figure.KindCount, n,
			fmt.Sprint(x.N), unit.Plural(x.N, "fill")))
	}
	return d
}

// tankFor is the smallest tank that takes a format that counts as a whole roll.
func tankFor(tanks []capacity.Vessel, formats []capacity.Format) (capacity.Vessel, capacity.Format, bool) {
	for _, v := range tanks {
		for _, f := range formats {
			if f.Decl.Family == v.Family && f.Decl.Rolls.Given() && f.Decl.Rolls.Value() == 1 {
				return v, f, true
			}
		}
	}
	return capacity.Vessel{}, capacity.Format{}, false
}
