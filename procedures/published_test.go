package procedures_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/content"
	"wetside/procedures"
	"wetside/procedures/figure"
	"wetside/procedures/unit"
	"wetside/testdata/binders"
	"wetside/testdata/published"
)

// exampleBinder is a darkroom that does what published examples do, so that
// their numbers are asked of whole cards and not of formulas alone.
const exampleBinder = `
-- lab.toml --
[lab]
name = "A darkroom of examples"
[water]
cold = "9 °C"
hot = "52 °C"
film_flow = "2.5 L/min"
[tank.half-litre]
fill = "500 mL"
takes = { 135 = 1 }
[tank.double]
fill = "600 mL"
takes = { 135 = 2 }
[tank.litre]
fill = "1000 mL"
takes = { 135 = 3 }
-- store.toml --
[[pack]]
of = "concentrate.supplied"
size = "500 mL"
price = "0.022 EUR/mL"
-- products/concentrate.toml --
name = "concentrate"
role = "other"
[strength.one-and-nine]
from = "supplied"
dilute = "1+9"
use = "one-shot"
[strength.one-and-thirty-one]
from = "supplied"
dilute = "1+31"
use = "one-shot"
-- chemicals/salt.toml --
name = "salt that takes up room"
[form.pure]
formula = "Na2SO3"
cas = "7757-83-7"
takes_up = "0.52 mL/g"
[hazards]
classes = []
assessed = { by = "house", on = 2026-01-01, sheet = "an example" }
-- chemicals/vinegar.toml --
name = "acid that is poured"
[form.solution-80]
formula = "CH3COOH"
cas = "64-19-7"
content = "80 % w/w"
density = "1.070 g/mL"
-- chemicals/vitriol.toml --
name = "acid that is measured"
[form.solution-96]
formula = "H2SO4"
cas = "7664-93-9"
content = "96 % w/w"
density = "1.8355 g/mL"
-- chemicals/soda.toml --
name = "soda"
[form.anhydrous]
formula = "Na2CO3"
cas = "497-19-8"
[form.monohydrate]
formula = "Na2CO3·H2O"
cas = "5968-11-6"
[form.decahydrate]
formula = "Na2CO3·10H2O"
cas = "6132-02-1"
-- solutions/thick.toml --
name = "much salt"
role = "other"
per = "1 L"
[[step]]
add = "salt.pure"
amount = "240 g"
-- solutions/soda-bath.toml --
name = "soda bath"
role = "other"
per = "1 L"
[[step]]
add = "soda.anhydrous"
amount = "40 g"
-- solutions/hypo.toml --
name = "hypo"
role = "fixer"
per = "1 L"
keeps = { full = "60 days", part = "60 days", low = "60 days" }
[[step]]
add = "sodium-thiosulfate.pentahydrate"
amount = "250 g"
-- solutions/strong-hypo.toml --
name = "fixer with 150 g of the ion in a litre"
role = "fixer"
per = "1 L"
[[step]]
add = "sodium-thiosulfate.pentahydrate"
amount = "332.026 g"
-- solutions/stop.toml --
name = "stop"
role = "stop"
per = "1 L"
[[step]]
add = "vinegar.solution-80"
amount = "15 g"
-- solutions/sour.toml --
name = "sour bath"
role = "other"
per = "1 L"
[[step]]
add = "vitriol.solution-96"
amount = "10 mL"
-- solutions/ten-per-cent.toml --
name = "ten per cent"
role = "other"
make = { batches = ["250 mL"] }
[dissolve]
add = "salt.pure"
strength = "10 % w/v"
in = "water"
-- solutions/parts.toml --
name = "twenty-eight parts in a hundred"
role = "other"
[[step]]
add = "concentrate.supplied"
parts = 28
[[step]]
add = "water"
parts = 72
-- solutions/developer.toml --
name = "developer"
role = "developer"
per = "1 L"
[[step]]
add = "salt.pure"
amount = "100 g"
[strength.stock]
use = "one-shot"
temperature = { from = "18..24 °C", slope = "0.088 /K" }
push = { factor = "1.4 /stop", most = 2 }
-- solutions/used-developer.toml --
name = "developer that is used again"
role = "developer"
per = "1 L"
keeps = { full = "180 days", part = "60 days", low = "30 days" }
[[step]]
add = "salt.pure"
amount = "100 g"
[strength.stock]
use = "re-use"
longer = "8 % per roll/L"
limits = [{ by = "rolls", most = "6 rolls/L" }]
-- materials/warm.toml --
name = "film of the warm bath"
base = "film"
speed = 400
clears = "60 s"
formats = ["135-36"]
develop = [{ in = "developer.stock", at = "20 °C", time = "10:00" }]
-- materials/pushed.toml --
name = "film that is pushed"
base = "film"
speed = 400
clears = "60 s"
formats = ["135-36"]
develop = [{ in = "developer.stock", at = "20 °C", time = "11:00" }]
-- materials/again.toml --
name = "film of the used developer, of eighty square inches"
base = "film"
formats = ["eighty"]
develop = [{ in = "used-developer.stock", at = "20 °C", time = "8:30" }]
[format.eighty]
name = "eighty square inches"
family = "135"
width = "203.2 mm"
length = "254 mm"
rolls = "1 roll"
-- processes/film.toml --
name = "film"
base = "film"
[[step]]
id = "develop"
bath = "developer.stock"
time = "material"
[[step]]
id = "fix"
bath = "strong-hypo.stock"
time = "clearing"
[[step]]
id = "wash"
fills = [5, 10, 20]
-- shelf/0001.toml --
of = "used-developer.stock"
mixed = 2026-03-01
made = { amount = "1 L" }
log = [{ on = 2026-03-02, worked = "3 again.eighty" }]
-- shelf/0002.toml --
of = "hypo"
mixed = 2026-02-21
made = { amount = "1 L" }
fresh_clears = "45 s"
log = [{ on = 2026-03-07, cleared = "75 s" }]
-- shelf/0003.toml --
of = "hypo"
mixed = 2026-02-21
made = { amount = "1 L" }
fresh_clears = "45 s"
log = [{ on = 2026-03-07, cleared = "89 s" }]
-- shelf/0004.toml --
of = "hypo"
mixed = 2026-02-21
made = { amount = "1 L" }
fresh_clears = "45 s"
log = [{ on = 2026-03-07, cleared = "90 s" }]
-- products/harsh-powder.toml --
name = "harsh powder"
state = "powder"
contains = { "harsh salt" = { share = "4 % w/w", classes = ["Eye Dam. 1"] }, "dull salt" = { share = "rest", classes = [] } }
[hazards]
classes = ["Eye Irrit. 2"]
assessed = { by = "supplier", on = 2026-01-10 }
`

