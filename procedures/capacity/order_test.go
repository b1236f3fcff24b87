package capacity

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
	"wetside/testdata/binders"
)

// mixerOf is a small lab, written as an archive of its files.
func mixerOf(t *testing.T, archive string) *mix.Mixer {
	t.Helper()
	loaded := binders.Loaded(t, binders.Of(archive), fstest.MapFS{})
	bench, problems := mix.NewBench(loaded.Lab)
	require.Empty(t, problems)
	return mix.New(loaded.Lab, bench, figure.NewLedger())
}

// store is a lab in which a delivery takes a month and is to last two: a salt, an acid of
// 600 g in a litre, and a concentrate.
const store = `
-- lab.toml --
[lab]
name = "Test"
[house]
order_lead = "1 month"
order_cover = "2 months"
-- chemicals/salt.toml --
name = "salt"
[form.pure]
formula = "none"
-- chemicals/acid.toml --
name = "acid"
[form.liquid]
formula = "none"
density = "1.2 g/mL"
content = "50 % w/w"
-- products/concentrate.toml --
name = "concentrate"
-- store.toml --
`

func shown(r *figure.Record) string {
	if r == nil {
		return ""
	}
	return strings.TrimSpace(r.Shown + " " + r.Unit)
}

// TestOrders: what is used and what is missing is rounded up and what is in the house
// down, so that nobody runs short by a rounding; what the store does not say is never
// nought.
func TestOrders(t *testing.T) {
	for _, c := range []struct {
		name, of, pack                    string
		use                               float64
		month, have, missing, packs, says string
	}{
		{"a little is missing: one whole pack", "salt.pure", `left = "300.5 g", size = "500 g"`, 100.25, "101 g", "300 g", "1 g", "1", ""},
		{"just enough", "salt.pure", `left = "300 g", size = "500 g"`, 100, "100 g", "300 g", "0 g", "0", ""},
		{"more than enough", "salt.pure", `left = "400 g", size = "500 g"`, 100, "100 g", "400 g", "0 g", "0", ""},
		{"a whole pack is missing", "salt.pure", `left = "0 g", size = "300 g"`, 100, "100 g", "0 g", "300 g", "1", ""},
		{"a little more than a pack", "salt.pure", `left = "0 g", size = "300 g"`, 100.01, "101 g", "0 g", "301 g", "2", ""},
		{"with a reserve", "salt.pure", `left = "300 g", size = "500 g", reserve = "40.2 g"`, 100, "100 g", "300 g", "41 g", "1", ""},
		{"nobody knows what a pack holds", "salt.pure", `left = "290 g"`, 100, "100 g", "290 g", "10 g", "", "nobody has written what a pack of it holds"},
		{"nobody knows what is left", "salt.pure", `size = "500 g"`, 100, "100 g", "", "", "", "store.toml does not say what is left of it"},
		{"nobody knows what a millilitre of it weighs", "salt.pure", `left = "300 mL", size = "500 g"`, 100, "100 g", "", "", "", "store.toml does not say what is left of it"},
		{"a pack of nothing", "salt.pure", `left = "290 g", size = "0 g"`, 100, "100 g", "290 g", "10 g", "", "nobody has written what a pack of it holds"},
		{"a pack of half a gram", "salt.pure", `left = "290 g", size = "0.5 g"`, 100, "100 g", "290 g", "10 g", "20", ""},
		{"it stands in no pack", "salt.pure", "", 100, "100 g", "", "", "", "store.toml does not say what is left of it"},
		// 600 g in a litre of the acid.
		{"a liquid by volume", "acid.liquid", `left = "501 mL", size = "250 mL", reserve = "100 mL"`, 100, "100 g", "300 g", "60 g", "1", ""},
		{"a liquid by volume: what is in the house is rounded down", "acid.liquid", `left = "501.5 mL", size = "250 mL"`, 100.5, "101 g", "300 g", "1 g", "1", ""},
		{"a liquid by mass", "acid.liquid", `left = "299.9 g", size = "500 g"`, 100, "100 g", "299 g", "1 g", "1", ""},
		{"a product: a little is missing", "concentrate", `left = "300.6 mL", size = "1 L"`, 100.4, "101 ml", "300 ml", "1 ml", "1", ""},
		{"a product: just enough", "concentrate", `left = "300 mL", size = "1 L"`, 100, "100 ml", "300 ml", "0 ml", "0", ""},
		{"a product: a whole pack", "concentrate", `left = "0 mL", size = "300 mL"`, 100, "100 ml", "0 ml", "300 ml", "1", ""},
		{"a product: a little more than a pack", "concentrate", `left = "0 mL", size = "300 mL"`, 100.01, "101 ml", "0 ml", "301 ml", "2", ""},
		{"a product: with a reserve", "concentrate", `left = "300 mL", size = "1 L", reserve = "40.2 mL"`, 100, "100 ml", "300 ml", "41 ml", "1", ""},
		{"a product: nobody knows what a pack holds", "concentrate", `left = "290 mL"`, 100, "100 ml", "290 ml", "10 ml", "", "nobody has written what a pack of it holds"},
		{"a product: nobody knows what is left", "concentrate", `size = "1 L"`, 100, "100 ml", "", "", "", "store.toml does not say what is left of it"},
		{"a product that stands in no pack", "concentrate", "", 100, "100 ml", "", "", "", "store.toml does not say what is left of it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			pack := ""
			if c.pack != "" {
				pack = "pack = [ { of = \"" + c.of + "\", " + c.pack + " } ]\n"
			}
			m := mixerOf(t, store+pack)
			month := NewMonth(m, unit.Date{})
			if c.of == "concentrate" {
				month.products[c.of] = []figure.Figure[unit.Volume]{figure.Constant(unit.Volume(c.use), "bath", "", figure.House)}
			} else {
				month.parts[c.of] = []figure.Figure[unit.Mass]{figure.Constant(unit.Mass(c.use), "bath", "", figure.House)}
			}
			all := month.Orders()
			require.Len(t, all, 1)
			o := all[0]
			require.Equal(t, c.month, shown(o.Use), "a month")
			require.Equal(t, c.have, shown(o.Have), "in the house")
			require.Equal(t, c.missing, shown(o.Missing), "missing")
			require.Equal(t, c.packs, shown(o.Packs), "packs")
			require.Equal(t, c.says, o.Why)
			require.Equal(t, map[string]string{"salt.pure": "salt", "acid.liquid": "acid, counted as the pure salt in its liquid", "concentrate": "concentrate"}[c.of], o.Name)
			if o.Packs != nil {
				require.Equal(t, "up", o.Packs.Round.Rule, "no part of a pack is ordered")
			}
			if o.Missing != nil {
				require.Equal(t, !strings.Contains(c.pack, "reserve"), o.Missing.Inputs[3].Name == "kept in reserve: none written")
				require.Equal(t, c.of == "acid.liquid" && strings.Contains(c.pack, "mL"), len(o.Have.From()) == 1, "a liquid by volume shows its working")
			}
		})
	}
}

