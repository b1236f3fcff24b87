package procedures_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	_ "wetside/procedures" // with every package that declares a formula
	"wetside/procedures/figure"
	"wetside/testdata/published"
)

// formulas are all the formulas of the core, by id.
func formulas(t *testing.T) map[string]figure.Declared {
	t.Helper()
	out := map[string]figure.Declared{}
	for _, f := range figure.Registered() {
		id := f.Spec().ID
		require.NotContains(t, out, id, "two formulas under one id")
		out[id] = f
	}
	require.Greater(t, len(out), 140)
	return out
}

// TestFormulaUnits: what a formula says its numbers count in is what its types count
// in. A plain number may have a word for what it counts; a price is in the lab's
// currency, and what one roll wants is said in ml.
func TestFormulaUnits(t *testing.T) {
	words := map[string]bool{"days": true, "runs": true, "fills": true, "x": true, "× fresh": true, "a day": true, "L": true}
	for id, f := range formulas(t) {
		spec := f.Spec()
		result, terms := f.Units()
		check := func(what, said, counts string) {
			switch {
			case said == counts, counts == "" && words[said], said == "ml" && counts == "ml/roll", said == "" && (counts == "/L" || counts == "/kg"):
			default:
				t.Errorf("%s: %s is said to be in %q, and counts in %q", id, what, said, counts)
			}
		}
		check("the result", spec.Unit, result)
		for i, term := range spec.Terms {
			check(term.Symbol, term.Unit, terms[min(i, len(terms)-1)])
		}
	}
}

// worked is one example: the formula, its inputs in order, and the row of
// testdata/published/worked_examples.tsv, or the value with where it comes from.
type worked struct {
	formula string
	in      []float64
	row     string
	// as turns the result into what the row counts.
	as   func(float64) float64
	want float64
	tol  float64
	from string
}

func litres(ml float64) float64      { return ml / 1000 }
func milligrams(g float64) float64   { return g * 1000 }
func minutes(s float64) float64      { return s / 60 }
func overHundred(x float64) float64  { return x - 100 }
func underHundred(x float64) float64 { return 100 - x }

