package build_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/build/render"
	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/testdata/binders"
)

// bagLab is the lab of testdata/binders/clearing-bag.txtar, with some of its text changed.
func bagLab(t *testing.T, change ...string) *build.Result {
	t.Helper()
	r, err := build.Work(options(binders.Read(t, "../testdata/binders/clearing-bag.txtar", change...)))
	require.NoError(t, err)
	require.Empty(t, r.Faults)
	return r
}

func recordsOf(r *build.Result) map[string]*figure.Record {
	out := map[string]*figure.Record{}
	for _, f := range r.Binder.Answers {
		out[f.ID] = f
	}
	return out
}

// cardText is a card as plain text, each run of spaces one, without the marks of origins.
func cardText(t *testing.T, r *build.Result, id string) string {
	t.Helper()
	for _, p := range r.Binder.Pages {
		if p.ID == id {
			text := strings.NewReplacer(" [m]", "", " [d]", "", "[m]", "", "<", "").Replace(render.Terminal(page.OnScreen(p, -1), -1, 3000))
			return strings.Join(strings.Fields(text), " ")
		}
	}
	t.Fatalf("no card %s", id)
	return ""
}

// TestBagByRate: a bag of 15 EUR costs 30, 15 and 5 cents a roll where 50, 100 and 300
// rolls are done before its stock is too old, and age is named as what ends it; where more
// is done than it treats, its yield ends it, and a roll costs less than 2 cents. Common
// practice, no source.
func TestBagByRate(t *testing.T) {
	const at = "@film.135-36,working"
	for _, c := range []struct{ use, keeps, aged, cost, ends string }{
		{"17 rolls", "90 days", "50", "0.30", "age, after 50"},
		{"34 rolls", "90 days", "100", "0.15", "age, after 100"},
		{"100 rolls", "3 months", "300", "0.05", "age, after 300"},
		{"400 rolls", "3 months", "1200", "0.015–0.019", "the supplier’s word"},
	} {
		r := bagLab(t, `"17 rolls"`, `"`+c.use+`"`, `keeps = { full = "90 days" }`, `keeps = { full = "`+c.keeps+`" }`)
		got := recordsOf(r)
		require.Equal(t, c.aged, got["bag.stock/pack.age"+at].Shown, c.use)
		require.Equal(t, c.cost, got["bag.stock/pack.cost"+at].Shown, c.use)
		require.Equal(t, "0.015–0.019", got["bag.stock/pack.cost.full"+at].Shown, c.use)
		require.Less(t, got["bag.stock/pack.cost.full"+at].High, 0.02, c.use)
		row := "a film, 135-36 800–1000, by the supplier’s word " + c.ends
		require.Contains(t, cardText(t, r, "product/bag"), row, c.use)
	}
}

// TestBagCard: what the trade says of such a bag, answered by its card from the definitions
// of a lab alone. Common practice, no source.
func TestBagCard(t *testing.T) {
	text := cardText(t, bagLab(t), "product/bag")
	for _, want := range []string{
		"Start with tap water at 27 °C: 3000 ml", "Add a whole pack, stirring, until all is dissolved: 500 g", "3800 ml", "19.0 L", "27 °C",
		"resin-coated NO more wet time does harm",
		"film after hardening fixer needed",
		"film after rapid fixer not needed", "ammonium thiosulfate: modern film washes well without",
		"rinse in water 15–30 s, then clear 1.5–2 min in the working strength, then wash 5:00 instead of 20–40 min",
		"Never make up a part of a pack: its powders have settled apart", "Make up all of it, and keep it in small full bottles",
		"full 36 months", "full 90 days", "in the tray 24 h",
		"Ask for a new supplier’s sheet",
		"In it, by its sheet - chelating salt 0–8 % w/w - sodium sulfate: the rest - sodium metabisulfite 5–10 % w/w - sodium sulfite, anhydrous 60–75 % w/w",
		"3200–4000",
	} {
		require.Contains(t, text, want)
	}
	mixing := cardText(t, bagLab(t), "mix/bag")
	for _, want := range []string{"Sodium sulfite, anhydrous 78.9–98.7 g/L", "Chelating salt not known", "The rest, sodium sulfate not known"} {
		require.Contains(t, mixing, want)
	}
}