// used is a lab with a developer that is thrown away after its films, a fixer that is not,
// and a sensitiser that is brushed on.
const used = `
-- lab.toml --
[lab]
name = "Test"
[use]
films = ["8 film.roll", "4 film.half", "3 film.patch", "2 rolls"]
sheets = ["12 rag.large", "6 rag.lost"]
large = "12 rag.large"
lost = "6 rag.lost"
odd = ["12 rag.large", "5 rag.odd"]
-- chemicals/salt.toml --
name = "salt"
[form.pure]
formula = "none"
-- products/concentrate.toml --
name = "concentrate"
density = "1.2 g/mL"
contains = { salt = "10 % w/w" }
[strength.working]
dilute = "1+9"
use = "one-shot"
needs = "10 mL/roll"
[strength.again]
dilute = "1+4"
[strength.once]
dilute = "1+4"
use = "one-shot"
[strength.weak]
dilute = "1+4"
needs = "10 mL/roll"
[strength.straight]
dilute = "none"
use = "one-shot"
needs = "10 mL/roll"
-- solutions/fixer.toml --
name = "fixer"
per = "1 L"
[[step]]
add = "salt.pure"
amount = "200 g"
[strength.stock]
limits = [ { by = "rolls", most = "10 rolls/L" } ]
-- solutions/soup.toml --
name = "soup"
per = "1 L"
[[step]]
add = "salt.pure"
amount = "200 g"
[strength.stock]
use = "one-shot"
needs = "10 mL/roll"
-- solutions/wide.toml --
name = "wide"
per = "1 L"
[[step]]
add = "salt.pure"
amount = "200 g"
[strength.stock]
coat = "40 mL/m2"
-- solutions/sensitiser.toml --
name = "sensitiser"
per = "1 L"
[[step]]
add = "salt.pure"
amount = "200 g"
[strength.stock]
coat = "2 mL/sheet"
loss = "50 %"
-- materials/film.toml --
name = "film"
base = "film"
formats = ["roll", "half", "patch"]
[format.roll]
family = "135"
rolls = "1 rolls"
area = "500 cm2"
[format.half]
family = "135"
rolls = "0.5 rolls"
area = "250 cm2"
[format.patch]
family = "sheet"
area = "129 cm2"
-- materials/rag.toml --
name = "rag"
base = "uncoated"
formats = ["large", "odd"]
[format.large]
family = "sheet-print"
area = "500 cm2"
[format.odd]
family = "sheet-print"
`