var workedExamples = []worked{
	{formula: "dilution.stock", in: []float64{600, 1, 4}, row: "A1 V_stock"},
	{formula: "dilution.stock", in: []float64{600, 1, 39}, row: "A3 V_mid"},
	{formula: "dilution.stock", in: []float64{15, 1, 9}, row: "A3 V_conc"},
	{formula: "content.diluted", in: []float64{1, 1, 4}, row: "A2 c_plus"},
	{formula: "content.diluted", in: []float64{1, 1, 3}, row: "A2 c_in"},
	{formula: "dilution.colon", in: []float64{4}, row: "A2 error_pct"},
	{formula: "dilution.chain", in: []float64{1, 9, 1, 39}, row: "A3 D_total"},
	{formula: "dilution.rest", in: []float64{400}, want: 399, tol: 0.5, from: "plain arithmetic: one part in 400 is 1+399"},
	{formula: "dilution.rest", in: []float64{600.0 / 150}, row: "M1 b_max"}, // 150 ml in 600 ml are one in four
	{formula: "dilution.largest", in: []float64{380, 1, 1}, row: "A5 V_max"},
	{formula: "dilution.largest", in: []float64{3785.41, 1, 4}, want: 18927, tol: 1, from: "common practice, no source: a powder that makes one US gallon (3.8 L) of stock, at 1+4, makes five (19 L)"},
	{formula: "content", in: []float64{500, 3785.41}, want: 132.1, tol: 0.05, from: "common practice, no source: 500 g of powder make 3.8 L (one US gallon) of stock"},
	{formula: "parts.volume", in: []float64{320, 1, 32}, row: "A4 V_A"},
	{formula: "parts.volume", in: []float64{320, 4, 32}, row: "A4 V_B"},
	{formula: "parts.volume", in: []float64{320, 27, 32}, row: "A4 V_water"},
	{formula: "parts.volume", in: []float64{600, 4, 5}, row: "A1 V_water"},
	{formula: "parts.sum", in: []float64{1, 4, 27}, want: 32, tol: 0.5, from: "plain arithmetic"},
	{formula: "rolls.left", in: []float64{380, 150}, row: "A6 n_max"},
	{formula: "rolls.stock", in: []float64{300, 150}, row: "M1 N_max"},
	{formula: "rolls.stock", in: []float64{300, 150}, row: "A6 run_max"},
	{formula: "rolls.stock", in: []float64{440, 150}, want: 2, tol: 0.5, from: "plain arithmetic: 440 ml are twice 150 ml and 140 ml over"},
	{formula: "rolls.need.piece", in: []float64{150, 0.25}, want: 37.5, tol: 0.05, from: "plain arithmetic: a quarter of a roll"},
	{formula: "rolls.need.piece", in: []float64{150, 4876.8 / 516}, row: "M11 need"},
	{formula: "rolls.need", in: []float64{3, 150, 300}, row: "A6 need"},
	{formula: "rolls.fewest", in: []float64{2, 5}, want: 2, tol: 0.05, from: "plain arithmetic"},
	{formula: "liquid.content", in: []float64{1.064, 60}, row: "A8 c"},
	{formula: "liquid.volume", in: []float64{20, 638.4}, row: "A8 V_per_l"},
	{formula: "liquid.volume", in: []float64{20, 10 * 60}, row: "A8 V_wrong"}, // 60 % w/w read as 60 g in 100 ml
	{formula: "liquid.mass", in: []float64{20.0 / 600 * 1000, 1.064, 60}, row: "A8 c_wrong"},
	{formula: "liquid.volume", in: []float64{60, 638.4}, row: "A7 V1"},
	{formula: "liquid.mass", in: []float64{800, 1.32, 60}, row: "B14 c"},
	{formula: "content.diluted", in: []float64{633.6, 1, 4}, row: "B14 c_work"},
	{formula: "air.over", in: []float64{1000, 250}, want: 750, tol: 0.5, from: "plain arithmetic"},
	{formula: "air.oxygen", in: []float64{500, 101.325, 0, 20}, want: 0.1393, tol: 0.0005, from: "testdata/published/headspace.tsv, hs_so3_dry_mgO2"},
	{formula: "air.oxygen", in: []float64{500, 101.325, 2.336, 20}, want: 0.1361, tol: 0.0005, from: "testdata/published/headspace.tsv, hs_so3_sat_mgO2"},
	{formula: "air.eats", in: []float64{0.1393}, want: 1.0975, tol: 0.005, from: "testdata/published/headspace.tsv, hs_so3_dry"},
	{formula: "air.sulfite", in: []float64{0.1, 2}, want: 25.2, tol: 0.05, from: "plain arithmetic: metabisulfite gives two sulfites of 126.04 g"},
	{formula: "air.sulfite.all", in: []float64{20, 5}, want: 25, tol: 0.05, from: "plain arithmetic"},
	{formula: "air.share", in: []float64{1.0722, 20, 500}, want: 10.72, tol: 0.1, from: "testdata/published/headspace.tsv, hs_frac"},
	{formula: "air.share", in: []float64{1.65, 42, 250}, want: 15.7, tol: 0.05, from: "H2 as it was corrected, for one opening (derived)"},
	{formula: "air.after", in: []float64{0, 100, 225}, want: 325, tol: 0.5, from: "plain arithmetic"},
	{formula: "air.eaten", in: []float64{15.7, 15.7, 15.7}, want: 47, tol: 0.5, from: "H2 as it was corrected: three openings a quarter full (derived)"},
	{formula: "air.left", in: []float64{30, 15.7, 5}, want: 2, tol: 0, from: "plain arithmetic: 14.3 by 5 is 2.86"},
	{formula: "air.openings", in: []float64{30, 15.7}, want: 1, tol: 0, from: "plain arithmetic"},
	{formula: "start.load", in: []float64{80, 400}, want: 20, tol: 0.05, from: "plain arithmetic"},
	{formula: "start.holds", in: []float64{15, 10, 3.3, 20, 5.0}, want: 4.15, tol: 0.005, from: "plain arithmetic: half way between two points of borax"},
	{formula: "heat.capacity", in: []float64{800, 80}, want: 3.91, tol: 0.005, from: "plain arithmetic, between 3.85 and 3.94 of the two ways of reckoning 80 g of pellets in 800 ml"},
	{formula: "heat.change", in: []float64{80, 40.00, -44.5, 880, 3.85}, want: 26, tol: 0.5, from: "B10 as it was corrected: pellets into 800 ml (derived, the heat is that of heats.tsv)"},
	{formula: "heat.change", in: []float64{240, 248.17, 47, 890, 3.5}, want: 14.6, tol: 0.05, from: "B11: hypo crystals into 650 ml (derived, the heat is from memory)"},
	{formula: "heat.mass", in: []float64{650, 240}, want: 890, tol: 0.5, from: "plain arithmetic"},
	{formula: "heat.liquid", in: []float64{800, 1.32}, want: 1056, tol: 0.5, from: "definition of density"},
	{formula: "drift.end", in: []float64{14, 20, 660, 2400}, row: "C4 T_end"},
	{formula: "drift.mean", in: []float64{14, 20, 660, 2400}, row: "C4 T_mean"},
	{formula: "drift.reads", in: []float64{18, 30}, want: 22.415, tol: 0.001, from: "plain arithmetic: 12 K above the room, by the base of the natural logarithm"},
	{formula: "carry.tank", in: []float64{6, 0.25, 20}, want: 30, tol: 0.5, from: "plain arithmetic: six sheets of 4x5 in count as a roll and a half"},
	{formula: "carry.cyanide", in: []float64{30, 4, 1, 97.18}, as: milligrams, row: "M9 unwashed"},
	{formula: "wash.fills", in: []float64{4, 30, 570, 2}, row: "M9 left"},
	{formula: "carry.cyanide", in: []float64{30, 0.01, 1, 97.18}, as: milligrams, row: "M9 washed"},
	{formula: "carry.cyanide", in: []float64{30, 4, 2, 2 * 97.18}, as: milligrams, row: "M9 unwashed"},
	{formula: "carry.sum", in: []float64{1, 2}, want: 3, tol: 0.05, from: "plain arithmetic"},
	{formula: "bleach.holds", in: []float64{16, 2}, as: milligrams, row: "G6 carried"},
	{formula: "stain.needs", in: []float64{0.032, 1, 158.03}, as: milligrams, row: "G6 m"},
	{formula: "stain.needs", in: []float64{0.032, 2, 2 * 158.03}, as: milligrams, row: "G6 m"},
	{formula: "stain.holds", in: []float64{600, 25, 2, 190.095}, want: 15, tol: 0.05, from: "plain arithmetic: metabisulfite counts as itself, 600 ml of 25 g/L"},
	{formula: "stain.holds", in: []float64{1000, 126.04, 1, 126.04}, want: 95.05, tol: 0.05, from: "balance of moles: a mol of sulfite is half a mol of metabisulfite"},
	{formula: "stain.times", in: []float64{15, 0.0481}, want: 311.9, tol: 0.5, from: "plain arithmetic"},
	{formula: "acid.equal", in: []float64{10 * 1.84 * 0.96, 2, 98.08, 1, 120.06}, row: "G3 m"},
	{formula: "reserve.salt", in: []float64{0.2, 2}, want: 0.4, tol: 0.005, from: "plain arithmetic"},
	{formula: "reserve.sulfite", in: []float64{0.2, 0.1}, want: 0.3, tol: 0.005, from: "plain arithmetic"},
	{formula: "reserve.pieces", in: []float64{2000, 0.03174, 11, 2.229 * 0.07808}, want: 33, tol: 0.5, from: "M8 by hand: 15 g/L of citric acid take up 2.229 for each at pH 6 by its constants 3.13, 4.76 and 6.40 alone"},
	{formula: "reserve.pieces", in: []float64{2000, 0.03174, 11, 0.207}, want: 27, tol: 0.5, from: "M8 with the activities of ph: 27.9, where the derivation that was handed down comes to 28"},
	{formula: "reserve.pieces", in: []float64{1000, 0.01, 10, 0.1001}, want: 9, tol: 0.5, from: "plain arithmetic: 9.99, and no part of a piece is treated"},
	{formula: "content.molar", in: []float64{1000 * 0.0714, 210.14}, want: 0.340, tol: 0.001, from: "plain arithmetic: a mol of citric acid monohydrate is 210.14 g"},
	{formula: "content.dry", in: []float64{286.14, 62.96}, want: 105.99, tol: 0.01, from: "testdata/published/molar_masses.tsv: ten waters are 62.96 % of sodium carbonate decahydrate, and the rest of a mol is 105.99 g"},
	{formula: "content.water", in: []float64{1.12, 153}, want: 0.967, tol: 0.0005, from: "plain arithmetic: of 1120 g, 153 g are no water"},
	{formula: "content.molal", in: []float64{0.967, 0.967}, want: 1, tol: 0.0005, from: "definition of molality"},
	{formula: "batch.mass", in: []float64{95, 1000, 2500}, row: "B1 m"},
	{formula: "batch.volume", in: []float64{2, 1000, 2500}, want: 5, tol: 0.005, from: "plain arithmetic"},
	{formula: "hydrate", in: []float64{78, 124.0, 105.99}, row: "B2 m_anh"},
	{formula: "hydrate", in: []float64{78, 124.0, 286.14}, row: "B2 m_deca"},
	{formula: "hydrate", in: []float64{100, 105.99, 124.0}, as: overHundred, row: "B2 excess_pct"},
	{formula: "hydrate", in: []float64{100, 286.14, 124.0}, as: underHundred, row: "B2 lack_mono_pct"},
	{formula: "hydrate", in: []float64{100, 286.14, 105.99}, as: underHundred, row: "B2 lack_anh_pct"},
	{formula: "purity", in: []float64{80, 95}, row: "B4 m"},
	{formula: "percent.volume", in: []float64{0.2, 10}, row: "B5 V"},
	{formula: "percent.mass", in: []float64{250, 10}, want: 25, tol: 0, from: "testdata/published/mixing.tsv, pct_wv"},
	{formula: "pack.content", in: []float64{500, 60, 3785.41}, want: 79.25, tol: 0.01, from: "plain arithmetic: of 500 g that make a US gallon, 60 % are 300 g in 3.785 L"},
	{formula: "pack.form", in: []float64{50, 60}, want: 30, tol: 0.01, from: "plain arithmetic: half of it is a liquid of 60 %"},
	{formula: "month.bottles", in: []float64{400, 1000}, want: 0.4, tol: 0.001, from: "plain arithmetic"},
	{formula: "pack.lasts", in: []float64{365.25 / 12, 0.5}, want: 60.875, tol: 0.05, from: "plain arithmetic: half a pack a month is one in two months"},
	{formula: "pack.used", in: []float64{0.25, 365.25 / 12, 60.875}, want: 0.5, tol: 0.001, from: "plain arithmetic: a quarter in each of two months"},
	{formula: "pack.used.percent", in: []float64{0.5}, want: 50, tol: 0.05, from: "plain arithmetic"},
	{formula: "pack.row", in: []float64{18, 365.25 / 12, 90}, want: 53, tol: 0.5, from: "plain arithmetic: 53.2, and a part of one is none"},
	{formula: "pack.row", in: []float64{18, 365.25 / 12, 91}, want: 53, tol: 0.5, from: "plain arithmetic: 53.8, and a part of one is none"},
	{formula: "pack.dearer", in: []float64{0.2, 0.5}, want: 0.4, tol: 0.001, from: "plain arithmetic: half of it is thrown away"},
	{formula: "use.pieces", in: []float64{18, 2}, want: 20, tol: 0.05, from: "plain arithmetic"},
	{formula: "pack.said", in: []float64{800, 1, 0.25}, want: 3200, tol: 0.5, from: "common practice, no source: 800 rolls are 3200 sheets of 4x5"},
	{formula: "pack.age", in: []float64{17, 365.25 / 12, 90, 1}, want: 50, tol: 0.5, from: "plain arithmetic: 17 rolls a month are 50 in 90 days"},
	{formula: "pack.age", in: []float64{34, 365.25 / 12, 90, 1}, want: 100, tol: 0.5, from: "plain arithmetic: 34 rolls a month are 100.5 in 90 days, and half a roll is none"},
	{formula: "store.mass", in: []float64{400, 150}, want: 550, tol: 0.5, from: "plain arithmetic"},
	{formula: "store.volume", in: []float64{500, 200}, want: 700, tol: 0.5, from: "plain arithmetic"},
	{formula: "store.packs", in: []float64{1000, 400}, want: 2.5, tol: 0.005, from: "plain arithmetic"},
	{formula: "store.bottles", in: []float64{750, 500}, want: 1.5, tol: 0.005, from: "plain arithmetic"},
	{formula: "store.kits", in: []float64{3, 1.5}, want: 1.5, tol: 0.005, from: "plain arithmetic: a kit wants every part"},
	{formula: "month.packs", in: []float64{19000, 0.2, 3800}, want: 1, tol: 0.005, from: "plain arithmetic: 19 L at 1+4 are 3.8 L of stock, one pack"},
	{formula: "month.packs.aged", in: []float64{0.1, 365.25 / 12, 90}, want: 0.338, tol: 0.001, from: "plain arithmetic: what keeps ninety days is bought four times a year and a little more"},
	{formula: "month.packs.aged", in: []float64{0.5, 365.25 / 12, 90}, want: 0.5, tol: 0.001, from: "plain arithmetic: what is used up in two months does not get too old in three"},
	{formula: "month.volume.aged", in: []float64{50, 1000, 365.25 / 12, 182.625}, want: 166.7, tol: 0.1, from: "plain arithmetic: a litre that keeps half a year"},
	{formula: "month.volume.aged", in: []float64{500, 1000, 365.25 / 12, 182.625}, want: 500, tol: 0.1, from: "plain arithmetic: it is used up before"},
	{formula: "month.packs.total", in: []float64{0.5, 0.25}, want: 0.75, tol: 0.005, from: "plain arithmetic"},
	{formula: "order.missing.packs", in: []float64{1, 0.5, 2, 1}, want: 1.5, tol: 0.005, from: "plain arithmetic"},
	{formula: "order.missing.packs", in: []float64{1, 0.5, 2, 4}, want: 0, tol: 0.005, from: "plain arithmetic: there is more than enough"},
	{formula: "order.packs.whole", in: []float64{1.2}, want: 2, tol: 0.005, from: "plain arithmetic: nobody sells a part of a pack"},
	{formula: "order.money", in: []float64{2, 15}, want: 30, tol: 0.05, from: "plain arithmetic"},
	{formula: "order.all", in: []float64{30, 12.5}, want: 42.5, tol: 0.05, from: "plain arithmetic"},
	{formula: "pack.said", in: []float64{10, 1, 0.6}, want: 16, tol: 0.5, from: "plain arithmetic: 16.7, and a part of one is none"},
	{formula: "store.makes.mass", in: []float64{850, 300, 1000}, want: 2833, tol: 0.5, from: "plain arithmetic: 850 g of citric acid at 300 g in a litre are 2.8 L of stock"},
	{formula: "store.makes.volume", in: []float64{500, 200, 1000}, want: 2500, tol: 0.5, from: "plain arithmetic"},
	{formula: "store.makes.packs", in: []float64{2.75, 3800}, want: 7600, tol: 0.5, from: "plain arithmetic: of two packs and three quarters of one, two are made up"},
	{formula: "store.makes.parts", in: []float64{2.5, 3800}, want: 9500, tol: 0.5, from: "plain arithmetic"},
	{formula: "store.makes", in: []float64{2833, 2500}, want: 2500, tol: 0.5, from: "plain arithmetic: the scarcest counts"},
	{formula: "choose.waste", in: []float64{19000, 50}, want: 380, tol: 0.5, from: "plain arithmetic: 19 L for 50 rolls"},
	{formula: "choose.all", in: []float64{100, 365.25 / 12, 91.3125, 1}, want: 33.33, tol: 0.01, from: "plain arithmetic: a hundred in three months, a third of them in each"},
	{formula: "choose.turns", in: []float64{15, 0.15, 365.25 / 12, 91.3125, 1}, want: 33.33, tol: 0.01, from: "plain arithmetic: at 15 a bag and 15 cents a roll by another way, 100 rolls in three months, a third of them in each"},
	{formula: "pack.piece", in: []float64{5000, 20}, want: 250, tol: 0.5, from: "plain arithmetic"},
	{formula: "cost.pack.litre", in: []float64{15, 3800, 0.35}, want: 4.297, tol: 0.005, from: "plain arithmetic: 15 in 3.8 L, and a litre of water at 0.35"},
	{formula: "cost.bottle.litre", in: []float64{12, 500}, want: 24, tol: 0.05, from: "plain arithmetic"},
	{formula: "cost.pack.mass", in: []float64{30, 400}, want: 12, tol: 0.05, from: "plain arithmetic"},
	{formula: "cost.pack.volume", in: []float64{24, 500}, want: 12, tol: 0.05, from: "plain arithmetic"},
	{formula: "percent.content", in: []float64{10}, want: 100, tol: 0.5, from: "definition of per cent w/v"},
	{formula: "percent.solvent", in: []float64{1.04, 10}, want: 1030, tol: 5, from: "plain arithmetic: a litre weighs 1040 g, 10 g of it are the substance"},
	{formula: "percent.ml", in: []float64{10}, want: 0.1, tol: 0.0005, from: "definition of per cent w/v"},
	{formula: "scale.smallest", in: []float64{1, 0.1, 2}, row: "B6 m_min"},
	{formula: "cylinder.smallest", in: []float64{0.5, 3}, row: "M2 V_25"},
	{formula: "cylinder.smallest", in: []float64{1, 3}, row: "M2 V_100"},
	{formula: "measure.error", in: []float64{0.2, 1.5}, row: "B7 e_pct"},
	{formula: "measure.error", in: []float64{0.4, 15}, row: "M2 e_15"},
	{formula: "measure.error", in: []float64{0.7, 31.3}, row: "M2 e_31"},
	{formula: "measure.error", in: []float64{1.0, 31.3}, row: "M2 e_31_one"},
	{formula: "start.displaced", in: []float64{240, 0.52}, row: "B8 V_disp"},
	{formula: "start.displaced.sum", in: []float64{100, 24.8}, want: 124.8, tol: 0.05, from: "plain arithmetic"},
	{formula: "start.displaced.sum", in: []float64{1000, 124.8}, row: "B8 V_end"},
	{formula: "start.room", in: []float64{1000, 124.8}, row: "B8 V_water_max"},
	{formula: "start.volume", in: []float64{1000, 875.2}, want: 775.2, tol: 0.05, from: "worked example B8 before it is rounded down to 50 ml"},
	{formula: "content", in: []float64{3, 1000}, want: 3, tol: 0.005, from: "plain arithmetic"},
	{formula: "content.sum", in: []float64{1, 94}, want: 95, tol: 0.5, from: "plain arithmetic"},
	{formula: "content.carried", in: []float64{200, 20, 1000}, want: 4, tol: 0.05, from: "plain arithmetic: 20 ml of 20 % in a litre are 4 g"},
	{formula: "content.ww", in: []float64{11, 1.11}, row: "B13 w"},
	{formula: "content.ww", in: []float64{11, 1.10}, row: "B13 w_low"},
	{formula: "ww.together", in: []float64{0.2, 0.15}, want: 0.35, tol: 0.0005, from: "plain arithmetic"},
	{formula: "drum.full", in: []float64{0.9, 20000}, want: 18, tol: 0.05, from: "first term of worked example J12: nine tenths of a drum of 20 L"},
	{formula: "drum.fills", in: []float64{24, 2, 600, 2}, as: litres, row: "M7 wash"},
	{formula: "drum.month", in: []float64{14400, 4900}, as: litres, row: "M7 all"},
	{formula: "density.brought", in: []float64{1.10, 500, 2000}, want: 0.275, tol: 0.0005, from: "plain arithmetic: a quarter of 1.10"},
	{formula: "density.together", in: []float64{0.275, 0.75}, want: 1.025, tol: 0.0005, from: "plain arithmetic: half a litre at 1.10 and one and a half at 1.00"},
	{formula: "drum.silver", in: []float64{3.04, 2.42, 1.2}, row: "J7 g"},
	{formula: "drum.content", in: []float64{2.42, 2000}, want: 1.21, tol: 0.005, from: "second term of worked example J7, read backwards"},
	{formula: "lime.bound", in: []float64{0.32, 100.09, 416.2}, want: 1.33, tol: 0.005, from: "worked example M3: 320 mg/L takes 1.33 g/L of the tetrasodium salt with two waters"},
	{formula: "permit.times", in: []float64{0.32, 0.001}, want: 320, tol: 0.05, from: "J14, plain arithmetic: 320 mg/L where 1 mg/L is allowed"},
	{formula: "permit.off", in: []float64{2.6, 6.5}, want: 3.9, tol: 0.005, from: "J15, plain arithmetic: a pH of 2.6 where 6.5 is the least"},
	{formula: "permit.off", in: []float64{9.7, 9.5}, want: 0.2, tol: 0.005, from: "J15, plain arithmetic: a pH of 9.7 where 9.5 is the most"},
	{formula: "drum.days", in: []float64{18, 13500, 900, 7}, row: "J12 days"},
	{formula: "drum.days", in: []float64{18, 19000, 900, 7}, want: 0, tol: 0.0005, from: "a drum above its line is full today"},
	{formula: "drum.by", in: []float64{20513, 29.97}, want: 20542, tol: 0.5, from: "the calendar: twenty-nine days after 2026-03-01 is 2026-03-30"},
	{formula: "carry.print", in: []float64{732, 150}, row: "E14 q"},
	{formula: "carry.stop", in: []float64{1000, 0.07808 * 2.305, 11, 0.5}, row: "E12 N"},
	{formula: "second.carried", in: []float64{11, 42, 0, 0.0933, 2000}, row: "E11 carried"},
	{formula: "second.carried", in: []float64{11, 36, 0.3, 0.0933, 2000}, row: "E11 carried_rotated"},
	{formula: "second.left", in: []float64{4, 42, 0.0933, 2000}, row: "E11 left"},
	{formula: "second.held", in: []float64{0.226, 0.078}, want: 0.304, tol: 0.0005, from: "plain arithmetic: about the 0.30 g/L from which the rotated bath of worked example E10 begins"},
	{formula: "react.reagent", in: []float64{15 / 192.12, 3, 84.01, 0}, row: "J1 m"},
	{formula: "react.gas", in: []float64{19.68 / 84.01, 1, 24.06}, as: litres, row: "J2 V"},
	{formula: "react.reagent", in: []float64{2 * 20 / 60.05, 1, 84.01, 0}, row: "J3 m"},
	{formula: "react.reagent", in: []float64{1.2 / 158.03, 2.5, 126.04, 0}, row: "J4 sulfite"},
	{formula: "react.reagent", in: []float64{1.2 / 158.03, 1.25, 190.11, 0}, row: "J4 metabisulfite"},
	{formula: "react.reagent", in: []float64{1.2 / 158.03, 1.25, 190.11, 10}, want: 1.985, tol: 0.005, from: "worked example J4, printed with a tenth more"},
	{formula: "react.reagent", in: []float64{0.6 * 40 / 120.06, 1, 84.01, 0}, row: "J5 m"},
	{formula: "react.bleach", in: []float64{40 / 120.06, 2 / 158.03}, as: func(n float64) float64 { return n * 0.6 * 84.01 }, row: "J5 m_all"},
	{formula: "react.liquid", in: []float64{3.401, 30.3}, want: 112.2, tol: 0.5, from: "J6 from its statement: a tenth of a mol of peroxide in a liquid of 3 % w/w at 1.01 g/ml"},
	{formula: "react.brings", in: []float64{0.1, 2}, want: 0.2, tol: 0.0005, from: "plain arithmetic"},
	{formula: "react.sum", in: []float64{0.2, 0.05}, want: 0.25, tol: 0.0005, from: "plain arithmetic"},
	{formula: "silver.coated", in: []float64{2, 570, 4.5}, want: 0.513, tol: 0.0005, from: "worked example G1 with all of the silver developed, as it was corrected"},
	{formula: "bleach.needs", in: []float64{0.257, 158.03}, want: 0.075, tol: 0.0005, from: "worked example G1"},
	{formula: "bleach.holds", in: []float64{600, 2}, want: 1.2, tol: 0.0005, from: "first term of worked example G2"},
	{formula: "bleach.times", in: []float64{1.2, 0.15}, want: 8, tol: 0.05, from: "worked example G2 as it was corrected: 0.15 g, eight times"},
	{formula: "density.diluted", in: []float64{1.10, 1, 1}, want: 1.05, tol: 0.005, from: "plain arithmetic"},
	{formula: "cost.part", in: []float64{95, 7.2}, want: 0.684, tol: 0.0005, from: "first term of worked example I4"},
	{formula: "cost.water", in: []float64{1000, 0.005}, want: 0.005, tol: 0.00005, from: "last term of worked example I4"},
	{formula: "cost.litre", in: []float64{0.684, 0.2024, 0.171, 0.033, 0.008, 0.005}, row: "I4 eur"},
	{formula: "price.content", in: []float64{9.8, 792}, want: 12.374, tol: 0.0005, from: "plain arithmetic: 9.80 a litre that holds 0.792 kg"},
	{formula: "temper.hot", in: []float64{5000, 20, 9, 52}, row: "C1 V_hot"},
	{formula: "temper.cold", in: []float64{5000, 1279.07}, row: "C1 V_cold"},
	{formula: "temper.hot", in: []float64{5000, 20, 9, 52}, as: litres, row: "C1 L_hot"},
	{formula: "temper.cold", in: []float64{5000, 1279.07}, as: litres, row: "C1 L_cold"},
	{formula: "temper.hot", in: []float64{5000, 20, 17, 52}, as: litres, row: "C1 L_hot_summer"},
	{formula: "temper.cold", in: []float64{5000, 428.57}, as: litres, row: "C1 L_cold_summer"},
	{formula: "temper.ice", in: []float64{5000, 26, 20, 4.18, 6.01}, want: 300.6, tol: 0.5, from: "heat balance by hand: 125.4 kJ by 333.6 + 83.6 J/g"},
	{formula: "temper.dilute", in: []float64{600, 20, 300, 15.5}, row: "C2 T_w"},
	{formula: "time.temperature", in: []float64{600, 20, 0.088, 22.5}, row: "C5 t2"},
	{formula: "time.slope", in: []float64{600, 420, 4}, row: "C6 k"},
	{formula: "time.temperature", in: []float64{100, 20, 0.0891687, 21}, as: underHundred, row: "C6 per_deg_pct"}, // the slope above, in full
	{formula: "push.stops", in: []float64{1600, 400}, row: "D1 N"},
	{formula: "push.time", in: []float64{660, 1.4, 1}, row: "D2 t"},
	{formula: "pull.time", in: []float64{660, 0.8, -1}, want: 528, tol: 0.5, from: "plain arithmetic: 0.8 of 11:00"},
	{formula: "agitate.count", in: []float64{570, 10, 10, 60}, row: "D3 count"},
	{formula: "agitate.count", in: []float64{615, 10, 10, 60}, want: 9, tol: 0.5, from: "common practice, no source: of 10:15 the tenth, from 10:00 to 10:10, would run into the drain at 10:05"},
	{formula: "agitate.last", in: []float64{9, 60}, row: "D3 last"},
	{formula: "clock.drain", in: []float64{0, 570, 10}, row: "D3 drain_at"},
	{formula: "time.apart", in: []float64{570, 660}, want: 90, tol: 0.5, from: "plain arithmetic: 9:30 and 11:00 are 1:30 apart"},
	{formula: "clock.draining", in: []float64{10, 20}, want: 20, tol: 0.5, from: "plain arithmetic: the larger of the two"},
	{formula: "clock", in: []float64{660, 60}, want: 720, tol: 0.5, from: "plain arithmetic"},
	{formula: "agitate.turns", in: []float64{6, 4, 9}, row: "D3 inversions"},
	{formula: "fix.time", in: []float64{2, 75}, want: 150, tol: 0.5, from: "worked example E8 before its least"},
	{formula: "fix.least", in: []float64{150, 180}, row: "E8 t_fix"},
	{formula: "rolls.share", in: []float64{2, 0.7}, want: 1.4, tol: 0.05, from: "second term of worked example E1"},
	{formula: "rolls.sum", in: []float64{3, 1.4, 1.5}, row: "E1 N_eq"},
	{formula: "runs", in: []float64{7, 5}, row: "I1 runs"},
	{formula: "time.reuse", in: []float64{510, 8, 3, 1000}, row: "D4 t"},
	{formula: "silver.worked", in: []float64{9, 0.2223}, want: 2.0007, tol: 0.00005, from: "first term of worked example E7"},
	{formula: "silver.sum", in: []float64{2.0007, 0.6669, 0.3705}, row: "E7 c"},
	{formula: "silver.held", in: []float64{3.0381, 1000, 0}, row: "E7 c"},
	{formula: "silver.held", in: []float64{3.0381, 1000, 0.3}, want: 3.3381, tol: 0.00005, from: "plain arithmetic: a bath that began with 0.3 g/L"},
	{formula: "silver.least", in: []float64{3.04, 25}, want: 2.28, tol: 0.005, from: "worked example E7, a quarter less"},
	{formula: "silver.most", in: []float64{3.04, 25}, want: 3.8, tol: 0.005, from: "worked example E7, a quarter more"},
	{formula: "clearing.ratio", in: []float64{75, 45}, row: "E8 ratio"},
	{formula: "area.worked", in: []float64{18, 732}, want: 13176, tol: 0.5, from: "plain arithmetic: eighteen prints of 732 cm²"},
	{formula: "area.sum", in: []float64{13176, 4824}, want: 18000, tol: 0.5, from: "plain arithmetic"},
	{formula: "area.held", in: []float64{18000, 1000}, want: 1.8, tol: 0.0005, from: "plain arithmetic: 1.8 m² in one litre"},
	{formula: "count.held", in: []float64{26, 2000}, want: 13, tol: 0.05, from: "plain arithmetic"},
	{formula: "shelf.ends", in: []float64{59, 60}, row: "H3 discard_day"},
	{formula: "shelf.dies", in: []float64{200, 119}, row: "H3 discard_day"},
	{formula: "shelf.dies", in: []float64{119, 200, 300}, row: "H3 discard_day"},
	{formula: "shelf.days", in: []float64{119, 73}, want: 46, tol: 0.5, from: "plain arithmetic: 14 March is day 73, 29 April day 119"},
	{formula: "shelf.drawn", in: []float64{160, 200}, want: 360, tol: 0.5, from: "plain arithmetic"},
	{formula: "shelf.left", in: []float64{500, 120}, want: 380, tol: 0.5, from: "plain arithmetic"},
	{formula: "shelf.full", in: []float64{380, 500}, want: 76, tol: 0.5, from: "plain arithmetic"},
	{formula: "order.missing", in: []float64{150, 0.5, 3, 100, 140}, row: "I3 short"},
	{formula: "order.packs", in: []float64{485, 250}, row: "I3 packs"},
	{formula: "order.packs", in: []float64{510, 250}, want: 3, tol: 0.5, from: "plain arithmetic: two packs are 10 g short"},
	{formula: "order.packs.volume", in: []float64{510, 250}, want: 3, tol: 0.5, from: "plain arithmetic: two packs are 10 ml short"},
	{formula: "order.liquid", in: []float64{5000, 792}, want: 3960, tol: 0.5, from: "plain arithmetic"},
	{formula: "month.bath", in: []float64{24, 1000, 17}, want: 1411.8, tol: 0.05, from: "plain arithmetic: 24 rolls a month at 17 a litre"},
	{formula: "month.stock", in: []float64{24, 150}, want: 3600, tol: 0.5, from: "plain arithmetic: 24 rolls of 150 ml"},
	{formula: "month.aged", in: []float64{1000, 30.4375, 14}, want: 2174.1, tol: 0.05, from: "plain arithmetic: a litre every fortnight"},
	{formula: "month.mass", in: []float64{95, 3600}, want: 342, tol: 0.5, from: "plain arithmetic"},
	{formula: "month.total", in: []float64{342, 58}, want: 400, tol: 0.5, from: "plain arithmetic"},
	{formula: "blend", in: []float64{20, 10, 60}, want: 0.25, tol: 0.005, from: "mass balance: 100 ml of 60 % and 400 ml of 10 % hold 100 g in 500 ml"},
	{formula: "cold.all", in: []float64{200, 25, 13}, want: 238, tol: 0.5, from: "plain arithmetic"},
	{formula: "cold.load", in: []float64{200, 1.19, 238}, want: 21.01, tol: 0.005, from: "mass balance: 200 g in the 952 g of water that a litre of 1190 g leaves"},
	{formula: "cold.above", in: []float64{21, 10, 19.19, 20, 26.42}, want: 15.73, tol: 0.005, from: "by hand, between two rows of testdata/published/solubility.tsv: 21 / 0.9 = 23.33, which is 4.14 above 19.19, of 7.23 up to 26.42: 10 × 4.14 / 7.23 = 5.73 above 10 °C"},
	{formula: "wash.fills", in: []float64{96, 8, 290, 3}, as: milligrams, row: "F1 c_n"},
	{formula: "wash.fills", in: []float64{1, 8, 290, 1}, row: "F1 ratio"},
	{formula: "wash.fills", in: []float64{150, 20, 500, 2}, want: 0.221893, tol: 2.2e-05, from: "testdata/published/permanence.tsv, wash_c2"},
	{formula: "wash.dried", in: []float64{0.221893, 20, 516.128}, want: 0.0859839, tol: 8.6e-06, from: "testdata/published/permanence.tsv, wash_m2"},
	{formula: "wash.may", in: []float64{0.014, 20, 516.128}, want: 0.0361290, tol: 5e-7, from: "plain arithmetic: 0.014 g/m² of 0.0516128 m² in 20 ml"},
	{formula: "wash.fills", in: []float64{3.04, 8, 292, 1}, want: 0.081, tol: 0.0005, from: "J13: silver in the first wash, 8 ml of fixer at 3.04 g/L in 300 ml (derived)"},
	{formula: "wash.fills", in: []float64{3.04, 20, 280, 1}, want: 0.203, tol: 0.0005, from: "J13 as it was corrected, 20 ml (derived)"},
	{formula: "wash.needed", in: []float64{0.036129, 150, 20, 500}, want: 3, tol: 0.5, from: "testdata/published/permanence.tsv, wash_n_int"},
	{formula: "wash.needed", in: []float64{0.1, 100, 20, 480}, want: 3, tol: 0.5, from: "by hand: two fills leave 1/625 and three 1/15625, and 1/1000 is asked"},
	{formula: "wash.running", in: []float64{10000, 3, 1000, 5}, as: minutes, row: "F3 t"},
	{formula: "wash.gelatin", in: []float64{0.00186, 30}, row: "F5 r"},
	{formula: "wash.fresh", in: []float64{600, 2}, want: 300, tol: 0.5, from: "plain arithmetic"},
	{formula: "content.ion", in: []float64{127, 112.12, 148.2}, want: 96, tol: 0.5, from: "worked example F1: a film fixer of 127 g/L ammonium thiosulfate holds 96 g/L of the ion"},
	{formula: "water.running", in: []float64{2.5, 1200}, as: litres, row: "F4 run"},
	{formula: "water.running", in: []float64{2.5, 300}, want: 12500, tol: 5, from: "common practice, no source: five minutes of wash after a clearing bath instead of twenty to forty"},
	{formula: "water.fills", in: []float64{4, 600}, as: litres, row: "F4 dump"},
	{formula: "water.saved", in: []float64{50000, 2400}, as: litres, row: "F4 saved"},
	{formula: "money.saved", in: []float64{47600, 0.0046}, row: "F4 eur"},
	{formula: "capacity.area", in: []float64{1.2, 1000, 570}, row: "E2 N"},
	{formula: "capacity.area", in: []float64{1.8, 2000, 732}, row: "F7 n"},
	{formula: "capacity.area", in: []float64{1.2, 1000, 580}, want: 20, tol: 0.5, from: "plain arithmetic: 12 000 cm² are 20.7 times 580 cm²"},
	{formula: "silver.each", in: []float64{570, 6.0, 65}, row: "E3 per_roll"},
	{formula: "capacity.silver", in: []float64{4.0, 0, 1000, 0.2223}, row: "E3 N"},
	{formula: "capacity.rolls", in: []float64{6, 1000, 0.25}, want: 24, tol: 0.5, from: "common practice, no source: four 4x5 in sheets count as one roll"},
	{formula: "capacity.rolls", in: []float64{6, 1000, 0.7}, want: 8, tol: 0.5, from: "plain arithmetic: 6 rolls are 8.6 times 0.7"},
	{formula: "capacity.rolls", in: []float64{42.27, 18927, 0.25}, want: 3200, tol: 0.5, from: "common practice, no source: 19 L (five US gallons) that serve 800 rolls or 8x10 in prints serve 3200 sheets of 4x5 in: four sheets a print"},
	{formula: "use.pourings", in: []float64{6, 3}, want: 9, tol: 0.05, from: "plain arithmetic"},
	{formula: "use.pouring", in: []float64{30 * 500, 500, 6}, want: 5, tol: 0.5, from: "plain arithmetic: thirty prints on six days"},
	{formula: "use.pouring", in: []float64{35 * 500, 500, 6}, want: 5, tol: 0.5, from: "plain arithmetic: five, and a part of one"},
	{formula: "use.pouring", in: []float64{3 * 500, 500, 6}, want: 1, tol: 0.5, from: "a bath is not poured for less than one"},
	{formula: "month.days", in: []float64{2000, 3}, want: 6000, tol: 5, from: "plain arithmetic"},
	{formula: "month.poured", in: []float64{1500, 6000}, want: 6000, tol: 5, from: "plain arithmetic"},
	{formula: "month.poured", in: []float64{7500, 6000}, want: 7500, tol: 5, from: "plain arithmetic"},
	{formula: "capacity.fills", in: []float64{440, 150}, want: 2, tol: 0.5, from: "plain arithmetic: 440 ml are twice 150 ml and 140 ml over"},
	{formula: "capacity.fills", in: []float64{450, 150}, want: 3, tol: 0.5, from: "plain arithmetic: exactly three times"},
	{formula: "capacity.draw", in: []float64{600, 1, 1, 2}, want: 150, tol: 0.5, from: "plain arithmetic: half of 600 ml for two"},
	{formula: "capacity.drawn", in: []float64{120, 150}, want: 150, tol: 0.5, from: "plain arithmetic: the larger"},
	{formula: "capacity.work", in: []float64{1000, 1, 4}, want: 5000, tol: 0.5, from: "common practice, no source: a gallon of stock at 1+4 makes five"},
	{formula: "rolls.enough", in: []float64{380, 300, 2}, want: 2, tol: 0.5, from: "common practice, no source: 380 ml of stock fill the double tank, which serves two"},
	{formula: "rolls.enough", in: []float64{380, 750, 5}, want: 0, tol: 0.5, from: "common practice, no source: 380 ml do not fill the five-reel tank"},
	{formula: "count.sized", in: []float64{7, 2000, 432}, want: 32.407, tol: 0.001, from: "plain arithmetic: 14000 cm² of 432"},
	{formula: "count.sum", in: []float64{32.4, 5}, want: 37.4, tol: 0.001, from: "plain arithmetic"},
	{formula: "capacity.count.sized", in: []float64{15, 1600, 432, 1800}, want: 5, tol: 0.5, from: "plain arithmetic: 24 of 432 cm² are 10368 cm², five and three quarters of 1800"},
	{formula: "more.count.sized", in: []float64{15, 1600, 4, 432, 1800}, want: 4, tol: 0.5, from: "plain arithmetic: 20 of 432 cm² are 8640 cm², four and eight tenths of 1800"},
	{formula: "capacity.count", in: []float64{20, 1990}, want: 39, tol: 0.5, from: "plain arithmetic: 39.8, and no part of a print is treated"},
	{formula: "capacity.stock", in: []float64{380, 150}, row: "A6 n_max"},
	{formula: "capacity.age", in: []float64{6.0 / 7, 26 * 7}, row: "E4 age"},
	{formula: "capacity.age", in: []float64{1.5 / 7, 8 * 7}, row: "E5 done"},
	{formula: "capacity.age", in: []float64{1.5 / 7, 60}, want: 12, tol: 0.5, from: "plain arithmetic: 1.5 a week come to 12.9 in 60 days"},
	{formula: "capacity", in: []float64{21, 17, 99, 156}, row: "E4 N"},
	{formula: "more.silver", in: []float64{4.0, 2.98, 1000, 0.2223}, want: 4, tol: 0.5, from: "plain arithmetic: 1.02 g are 4.6 times 0.2223 g"},
	{formula: "more.area", in: []float64{1.8, 2000, 13176, 800}, want: 28, tol: 0.5, from: "plain arithmetic: 22 824 cm² are 28.5 times 800 cm²"},
	{formula: "more.rolls", in: []float64{6, 1000, 2, 0.7}, want: 5, tol: 0.5, from: "plain arithmetic: 4 rolls are 5.7 times 0.7"},
	{formula: "more.count", in: []float64{20, 1990, 26}, want: 13, tol: 0.5, from: "plain arithmetic: 39.8 less 26, and no part of a print is treated"},
	{formula: "more.uses", in: []float64{4.5, 3}, want: 1, tol: 0.5, from: "plain arithmetic: the middle of 4 to 5 uses less 3, and no half of a use"},
	{formula: "cost.each", in: []float64{9.4, 12}, row: "E5 cost"},
	{formula: "cost.each", in: []float64{9.4, 20}, row: "E5 ideal"},
	{formula: "cost.each", in: []float64{15, 1000}, want: 0.015, tol: 0.0005, from: "common practice, no source: at 15 a bag and full capacity a roll costs under 2 cents"},
	{formula: "cost.each", in: []float64{15, 50}, want: 0.30, tol: 0.005, from: "common practice, no source: 30 cents if age ends it after 50 rolls"},
	{formula: "cost.each", in: []float64{15, 100}, want: 0.15, tol: 0.005, from: "common practice, no source: 15 cents if age ends it after 100 rolls"},
	{formula: "cost.each", in: []float64{15, 300}, want: 0.05, tol: 0.0005, from: "common practice, no source: 5 cents if age ends it after 300 rolls"},
	{formula: "cost.roll", in: []float64{150, 1.09}, row: "I5 cost"},
	{formula: "cost.volume", in: []float64{1.10, 2000}, want: 2.20, tol: 0.005, from: "plain arithmetic"},
	{formula: "cost.diluted", in: []float64{1.10, 0, 1, 1}, want: 0.55, tol: 0.005, from: "plain arithmetic: half and half"},
	{formula: "cost.share", in: []float64{4, 1, 4}, want: 1, tol: 0.005, from: "plain arithmetic: a quarter by parts"},
	{formula: "cost.share.volume", in: []float64{4, 2, 1000}, want: 0.008, tol: 0.00005, from: "second last term of worked example I4"},
	{formula: "batch.worth", in: []float64{1.5 / 7, 8.57 * 7, 150}, as: litres, row: "E6 V"},
	{formula: "use.entry", in: []float64{24, 570}, want: 13680, tol: 0.5, from: "plain arithmetic"},
	{formula: "use.area", in: []float64{13680, 516}, want: 14196, tol: 0.5, from: "plain arithmetic"},
	{formula: "use.day", in: []float64{13680, 570, 30.4375}, want: 0.7885, tol: 0.0005, from: "plain arithmetic: 24 in a month of 30.4375 days"},
	{formula: "rolls.odd", in: []float64{4876.8, 516}, row: "M11 eq"},
	{formula: "coat", in: []float64{20, 500, 40, 15}, row: "G4 V"},
	{formula: "area", in: []float64{16, 30480}, row: "M11 A"},
	{formula: "area", in: []float64{35, 1630}, want: 570.5, tol: 0.05, from: "testdata/published/formats.tsv, f135_36_strip_cm2, whose length is from memory"},
}