// TestBagTurnedRound: each decision of the card the other way round.
func TestBagTurnedRound(t *testing.T) {
	young := cardText(t, bagLab(t, "2023-03-13", "2023-03-14"), "product/bag")
	require.NotContains(t, young, "Ask for a new supplier’s sheet", "three years to the day are not older than three")
	divided := cardText(t, bagLab(t, `divide = "no"`, `divide = "yes"`, `pack   = { holds = "500 g",`, `pack   = { holds = "500 g", count = 10,`), "product/bag")
	require.Contains(t, divided, "one piece makes 380 ml")
	require.NotContains(t, divided, "settled apart")
	require.NotContains(t, divided, "age, after", "age ends only the part that was made up")
	soft := bagLab(t, `add = "potassium-alum.dodecahydrate"`, `add = "sodium-sulfite.anhydrous"`)
	require.Contains(t, cardText(t, soft, "product/bag"), "film after hardening fixer not needed")
	ours := bagLab(t, `keeps  = { tray = "24 h" }`, "keeps  = { tray = \"24 h\" }\nlimits = [ { by = \"rolls\", most = \"20 rolls/L\" } ]")
	got := recordsOf(ours)
	require.Equal(t, "380", got["bag.stock/pack.full@film.135-36,working"].Shown, "19 L at 20 rolls a litre: the smaller governs")
	require.Contains(t, cardText(t, ours, "product/bag"), "800–1000 by the supplier’s word", "and the supplier's word stands beside it")
	dear := bagLab(t, `, price = "15.00 EUR"`, "")
	require.NotContains(t, recordsOf(dear), "bag.stock/pack.cost@film.135-36,working")
	require.Contains(t, cardText(t, dear, "product/bag"), "Cost: not known")
}

// TestYieldBeyondSilver: a maker's yield beyond our limit of silver is shown beside it, and
// the smaller counts, whichever it is.
func TestYieldBeyondSilver(t *testing.T) {
	for _, c := range []struct{ count, full, by, besides string }{
		{"40 rolls", "10–17", "this lab’s limit of silver", "40 by the supplier’s word"},
		{"5 rolls", "5", "the supplier’s word", "13 by this lab’s limit of silver"},
	} {
		files := map[string]string{
			"lab.toml":            "[lab]\nname = \"Test\"\n[use]\nfilm = \"2 rolls\"\n",
			"materials/film.toml": "name = \"a film\"\nbase = \"film\"\nformats = [\"135-36\"]\nsilver = { coated = \"5.0 g/m2\", undeveloped = \"80 %\" }\n",
			"processes/film.toml": "name = \"Film\"\nbase = \"film\"\n[[step]]\nid = \"fix\"\nbath = \"fix.film\"\ntime = \"5:00\"\n",
			"products/fix.toml": "name = \"a fixer\"\nrole = \"fixer\"\nstate = \"liquid\"\npack = { holds = \"150 mL\", price = \"6.00 EUR\" }\nkeeps = { full = \"24 months\", part = \"6 months\" }\n" +
				"yields = [ { strength = \"film\", count = \"" + c.count + "\", says = \"supplier\" } ]\n" +
				"[strength.film]\nfrom = \"supplied\"\ndilute = \"1+4\"\nuse = \"re-use\"\nlimits = [ { by = \"silver\", most = \"4.0 g/L\" } ]\n",
		}
		r, err := build.Work(options(folder(files)))
		require.NoError(t, err)
		require.Empty(t, r.Faults)
		// 0.75 L at 4 g/L hold 3 g; a film of 0.0566 m² at 5 g/m² and 80 % gives 0.226 g, known to a quarter.
		require.Equal(t, c.full, recordsOf(r)["fix.supplied/pack.full@film.135-36,film"].Shown)
		text := cardText(t, r, "product/fix")
		require.Contains(t, text, c.full+", by "+c.by)
		require.Contains(t, text, c.besides)
	}
}

