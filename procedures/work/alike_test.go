package work

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
)

// TestOneRow: materials of one base and one format with the same answer are one row, told by
// the one at the head where it is among them; no other is. A row speaks of all only where no
// material of the lab is left out.
func TestOneRow(t *testing.T) {
	type row struct {
		material, base, format, name string
		n                            int
	}
	film := func(material string, n int) row { return row{material, "film", "135", "", n} }
	for _, c := range []struct {
		name  string
		rows  []row
		head  int
		other []string // materials that come in 135 too, and have no row
		want  [][]string
		whole []bool
	}{
		{"alone", []row{film("a", 1)}, 0, nil, [][]string{{"a"}}, []bool{true}},
		{"the same", []row{film("a", 1), film("b", 1)}, 0, nil, [][]string{{"a", "b"}}, []bool{true}},
		{"and one that does not go through", []row{film("a", 1), film("b", 1)}, 0, []string{"z"}, [][]string{{"a", "b"}}, []bool{false}},
		{"told by the head", []row{film("a", 1), film("b", 1), film("c", 1)}, 1, nil, [][]string{{"b", "a", "c"}}, []bool{true}},
		{"no head", []row{film("a", 1), film("b", 1)}, -1, nil, [][]string{{"a", "b"}}, []bool{true}},
		{"another answer", []row{film("a", 1), film("b", 2), film("c", 1)}, 0, nil, [][]string{{"a", "c"}, {"b"}}, []bool{false, false}},
		{"two places", []row{film("a", 1), film("a", 2), film("b", 1), film("b", 2)}, 0, nil, [][]string{{"a", "b"}, {"a", "b"}}, []bool{true, true}},
		{"another format", []row{film("a", 1), {"b", "film", "120", "", 1}}, 0, nil, [][]string{{"a"}, {"b"}}, []bool{true, true}},
		{"another base", []row{film("a", 1), {"b", "fibre", "135", "", 1}}, 0, nil, [][]string{{"a"}, {"b"}}, []bool{true, true}},
		{"a size of its own under the same word", []row{film("a", 1), {"b", "film", "135", "longer", 1}}, 0, nil, [][]string{{"a"}, {"b"}}, []bool{false, false}},
	} {
		l, made := &lab.Lab{}, map[string]*lab.Material{}
		add := func(name, base, format string) {
			if made[name] == nil {
				m := &lab.Material{Name: name, Base: lab.Base(base), Formats: []string{format}}
				m.ID, made[name] = name, m
				l.Materials = append(l.Materials, m)
			}
		}
		for _, r := range c.rows {
			add(r.material, r.base, r.format)
		}
		for _, name := range c.other {
			add(name, "film", "135")
		}
		l.Index()
		kept, of := oneRow(&Work{lab: l}, c.rows, c.head, func(r row) capacity.Kind {
			return capacity.Kind{Format: capacity.Format{Material: made[r.material], ID: r.format,
				Decl: lab.Format{Name: r.name}}}
		}, func(a, b row) bool { return a.n == b.n })
		require.Len(t, kept, len(c.want), c.name)
		for k, x := range of {
			require.Equal(t, kept[k].material, x.Format.Material.Name, c.name)
			names := []string{x.Format.Material.Name}
			for _, m := range x.Others {
				names = append(names, m.Name)
			}
			require.Equal(t, c.want[k], names, c.name)
			require.Equal(t, c.whole[k], x.Whole, c.name)
		}
	}
}

// TestSameAnswers: two answers are the same only if everything that a card tells of them is.
func TestSameAnswers(t *testing.T) {
	record := func(change func(*figure.Core, *figure.Face)) *figure.Record {
		core, face := figure.Core{Value: 20, Low: 17, High: 20, HasLow: true, Origin: figure.House}, figure.Face{Shown: "20", Unit: "rolls"}
		change(&core, &face)
		return &figure.Record{Core: &core, Face: face}
	}
	same := func(*figure.Core, *figure.Face) {}
	require.True(t, sameRecord(nil, nil))
	require.False(t, sameRecord(nil, record(same)))
	require.False(t, sameRecord(record(same), nil))
	require.True(t, sameRecord(record(same), record(same)))
	for name, change := range map[string]func(*figure.Core, *figure.Face){
		"value": func(c *figure.Core, _ *figure.Face) { c.Value = 20.5 }, "low": func(c *figure.Core, _ *figure.Face) { c.Low = 16 },
		"high": func(c *figure.Core, _ *figure.Face) { c.High = 21 }, "bounds": func(c *figure.Core, _ *figure.Face) { c.HasLow = false },
		"origin": func(c *figure.Core, _ *figure.Face) { c.Origin = figure.Memory }, "shown": func(_ *figure.Core, f *figure.Face) { f.Shown = "19" },
		"unit": func(_ *figure.Core, f *figure.Face) { f.Unit = "films" }, "why": func(_ *figure.Core, f *figure.Face) { f.Why = "nobody knows" },
	} {
		require.False(t, sameRecord(record(same), record(change)), name)
	}
	one := func(change func(*FormatCapacity)) *FormatCapacity {
		x := &FormatCapacity{Limits: []LimitCount{{By: "silver", Words: "silver", N: record(same)}}}
		x.With, x.N = []string{"area"}, record(same)
		change(x)
		return x
	}
	other := record(func(c *figure.Core, _ *figure.Face) { c.Value = 1 })
	require.True(t, sameCapacity(nil, nil))
	require.False(t, sameCapacity(nil, one(func(*FormatCapacity) {})))
	require.True(t, sameCapacity(one(func(*FormatCapacity) {}), one(func(*FormatCapacity) {})))
	for name, change := range map[string]func(*FormatCapacity){
		"place": func(x *FormatCapacity) { x.Place = 1 }, "governs": func(x *FormatCapacity) { x.Governs = "age" }, "by": func(x *FormatCapacity) { x.By = "area" },
		"no number": func(x *FormatCapacity) { x.NoWhy = "so" }, "no cost": func(x *FormatCapacity) { x.CostWhy = "so" }, "evening": func(x *FormatCapacity) { x.Evening = "8 h" },
		"test": func(x *FormatCapacity) { x.Test = "or clip" }, "limits": func(x *FormatCapacity) { x.Limits = nil }, "limit by": func(x *FormatCapacity) { x.Limits[0].By = "area" },
		"limit words": func(x *FormatCapacity) { x.Limits[0].Words = "area" }, "tightest": func(x *FormatCapacity) { x.Limits[0].Tightest = true },
		"limit number": func(x *FormatCapacity) { x.Limits[0].N = other }, "limit spread": func(x *FormatCapacity) { x.Limits[0].Spread = other },
		"with": func(x *FormatCapacity) { x.With = []string{"rolls"} }, "with none": func(x *FormatCapacity) { x.With = nil }, "number": func(x *FormatCapacity) { x.N = other },
		"spread": func(x *FormatCapacity) { x.Spread = other }, "cost": func(x *FormatCapacity) { x.Cost = other }, "ideal cost": func(x *FormatCapacity) { x.IdealCost = other },
		"uses": func(x *FormatCapacity) { x.Uses = other }, "life": func(x *FormatCapacity) { x.Life = other }, "aged": func(x *FormatCapacity) { x.Aged = other },
	} {
		require.False(t, sameCapacity(one(func(*FormatCapacity) {}), one(change)), name)
	}
}