// answered are the figures and the verdicts of a binder, by id.
type answered struct {
	figures  map[string]*figure.Record
	verdicts map[string]figure.Verdict
}

func exampleCards(t *testing.T) answered {
	t.Helper()
	loaded := binders.Loaded(t, binders.Of(exampleBinder), content.FS)
	binder, problems := procedures.Compute(loaded.Lab, unit.Date{Year: 2026, Month: 3, Day: 14})
	binder.Finish()
	for _, p := range problems {
		require.True(t, p.Warning, "%v: %s", p.At, p.What)
	}
	c := answered{map[string]*figure.Record{}, map[string]figure.Verdict{}}
	for _, f := range binder.Figures {
		c.figures[f.ID] = f
	}
	for _, v := range binder.Verdicts {
		c.verdicts[v.ID] = v
	}
	return c
}

func (c answered) figure(t *testing.T, id string) *figure.Record {
	t.Helper()
	f, ok := c.figures[id]
	require.True(t, ok, "no figure %s", id)
	require.False(t, f.Refused(), "%s: %s", id, f.Why)
	return f
}

// value is what was worked out, before it is rounded.
func (c answered) value(t *testing.T, id string) float64 {
	t.Helper()
	return c.figure(t, id).Value
}

// rounded is what stands on the card, as a number.
func (c answered) rounded(t *testing.T, id string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(c.figure(t, id).Rounded, 64)
	require.NoError(t, err, id)
	return x
}

// dead tells whether a batch is to be thrown away.
func (c answered) dead(t *testing.T, batch string) bool {
	t.Helper()
	v, ok := c.verdicts[batch+"/state"]
	require.True(t, ok, "no verdict on %s", batch)
	return v.Answer == "dead"
}

