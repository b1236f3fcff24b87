package capacity

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// TestKinds: only formats of which a bath reads the same stand together, and none that
// somebody names stands behind another.
func TestKinds(t *testing.T) {
	said := func(s string) lab.Said[unit.MassPerArea] {
		return lab.Say[unit.MassPerArea](s)
	}
	film := func(id string, change func(*lab.Material, *lab.Format)) Format {
		m := &lab.Material{Name: id, Base: lab.Film}
		m.ID = id
		m.Silver.Coated = said("4 g/m2")
		m.Silver.Undeveloped = lab.Say[unit.Percent]("50 %")
		f := lab.Format{Family: "35", Area: lab.Say[unit.Area]("500 cm2"), Rolls: lab.Say[unit.Rolls]("1 roll")}
		change(m, &f)
		return Format{Material: m, ID: "135", Decl: f}
	}
	same := func(*lab.Material, *lab.Format) {}
	bath := lab.Bath{Solution: &lab.Solution{Strengths: map[string]*lab.Strength{"working": {Limits: []lab.Limit{{Of: "counted.135"}}}}}, Strength: "working"}
	l := &lab.Lab{}
	l.Place.Use = map[string]lab.PiecesList{"develop": {{Of: "used.135"}}}
	for _, c := range []struct {
		name   string
		other  Format
		logged []string
		want   string
	}{
		{"the same", film("b", same), nil, "a b"},
		{"another base", film("b", func(m *lab.Material, _ *lab.Format) { m.Base = lab.Fibre }), nil, "a|b"},
		{"another area", film("b", func(_ *lab.Material, f *lab.Format) {
			f.Area = lab.Say[unit.Area]("501 cm2")
		}), nil, "a|b"},
		{"no area", film("b", func(_ *lab.Material, f *lab.Format) { f.Area = lab.Said[unit.Area]{} }), nil, "a|b"},
		{"other rolls", film("b", func(_ *lab.Material, f *lab.Format) {
			f.Rolls = lab.Say[unit.Rolls]("2 rolls")
		}), nil, "a|b"},
		{"other silver", film("b", func(m *lab.Material, _ *lab.Format) { m.Silver.Coated = said("5 g/m2") }), nil, "a|b"},
		{"silver that nobody has written", film("b", func(m *lab.Material, _ *lab.Format) {
			m.Silver.Coated = lab.Said[unit.MassPerArea]{}
		}), nil, "a|b"},
		{"another family", film("b", func(_ *lab.Material, f *lab.Format) { f.Family = "roll" }), nil, "a|b"},
		{"another name", film("b", func(_ *lab.Material, f *lab.Format) { f.Name = "short" }), nil, "a|b"},
		{"a sheet", film("b", func(_ *lab.Material, f *lab.Format) { f.Piece = "sheet" }), nil, "a|b"},
		{"what a limit counts", film("counted", same), nil, "a|counted"},
		{"what a month names", film("used", same), nil, "a|used"},
		{"what a log names", film("b", same), []string{"b.135"}, "a|b"},
		{"what another log names", film("b", same), []string{"c.135"}, "a b"},
	} {
		var got []string
		for _, k := range Kinds(l, bath, []Format{film("a", same), c.other}, c.logged...) {
			names := []string{k.Format.Material.ID}
			for _, m := range k.Others {
				names = append(names, m.ID)
			}
			got = append(got, strings.Join(names, " "))
		}
		require.Equal(t, c.want, strings.Join(got, "|"), c.name)
	}
}

// TestKindsBehindANamedOne: what is named stands in front of no other either.
func TestKindsBehindANamedOne(t *testing.T) {
	a, b := &lab.Material{Base: lab.Film}, &lab.Material{Base: lab.Film}
	a.ID, b.ID = "a", "b"
	l := &lab.Lab{}
	for _, m := range []*lab.Material{a, b} {
		m.Silver.Coated = lab.Say[unit.MassPerArea]("4 g/m2")
		m.Silver.Undeveloped = lab.Say[unit.Percent]("50 %")
	}
	f := lab.Format{Area: lab.Say[unit.Area]("500 cm2")}
	require.Len(t, Kinds(l, lab.Bath{}, []Format{{Material: a, ID: "135", Decl: f}, {Material: b, ID: "135", Decl: f}}, "a.135"), 2)
	require.Len(t, Kinds(l, lab.Bath{}, []Format{{Material: a, ID: "135", Decl: f}, {Material: b, ID: "135", Decl: f}}), 1)
}
