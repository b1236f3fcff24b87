package capacity

import (
	"fmt"
	"sort"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// monthBath is how much of a bath a month's pieces use up.
var monthBath = figure.Register(&figure.F3[unit.Volume, unit.Factor, unit.Volume, unit.Factor]{
	Formula: figure.Formula{ID: "month.bath", Name: "bath for a month", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "n", Meaning: "pieces in a month"}, {Symbol: "V", Meaning: "bath", Unit: "ml"},
			{Symbol: "N", Meaning: "pieces that so much treats"}},
		Text: "n * V / N", Valid: "a bath that is used until it is spent, not discarded half used",
		Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: func(n unit.Factor, v unit.Volume, treats unit.Factor) unit.Volume {
		return unit.Volume(n) * v / unit.Volume(treats)
	},
})

// monthAged is how much of a bath a month takes that dies of age before it is used up.
var monthAged = figure.Register(&figure.F3[unit.Volume, unit.Volume, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "month.aged", Name: "bath for a month", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "what stands at a time", Unit: "ml"},
			{Symbol: "d", Meaning: "days in a month"}, {Symbol: "L", Meaning: "life", Unit: "days"}},
		Text: "V * d / L", Valid: "so much stands always, and gets too old before all of it is used",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(v unit.Volume, d, life unit.Factor) unit.Volume { return v * unit.Volume(d/life) },
})

// dayFills is what is poured into one vessel on the days of a month.
var dayFills = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Factor]{
	Formula: figure.Formula{ID: "month.days", Name: "bath for the days of a month", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "fill of the vessel", Unit: "ml"},
			{Symbol: "d", Meaning: "days of a month"}},
		Text: "V * d", Valid: "poured anew on every day that the process is worked, and discarded after it",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(v unit.Volume, d unit.Factor) unit.Volume { return v * unit.Volume(d) },
})

// atLeast is the larger of what a month's work uses up and what its days pour, or what gets too old.
var atLeast = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "month.poured", Name: "bath for a month", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "v_n", Meaning: "what the work uses up", Unit: "ml"},
			{Symbol: "v_d", Meaning: "what is poured on its days, or gets too old", Unit: "ml"}},
		Text: "max(v_n, v_d)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n, d unit.Volume) unit.Volume { return max(n, d) },
})

// monthStock is how much stock a month's one-shot pieces take.
var monthStock = figure.Register(&figure.F2[unit.Volume, unit.Factor, unit.VolumePerRoll]{
	Formula: figure.Formula{ID: "month.stock", Name: "stock for a month", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "n", Meaning: "pieces in a month"},
			{Symbol: "s", Meaning: "stock for one", Unit: "ml"}},
		Text: "n * s", Valid: "tanks filled as the films need, none half empty", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: func(n unit.Factor, s unit.VolumePerRoll) unit.Volume { return unit.Volume(float64(n) * float64(s)) },
})

// monthMass is how much of a substance a month's bath holds.
var monthMass = figure.Register(&figure.F2[unit.Mass, unit.Concentration, unit.Volume]{
	Formula: figure.Formula{ID: "month.mass", Name: "substance for a month", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "c", Meaning: "content", Unit: "g/L"},
			{Symbol: "V", Meaning: "bath for a month", Unit: "ml"}},
		Text: "c * V / 1000", Source: "mass balance", Origin: figure.Standard},
	Go: func(c unit.Concentration, v unit.Volume) unit.Mass { return unit.Mass(float64(c) * float64(v) / 1000) },
})