// workedOnCards are the examples whose result is a rounded figure of a card of
// the binder of examples.
var workedOnCards = map[string]string{
	"B8 V_start": "thick.stock/start@1000ml",
	"C5 t2_card": "warm/time@developer.stock,22.5c",
	"D2 t_card":  "pushed/time@developer.stock,20.0c,ei800",
	"D4 t_card":  "0001/next@again",
}

// passedOn are the formulas that hand a declared value on as it is: an example of
// the formula could never fail, so a card shows what came of the declaration.
var passedOn = map[string]struct {
	figure string
	want   float64
	from   string
}{
	"time.measured": {"warm/time@developer.stock,20.0c", 600, "the film's own 10:00, in seconds"},
	"content.sheet": {"harsh-powder.supplied/ww.harsh-salt", 4, "section 3 of the sheet"},
	"cost.supplied": {"concentrate.supplied/cost", 22, "plain arithmetic: a thousand millilitres at 0.022"},
}

func TestWorkedExamples(t *testing.T) {
	all, rows := formulas(t), published.Open(t, "worked_examples.tsv")
	tightest := map[string]float64{}
	caught, told := map[string]bool{}, map[string]map[string]bool{}
	for _, w := range workedExamples {
		f, ok := all[w.formula]
		require.True(t, ok, "no formula %s", w.formula)
		as := w.as
		if as == nil {
			as = func(x float64) float64 { return x }
		}
		example := published.Row{Want: w.want, Tolerance: w.tol}
		if w.row != "" {
			example = rows.Row(w.row)
		} else {
			require.NotEmpty(t, w.from, "%s: an expected value needs its source", w.formula)
		}
		want, tol := example.Want, example.Tolerance
		got := f.Call(w.in)
		require.True(t, example.Holds(as(got)), "%s of %v: got %v, want %v ± %v (%s%s)", w.formula, w.in, as(got), want, tol, w.row, w.from)
		wrong := got * 1.05
		if whole(f.Spec()) {
			wrong = got + 1
			if told[w.formula] == nil {
				told[w.formula] = map[string]bool{}
			}
			for name, x := range otherwiseRounded(t, f.Spec(), w.in) {
				told[w.formula][name] = told[w.formula][name] || !example.Holds(as(x))
			}
		}
		caught[w.formula] = caught[w.formula] || !example.Holds(as(wrong))
		if rel := tol / math.Abs(want); tightest[w.formula] == 0 || rel < tightest[w.formula] {
			tightest[w.formula] = rel
		}
	}
	c := exampleCards(t)
	for row, id := range workedOnCards {
		rows.Holds(row, c.rounded(t, id))
	}
	discard := 0.0
	if c.dead(t, "0002") {
		discard = 1
	}
	rows.Holds("E8 discard", discard)
	for id, f := range all {
		if spec := f.Spec(); len(spec.Terms) == 1 && spec.Text == spec.Terms[0].Symbol {
			p, ok := passedOn[id]
			require.True(t, ok, "%s hands a value on: no card shows it", id)
			fig := c.figure(t, p.figure)
			require.Equal(t, id, fig.Formula.ID, p.figure)
			require.InDelta(t, p.want, fig.Value, 1e-9*p.want, "%s (%s)", p.figure, p.from)
			continue
		}
		_, worked := tightest[id]
		require.True(t, worked, "formula %s has no worked example", id)
		require.True(t, caught[id], "no example of %s would notice 5 %% too much (or one more): its tightest is %.3g", id, tightest[id])
		for name, seen := range told[id] {
			require.True(t, seen, "no example of %s would notice that it rounds %s", id, name)
		}
	}
}

