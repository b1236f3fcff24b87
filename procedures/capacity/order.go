package capacity

import (
	"fmt"
	"sort"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// monthBath is how much of a re-used bath a month's work takes.
var monthBath = &figure.F3[unit.Volume, unit.Factor, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "month.bath", Name: "bath for a month", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "r", Meaning: "pieces in a day"}, {Symbol: "d", Meaning: "days in a month"}, {Symbol: "N", Meaning: "pieces that a litre treats"}},
		Text:  "1000 * r * d / N", Valid: "a bath that is used up, not thrown away half used", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(r, d, n unit.Factor) unit.Volume { return unit.Volume(1000 * r * d / n) },
}

// monthStock is how much stock a month's one-shot rolls take.
var monthStock = &figure.F3[unit.Volume, unit.Factor, unit.Factor, unit.VolumePerRoll]{
	Formula: figure.Formula{ID: "month.stock", Name: "stock for a month", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "r", Meaning: "pieces in a day"}, {Symbol: "d", Meaning: "days in a month"}, {Symbol: "s", Meaning: "stock for one", Unit: "ml"}},
		Text:  "r * d * s", Valid: "tanks filled as the films need, none half empty", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(r, d unit.Factor, s unit.VolumePerRoll) unit.Volume {
		return unit.Volume(float64(r) * float64(d) * float64(s))
	},
}

// monthMass is how much of a substance a month's bath holds.
var monthMass = &figure.F2[unit.Mass, unit.Concentration, unit.Volume]{
	Formula: figure.Formula{ID: "month.mass", Name: "substance for a month", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "c", Meaning: "content", Unit: "g/L"}, {Symbol: "V", Meaning: "bath for a month", Unit: "ml"}},
		Text:  "c * V / 1000", Source: "mass balance", Origin: figure.Standard},
	Go: func(c unit.Concentration, v unit.Volume) unit.Mass { return unit.Mass(float64(c) * float64(v) / 1000) },
}