// TestMonthOfBath: what a month's work takes of one bath, by how it is used up.
func TestMonthOfBath(t *testing.T) {
	// treats is what a litre does of a format, by its rolls; with 0 nobody can tell.
	treats := func(m *mix.Mixer, b lab.Bath, format string, n int) Capacity {
		f, ok := FormatNamed(m.Lab, format)
		require.True(t, ok)
		c := Capacity{Bath: b, Format: f, Volume: unit.MustParse[unit.Volume]("1 L"), Count: n, Governs: "rolls",
			N:    figure.Declare(m.Book, b.Ref()+"/n@"+format, figure.KindCount, figure.Constant(unit.Factor(n), "treats", "", figure.House), "", ""),
			Life: figure.Declare(m.Book, b.Ref()+"/life", figure.KindCount, figure.Constant(unit.Factor(5), "life", "", figure.House), "5", "days")}
		return c
	}
	roll := func(n int) map[string]int { return map[string]int{"film.roll": n} }
	tray := func(fill string) Stand { return Stand{"films", Vessel{Name: "tray", Fill: lab.Say[unit.Volume](fill)}} }
	evening := func(c *Capacity) { c.Governs, c.Evening, c.Life = "age", "8 h", nil }
	for _, c := range []struct {
		name, bath, head string
		all              map[string]int
		process          string
		change           func(*Capacity) // of the head
		other            func(*Capacity) // of half a roll
		stands, filled   []Stand
		days             int     // of the process
		salt, bought     float64 // g and ml; 0: not counted
		uncounted        bool
	}{
		// Eight rolls, four halves, three of a quarter by area (129 of 516 cm²) and two
		// bare rolls at ten a litre are 12.75 rolls.
		{name: "re-used, by what a litre treats of the head", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", salt: 200 * 1.275},
		{name: "a bath that is the second of two does not count for the first", bath: "fixer.stock", head: "film.roll", all: map[string]int{"film.roll": 10, "film.half": 40}, process: "films", other: func(c *Capacity) { c.Place = 2 }, salt: 200 * 1.275},
		{name: "the first of two does", bath: "fixer.stock", head: "film.roll", all: map[string]int{"film.roll": 10, "film.half": 40}, process: "films", other: func(c *Capacity) { c.Place = 1 }, salt: 200 * (0.8 + 0.1 + 0.075 + 0.2)},
		{name: "nor does a format of which nobody can tell", bath: "fixer.stock", head: "film.roll", all: map[string]int{"film.roll": 10, "film.half": 40}, process: "films", other: func(c *Capacity) { c.NoWhy = "nobody knows" }, salt: 200 * 1.275},
		{name: "nor one of which a litre treats none", bath: "fixer.stock", head: "film.roll", all: map[string]int{"film.roll": 10, "film.half": 40}, process: "films", other: func(c *Capacity) { c.Count = 0 }, salt: 200 * 1.275},
		{name: "one of which a litre treats a single one counts by itself", bath: "fixer.stock", head: "film.roll", all: map[string]int{"film.roll": 10, "film.half": 40}, process: "films", other: func(c *Capacity) {
			c.Count, c.N = 1, figure.Declare(figure.NewLedger(), "one", figure.KindCount, figure.Constant(unit.Factor(1), "treats", "", figure.House), "1", "")
		}, salt: 200 * (0.8 + 4 + 0.075 + 0.2)},
		{name: "a format that nobody knows counts as a roll", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "lost", salt: 200 * 0.6},
		{name: "and so does one without a size", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "odd", salt: 200 * (500.0/516*12 + 5) / 10},
		{name: "one-shot, and without a size: so much for each", bath: "soup.stock", head: "rag.odd", all: map[string]int{"rag.odd": 10}, process: "large", salt: 0.2 * 120},
		{name: "one-shot, of what is mixed here", bath: "soup.stock", head: "film.roll", all: roll(10), process: "films", salt: 0.2 * 127.5},
		{name: "one-shot, and nobody has written how much for a roll", bath: "concentrate.once", head: "film.roll", all: roll(10), process: "films", bought: 255},
		{name: "re-used, whatever a roll needs at least", bath: "concentrate.weak", head: "film.roll", all: roll(10), process: "films", bought: 255},
		{name: "a head without a size: piece for piece", bath: "fixer.stock", head: "rag.odd", all: map[string]int{"rag.odd": 10}, process: "large", salt: 200 * 1.2},
		{name: "each by its own format", bath: "fixer.stock", head: "film.roll", all: map[string]int{"film.roll": 10, "film.half": 40}, process: "films", salt: 200 * (0.8 + 0.1 + 0.075 + 0.2)},
		{name: "by a head that is half a roll", bath: "fixer.stock", head: "film.half", all: map[string]int{"film.half": 20}, process: "films", salt: 200 * 1.275},
		{name: "exactly one a litre", bath: "fixer.stock", head: "film.roll", all: roll(1), process: "films", salt: 200 * 12.75},
		{name: "not one a litre", bath: "fixer.stock", head: "film.roll", all: roll(0), process: "films", uncounted: true},
		{name: "nobody can tell", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", change: func(c *Capacity) { c.NoWhy = "nobody knows" }, uncounted: true},
		{name: "no work is written", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "none", uncounted: true},
		// A developer takes ten millilitres of concentrate a roll, whatever the water.
		{name: "one-shot, of what it is diluted from", bath: "concentrate.working", head: "film.roll", all: roll(10), process: "films", bought: 127.5},
		{name: "one-shot, half as much for half a roll", bath: "concentrate.working", head: "film.roll", all: map[string]int{"film.roll": 10, "film.half": 20}, process: "films", bought: 127.5},
		// Re-used at 1+4, a fifth of 1.275 litres is concentrate.
		{name: "a dilution that is re-used, by its share", bath: "concentrate.again", head: "film.roll", all: roll(10), process: "films", bought: 255},
		// Age: five days of 30.4375, a litre in its bottle or what stands in the trays.
		{name: "ended by age, in its bottle", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", change: func(c *Capacity) { c.Governs = "age" }, salt: 200 * 6.0875},
		{name: "ended by age, in a bottle that fills a tank", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", change: func(c *Capacity) { c.Governs = "age" }, filled: []Stand{tray("2 L"), tray("500 mL")}, salt: 200 * 2 * 6.0875},
		{name: "ended by age, in a bottle that fills a small tank", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", change: func(c *Capacity) { c.Governs = "age" }, filled: []Stand{tray("500 mL")}, salt: 200 * 6.0875},
		{name: "a litre ended by its limits, and by age what fills a tank", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", filled: []Stand{tray("1500 mL")}, salt: 200 * 1.5 * 6.0875},
		{name: "ended by its limits, and age would end less", bath: "fixer.stock", head: "film.roll", all: roll(1), process: "films", filled: []Stand{tray("2 L")}, salt: 200 * 12.75},
		{name: "one-shot is not kept to fill a tank", bath: "concentrate.straight", head: "film.roll", all: roll(10), process: "films", filled: []Stand{tray("2 L")}, bought: 127.5},
		{name: "ended by age, in a tray", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", change: func(c *Capacity) { c.Governs = "age" }, stands: []Stand{tray("2 L")}, salt: 200 * 2 * 6.0875},
		{name: "ended by age, in two trays", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", change: func(c *Capacity) { c.Governs = "age" }, stands: []Stand{tray("2 L"), tray("500 mL")}, salt: 200 * 2.5 * 6.0875},
		// Discarded at the end of its day: 2.5 litres on each of four days, or what the work uses up.
		{name: "discarded each day", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", change: evening, stands: []Stand{tray("2 L"), tray("500 mL")}, days: 4, salt: 200 * 10},
		{name: "discarded each day, though its limits end it first", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", change: func(c *Capacity) { c.Evening = "8 h" }, stands: []Stand{tray("2 L")}, days: 4, salt: 200 * 8},
		{name: "discarded each day, and the work uses up more", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", change: evening, stands: []Stand{tray("1 L")}, days: 1, salt: 200 * 1.275},
		{name: "discarded each day, and nobody has written on how many", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", change: evening, stands: []Stand{tray("2 L")}, salt: 200 * 1.275},
		{name: "discarded each day, and in no tray", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", change: evening, days: 4, salt: 200 * 1.275},
		{name: "what keeps is not counted by days", bath: "fixer.stock", head: "film.roll", all: roll(10), process: "films", stands: []Stand{tray("2 L")}, days: 4, salt: 200 * 1.275},
		{name: "nor is what is used once", bath: "concentrate.straight", head: "film.roll", all: roll(10), process: "films", change: evening, stands: []Stand{tray("2 L")}, days: 4, bought: 127.5},
		{name: "one-shot does not age in a tray", bath: "concentrate.straight", head: "film.roll", all: roll(10), process: "films", change: func(c *Capacity) { c.Governs = "age" }, bought: 127.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := mixerOf(t, used)
			if c.days > 0 {
				m.Lab.Place.Days = map[string]lab.SaidNumber{c.process: lab.SayNumber(c.days)}
			}
			b, bad := m.Lab.Bath(c.bath, figure.Where{})
			require.Empty(t, bad)
			var all []Capacity
			for _, format := range keys(c.all) {
				x := treats(m, b, format, c.all[format])
				if c.other != nil && format == "film.half" {
					c.other(&x)
				}
				all = append(all, x)
			}
			head := treats(m, b, c.head, c.all[c.head])
			if c.change != nil {
				c.change(&head)
			}
			month := NewMonth(m, unit.Date{})
			month.Add(b, head, all, UseOf(m.Lab, []string{c.process}), c.stands, c.filled)
			require.Equal(t, c.uncounted, len(month.Uncounted) == 1, month.Uncounted)
			require.InDelta(t, c.salt, sum(month.parts["salt.pure"]), 0.001, "salt")
			require.Equal(t, c.salt > 0, len(month.parts) > 0, "what a product brings is bought with it")
			require.InDelta(t, c.bought, sum(month.products["concentrate"]), 0.001, "concentrate")
		})
	}
}

// TestMonthOfSensitiser: two millilitres for a sheet, and half as much again in the brush;
// a sheet that nobody knows leaves the month uncounted, and what is known counts.
func TestMonthOfSensitiser(t *testing.T) {
	for _, c := range []struct {
		bath, process string
		salt          float64
		uncounted     bool
	}{
		{"sensitiser.stock", "large", 0.2 * 12 * 2 * 1.5, false},
		{"sensitiser.stock", "sheets", 0.2 * 12 * 2 * 1.5, true},
		{"sensitiser.stock", "odd", 0.2 * 17 * 2 * 1.5, false},
		{"sensitiser.stock", "lost", 0, true},
		{"sensitiser.stock", "none", 0, true},
		// 40 ml on a square metre are 2 ml on 500 cm².
		{"wide.stock", "large", 0.2 * 12 * 2, false},
		{"wide.stock", "odd", 0.2 * 12 * 2, true},
	} {
		m := mixerOf(t, used)
		b, bad := m.Lab.Bath(c.bath, figure.Where{})
		require.Empty(t, bad)
		month := NewMonth(m, unit.Date{})
		month.AddCoat(b, "uncoated", UseOf(m.Lab, []string{c.process}))
		require.Equal(t, c.uncounted, len(month.Uncounted) == 1, c.process)
		require.InDelta(t, c.salt, sum(month.parts["salt.pure"]), 0.001, c.process)
		require.Equal(t, c.salt > 0, len(month.Orders()) > 0, c.process)
	}
}

func sum[T unit.Kind](figures []figure.Figure[T]) float64 {
	total := 0.0
	for _, f := range figures {
		total += float64(f.Value)
	}
	return total
}