// whole tells whether a formula rounds to whole numbers.
func whole(f *figure.Formula) bool {
	return strings.Contains(f.Text, "floor") || strings.Contains(f.Text, "ceil")
}

// otherwiseRounded works a formula out as printed, rounding to the nearest and to
// the other side instead.
func otherwiseRounded(t *testing.T, f *figure.Formula, in []float64) map[string]float64 {
	t.Helper()
	env := map[string]float64{}
	for i, term := range f.Terms {
		env[term.Symbol] = in[i]
	}
	out := map[string]float64{}
	for name, r := range map[string]*strings.Replacer{
		"to the nearest":    strings.NewReplacer("floor(", "round(", "ceil(", "round("),
		"to the other side": strings.NewReplacer("floor(", "ceil(", "ceil(", "floor("),
	} {
		expr, err := parser.ParseExpr(r.Replace(f.Text))
		require.NoError(t, err)
		out[name] = eval(t, expr, env, in)
	}
	return out
}

// TestFormulaTexts holds the printed text of every formula against its code.
func TestFormulaTexts(t *testing.T) {
	for id, f := range formulas(t) {
		t.Run(id, func(t *testing.T) {
			spec := f.Spec()
			expr, err := parser.ParseExpr(spec.Text)
			require.NoError(t, err)
			for _, term := range spec.Terms {
				require.NotEmpty(t, term.Meaning, "%s", term.Symbol)
			}
			require.NotEmpty(t, spec.Source)
			list := ofList(spec)
			seed := uint64(12345)
			random := func() float64 {
				seed = seed*6364136223846793005 + 1442695040888963407
				return 0.5 + float64(seed>>40)/float64(1<<24)*40
			}
			for range 200 {
				n := len(spec.Terms)
				if list {
					n = 3
				}
				x := make([]float64, n)
				for i := range x {
					x[i] = random()
				}
				env := map[string]float64{}
				for i, term := range spec.Terms {
					env[term.Symbol] = x[i]
				}
				want := eval(t, expr, env, x)
				got := f.Call(x)
				if math.IsNaN(want) || math.IsInf(want, 0) {
					continue
				}
				require.InDelta(t, want, got, 1e-9*(1+math.Abs(want)), "%s with %v", spec.Text, env)
			}
		})
	}
}

