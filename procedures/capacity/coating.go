package capacity

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// coatVolume is G4.
var coatVolume = figure.Register(&figure.F4[unit.Volume, unit.Factor, unit.Area, unit.VolumePerArea, unit.Percent]{
	Formula: figure.Formula{ID: "coat", Name: "sensitiser to mix", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "N", Meaning: "sheets"},
			{Symbol: "A", Meaning: "coated area of one", Unit: "cm²"},
			{Symbol: "u", Meaning: "what covers a square metre", Unit: "ml/m²"},
			{Symbol: "l", Meaning: "added for what stays in brush and dish", Unit: "%"}},
		Text: "N * A / 10000 * u * (1 + l / 100)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.Factor, a unit.Area, u unit.VolumePerArea, l unit.Percent) unit.Volume {
		return unit.Volume(float64(n) * float64(a) / 10000 * float64(u) * (1 + float64(l)/100))
	},
})

// Coat is how much sensitiser so many sheets take (G4).
func Coat(m *mix.Mixer, b lab.Bath, f Format, sheets int) (figure.Figure[unit.Volume], bool) {
	n := figure.Constant(unit.Factor(sheets), "sheets", "", figure.Standard)
	v, ok := coated(m, b, f, figure.ID(b.Ref(), "coat", f.Ref(), fmt.Sprint(sheets)), n)
	if !ok {
		return v, false
	}
	return v.Named("sensitiser to mix").Show(figure.KindAmount, "2", unit.Up, ""), true
}

// coated is what n sheets of a format take, with what stays in brush and dish.
func coated(m *mix.Mixer, b lab.Bath, f Format, id string,
	n figure.Figure[unit.Factor]) (figure.Figure[unit.Volume], bool) {
	s := b.Decl()
	area, ok := f.Area()
	if s == nil || !s.Coat.Given() || !ok && !s.Coat.Sheet.Given() {
		return figure.Figure[unit.Volume]{}, false
	}
	stays := figure.DefaultOf(unit.Percent(0), "0 %", "added for what stays in brush and dish: none written",
		"nothing is added for it")
	if s.Loss.Given() {
		stays = s.Loss.Figure("added for what stays in brush and dish")
	}
	if s.Coat.Sheet.Given() {
		return coatSheets.Of(id, n, s.Coat.Sheet.Figure("what covers a sheet"), stays), true
	}
	return coatVolume.Of(id, n, area, s.Coat.Area.Figure("what covers a square metre"), stays), true
}

// CoatSheet is what is brushed onto one sheet of a format, without what stays in
// the brush; nil where nobody has written it.
func CoatSheet(m *mix.Mixer, b lab.Bath, f Format) *figure.Record {
	s := b.Decl()
	area, ok := f.Area()
	if s == nil || !s.Coat.Given() || !ok && !s.Coat.Sheet.Given() {
		return nil
	}
	id := figure.ID(b.Ref(), "coat.sheet", f.Ref())
	if s.Coat.Sheet.Given() {
		one := s.Coat.Sheet.Figure("brushed onto one sheet")
		return figure.Declare(m.Book, id, figure.KindAmount, one, unit.Short(float64(one.Value)), "ml")
	}
	one := coatOne.Of(id, area, s.Coat.Area.Figure("what covers a square metre"))
	return figure.Enter(m.Book, one.Show(figure.KindAmount, "0.1", unit.Nearest, "syringe"))
}

// coatSheets is G4 where what covers a sheet is known.
var coatSheets = figure.Register(&figure.F3[unit.Volume, unit.Factor, unit.VolumePerSheet, unit.Percent]{
	Formula: figure.Formula{ID: "coat.sheets", Name: "sensitiser to mix", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "N", Meaning: "sheets"},
			{Symbol: "u", Meaning: "what covers a sheet", Unit: "ml/sheet"},
			{Symbol: "l", Meaning: "added for what stays in brush and dish", Unit: "%"}},
		Text: "N * u * (1 + l / 100)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.Factor, u unit.VolumePerSheet, l unit.Percent) unit.Volume {
		return unit.Volume(float64(n) * float64(u) * (1 + float64(l)/100))
	},
})

// coatOne is what is brushed onto one sheet.
var coatOne = figure.Register(&figure.F2[unit.Volume, unit.Area, unit.VolumePerArea]{
	Formula: figure.Formula{ID: "coat.one", Name: "brushed onto one sheet", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "A", Meaning: "coated area of one", Unit: "cm²"},
			{Symbol: "u", Meaning: "what covers a square metre", Unit: "ml/m²"}},
		Text: "A / 10000 * u", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(a unit.Area, u unit.VolumePerArea) unit.Volume {
		return unit.Volume(float64(a) / 10000 * float64(u))
	},
})
