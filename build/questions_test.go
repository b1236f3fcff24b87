package build_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/procedures/figure"
)

// demonstration is the demonstration, made once for all tests.
func demonstration(t *testing.T) *build.Result {
	t.Helper()
	r := boundLab(t, "demo")
	require.Len(t, r.Faults, 1, "%v", r.Faults)
	require.Equal(t, "review", r.Faults[0].Code, "one card of the demonstration is past its review, so that it shows")
	return r
}

// TestQuestionsAtTheSink asks the demonstration what people ask at the sink:
// each answer by its figure, its value, what rounded it, and why.
func TestQuestionsAtTheSink(t *testing.T) {
	r := demonstration(t)
	records := map[string]*figure.Record{}
	for _, f := range r.Binder.Figures {
		records[f.ID] = f
	}
	for _, c := range []struct {
		question, id, shown, unit, device, why string
		value                                  float64
	}{
		{question: "film developer one plus one for the five-reel tank", id: "film-developer.working/draw@1500ml", shown: "750", unit: "ml", value: 750, device: "1000 ml cylinder"},
		{question: "and how many rolls does it serve", id: "film-developer.working/rolls@five,135", shown: "5", unit: "rolls", value: 5},
		{question: "one roll alone in it uses as much", id: "film-developer.working/need@five,135,1", shown: "750", unit: "ml", value: 750},
		{question: "fixer for the double tank", id: "fixer.film/draw@600ml", shown: "120", unit: "ml", value: 120, device: "250 ml cylinder"},
		{question: "film 400 at 22.5 degrees", id: "film-400/time@film-developer.working,22.5c", shown: "8:45", unit: "s", value: 529.662},
		{question: "film 400 at 24.5 degrees", id: "film-400/time@film-developer.working,24.5c", unit: "s", why: "outside 18 to 24 °C: a time there would be a guess"},
		{question: "film 400 shot at 1600", id: "film-400/time@film-developer.working,20.0c,ei1600", shown: "21:30", unit: "s", value: 1293.6},
		{question: "how many stops is that", id: "film-400/stops.ei1600", shown: "2", unit: "stops", value: 2},
		{question: "film 400 shot at 3200", id: "film-400/time@film-developer.working,20.0c,ei3200", unit: "s", why: "more than 2 stops have not been tried"},
		{question: "agitation at 9:30", id: "film-negative/agitate.develop@film-100,20.0c", shown: "1:00 2:00 3:00 4:00 5:00 6:00 7:00 8:00 9:00", unit: "s", value: 9},
		{question: "turns in all", id: "film-negative/turns.develop@film-100,20.0c", shown: "42", value: 42},
		{question: "start draining", id: "film-negative/drains.develop@film-100,20.0c", shown: "9:20", unit: "s", value: 560},
		{question: "a 135-24, two 135-36 and four sheets for the log", id: "rolls/example", shown: "3.7", unit: "rolls", value: 3.7},
		{question: "stop for the five-reel tank", id: "citric-stop.working/draw@1500ml", shown: "75", unit: "ml", value: 75, device: "100 ml cylinder"},
		{question: "five litres at 20 degrees in winter: hot", id: "tempering/hot@5000ml,20.0c,winter", shown: "1280", unit: "ml", value: 1279.06976744},
		{question: "and cold", id: "tempering/cold@5000ml,20.0c,winter", shown: "3720", unit: "ml", value: 3720.93023256},
		{question: "in summer: hot", id: "tempering/hot@5000ml,20.0c,summer", shown: "427.5", unit: "ml", value: 428.571428571},
		{question: "and cold", id: "tempering/cold@5000ml,20.0c,summer", shown: "4572.5", unit: "ml", value: 4571.42857143},
		{question: "stock at 14 degrees, equal parts", id: "tempering/water@300+300,stock-14.0c,20.0c", shown: "26.0", unit: "°C", value: 26},
		{question: "anhydrous carbonate instead", id: "print-developer.stock/instead.sodium-carbonate.anhydrous@1000ml", shown: "66.7", unit: "g", value: 66.668258026, device: "bench"},
		{question: "washing-soda crystals", id: "print-developer.stock/instead.sodium-carbonate.decahydrate@1000ml", unit: "g", why: "effloresces: an opened pack has no fixed water"},
		{question: "wetting bath for the double tank", id: "wetting-agent.working/draw@600ml", shown: "15", unit: "ml", value: 15, device: "10 ml cylinder"},
		{question: "in two pours of", id: "wetting-agent.working/draw@600ml,pour", shown: "7.5", unit: "ml", value: 7.5},
		{question: "how sure", id: "wetting-agent.working/draw@600ml,error", shown: "2.7", unit: "%", value: 2.66666666667},
		{question: "until when is 0301 good", id: "0301/dies", shown: "2026-04-29", unit: ""},
		{question: "and if it had stayed full", id: "0301/dies.full", shown: "2026-07-19", unit: ""},
		{question: "film 100 and film 400 apart", id: "film-negative/apart@film-100,film-400", shown: "1:30", unit: "s", value: 90},
		{question: "two formats of film 400 in the five-reel tank: stock", id: "film-developer.working/draw@1700ml", shown: "850", unit: "ml", value: 850},
		{question: "resin-coated 20x25 in a litre of fixer 1+9, by silver", id: "fixer.paper/capacity.silver@resin-coated-paper.20x25,1000ml", shown: "39", value: 39},
		{question: "resin-coated 20x25 in a litre of print developer", id: "print-developer.working/capacity@resin-coated-paper.20x25,1000ml", shown: "25", unit: "prints", value: 25},
		{question: "fibre 24x30 in a litre of print developer", id: "print-developer.working/capacity@fibre-paper.24x30,1000ml", shown: "17", unit: "prints", value: 17},
		{question: "how long the tray stands", id: "print-developer.working/keeps.tray", shown: "8", unit: "h", value: 8},
		{question: "fibre 24x30 in a litre of stop", id: "citric-stop.working/capacity@fibre-paper.24x30,1000ml", shown: "25", unit: "prints", value: 25},
		{question: "clearing bath for the medium tray", id: "clearing-bath.working/draw@2000ml", shown: "200", unit: "ml", value: 200},
		{question: "and how many fibre prints it treats", id: "clearing-bath.working/capacity@fibre-paper.24x30,2000ml", shown: "49", unit: "prints", value: 49},
		{question: "crystals in the clearing stock: keep it above", id: "clearing-bath.stock/clear-above.sodium-sulfite", shown: "17", unit: "°C", value: 15.7436658389},
		{question: "water for the film wash", id: "film-negative/wash.wash.fills@600ml", shown: "2.4", unit: "L", value: 2.4},
		{question: "saved against twenty minutes running", id: "film-negative/wash.wash.saved@600ml", shown: "47.6", unit: "L", value: 47.6},
		{question: "worth", id: "film-negative/wash.wash.money@600ml", shown: "0.22", unit: "EUR", value: 0.21896},
		{question: "with how many turns", id: "film-negative/fills.wash", shown: "5 · 10 · 20 · 20", unit: "turns", value: 4},
		{question: "within how many degrees of the baths", id: "film-negative/within.wash", shown: "2", unit: "K", value: 2},
		{question: "bleach is 24 degrees", id: "film-reversal/stop-above.bleach", shown: "22", unit: "°C", value: 22},
		{question: "sensitiser for twenty sheets", id: "cyanotype.working/coat@cotton-paper.24x32,20", shown: "46", unit: "ml", value: 46},
		{question: "of A", id: "cyanotype.working/pour.cyanotype-a@46ml", shown: "23", unit: "ml", value: 23, device: "25 ml cylinder"},
		{question: "of B", id: "cyanotype.working/pour.cyanotype-b@46ml", shown: "23", unit: "ml", value: 23},
	} {
		t.Run(c.question, func(t *testing.T) {
			f, ok := records[c.id]
			require.True(t, ok, "no figure %s", c.id)
			require.Equal(t, c.shown, f.Shown)
			require.Equal(t, c.unit, f.Unit)
			if c.why != "" {
				require.True(t, f.Refused())
				require.Equal(t, c.why, f.Why)
				return
			}
			if f.Kind != figure.KindDate {
				require.InDelta(t, c.value, f.Counted(f.Value), 1e-9*c.value+5e-4, "unrounded")
			}
			if c.device != "" {
				require.Equal(t, c.device, f.Round.Device)
			}
		})
	}
	verdicts := map[string]figure.Verdict{}
	for _, v := range r.Binder.Verdicts {
		verdicts[v.ID] = v
	}
	for _, c := range []struct{ question, id, answer, because string }{
		{"until when is 0301 good", "0301/state", "good", `reason "opened"`},
		{"film 100 and film 400 in one tank", "film-negative/share@film-100,film-400,double", "no", "1:30 apart"},
		{"and in the five-reel tank", "film-negative/share@film-100,film-400,five", "no", "split by time, not by format"},
		{"two formats of film 400 in the double tank", "film-negative/share@film-400.120,film-400.135,double", "no", "one 120 film fills the whole column"},
		{"two formats of film 400 in the five-reel tank", "film-negative/share@film-400.120,film-400.135,five", "yes, filled to 1700 ml", "the larger format’s fill covers both"},
		{"the stop on the shelf", "0305/state", "dead", "2026-02-28"},
		{"clearing bath for resin-coated prints", "clearing-bath.working/serves.resin-coated", "never", ""},
		{"for film", "clearing-bath.working/serves.film", "after hardener", ""},
		{"for fibre", "clearing-bath.working/serves.fibre", "always", ""},
		{"what ends the paper fixer first for resin-coated prints", "fixer.paper/governs@resin-coated-paper.20x25,1000ml", "by age", "age ends it first"},
		{"what ends the print developer", "print-developer.working/governs@fibre-paper.24x30,1000ml", "17 × fibre", "discarded 8 h after pouring"},
		{"what ends the film fixer", "fixer.film/governs@film-400.135-36,1000ml", "17 × cubic-grain film ISO 400, 135 with 36 exposures, by silver", "times the fresh time"},
		{"bleach is 24 degrees", "film-reversal/stop-above.bleach", "stop above 22 °C", "cool it"},
		{"380 ml left: is it enough for the double tank", "film-developer.working/enough@double,135,400ml", "2 rolls", "the tank is filled whatever is loaded"},
		{"and for the five-reel tank", "film-developer.working/enough@five,135,400ml", "0 rolls", "the lowest limit: the rest"},
		{"crystals in the clearing stock", "clearing-bath.stock/cold-shelf.sodium-sulfite", "crystals of sodium sulfite below 17 °C", "nine tenths"},
	} {
		t.Run(c.question, func(t *testing.T) {
			v, ok := verdicts[c.id]
			require.True(t, ok, "no verdict %s", c.id)
			require.Contains(t, v.Answer, c.answer)
			require.Contains(t, strings.Join(v.Because, "; ")+strings.Join(v.Limits, "; "), c.because)
		})
	}
	t.Run("concentrate straight into the tank", func(t *testing.T) {
		f := records["wetting-agent.working/draw.supplied@600ml"]
		require.True(t, f.Refused())
		require.Contains(t, f.Why, "± 0.2 ml in the 10 ml cylinder is 13 %")
		require.Contains(t, f.Why, "intermediate dilution")
	})
	t.Run("five rolls are exactly enough", func(t *testing.T) {
		for _, v := range r.Binder.Verdicts {
			if v.ID == "film-developer.working/serves@five,135" {
				require.Equal(t, "5 × 135", v.Answer)
				require.Contains(t, strings.Join(v.Limits, "; "), "750 ml at 150 ml a roll is enough for 5")
				require.Contains(t, strings.Join(v.Because, "; "), "one roll alone uses as much")
				return
			}
		}
		t.Fatal("no verdict")
	})
}