// ofList reports a formula of any number of inputs: its text works on the list.
func ofList(f *figure.Formula) bool {
	return len(f.Terms) == 1 && (f.Text == "sum("+f.Terms[0].Symbol+")" || f.Text == "min("+f.Terms[0].Symbol+")")
}

func eval(t *testing.T, e ast.Expr, env map[string]float64, list []float64) float64 {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return eval(t, e.X, env, list)
	case *ast.Ident:
		v, ok := env[e.Name]
		require.True(t, ok, "the text names %s, which is no term", e.Name)
		return v
	case *ast.BasicLit:
		v, err := strconv.ParseFloat(e.Value, 64)
		require.NoError(t, err)
		return v
	case *ast.UnaryExpr:
		require.Equal(t, token.SUB, e.Op)
		return -eval(t, e.X, env, list)
	case *ast.BinaryExpr:
		a, b := eval(t, e.X, env, list), eval(t, e.Y, env, list)
		switch e.Op {
		case token.ADD:
			return a + b
		case token.SUB:
			return a - b
		case token.MUL:
			return a * b
		case token.QUO:
			return a / b
		}
	case *ast.CallExpr:
		name := e.Fun.(*ast.Ident).Name
		if name == "sum" {
			total := 0.0
			for _, v := range list {
				total += v
			}
			return total
		}
		if name == "min" && len(e.Args) == 1 {
			least := list[0]
			for _, v := range list {
				least = math.Min(least, v)
			}
			return least
		}
		args := make([]float64, len(e.Args))
		for i, a := range e.Args {
			args[i] = eval(t, a, env, list)
		}
		switch name {
		case "min":
			return math.Min(args[0], args[1])
		case "max":
			return math.Max(args[0], args[1])
		case "floor":
			return math.Floor(args[0])
		case "ceil":
			return math.Ceil(args[0])
		case "round":
			return math.Round(args[0])
		case "exp":
			return math.Exp(args[0])
		case "log":
			return math.Log(args[0])
		case "log2":
			return math.Log2(args[0])
		case "pow":
			return math.Pow(args[0], args[1])
		case "abs":
			return math.Abs(args[0])
		}
	}
	t.Fatalf("the text holds %s, which this test does not read", fmt.Sprintf("%T", e))
	return 0
}
