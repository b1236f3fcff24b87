package work

import (
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Bought is what the files say of a product as it is bought; nothing is worked out from
// it.
type Bought struct {
	Pack Pack
	// Makes is what a pack makes; nil where it is used or diluted as it comes.
	Makes *PackMakes
	// Parts are those of a kit, in the order in which they are mixed.
	Parts []KitPart
	// Yields are what a pack does by the word of those who say so.
	Yields []Yield
}

// Pack is a pack as the shop sells it: what it holds, in how many pieces, for how much;
// each is nil where nobody has written it.
type Pack struct{ Holds, Pieces, Price *figure.Record }

// PackMakes is what a pack makes, and the water to start with and its temperature, which
// are nil where nobody has written them.
type PackMakes struct {
	Strength                  string
	Stock, StartWith, StartAt *figure.Record
	Divide                    lab.Divide
}

// KitPart is one part of a kit.
type KitPart struct {
	Name string
	Decl *lab.KitPart
	Pack Pack
	// Contains are what its sheet says is in it, and Lives how long it keeps where that is said of
	// it alone.
	Contains []Part
	Lives    []Life
	// Takes is how much of it is added.
	Takes *figure.Record
	// Whole: that is all that its pack holds.
	Whole bool
	Step  lab.Step
}

// Yield is how many a pack does, of what and in which strength, and who says so.
type Yield struct {
	Strength string
	Count    *figure.Record
	Of       string
	Says     figure.Origin
}

// bought is what the files say of a product as it is bought.
func (w *Work) bought(d *lab.Product) Bought {
	out := Bought{Pack: w.pack(figure.ID(d.ID, "pack"), d.Pack)}
	if m := d.Makes; m != nil {
		out.Makes = &PackMakes{Strength: d.MadeStrength(), Divide: m.Divide,
			Stock:     asSaid(w, figure.ID(d.ID, "makes"), m.Stock, "what a pack makes"),
			StartWith: asSaid(w, figure.ID(d.ID, "makes.start"), m.Start.With, "water to start with"),
			StartAt:   asSaid(w, figure.ID(d.ID, "makes.start-at"), m.Start.At, "how warm the water is")}
	}
	for _, s := range d.Steps {
		part := d.Parts[s.Add]
		k := KitPart{Name: d.PartName(s.Add), Decl: part, Step: s,
			Pack:  w.pack(figure.ID(d.ID, "pack."+s.Add), part.Pack),
			Takes: w.amountSaid(figure.ID(d.ID, "takes."+s.Add), s.Amount, "how much of "+d.PartName(s.Add))}
		k.Contains = w.partsOf(d, part.Contains, w.lab.OthersOf(part.Contains), s.Add, nil)
		k.Lives = w.livesIn(part.Keeps, d.ID+"."+lab.Supplied, "keeps."+s.Add+".", d.Def, lab.PartKey(s.Add)+".keeps.")
		holds := k.Pack.Holds
		k.Whole = k.Takes != nil && holds != nil && k.Takes.Unit == holds.Unit && k.Takes.Value == holds.Value
		out.Parts = append(out.Parts, k)
	}
	for _, y := range d.Yields {
		g := y.Count.Figure("what a pack does")
		of := "rolls"
		var each []string
		if y.Count.Of != "" {
			m, format, _ := w.lab.Piece(y.Count.Of, y.Count.Where())
			of = "of " + m.Name + ", " + format
			each = append(each, y.Count.Of)
		}
		shown := unit.Short(float64(g.Low))
		if y.Count.High > y.Count.Low {
			shown += "–" + unit.Short(float64(g.High))
		}
		count := figure.Declare(w.mix.Book, figure.ID(d.ID, "yield."+y.Strength, each...), figure.KindCount, g, shown,
			"")
		out.Yields = append(out.Yields, Yield{Strength: y.Strength, Count: count, Of: of, Says: y.Count.By()})
	}
	return out
}

func (w *Work) pack(id string, p lab.BoughtPack) Pack {
	out := Pack{Holds: w.amountSaid(id, p.Holds, "what a pack holds")}
	if p.Count.Given() {
		g := p.Count.Figure("pieces in a pack")
		out.Pieces = figure.Declare(w.mix.Book, figure.Beside(id, "pieces"), figure.KindCount, g,
			unit.Short(float64(g.Value)), "")
	}
	if g, ok := p.Price.FigureWhole("price of a pack"); ok {
		out.Price = figure.Declare(w.mix.Book, figure.Beside(id, "price"), figure.KindMoney, g,
			unit.Format(float64(g.Value), unit.NewDecimal(1, 2)), p.Price.Currency)
	}
	return out
}

func (w *Work) amountSaid(id string, a lab.Amount, name string) *figure.Record {
	if a.Mass.Given() {
		return asSaid(w, id, a.Mass, name)
	}
	return asSaid(w, id, a.Volume, name)
}

// asSaid enters a quantity as it was declared; nil where nobody has written it.
func asSaid[T unit.Kind](w *Work, id string, q lab.Said[T], name string) *figure.Record {
	if !q.Given() {
		return nil
	}
	kind := figure.KindAmount
	if unit.DimOf[T]() == unit.DimTemperature {
		kind = figure.KindTemperature
	}
	times, word := 1.0, unit.UnitOf[T]()
	if word == "ml" && float64(q.Low()) >= 10000 {
		times, word = 0.001, "L"
	}
	shown := unit.Short(times * float64(q.Value()))
	if q.Spread() {
		shown = unit.Short(times*float64(q.Low())) + "–" + unit.Short(times*float64(q.High()))
	}
	return figure.Declare(w.mix.Book, id, kind, q.Figure(name), shown, word)
}