// monthTotal adds what all baths take of a substance.
var monthTotal = figure.Register(&figure.FN[unit.Mass, unit.Mass]{
	Formula: figure.Formula{ID: "month.total", Name: "a month's use", Result: "u", Unit: "g",
		Terms: []figure.Term{{Symbol: "m", Meaning: "what each bath takes", Unit: "g"}},
		Text:  "sum(m)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: figure.Total[unit.Mass],
})

// missing and packs are I3.
var (
	missing = figure.Register(&figure.F5[unit.Mass, unit.Mass, unit.Factor, unit.Factor, unit.Mass, unit.Mass]{
		Formula: figure.Formula{ID: "order.missing", Name: "missing", Result: "m", Unit: "g",
			Terms: []figure.Term{{Symbol: "u", Meaning: "a month's use", Unit: "g"},
				{Symbol: "l", Meaning: "months until it comes"}, {Symbol: "c", Meaning: "months it is to last"},
				{Symbol: "s", Meaning: "kept in reserve", Unit: "g"},
				{Symbol: "h", Meaning: "in the house", Unit: "g"}},
			Text: "max(0, u * (l + c) + s - h)", Valid: "no more than is used up while it keeps",
			Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(u unit.Mass, l, c unit.Factor, s, h unit.Mass) unit.Mass { return max(0, u*unit.Mass(l+c)+s-h) },
	})
	packs = figure.Register(&figure.F2[unit.Factor, unit.Mass, unit.Mass]{
		Formula: figure.Formula{ID: "order.packs", Name: "packs to order", Result: "n", Unit: "",
			Terms: []figure.Term{{Symbol: "m", Meaning: "missing", Unit: "g"},
				{Symbol: "p", Meaning: "one pack", Unit: "g"}},
			Text: "ceil(m / p)", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(m, p unit.Mass) unit.Factor { return unit.Factor(unit.Round(float64(m)/float64(p), 1, unit.Up)) },
	})
	packMass = figure.Register(&figure.F2[unit.Mass, unit.Volume, unit.Concentration]{
		Formula: figure.Formula{ID: "order.liquid", Name: "substance in a liquid's pack", Result: "m", Unit: "g",
			Terms: []figure.Term{{Symbol: "V", Meaning: "volume", Unit: "ml"},
				{Symbol: "c", Meaning: "content", Unit: "g/L"}},
			Text: "V * c / 1000", Source: "mass balance", Origin: figure.Standard},
		Go: func(v unit.Volume, c unit.Concentration) unit.Mass { return unit.Mass(float64(v) * float64(c) / 1000) },
	})
)

// asFormat counts pieces of one format, or rolls, as pieces of another.
var asFormat = figure.Register(&figure.F3[unit.Factor, unit.Factor, unit.Rolls, unit.Rolls]{
	Formula: figure.Formula{ID: "month.pieces", Name: "pieces in a month, counted as another format", Result: "m",
		Unit: "",
		Terms: []figure.Term{{Symbol: "n", Meaning: "pieces in a month"},
			{Symbol: "q", Meaning: "equivalents of one", Unit: "rolls"},
			{Symbol: "p", Meaning: "equivalents of one of the other", Unit: "rolls"}},
		Text: "n * q / p", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.Factor, q, p unit.Rolls) unit.Factor { return n * unit.Factor(q/p) },
})

// monthShare is how much of what is bought goes into a month's bath.
var monthShare = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Factor]{
	Formula: figure.Formula{ID: "month.share", Name: "product for a month", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "bath for a month", Unit: "ml"},
			{Symbol: "s", Meaning: "its share of the bath"}},
		Text: "V * s", Source: "mass balance", Origin: figure.Standard},
	Go: func(v unit.Volume, s unit.Factor) unit.Volume { return unit.Volume(float64(v) * float64(s)) },
})