// TestMixingIsPublished asks the mixing cards what dilutions, hydrates and
// liquids come to.
func TestMixingIsPublished(t *testing.T) {
	f, c, all := published.Open(t, "mixing.tsv"), exampleCards(t), formulas(t)
	for row, id := range map[string]string{
		"dil_1p9":    "concentrate.one-and-nine/draw@1000ml",
		"dil_1p31":   "concentrate.one-and-thirty-one/draw@600ml",
		"pct_wv":     "ten-per-cent.stock/weigh.salt@250ml",
		"ac28":       "parts.stock/pour.concentrate@1000ml", // per cent by volume are parts in a hundred
		"ac_stop":    "stop.stock/pour.vinegar@1000ml",
		"h2so4_96":   "sour.stock/content.vitriol.solution-96", // 10 ml of it in a litre
		"hyd_carb":   "soda-bath.stock/instead.soda.monohydrate@1000ml",
		"hyd_carb10": "soda-bath.stock/instead.soda.decahydrate@1000ml",
		"hyd_thio":   "hypo.stock/instead.sodium-thiosulfate.anhydrous@1000ml",
	} {
		f.Holds(row, c.value(t, id))
	}
	// "1 in 9" taken for 1+9: as much more as the notation board says.
	f.Holds("dil_1to9", c.value(t, "concentrate.one-and-nine/draw@1000ml")*(1+all["dilution.colon"].Call([]float64{9})/100))
}

// TestPermanenceIsPublished holds washing, fixing and the test by clearing time
// against published rules.
func TestPermanenceIsPublished(t *testing.T) {
	f, c, all := published.Open(t, "permanence.tsv"), exampleCards(t), formulas(t)
	call := func(id string, in ...float64) float64 { return all[id].Call(in) }

	limit := c.value(t, "wash/limit")
	f.Holds("le500_film", limit)
	f.Holds("lim_law", limit)
	f.Holds("ug", 100*limit) // a gram on a square metre is 100 µg on a square centimetre

	film := "film/wash@again.eighty,half-litre,"
	const carried, fresh, start, area = 20, 500, 150, 516.128
	for n := range 6 {
		water, dried := call("wash.fills", start, carried, fresh, float64(n)), 0.0
		if n > 0 {
			water, dried = c.value(t, film+strconv.Itoa(n)), c.value(t, film+strconv.Itoa(n)+",dried")
		} else {
			dried = call("wash.dried", water, carried, area)
		}
		f.Holds("wash_c"+strconv.Itoa(n), water)
		f.Holds("wash_m"+strconv.Itoa(n), dried)
	}
	ratio := call("wash.fills", 1, carried, fresh, 1)
	f.Holds("wash_ratio", ratio)
	// The formula shows whole fills only: the number before it is rounded follows
	// from its own limit and ratio.
	for row, clings := range map[string]float64{"wash_n": carried, "wash_n_drained": 2} {
		may := call("wash.may", limit, clings, area)
		n := math.Log(may/start) / math.Log(ratio)
		f.Holds(row, n)
		require.Equal(t, math.Ceil(n), call("wash.needed", may, start, carried, fresh), row)
	}
	f.Holds("wash_n_int", c.rounded(t, film+"needed"))
	// For the same as three fills, litres through the tank at any flow.
	seconds := call("wash.running", carried+fresh, 2.5, start, start*math.Pow(ratio, 3))
	f.Holds("wash_flow", call("water.running", 2.5, seconds)/1000)

	// 200 prints in a US gallon, 3785.41 ml; the tolerance of the row is that of
	// the rule, the sum is held to its last digit.
	prints := call("count.held", 200, 3785.41)
	f.Holds("cap_prints", prints)
	require.InDelta(t, f.Row("cap_prints").Want, prints, 0.05)

	f.Holds("fix2", c.value(t, "film/time.fix@warm")/60) // it clears in 60 s
	f.Holds("clear2", c.value(t, "0004/clearing"))
	require.True(t, c.dead(t, "0004"), "at the published multiple it is spent")
	require.False(t, c.dead(t, "0003"), "a second before, it is not")
}
