package work

import (
	"fmt"
	"maps"
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Notation is how amounts are written and counted, with the usual examples.
type Notation struct {
	// Volumes are those that every dilution is worked out for.
	Volumes   []*figure.Record
	Dilutions []NotedDilution
	Chain     Chain
	Blend     Blend
	// Rolls are all formats that count as rolls.
	Rolls []CountedFormat
	// Example counts a few films together.
	Example Loads
}

// NotedDilution is one dilution in every volume.
type NotedDilution struct {
	// Text is how it is written, such as "1+9".
	Text string
	// Takes is how much of the solution goes into each volume.
	Takes []mix.Take
	// Colon is how many times too strong it gets when a colon in it is read as one part in
	// so many.
	Colon *figure.Record
}

// Chain is one dilution after another, as they are written, and in how many parts of all
// one part is in the end.
type Chain struct {
	First, Second string
	Parts         *figure.Record
}

// Blend is how many parts of a stronger solution go with one of a weaker, each in % w/v.
type Blend struct {
	Want, Weak, Strong string
	Parts              *figure.Record
}

// CountedFormat is a format with the rolls that one counts as.
type CountedFormat struct {
	Name  string
	Rolls *figure.Record
	// ByArea: nobody has written how many rolls it counts as, so its area says so.
	ByArea bool
	// Area is that of one; nil where its sides are not known.
	Area *figure.Record
}

// Loads are films that are counted together as rolls: one roll of a format, two of
// another and four sheets of a third.
type Loads struct {
	One, Two, FourSheets string
	// Rolls is nil where the lab has not all of these formats.
	Rolls *figure.Record
}

// The examples that the trade's usual dilutions and vessels give.
var (
	notedRatios  = []string{"1+1", "1+2", "1+4", "1+9", "1+19", "1+39"}
	notedVolumes = volumes("300 mL", "600 mL", "1 L", "1.5 L", "2 L")
)

func volumes(texts ...string) []unit.Quantity[unit.Volume] {
	var out []unit.Quantity[unit.Volume]
	for _, t := range texts {
		out = append(out, unit.MustParse[unit.Volume](t))
	}
	return out
}

// ratio reads a dilution that stands in this program.
func ratio(text string) unit.Dilution {
	var d unit.Dilution
	if err := d.UnmarshalText([]byte(text)); err != nil {
		panic(err)
	}
	return d
}

// notation is the stage of how amounts are written.
func (w *Work) notation() {
	n := &w.Notation
	for _, v := range notedVolumes {
		n.Volumes = append(n.Volumes, w.mix.VolumeFigure(figure.ID("notation", "volume", mix.Tag(v.Exact())), v,
			figure.Where{},
			figure.Standard, "volume made"))
	}
	for _, r := range notedRatios {
		d := NotedDilution{Text: r, Colon: w.mix.ColonError(ratio(r))}
		for _, v := range notedVolumes {
			d.Takes = append(d.Takes, w.mix.Notation(ratio(r), v))
		}
		n.Dilutions = append(n.Dilutions, d)
	}
	n.Chain = Chain{First: "1+9", Second: "1+39", Parts: w.mix.Chain(ratio("1+9"), ratio("1+39"))}
	n.Blend = Blend{Want: "20 %", Weak: "10 %", Strong: "60 %", Parts: w.mix.Blend(20, 10, 60)}
	for _, f := range w.allFormats() {
		if c, ok := w.countedFormat(f); ok {
			n.Rolls = append(n.Rolls, c)
		}
	}
	n.Example = w.loads()
}

// countedFormat is how many rolls a format counts as; false where it counts as none.
func (w *Work) countedFormat(f capacity.Format) (CountedFormat, bool) {
	q, ok := f.Rolls()
	if !ok {
		return CountedFormat{}, false
	}
	name := f.Decl.Name
	if name == "" {
		name = lab.InSides(f.ID)
	}
	c := CountedFormat{Name: name, ByArea: !f.Decl.Rolls.Given()}
	if c.ByArea {
		c.Rolls = figure.Enter(w.mix.Book, q)
	} else {
		rolls := float64(f.Decl.Rolls.Value())
		given := f.Decl.Rolls.Figure(name + " counts as")
		c.Rolls = figure.Declare(w.mix.Book, figure.ID("format."+f.ID, "rolls"), figure.KindCount, given,
			unit.Short(rolls),
			unit.Plural(rolls, "roll"))
	}
	c.Area = f.EnterArea(w.mix.Book)
	return c, true
}

// loads counts a few films together as rolls.
func (w *Work) loads() Loads {
	out := Loads{One: "135-24", Two: "135-36", FourSheets: "4x5"}
	var shares []figure.Figure[unit.Rolls]
	for _, l := range []struct {
		n      int
		format string
	}{{1, out.One}, {2, out.Two}, {4, out.FourSheets}} {
		f, ok := capacity.Share(w.lab, figure.ID("rolls", fmt.Sprintf("example.%d-%s", l.n, l.format)), l.n, l.format)
		if !ok {
			return out
		}
		shares = append(shares, f)
	}
	out.Rolls = figure.Enter(w.mix.Book, capacity.Sum(figure.ID("rolls", "example"), shares...))
	return out
}

// allFormats are the formats of the table and those that materials have of their own,
// each once.
func (w *Work) allFormats() []capacity.Format {
	var out []capacity.Format
	table, decl := &lab.Material{}, w.lab.Formats
	for _, id := range slices.Sorted(maps.Keys(decl.Format)) {
		out = append(out, capacity.Format{Material: table, ID: id, Decl: decl.Format[id]})
	}
	for _, m := range w.lab.Materials {
		for _, id := range m.Formats {
			if f, ok := m.Format[id]; ok {
				out = append(out, capacity.Format{Material: m, ID: id, Decl: f})
			}
		}
	}
	return out
}