// TestChoosing: two baths of one job at some rates, by plain arithmetic. A litre for 12 EUR
// that treats 100 and keeps three months costs 40 cents each at 10 rolls a month, and 12
// cents at most; one that keeps long is enough for 60, 20 cents each. The first is the
// cheaper one from 60 rolls in three months on, which are 20 a month. Where age ends the other
// as well, in three months, and the first in two, the other too gets cheaper with the rate:
// down to 20 cents at 20 a month, and the first comes down to that at 30 a month.
func TestChoosing(t *testing.T) {
	product := func(name, part, strength string) string {
		return "name = \"" + name + "\"\nrole = \"developer\"\nstate = \"liquid\"\nkeeps = { part = \"" + part +
			"\" }\npack = { holds = \"1 L\", price = \"12.00 EUR\" }\n[strength.bath]\nfrom = \"supplied\"\n" + strength
	}
	const wash = "[[step]]\nid = \"wash\"\nflow = \"2 L/min\"\ntime = \"5:00\"\ninstead_of = \"20 min\"\n"
	for _, c := range []struct{ use, manyKeeps, shotKeeps, many, shot, turns, used, below string }{
		{"10 rolls", "3 months", "24 months", "0.40", "0.20", "20", "34", "0.80 0.20"},
		{"19 rolls", "3 months", "24 months", "0.21", "0.20", "20", "34", "0.80 0.20"},
		{"20 rolls", "3 months", "24 months", "0.20", "0.20", "", "", ""},
		{"25 rolls", "3 months", "24 months", "0.16", "0.20", "", "", ""},
		{"50 rolls", "3 months", "24 months", "0.12", "0.20", "", "", ""},
		{"20 rolls", "2 months", "3 months", "0.30", "0.20", "30", "50", "0.60 0.40"},
		{"40 rolls", "2 months", "3 months", "0.15", "0.20", "", "", ""},
	} {
		files := map[string]string{
			"lab.toml":            "[lab]\nname = \"Test\"\n[use]\none = \"" + c.use + "\"\n",
			"materials/film.toml": "name = \"a film\"\nbase = \"film\"\nformats = [\"135-36\"]\n",
			"processes/one.toml":  "name = \"One\"\nbase = \"film\"\n[[step]]\nid = \"develop\"\nbath = \"many.bath\"\ntime = \"5:00\"\n" + wash,
			"processes/two.toml":  "name = \"Two\"\nbase = \"film\"\n[[step]]\nid = \"develop\"\nbath = \"shot.bath\"\ntime = \"5:00\"\n[[step]]\nid = \"again\"\nbath = \"shot.bath\"\ntime = \"1:00\"\n",
			"products/many.toml":  product("for many", c.manyKeeps, "dilute = \"none\"\nuse = \"re-use\"\nlimits = [ { by = \"rolls\", most = \"100 rolls/L\" } ]\n"),
			"products/shot.toml":  product("for one", c.shotKeeps, "dilute = \"1+1\"\nuse = \"one-shot\"\nneeds = \"16.6 mL/roll\"\n"),
		}
		r, err := build.Work(options(folder(files)))
		require.NoError(t, err)
		require.Empty(t, r.Faults)
		got := recordsOf(r)
		require.Equal(t, c.many, got["many.bath/choose.cost@developer.film"].Shown, c.use)
		require.Equal(t, c.shot, got["shot.bath/choose.cost@developer.film"].Shown, c.use)
		board := cardText(t, r, "board/choosing")
		require.Contains(t, board, "saves 30.0 L of running water", "ten litres instead of forty")
		require.Equal(t, 1, strings.Count(board, "10.0 L"), "no wash comes next after the other")
		if turns := got["many.bath/choose.turns@developer.film"]; c.turns == "" {
			require.Nil(t, turns, c.use)
			require.NotContains(t, board, "from here on A is the cheaper one")
		} else {
			require.Equal(t, c.turns, turns.Shown, c.use)
			require.Equal(t, c.used, got["many.bath/choose.all@developer.film"].Shown, c.use)
			require.Equal(t, "0.20", got["many.bath/choose.cost.at@developer.film,turn"].Shown)
			require.Equal(t, "0.20", got["shot.bath/choose.cost.at@developer.film,turn"].Shown)
			require.Equal(t, "0.12", got["many.bath/choose.cost.at@developer.film,used"].Shown)
			below := "5"
			if c.below == "0.60 0.40" {
				below = "10"
			}
			require.Equal(t, c.below, got["many.bath/choose.cost.at@developer.film,"+below].Shown+" "+got["shot.bath/choose.cost.at@developer.film,"+below].Shown)
			require.Contains(t, board, "from here on A is the cheaper one")
			require.Equal(t, c.shotKeeps == "3 months", strings.Contains(board, "age no longer ends B"))
		}
	}
}