// monthVolume, missingVolume and packsVolume are monthTotal and I3 for what is
// bought by volume.
var (
	monthVolume = figure.Register(&figure.FN[unit.Volume, unit.Volume]{
		Formula: figure.Formula{ID: "month.volume", Name: "a month's use", Result: "u", Unit: "ml",
			Terms: []figure.Term{{Symbol: "v", Meaning: "what each bath takes", Unit: "ml"}},
			Text:  "sum(v)", Source: "plain arithmetic", Origin: figure.Standard},
		Go: figure.Total[unit.Volume],
	})
	missingVolume = figure.Register(&figure.F5[unit.Volume, unit.Volume, unit.Factor, unit.Factor, unit.Volume,
		unit.Volume]{
		Formula: figure.Formula{ID: "order.missing.volume", Name: "missing", Result: "m", Unit: "ml",
			Terms: []figure.Term{{Symbol: "u", Meaning: "a month's use", Unit: "ml"},
				{Symbol: "l", Meaning: "months until it comes"}, {Symbol: "c", Meaning: "months it is to last"},
				{Symbol: "s", Meaning: "kept in reserve", Unit: "ml"},
				{Symbol: "h", Meaning: "in the house", Unit: "ml"}},
			Text: "max(0, u * (l + c) + s - h)", Valid: "no more than is used up while it keeps",
			Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(u unit.Volume, l, c unit.Factor, s, h unit.Volume) unit.Volume {
			return max(0, u*unit.Volume(l+c)+s-h)
		},
	})
	packsVolume = figure.Register(&figure.F2[unit.Factor, unit.Volume, unit.Volume]{
		Formula: figure.Formula{ID: "order.packs.volume", Name: "packs to order", Result: "n", Unit: "",
			Terms: []figure.Term{{Symbol: "m", Meaning: "missing", Unit: "ml"},
				{Symbol: "p", Meaning: "one pack", Unit: "ml"}},
			Text: "ceil(m / p)", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(m, p unit.Volume) unit.Factor { return unit.Factor(unit.Round(float64(m)/float64(p), 1, unit.Up)) },
	})
)

// Month gathers what a month's work takes of everything that is bought: of
// substances by mass, of products as they are bought.
type Month struct {
	m        *mix.Mixer
	parts    map[string][]figure.Figure[unit.Mass]
	products map[string][]figure.Figure[unit.Volume]
	// Baths is how much of each strength a month takes; of one-shot dilutions, of what they are
	// diluted from.
	Baths map[string][]figure.Figure[unit.Volume]
	// packs are what a month takes of what is bought by the whole pack.
	packs map[string][]figure.Figure[unit.Factor]
	// Uncounted names the strengths whose use nobody can work out.
	Uncounted []string

	day unit.Date
}

// NewMonth starts an empty month; what is past its best-before on the day is no stock.
func NewMonth(m *mix.Mixer, day unit.Date) *Month {
	return &Month{m: m, day: day, parts: map[string][]figure.Figure[unit.Mass]{},
		products: map[string][]figure.Figure[unit.Volume]{}, Baths: map[string][]figure.Figure[unit.Volume]{},
		packs: map[string][]figure.Figure[unit.Factor]{}}
}

// Add counts a strength by a month's use on one base. head is what a litre treats of
// the format that is mostly used; all what a much larger volume treats of each that the
// use names, so that what is rounded down counts for nothing. What nobody can count by its own
// format is counted by the head's. Of a bath that age ends, stands are the fills that
// stand at a time, such as two trays; without any it is a litre in its bottle, or as much as
// the largest of the vessels takes that are filled from it.
func (mo *Month) Add(b lab.Bath, head Capacity, all []Capacity, use Use, stands, filled []Stand) {
	base := head.Format.Material.Base
	if head.NoWhy != "" || head.Count < 1 {
		mo.Uncounted = append(mo.Uncounted, b.Ref())
		return
	}
	d, of := b.Decl(), b
	oneShot := d.Use == "one-shot" && d.Needs.Given()
	if oneShot {
		if from, _, diluted := b.From(); diluted {
			of = from
		}
	}
	aged := func(id string, fills ...figure.Figure[unit.Volume]) figure.Figure[unit.Volume] {
		stand := monthVolume.Of(figure.ID(b.Ref(), "stands", string(base)), fills...).Named("what stands at a time")
		return monthAged.Of(figure.ID(b.Ref(), id, string(base)), stand, DaysInMonth,
			figure.Entered[unit.Factor](head.Life))
	}
	bottle := inBottle(filled)
	if !oneShot && head.Governs == "age" && head.Evening == "" {
		fills := []figure.Figure[unit.Volume]{bottle}
		for i, v := range stands {
			fill := v.Fill.Figure("fill of the " + v.Name)
			if i == 0 {
				fills = fills[:0]
			}
			fills = append(fills, fill)
		}
		mo.take(b, of, aged("month", fills...), base)
		return
	}
	var parts []figure.Figure[unit.Volume]
	for i, e := range use.entries {
		n, x := mo.counted(b, e, head, all)
		id := figure.ID(b.Ref(), "month", fmt.Sprintf("%s.%d", base, i+1))
		if oneShot {
			each := x.Each.Called("what one takes")
			if each.Value == 0 { // it goes into no tank of this room
				each = d.Needs.Figure("least for one roll")
				if q, ok := x.Format.Rolls(); ok && q.Value != 1 {
					each = pieceNeed.Of(figure.ID(b.Ref(), "needs", x.Format.Ref()), each, q)
				}
			}
			parts = append(parts, monthStock.Of(id, n, each))
		} else {
			parts = append(parts, monthBath.Of(id, n, figure.Constant(x.Volume.Value(), "bath", "", figure.Standard),
				figure.Entered[unit.Factor](x.N)))
		}
	}
	if len(parts) == 0 {
		mo.Uncounted = append(mo.Uncounted, b.Ref())
		return
	}
	volume := monthVolume.Of(figure.ID(b.Ref(), "month", string(base)), parts...)
	if fills, ok := mo.discarded(b, base, use, stands); ok && !oneShot && head.Evening != "" {
		volume = atLeast.Of(figure.ID(b.Ref(), "month.poured", string(base)), volume, fills)
	}
	// Its limits end a litre, and age ends what has to stand in a larger bottle.
	if !oneShot && len(stands) == 0 && head.Life != nil && bottle.Value > litreBottle.Value {
		if old := aged("month.old", bottle); old.Value > volume.Value {
			volume = atLeast.Of(figure.ID(b.Ref(), "month.kept", string(base)), volume, old)
		}
	}
	mo.take(b, of, volume, base)
}

// litreBottle is what stands of a bath that waits in its bottle.
var litreBottle = figure.Constant(unit.Volume(1000), "a litre in its bottle", "common practice, no source",
	figure.Default)

// inBottle is what stands of a bath that waits in its bottle: a litre, or as much as the largest of
// the vessels takes that are filled from it.
func inBottle(filled []Stand) figure.Figure[unit.Volume] {
	out := litreBottle
	for _, v := range filled {
		if fill := v.Fill.Figure("fill of the " + v.Name); fill.Value > out.Value {
			out = fill
		}
	}
	return out
}

// Stand is a vessel in which a bath stands for a process.
type Stand struct {
	Process string
	Vessel
}

// discarded is what a month pours of a bath that is discarded at the end of each day: its
// trays, on every day that their process is worked; false where somebody has not written
// the days.
func (mo *Month) discarded(b lab.Bath, base lab.Base, use Use, stands []Stand) (figure.Figure[unit.Volume], bool) {
	if !use.DaysKnown(mo.m.Lab) || len(stands) == 0 {
		return figure.Figure[unit.Volume]{}, false
	}
	var fills []figure.Figure[unit.Volume]
	for i, v := range stands {
		days := mo.m.Lab.Place.Days[v.Process]
		fills = append(fills, dayFills.Of(figure.ID(b.Ref(), "month.days", fmt.Sprintf("%s.%d", base, i+1)),
			v.Fill.Figure("fill of the "+v.Name), days.Figure("days of a month, "+v.Process)))
	}
	return monthVolume.Of(figure.ID(b.Ref(), "month.days", string(base)), fills...).
		Named("what is poured on the days of a month"), true
}

// AddDays counts a strength by what its trays pour on the days of a month alone; false where that
// cannot be told.
func (mo *Month) AddDays(b lab.Bath, base lab.Base, use Use, stands []Stand) bool {
	fills, ok := mo.discarded(b, base, use, stands)
	if ok {
		mo.take(b, b, fills, base)
	}
	return ok
}

// counted is an entry of a month's use as pieces of its own format, or of the head's
// where the number of its own is not known, and what is treated of that.
func (mo *Month) counted(b lab.Bath, e useEntry, head Capacity, all []Capacity) (figure.Figure[unit.Factor], Capacity) {
	n := e.pieces.Figure("pieces in a month")
	for _, x := range all {
		if x.Format.Ref() == e.pieces.Of && x.Place <= 1 && x.NoWhy == "" && x.Count > 0 {
			return n, x
		}
	}
	one := figure.Constant(unit.Rolls(1), "a roll", "", figure.Standard)
	f, _ := FormatNamed(mo.m.Lab, e.pieces.Of)
	if q, counted := f.Rolls(); counted {
		one = q
	}
	own, ok := head.Format.Rolls()
	if !ok {
		return n, head
	}
	return asFormat.Of(figure.ID(b.Ref(), "month.pieces", fmt.Sprintf("%s.%d", e.process, e.nth)), n, one, own), head
}

// AddCoat counts a bath that is brushed on: so much for each sheet.
func (mo *Month) AddCoat(b lab.Bath, base lab.Base, use Use) {
	var parts []figure.Figure[unit.Volume]
	for i, e := range use.entries {
		f, ok := FormatNamed(mo.m.Lab, e.pieces.Of)
		if !ok {
			continue
		}
		n := e.pieces.Figure("sheets in a month")
		if v, ok := coated(mo.m, b, f, figure.ID(b.Ref(), "month", fmt.Sprintf("%s.%d", base, i+1)), n); ok {
			parts = append(parts, v)
		}
	}
	if len(parts) < len(use.entries) || len(parts) == 0 {
		mo.Uncounted = append(mo.Uncounted, b.Ref())
	}
	if len(parts) > 0 {
		mo.take(b, b, monthVolume.Of(figure.ID(b.Ref(), "month", string(base)), parts...), base)
	}
}

// take counts what a volume of a bath is made of.
func (mo *Month) take(b, of lab.Bath, volume figure.Figure[unit.Volume], base lab.Base) {
	mo.Baths[b.Ref()] = append(mo.Baths[b.Ref()], volume)
	for _, c := range mo.m.Made(of).Contents {
		if c.Product == nil { // what a product brings is bought with it
			mo.parts[c.Ref()] = append(mo.parts[c.Ref()],
				monthMass.Of(figure.ID(b.Ref(), "month."+c.Ref(), string(base)), c.Conc, volume))
		}
	}
	for _, p := range mo.m.Products(of) {
		share, _ := p.Share.Float64()
		s := figure.Constant(unit.Factor(share), "its share of the bath", "the dilutions as written", figure.Standard)
		if p.Product.Makes != nil {
			mo.packs[p.Product.ID] = append(mo.packs[p.Product.ID],
				monthPacks.Of(figure.ID(b.Ref(), "month."+p.Product.ID, string(base)), volume, s,
					p.Product.Makes.Stock.Figure("volume that a pack makes")))
			continue
		}
		mo.products[p.Product.ID] = append(mo.products[p.Product.ID],
			monthShare.Of(figure.ID(b.Ref(), "month."+p.Product.ID, string(base)), volume, s))
	}
}

// Order is what is to be bought of one substance.
type Order struct {
	Ref, Name string
	// Have and Missing are nil where the store does not say what is in the house, Packs
	// where it does not say what a pack holds; Why says what is missing.
	Use, Have, Missing, Packs *figure.Record
	Why                       string
	// Money is what the packs cost; nil where nobody has written a price. Lead is how long a
	// delivery of it takes, where that is not the house's rule; else nil.
	Money, Lead *figure.Record
	// Past is how many packs of it are past their best-before and count for nothing; else nil.
	Past *figure.Record
	// Life is how long a pack keeps once it is begun, in State, where that and not the work
	// decides how much a month takes, and Work what the work alone takes; else nil.
	Life, Work *figure.Record
	State      string
}

// Buy reports that something of it is missing, whether or not anybody knows in how many packs.
func (o Order) Buy() bool {
	if o.Packs != nil {
		return o.Packs.Value > 0
	}
	return o.Missing != nil && o.Missing.Value > 0
}

// Unsure reports that nobody can tell whether something of it is missing.
func (o Order) Unsure() bool { return o.Missing == nil }

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
	for _, id := range keys(mo.products) {
		out = append(out, mo.orderProduct(id))
	}
	for _, id := range keys(mo.packs) {
		out = append(out, mo.orderPacks(id))
	}
	return out
}

func (mo *Month) order(ref string) Order {
	m := mo.m
	ing, _ := m.Lab.Resolve(ref, figure.Where{})
	o, order := Order{Ref: ref, Name: ing.Name()}, figure.ID("order", ref)
	if ing.Form != nil && ing.Form.Content.Given() {
		o.Name = ing.Chemical.Name + ", counted as the pure salt in its liquid"
	}
	grams := func(f figure.Figure[unit.Mass], rule unit.Rule) *figure.Record {
		return figure.Enter(m.Book, f.Show(figure.KindAmount, "1", rule, ""))
	}
	use := monthTotal.Of(figure.Beside(order, "use"), mo.parts[ref]...).Named("a month's use, " + o.Name)
	o.Use = grams(use, unit.Up)
	pack, _, _ := m.Lab.PackOf(ref)
	mass := func(a lab.Amount, id, name string) (figure.Figure[unit.Mass], bool) {
		if a.Mass.Given() {
			return a.Mass.Figure(name), true
		}
		content, ok := m.Content(ing)
		if !ok || !a.Volume.Given() {
			return figure.Figure[unit.Mass]{}, false
		}
		return packMass.Of(id, a.Volume.Figure(name), content), true
	}
	have, ok := stock(mo, &o, ref, order, mass, storeMass)
	if !ok {
		o.Why = "store.toml does not say what is left of it"
		return o
	}
	reserve := figure.Constant(unit.Mass(0), "kept in reserve: none written", "", figure.Standard)
	if r, ok := mass(pack.Reserve, figure.Beside(order, "reserve"), "kept in reserve"); ok {
		reserve = r
	}
	if have.ID() == "" {
		o.Have = figure.Declare(m.Book, figure.Beside(order, "have"), figure.KindAmount, have,
			unit.Short(unit.Round(float64(have.Value), 1, unit.Down)), "g")
	} else {
		o.Have = grams(have, unit.Down)
	}
	lead, cover := mo.months(&o, pack)
	short := missing.Of(figure.Beside(order, "missing"), use, lead, cover, reserve, have).Named("missing, " + o.Name)
	o.Missing = grams(short, unit.Up)
	size, _ := mass(pack.Size, figure.Beside(order, "size"), "one pack")
	if size.Value <= 0 {
		o.Why = "nobody has written what a pack of it holds"
		return o
	}
	mo.pay(&o, packs.Of(order, short, size), lab.BoughtPack{})
	return o
}

// months are how long a delivery takes and how long it is to last, in months: by the word
// of the pack, else by the house's rule.
func (mo *Month) months(o *Order, pack lab.Pack) (lead, cover figure.Figure[unit.Factor]) {
	h := mo.m.Lab.Place.House.Filled()
	count := func(name string, life lab.SaidLife) figure.Figure[unit.Factor] {
		n, _ := days(life.Life)
		return life.Figure(name).WithValue(unit.Factor(n / daysInMonth))
	}
	wait := h.OrderLead
	if pack.Lead.Given() {
		wait = pack.Lead
		o.Lead = figure.Declare(mo.m.Book, figure.Beside(figure.ID("order", o.Ref), "lead"), figure.KindCount,
			wait.Figure("how long a delivery of it takes"),
			unit.Short(wait.Number()), wait.Word())
	}
	return count("until it comes", wait), count("to last", h.OrderCover)
}

// orderProduct is what to buy of a product, by volume.
func (mo *Month) orderProduct(id string) Order {
	m := mo.m
	p := m.Lab.Product(id)
	b := lab.Bath{Product: p, Strength: lab.Supplied}
	o, order := Order{Ref: b.Ref(), Name: p.Name}, figure.ID("order", b.Ref())
	ml := func(f figure.Figure[unit.Volume], rule unit.Rule) *figure.Record {
		return figure.Enter(m.Book, f.Show(figure.KindAmount, "1", rule, ""))
	}
	pack, _, _ := m.Lab.PackOf(o.Ref)
	size := PackHolds(m.Lab, p)
	work := mo.productUse(id)
	o.Use = ml(work, unit.Up)
	use := mo.withAgeOfBottle(&o, p, work, size)
	if o.Life != nil {
		o.Work, o.Use = o.Use, ml(use, unit.Up)
	}
	volume := func(a lab.Amount, _, name string) (figure.Figure[unit.Volume], bool) {
		if !a.Volume.Given() {
			return figure.Figure[unit.Volume]{}, false
		}
		return a.Volume.Figure(name), true
	}
	have, ok := stock(mo, &o, o.Ref, order, volume, storeVolume)
	if !ok {
		o.Why = "store.toml does not say what is left of it"
		return o
	}
	reserve := figure.Constant(unit.Volume(0), "kept in reserve: none written", "", figure.Standard)
	if pack.Reserve.Volume.Given() {
		reserve = pack.Reserve.Volume.Figure("kept in reserve")
	}
	if have.ID() == "" {
		o.Have = figure.Declare(m.Book, figure.Beside(order, "have"), figure.KindAmount, have,
			unit.Short(unit.Round(float64(have.Value), 1, unit.Down)), "ml")
	} else {
		o.Have = ml(have, unit.Down)
	}
	lead, cover := mo.months(&o, pack)
	short := missingVolume.Of(figure.Beside(order, "missing"), use, lead, cover, reserve, have).Named("missing, " +
		o.Name)
	o.Missing = ml(short, unit.Up)
	if !size.Positive() {
		o.Why = "nobody has written what a pack of it holds"
		return o
	}
	mo.pay(&o, packsVolume.Of(order, short, size.Figure("one pack")), p.Pack)
	return o
}
