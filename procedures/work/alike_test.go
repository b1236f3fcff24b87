package work

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
)

// TestOneRow: materials of one base and format with the same answer are one row, told by the
// one at the head where it is among them; no other is.
func TestOneRow(t *testing.T) {
	type row struct {
		material, base, format string
		n                      int
	}
	for _, c := range []struct {
		name   string
		rows   []row
		head   int
		groups [][]int
		whole  []bool
	}{
		{"alone", []row{{"a", "film", "135", 1}}, 0, [][]int{{0}}, []bool{true}},
		{"the same", []row{{"a", "film", "135", 1}, {"b", "film", "135", 1}}, 0, [][]int{{0, 1}}, []bool{true}},
		{"told by the head", []row{{"a", "film", "135", 1}, {"b", "film", "135", 1}, {"c", "film", "135", 1}}, 1, [][]int{{1, 0, 2}}, []bool{true}},
		{"no head", []row{{"a", "film", "135", 1}, {"b", "film", "135", 1}}, -1, [][]int{{0, 1}}, []bool{true}},
		{"another answer", []row{{"a", "film", "135", 1}, {"b", "film", "135", 2}, {"c", "film", "135", 1}}, 0, [][]int{{0, 2}, {1}}, []bool{false, false}},
		{"another format", []row{{"a", "film", "135", 1}, {"b", "film", "120", 1}}, 0, [][]int{{0}, {1}}, []bool{true, true}},
		{"another base", []row{{"a", "film", "20x25", 1}, {"b", "fibre", "20x25", 1}}, 0, [][]int{{0}, {1}}, []bool{true, true}},
	} {
		groups, of := oneRow(c.rows, c.head, func(r row) capacity.Format {
			return capacity.Format{Material: &lab.Material{Name: r.material, Base: lab.Base(r.base)}, ID: r.format}
		}, func(a, b row) bool { return a.n == b.n })
		require.Equal(t, c.groups, groups, c.name)
		for g, members := range groups {
			require.Equal(t, c.whole[g], of[g].Whole, c.name)
			require.Equal(t, c.rows[members[0]].material, of[g].Format.Material.Name, c.name)
			var others []string
			for _, m := range of[g].Others {
				others = append(others, m.Name)
			}
			for i, at := range members[1:] {
				require.Equal(t, c.rows[at].material, others[i], c.name)
			}
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
