package work

import (
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/series"
	"wetside/procedures/unit"
)

// Solution is what is mixed here: how, what is then in it, what it costs and what each of
// its strengths fills.
type Solution struct {
	Decl *lab.Solution
	// Made is the strength that its steps make; it is the first of Strengths.
	Made      *Bath
	Strengths []*Bath
	Mixing
	Contents []Content
	// DensityAssumed: nobody has written its density, and water's is taken.
	DensityAssumed bool
	// DensityOpen: nobody has written its density, and something in it hangs on that.
	DensityOpen bool
	// Cost is what a litre costs; nil where CostWhy says why, or where there is nothing
	// to say.
	Cost    *figure.Record
	CostWhy string
	// Coatings are what so many sheets of each format take of a sensitiser.
	Coatings []Coating
	// Lacks is what of its parts the shelf does not have, whatever the batch, and Short
	// what it has too little of for each batch.
	Lacks []Lack
	Short [][]Lack
	// Bottling is into which of the lab's own bottles a batch goes, one for each draw.
	Bottling []Bottling
}

// Content is one substance in a solution.
type Content struct {
	Name             string
	ByVolume, ByMass *figure.Record
	// Low and High are between what it lies by mass, where its amount itself is known;
	// else both are nil.
	Low, High *figure.Record
}

// solutions is the stage of what is mixed here.
func (w *Work) solutions() {
	for _, s := range w.Subjects {
		if d := s.Strengths[0].Solution; d != nil {
			out := w.solution(d, w.mix.Batches(d))
			out.Strengths = s.Strengths
			out.Coatings = w.coatings(d)
			w.Solutions = append(w.Solutions, out)
			w.approvedUnknown(d.Def, out.Made)
		}
	}
}

// solution works out a solution for a list of volumes.
func (w *Work) solution(d *lab.Solution, volumes []unit.Quantity[unit.Volume]) *Solution {
	b := lab.Bath{Solution: d, Strength: d.MadeStrength()}
	made := w.mix.Made(b)
	out := &Solution{Decl: d, Made: w.byRef[b.Ref()], Mixing: w.mixing(d, volumes), DensityAssumed: made.DensityAssumed,
		DensityOpen: !d.Density.Given() && len(made.Contents)+len(made.Unknown) > 0}
	out.Contents = w.contents(made)
	out.Cost, out.CostWhy = w.mix.Cost(b)
	out.Bottling = w.bottling(out)
	return out
}

// contents is what is really in a strength, by volume and by mass.
func (w *Work) contents(made *mix.Made) []Content {
	var out []Content
	for _, c := range made.Contents {
		share := w.mix.MassPercent(made, c)
		x := Content{Name: c.Chemical.ContentName(c.Form), ByVolume: figure.Enter(w.mix.Book, c.Conc),
			ByMass: figure.Enter(w.mix.Book, share)}
		if low, high := w.mix.Between(share); c.Conc.Low == c.Conc.High {
			x.Low, x.High = low, high
		}
		out = append(out, x)
	}
	return out
}

// approvedUnknown refuses a card that somebody has approved although nobody has
// looked up what is in it.
func (w *Work) approvedUnknown(d lab.Def, b *Bath) {
	if k, ok := w.lab.ControlOf(d); !ok || k.Approved == "" || b.Dangers.Status != Unknown {
		return
	}
	w.Problems = append(w.Problems, lab.Problem{At: w.lab.ControlAt(d, "approved"), Code: "hazard",
		What: "approved, but nobody has looked up the hazards of " + series.Of(b.Dangers.Missing) + " (" +
			d.File + ")",
		Hint: `write [hazards] classes for it from the supplier’s sheet, or write approved = "none" under [control] in ` +
			d.File + ": unapproved, the card prints full precautions"})
}

// Product is what is bought.
type Product struct {
	Decl *lab.Product
	// Supplied is the strength that it is bought in; it is the first of Strengths.
	Supplied  *Bath
	Strengths []*Bath
	// Parts are what the supplier's sheet says is in it.
	Parts []Part
	// DensityAssumed: nobody has written its density, and water's is taken for the parts.
	DensityAssumed bool
	Bought         Bought
	// Buying is what has to be known before it is bought, opened or made up.
	Buying Buying
	// Job is what making it up is: weighing where something of it is no liquid.
	Job Job
}

// Part is one part of a product as it is bought.
type Part struct {
	Name string
	// Classes are those that the supplier's sheet gives it; nil where it gives none.
	Classes []string
	// ByVolume is nil for what is no substance that is known here.
	ByVolume *figure.Record
	// ByMass is nil for the rest.
	ByMass *figure.Record
}

// products is the stage of what is bought.
func (w *Work) products() {
	for _, s := range w.Subjects {
		if d := s.Strengths[0].Product; d != nil {
			p := &Product{Decl: d, Supplied: s.Strengths[0], Strengths: s.Strengths}
			w.composition(p)
			p.Bought, p.Job = w.bought(d), jobOf(d)
			w.Products = append(w.Products, p)
			w.approvedUnknown(d.Def, p.Supplied)
		}
	}
}

// jobOf is what making up a product is.
func jobOf(d *lab.Product) Job {
	if d.Comes(lab.Powder, lab.Tablets) {
		return Weigh
	}
	return Dilute
}

// sheetWord makes a part of an id of a name as a supplier's sheet writes it: what would
// part the id, as the comma of many a substance, becomes a hyphen.
var sheetWord = strings.NewReplacer(" ", "-", ",", "-", "/", "-", "@", "-")

// composition is what the supplier's sheet says is in a product.
func (w *Work) composition(out *Product) {
	p := out.Decl
	if len(p.Contains) == 0 {
		return
	}
	conc := map[string]*figure.Record{}
	made := w.mix.Made(out.Supplied.Bath)
	if len(made.Contents) > 0 { // what is no liquid has none by volume
		for i, part := range w.lab.Parts(p) {
			conc[part.Key] = figure.Enter(w.mix.Book, made.Contents[i].Conc)
		}
	}
	out.DensityAssumed = made.DensityAssumed && len(conc) > 0
	out.Parts = w.partsOf(p, p.Contains, w.lab.Others(p), "", conc)
}

// partsOf are the parts of a product, or of one part of a kit, as its sheet lists them; conc
// is what each comes to by volume, by its key.
func (w *Work) partsOf(p *lab.Product, contains map[string]lab.Share, others []string, of string,
	conc map[string]*figure.Record) []Part {
	var out []Part
	for _, name := range sorted(contains) {
		key := lab.ContainsKey(name)
		share := contains[name]
		part := Part{Name: lab.Title(name), ByVolume: conc[key], Classes: share.Classes}
		if ing, bad := w.lab.Resolve(name, p.At(key)); len(bad) == 0 && ing.Chemical != nil {
			part.Name = ing.Name()
			if _, form, _ := strings.Cut(name, "."); form == "" { // the share is that of the substance itself
				part.Name = ing.Chemical.Name
			}
		}
		if slices.Contains(others, name) {
			part.Name = name // its hyphens are its own
		}
		if !share.Rest {
			shown := unit.Short(float64(share.Of.Value()))
			if share.Of.Spread() {
				shown = unit.Short(float64(share.Of.Low())) + "–" + unit.Short(float64(share.Of.High()))
			}
			word := sheetWord.Replace(name)
			if of != "" {
				word = of + "." + word
			}
			part.ByMass = figure.Declare(w.mix.Book, figure.ID(p.ID+"."+lab.Supplied, "share."+word), figure.KindRatio,
				share.Of.Figure("share of "+name), shown, "% w/w")
		}
		out = append(out, part)
	}
	return out
}
