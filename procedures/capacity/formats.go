package capacity

import (
	"fmt"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// oddRolls is M11: a format outside the trade's convention, counted by its area.
var oddRolls = figure.Register(&figure.F2[unit.Rolls, unit.Area, unit.Area]{
	Formula: figure.Formula{ID: "rolls.odd", Name: "equivalents of an odd format", Result: "q", Unit: "rolls",
		Terms: []figure.Term{{Symbol: "A", Meaning: "area of one", Unit: "cm²"},
			{Symbol: "A_1", Meaning: "area of one roll", Unit: "cm²"}},
		Text: "A / A_1", Valid: "the strip that goes through the baths, not the frames",
		Source: "common practice, no source", Origin: figure.Default},
	Go: func(a, one unit.Area) unit.Rolls { return unit.Rolls(a / one) },
})

// rollArea is the area that counts as one roll.
var rollArea = figure.Constant(unit.Area(516), "area that counts as one roll: one 8×10 in print",
	"common practice, no source", figure.Default)

// Format is one format of a material, as it goes through a bath.
type Format struct {
	Material *lab.Material
	ID       string // of the format
	Decl     lab.Format
	worked   *worked
}

// worked is what is worked out of one piece; the figures are given where they can be.
type worked struct {
	area      figure.Figure[unit.Area]
	silver    figure.Figure[unit.Mass]
	hasArea   bool
	hasSilver bool
	kind      string
}

// Worked is the format with what is worked out of one piece, once for all the baths that
// it goes through.
func (f Format) Worked(l *lab.Lab) Format {
	one := &worked{}
	one.area, one.hasArea = f.Area()
	one.silver, one.hasSilver = SilverEach(l, f)
	one.kind = f.kind(l)
	f.worked = one
	return f
}

// Kind is a format of one material, and the other materials whose same format a bath cannot
// tell from it.
type Kind struct {
	Format Format
	Others []*lab.Material
}

// Kinds puts formats together that a bath treats alike, so that each answer is worked out
// once. What the bath's limits, a month's work or the lab's log name stands for itself.
func Kinds(l *lab.Lab, b lab.Bath, formats []Format, logged ...string) []Kind {
	named := map[string]bool{}
	for _, ref := range logged {
		named[ref] = true
	}
	if !b.Zero() && b.Decl() != nil {
		for _, limit := range b.Written().Limits {
			named[limit.Of] = true
		}
	}
	for _, month := range l.Place.Use {
		for _, pieces := range month {
			named[pieces.Of] = true
		}
	}
	var out []Kind
	at := map[string]int{}
	for _, f := range formats {
		key := f.kind(l)
		if i, ok := at[key]; ok && !named[f.Ref()] {
			out[i].Others = append(out[i].Others, f.Material)
			continue
		}
		if !named[f.Ref()] {
			at[key] = len(out)
		}
		out = append(out, Kind{Format: f})
	}
	return out
}

// kind is all that a bath reads of a piece, as a key. A material whose silver nobody has
// written is of a kind of its own: the card names it.
func (f Format) kind(l *lab.Lab) string {
	if f.worked != nil {
		return f.worked.kind
	}
	key := []string{string(f.Material.Base), f.ID, f.Decl.Name, f.Decl.Width.Text(), f.Decl.Length.Text(),
		f.Decl.Family, fmt.Sprint(f.Decl.IsRoll()), f.Material.Carry.Text(), string(f.Material.Carry.By())}
	read := func(value, low, high float64, by figure.Origin) {
		key = append(key, fmt.Sprint(value, low, high, by))
	}
	if area, ok := f.Area(); ok {
		read(float64(area.Value), float64(area.Low), float64(area.High), area.Origin())
	}
	if rolls, ok := f.Rolls(); ok {
		read(float64(rolls.Value), float64(rolls.Low), float64(rolls.High), rolls.Origin())
	}
	if silver, ok := SilverEach(l, f); ok {
		read(float64(silver.Value), float64(silver.Low), float64(silver.High), silver.Origin())
	} else {
		key = append(key, f.Material.ID)
	}
	return strings.Join(key, "\x00")
}

// Ref is the material.format that limits, logs and a month's use name.
func (f Format) Ref() string { return f.Material.ID + "." + f.ID }

// Name is the material and its format in words.
func (f Format) Name() string {
	if f.Decl.Name != "" {
		return f.Material.Name + ", " + f.Decl.Name
	}
	return f.Material.Name + ", " + lab.InSides(f.ID)
}

// Area is the area of one, as a figure to work from.
func (f Format) Area() (figure.Figure[unit.Area], bool) {
	if f.worked != nil {
		return f.worked.area, f.worked.hasArea
	}
	if f.Decl.Area.Given() {
		return f.Decl.Area.Figure("area of one"), true
	}
	if !f.Decl.Width.Positive() || !f.Decl.Length.Positive() {
		return figure.Figure[unit.Area]{}, false
	}
	return areaOf.Of(f.areaID(), f.Decl.Width.Figure("width"), f.Decl.Length.Figure("length")).
		Named("area of one "+lab.InSides(f.ID)).Show(figure.KindAmount, "1", unit.Nearest, ""), true
}

// EnterArea enters the area of one; nil where it has none.
func (f Format) EnterArea(book *figure.Ledger) *figure.Record {
	area, ok := f.Area()
	switch {
	case !ok:
		return nil
	case f.Decl.Area.Given():
		return figure.Declare(book, f.areaID(), figure.KindAmount, area,
			unit.Short(unit.Round(float64(area.Value), 1, unit.Nearest)), "cm²")
	}
	return figure.Enter(book, area)
}

func (f Format) areaID() string { return figure.ID(f.subject(), "area") }

// subject is the subject of ids: the material's own, where it brings the format along.
func (f Format) subject() string {
	if _, own := f.Material.Format[f.ID]; own {
		return "format." + f.Ref()
	}
	return "format." + f.ID
}

// Pieces is the word for n of this format.
func (f Format) Pieces(n int) string {
	word := "sheet"
	switch {
	case f.Material.Base == "film" && f.Decl.IsRoll():
		word = "film"
	case f.Material.Base == "resin-coated" || f.Material.Base == "fibre":
		word = "print"
	}
	if n != 1 {
		word += "s"
	}
	return word
}

// Rolls is how many rolls one counts as: by the trade's convention, else by its
// area (M11).
func (f Format) Rolls() (figure.Figure[unit.Rolls], bool) {
	if f.Decl.Rolls.Given() {
		return f.Decl.Rolls.Figure("equivalents of one"), true
	}
	area, ok := f.Area()
	if !ok {
		return figure.Figure[unit.Rolls]{}, false
	}
	return oddRolls.Of(figure.ID(f.subject(), "rolls.area"), area, rollArea).
		Show(figure.KindCount, "0.01", unit.Up, ""), true
}

// Formats lists every format of some materials.
func Formats(l *lab.Lab, materials ...*lab.Material) []Format {
	var out []Format
	for _, m := range materials {
		for _, id := range m.Formats {
			if f, _, ok := l.FormatOf(m, id); ok {
				out = append(out, Format{Material: m, ID: id, Decl: f})
			}
		}
	}
	return out
}

// sizes are the areas of one of the format that a count names and of one of another of
// the same base.
func sizes(l *lab.Lab, of string, f Format) (one, area figure.Figure[unit.Area], ok bool) {
	counted, found := FormatNamed(l, of)
	if !found || counted.Material.Base != f.Material.Base {
		return one, area, false
	}
	one, first := counted.Area()
	area, second := f.Area()
	return one, area, first && second
}

// FormatNamed finds a material.format.
func FormatNamed(l *lab.Lab, ref string) (Format, bool) {
	id, format, _ := strings.Cut(ref, ".")
	m := l.Material(id)
	if m == nil {
		return Format{}, false
	}
	f, _, ok := l.FormatOf(m, format)
	return Format{Material: m, ID: format, Decl: f}, ok
}