// TestChoosingCountsWater: the water that a bath is diluted with costs as well. A litre for 12 EUR and one
// of water for 4 EUR make 2 L at 1+1: 16 EUR for 60, 27 cents each instead of 20.
func TestChoosingCountsWater(t *testing.T) {
	product := func(name, strength string) string {
		return "name = \"" + name + "\"\nrole = \"developer\"\nstate = \"liquid\"\nkeeps = { part = \"24 months\" }\n" +
			"pack = { holds = \"1 L\", price = \"12.00 EUR\" }\n[strength.bath]\nfrom = \"supplied\"\n" + strength
	}
	for price, want := range map[string]string{"": "0.20", "[water]\nprice = \"4000 EUR/m3\"\n": "0.27"} {
		files := map[string]string{
			"lab.toml":            "[lab]\nname = \"Test\"\n" + price + "[use]\none = \"10 rolls\"\n",
			"materials/film.toml": "name = \"a film\"\nbase = \"film\"\nformats = [\"135-36\"]\n",
			"processes/one.toml":  "name = \"One\"\nbase = \"film\"\n[[step]]\nid = \"develop\"\nbath = \"many.bath\"\ntime = \"5:00\"\n",
			"processes/two.toml":  "name = \"Two\"\nbase = \"film\"\n[[step]]\nid = \"develop\"\nbath = \"shot.bath\"\ntime = \"5:00\"\n",
			"products/many.toml":  product("for many", "dilute = \"none\"\nuse = \"re-use\"\nlimits = [ { by = \"rolls\", most = \"100 rolls/L\" } ]\n"),
			"products/shot.toml":  product("for one", "dilute = \"1+1\"\nuse = \"one-shot\"\nneeds = \"16.6 mL/roll\"\n"),
		}
		r, err := build.Work(options(folder(files)))
		require.NoError(t, err)
		require.Empty(t, r.Faults)
		got := recordsOf(r)
		require.Equal(t, want, got["shot.bath/choose.cost@developer.film"].Shown)
		require.Equal(t, "0.12", got["many.bath/choose.cost@developer.film"].Shown, "nothing is added to it")
	}
}

// TestSheetsAndLaw: a supplier's sheet is asked for anew from the day on which the law has
// changed for something in the product, or may have; not for a newer sheet, and not for a
// product without any of it. A sheet that lies in the folder is copied and linked.
func TestSheetsAndLaw(t *testing.T) {
	april, may := unit.Date{Year: 2026, Month: 4, Day: 30}, unit.Date{Year: 2026, Month: 5, Day: 1}
	const ask, from = "Ask for a new supplier’s sheet: this one is of 2025-06-01, and since 2026-05-01 formaldehyde and benzotriazole have new classes.", "and from 2026-05-01 on in any case: formaldehyde and benzotriazole have new classes"
	for _, c := range []struct {
		name, contains, edition string
		day                     unit.Date
		from, ask               bool
	}{
		{"the day before", `contains = { benzotriazole = "1..2 % w/w", water = "rest" }`, "2025-06-01", april, true, false},
		{"the day", `contains = { benzotriazole = "1..2 % w/w", water = "rest" }`, "2025-06-01", may, true, true},
		{"by a name of the group", `contains = { Formalin = "1..2 % w/w", water = "rest" }`, "2025-06-01", may, true, true},
		{"none of it is in it", `contains = { citric-acid = "1..2 % w/w", water = "rest" }`, "2025-06-01", may, false, false},
		{"nobody has written what is in it", "", "2025-06-01", may, true, true},
		{"a sheet of that day", "", "2026-05-01", may, false, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := map[string]string{
				"lab.toml":                     "[lab]\nname = \"Test\"\n",
				"supplier-sheets/anti fog.txt": "section 2",
				"products/anti-fog.toml":       "name = \"anti-fog\"\nstate = \"liquid\"\nsheet = { file = \"supplier-sheets/anti fog.txt\", edition = " + c.edition + " }\n" + strings.Replace(c.contains, "citric-acid", `"citric-acid.anhydrous"`, 1) + "\n",
			}
			o := options(folder(files))
			o.On = c.day
			r, err := build.Bind(o)
			require.NoError(t, err)
			require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
			said := cardText(t, r, "product/anti-fog")
			require.Equal(t, c.ask, strings.Contains(said, ask), said)
			require.Equal(t, c.from, strings.Contains(said, from), said)
			bound := filesOf(r)
			require.Equal(t, "section 2", bound["supplier-sheets/anti fog.txt"])
			require.Contains(t, bound["product/anti-fog.html"], `href="../supplier-sheets/anti%20fog.txt"`)
			require.Contains(t, bound["product/anti-fog.html"], ">anti fog.txt</a>")
		})
	}
}

// TestBesidesTheSheet: what the rules find in what is in a product, and its sheet does not say, stands on
// its card; what both say stands there once.
func TestBesidesTheSheet(t *testing.T) {
	const besides = "By what is in it, besides: Causes serious eye damage (H318)."
	milder := cardText(t, bagLab(t), "product/bag")
	require.Contains(t, milder, besides)
	require.Contains(t, milder, "Causes serious eye irritation (H319).")
	same := cardText(t, bagLab(t, `classes  = ["Eye Irrit. 2"]`, `classes  = ["Eye Dam. 1"]`), "product/bag")
	require.NotContains(t, same, "By what is in it, besides")
	require.Contains(t, same, "Causes serious eye damage (H318).")
}