// monthTotal adds what all baths take of a substance.
var monthTotal = &figure.FN[unit.Mass, unit.Mass]{
	Formula: figure.Formula{ID: "month.total", Name: "a month's use", Result: "u", Unit: "g",
		Terms: []figure.Term{{Symbol: "m", Meaning: "what each bath takes", Unit: "g"}},
		Text:  "sum(m)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: figure.Total[unit.Mass],
}

// missing and packs are I3.
var (
	missing = &figure.F5[unit.Mass, unit.Mass, unit.Factor, unit.Factor, unit.Mass, unit.Mass]{
		Formula: figure.Formula{ID: "order.missing", Name: "missing", Result: "m", Unit: "g",
			Terms: []figure.Term{{Symbol: "u", Meaning: "a month's use", Unit: "g"}, {Symbol: "l", Meaning: "months until it comes"}, {Symbol: "c", Meaning: "months it is to last"}, {Symbol: "s", Meaning: "kept in reserve", Unit: "g"}, {Symbol: "h", Meaning: "in the house", Unit: "g"}},
			Text:  "max(0, u * (l + c) + s - h)", Valid: "nothing is bought beyond its life", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(u unit.Mass, l, c unit.Factor, s, h unit.Mass) unit.Mass { return max(0, u*unit.Mass(l+c)+s-h) },
	}
	packs = &figure.F2[unit.Factor, unit.Mass, unit.Mass]{
		Formula: figure.Formula{ID: "order.packs", Name: "packs to order", Result: "n", Unit: "",
			Terms: []figure.Term{{Symbol: "m", Meaning: "missing", Unit: "g"}, {Symbol: "p", Meaning: "one pack", Unit: "g"}},
			Text:  "ceil(m / p)", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(m, p unit.Mass) unit.Factor { return unit.Factor(unit.Round(float64(m)/float64(p), 1, unit.Up)) },
	}
	packMass = &figure.F2[unit.Mass, unit.Volume, unit.Concentration]{
		Formula: figure.Formula{ID: "order.liquid", Name: "substance in a liquid's pack", Result: "m", Unit: "g",
			Terms: []figure.Term{{Symbol: "V", Meaning: "volume", Unit: "ml"}, {Symbol: "c", Meaning: "content", Unit: "g/L"}},
			Text:  "V * c / 1000", Source: "mass balance", Origin: figure.Standard},
		Go: func(v unit.Volume, c unit.Concentration) unit.Mass { return unit.Mass(float64(v) * float64(c) / 1000) },
	}
)

// Month gathers what a month's work takes of every substance.
type Month struct {
	m     *mix.Mixer
	parts map[string][]figure.Figure[unit.Mass]
	// Uncounted names the strengths whose use nobody can work out.
	Uncounted []string
}

// NewMonth starts an empty month.
func NewMonth(m *mix.Mixer) *Month {
	return &Month{m: m, parts: map[string][]figure.Figure[unit.Mass]{}}
}

// Add counts a strength: x is its capacity for the format it is mostly used
// for, of one litre.
func (mo *Month) Add(b lab.Bath, x Capacity, use Use) {
	base := x.Format.Material.Base
	rate, ok := use.dayOf(mo.m.Lab, b, x.Format, ","+base)
	if !ok || x.NoWhy != "" || x.Count < 1 {
		mo.Uncounted = append(mo.Uncounted, b.Ref())
		return
	}
	days := figure.Constant(unit.Factor(daysInMonth), "days in a month", "a twelfth of 365.25 days", figure.Standard)
	of := b
	var volume figure.Figure[unit.Volume]
	d := b.Decl()
	if d.Use == "one-shot" && d.Needs.Given() {
		q, counted := x.Format.Rolls()
		if !counted {
			mo.Uncounted = append(mo.Uncounted, b.Ref())
			return
		}
		if from, _, _, diluted := mix.From(b); diluted {
			of = from
		}
		key := "strength." + b.Strength + ".needs"
		needs := figure.Given(d.Needs, b.Def().At(key), mo.m.Origin(b.Def(), key), "least for one roll")
		if q.Value != 1 {
			needs = pieceNeed.Of(b.Ref()+"/needs@"+x.Format.Ref(), needs, q)
		}
		volume = monthStock.Of(b.Ref()+"/month@"+base, rate, days, needs)
	} else {
		n := figure.GivenNumber(unit.Factor(x.Count), fmt.Sprint(x.Count), figure.Where{}, figure.Estimate, "pieces that a litre treats")
		volume = monthBath.Of(b.Ref()+"/month@"+base, rate, days, n)
	}
	for _, c := range mo.m.Made(of).Contents {
		mo.parts[c.Ref()] = append(mo.parts[c.Ref()], monthMass.Of(b.Ref()+"/month."+c.Ref()+"@"+base, c.Conc, volume))
	}
}

// Order is what is to be bought of one substance.
type Order struct {
	Ref, Name string
	// Figure ids; Packs is empty where the store says nothing of a pack, and Why
	// says what is missing.
	Use, Have, Missing, Packs string
	Why                       string
}

// Orders lists what to buy, by the names of the substances.
func (mo *Month) Orders() []Order {
	var refs []string
	for ref := range mo.parts {
		refs = append(refs, ref)
	}
	sort.Strings(refs)
	var out []Order
	for _, ref := range refs {
		out = append(out, mo.order(ref))
	}
	return out
}

func (mo *Month) order(ref string) Order {
	m := mo.m
	ing, _ := m.Lab.Resolve(ref, figure.Where{})
	o := Order{Ref: ref, Name: ing.Name()}
	if ing.Form != nil && ing.Form.Content.Given() {
		o.Name = ing.Chemical.Name + ", counted as the pure salt in its liquid"
	}
	grams := func(f figure.Figure[unit.Mass], rule unit.Rule) string {
		return figure.Enter(m.Book, f.Show(figure.KindAmount, "1", rule, ""))
	}
	use := monthTotal.Of("order/"+ref+",use", mo.parts[ref]...).Named("a month's use, " + o.Name)
	o.Use = grams(use, unit.Up)
	pack, i, ok := m.Lab.PackOf(ref)
	if !ok || !pack.Size.Given() || !pack.Left.Given() {
		o.Why = "store.toml says nothing of its packs"
		return o
	}
	at := m.Lab.Store.At(fmt.Sprintf("pack[%d]", i))
	by := m.Origin(m.Lab.Store.Def, at.Key)
	mass := func(a unit.Amount, key, id, name string) (figure.Figure[unit.Mass], bool) {
		if a.Mass.Given() {
			return figure.Given(a.Mass, at.At(key), by, name), true
		}
		content, ok := m.Content(ing)
		if !ok {
			return figure.Figure[unit.Mass]{}, false
		}
		return packMass.Of(id, figure.Given(a.Volume, at.At(key), by, name), content), true
	}
	have, okHave := mass(pack.Left, "left", "order/"+ref+",left", "in the house")
	size, okSize := mass(pack.Size, "size", "order/"+ref+",size", "one pack")
	if !okHave || !okSize || size.Value <= 0 {
		o.Why = "nobody has written what a pack of it holds"
		return o
	}
	reserve := figure.Constant(unit.Mass(0), "kept in reserve: none written", "", figure.Standard)
	if pack.Reserve.Given() {
		if r, ok := mass(pack.Reserve, "reserve", "order/"+ref+",reserve", "kept in reserve"); ok {
			reserve = r
		}
	}
	h := m.Lab.Place.House.Filled()
	months := func(l unit.Life, key, name string) figure.Figure[unit.Factor] {
		n, _ := days(l)
		return figure.GivenNumber(unit.Factor(n/daysInMonth), l.Text(), m.Lab.Place.At("house."+key), m.Origin(m.Lab.Place.Def, "house."+key), name)
	}
	if have.ID() == "" {
		o.Have = figure.Declare(m.Book, "order/"+ref+",have", figure.KindAmount, have, trim(unit.Round(float64(have.Value), 1, unit.Down)), "g")
	} else {
		o.Have = grams(have, unit.Down)
	}
	short := missing.Of("order/"+ref+",missing", use, months(h.OrderLead, "order_lead", "until it comes"), months(h.OrderCover, "order_cover", "to last"), reserve, have).Named("missing, " + o.Name)
	o.Missing = grams(short, unit.Up)
	o.Packs = figure.Enter(m.Book, packs.Of("order/"+ref, short, size).Named("packs to order, "+o.Name).Show(figure.KindCount, "1", unit.Up, ""))
	return o
}
