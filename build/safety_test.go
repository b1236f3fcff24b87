package build_test

import (
	"encoding/json"
	"html"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

var tag = regexp.MustCompile(`<[^>]*>`)

// fileText is what a file of the binder says, without its marks.
func fileText(t *testing.T, r *build.Result, name string) string {
	t.Helper()
	for _, f := range r.Files {
		if f.Path == name {
			return strings.Join(strings.Fields(strings.ReplaceAll(html.UnescapeString(tag.ReplaceAllString(string(f.Bytes), " ")), "\u00a0", " ")), " ")
		}
	}
	t.Fatalf("no file %s", name)
	return ""
}

func verdicts(r *build.Result) map[string]figure.Verdict {
	out := map[string]figure.Verdict{}
	for _, v := range r.Binder.Verdicts {
		out[v.ID] = v
	}
	return out
}

func pageOf(t *testing.T, r *build.Result, id string) page.Page {
	t.Helper()
	for _, p := range r.Binder.Pages {
		if p.ID == id {
			return p
		}
	}
	t.Fatalf("no page %s", id)
	return page.Page{}
}

// saidOn is everything that a page's inline pieces say, in order.
func saidOn(p page.Page) string {
	var b strings.Builder
	page.Inlines(p, func(i page.Inline) { b.WriteString(i.Text) })
	return b.String()
}

// TestWhatTheCardsSay holds what stands on the demonstration's cards, on screen
// and on the wall, against what somebody in the room needs to read there.
func TestWhatTheCardsSay(t *testing.T) {
	r := demonstration(t)
	const mix, handle = "Pregnant or breast-feeding: do not mix this.", "Pregnant or breast-feeding: do not handle this."
	for _, c := range []struct {
		file string
		says []string
		not  []string
	}{
		{"mix/film-developer.html", []string{mix, "skip the pinch of sulfite", "let acid near it", "When it is spent : to the drum for developers", "stock stays under the limit", "0.270", "0.281", "FFP3 dust mask", "nitrile, EN ISO 374-1", "change a thin pair at once", "May produce an allergic reaction: 4-(methylamino)phenol sulfate, hydroquinone", "Not classified, only from memory: sodium sulfite", "Sources disagree : it would be Skin Sens. 1 by what another list says of sodium sulfite ( International Chemical Safety Card (ICSC) 1200"}, []string{"Very toxic to aquatic life. ", "Causes serious eye irritation."}},
		{"wall/a5/film-developer.stock+1000ml.html", []string{mix, "skip the pinch of sulfite", "When it is spent : to the drum for developers"}, nil},
		{"record/film-developer.html", []string{mix, "skip the pinch of sulfite"}, nil},
		{"process/film-negative.html", []string{"apart, into no drum (poison gas): ask first"}, []string{mix, handle, "to the drum of rapid fixer"}},
		{"wall/a4/film-negative+film-400.double.html", []string{"to the drum for silver"}, []string{handle}},
		{"wall/a4/film-negative+film-tabular-400.double.html", []string{"A purple dye in the fixer is no sign of bad fixing"}, nil},
		{"label/film-developer.stock.html", []string{"When it is spent : to the drum for developers"}, []string{"skip the pinch of sulfite", handle}},
		{"label/film-developer-replenisher.stock.html", []string{handle, "Contains borax"}, nil},
		{"label/1000ml/film-developer.stock.html", []string{"H412"}, []string{"skip the pinch", handle}},
		{"mix/citric-stop.html", []string{"to a drum of its own: ask first; not into any drum of this room (danger: hydrogen cyanide, hydrogen sulfide, and more)"}, []string{"Pregnant"}},
		{"protect/film-developer.html", []string{mix, "Weigh and mix", "Dilute", "Work at the tank or tray", "Wipe up a spill", "Pour away", "worked out from what is in it", "causes serious eye damage (Eye Dam. 1): hydroquinone"}, nil},
		{"spill/film-developer.html", []string{"emergency number ask poison centre ask", "Straight from its pack", "keep rinsing until help comes", "Give nothing by mouth if they are drowsy", "let acid or a stop bath near it: sulfur dioxide", "to the drum for developers"}, nil},
		{"spill/citric-stop.html", []string{"let it run towards fixer, sulfite or their drum"}, nil},
		{"board/emergency.html", []string{"Keep rinsing until help comes", "Give nothing by mouth if they are drowsy", "An eyewash bottle cannot last that long", "then go to the tap", "after alkali at least 30"}, nil},
		{"dispose/silver.html", []string{"let strong alkali meet it: ammonia", "Drum for silver", "Rapid fixer", "stock, film, paper", "the fixers of film and paper, the clearing bath", "09 01 04*", "the drum is emptied by a collector", "no permit is written down: drain under [permit] in local.toml", "no permit is written down: treat under [permit] in local.toml"}, []string{"hydrogencarbonate"}},
		{"dispose/stops.html", []string{"To a drum of its own: ask first; not into any drum of this room (danger: hydrogen cyanide, hydrogen sulfide, and more)"}, []string{"hydrogencarbonate"}},
		{"dispose/drain-if-permitted.html", []string{"To a drum of its own: ask first", "Wetting agent"}, []string{"one litre at a time"}},
		{"board/never-together.html", []string{"Sulfite or metabisulfite", "Sulfur dioxide", "the crystals alone set it on fire", "is our own rule, from memory", "International Chemical Safety Card 1132"}, nil},
		{"capacity/index.html", []string{"not counted: ask first", "Plain hypo fixer , working : it has a limit, but no process here uses it", "nobody has written how much it treats or how long it keeps"}, nil},
		{"label/drum-silver.html", []string{"full at", "108", "started on", "collected on", "litres, g silver", "rapid fixer", "let household bleach meet it: chlorine", "do what else the sheet of this drum forbids", "waste code: 09 01 04* (memory)"}, nil},
		{"label/drum-developers.html", []string{"18", "litres in all", "let acid or a stop bath meet it: hydrogen sulfide"}, []string{"g silver"}},
		{"chemical/sodium-sulfite.html", []string{"Assessed by the built-in library on 2026-11-26 : not harmonised"}, []string{"Assessed by library"}},
		{"index.html", []string{"Protect", "Spill", "Dispose"}, nil},
	} {
		t.Run(c.file, func(t *testing.T) {
			said := fileText(t, r, c.file)
			for _, s := range c.says {
				require.Contains(t, said, s)
			}
			for _, s := range c.not {
				require.NotContains(t, said, s)
			}
		})
	}
}

// TestEverySafetyPageIsWhole: no face may leave a page without what to do before,
// what never to do, and who is responsible for it.
func TestEverySafetyPageIsWhole(t *testing.T) {
	count := map[string]int{}
	for _, p := range demonstration(t).Binder.Pages {
		switch p.Kind {
		case "protect", "spill", "dispose", "label", "board":
			count[p.Kind]++
			require.NotEmpty(t, p.Before, p.ID)
			require.NotEmpty(t, p.Never, p.ID)
			require.NotEmpty(t, p.Do, p.ID)
			require.True(t, p.Foot.Version != "" || len(p.Foot.Holes) > 0, p.ID)
		}
	}
	require.Equal(t, count["protect"], count["spill"])
	require.GreaterOrEqual(t, count["protect"], 7)
	require.GreaterOrEqual(t, count["dispose"], 4)
}

// TestSafetyVerdicts: what to wear, where it goes, why the drain is refused, and
// which steps are gates stand in the ledger with their reasons.
func TestSafetyVerdicts(t *testing.T) {
	r := demonstration(t)
	all := verdicts(r)
	for _, c := range r.Binder.Classifications {
		if c.Of == "chemical" {
			continue // a substance as it comes is no bath
		}
		for _, job := range []string{"dilute", "work", "spill", "pour"} {
			v, ok := all[c.Subject+"."+c.Strength+"/protect@"+job]
			require.True(t, ok, "%s.%s %s", c.Subject, c.Strength, job)
			require.NotEmpty(t, v.Answer)
			if v.Answer == "nothing beyond normal care" {
				require.Empty(t, v.Because)
				continue
			}
			require.Len(t, v.Because, len(strings.Split(v.Answer, ", "))-strings.Count(v.Answer, ", or outside"))
		}
	}
	require.Equal(t, "extractor fan on, goggles, gloves, FFP3 dust mask, apron", all["film-developer.stock/protect@weigh"].Answer)
	require.Contains(t, all["film-developer.stock/protect@weigh"].Because, "gloves: may cause an allergic skin reaction (Skin Sens. 1): 4-(methylamino)phenol sulfate, hydroquinone")
	require.Contains(t, all["film-developer.stock/protect@weigh"].Limits, "the classes of this strength, worked out from what is in it")
	require.NotContains(t, all, "wetting-agent.supplied/protect@weigh", "nobody weighs what is bought ready made")

	stop := all["dispose.stops/route"]
	require.Equal(t, "to a drum of its own: ask first; not into any drum of this room (danger: hydrogen cyanide, hydrogen sulfide, and more)", stop.Answer)
	require.Contains(t, stop.Because, "no permit is written down: drain under [permit] in local.toml")
	require.Equal(t, "no", all["dispose.drain-if-permitted/drain"].Answer)
	require.Contains(t, all["dispose.developers/drain"].Limits, "never: pour it into a septic tank")

	borax := all["film-developer.stock/limit.borax.decahydrate"]
	require.Equal(t, "stays under the limit", borax.Answer)
	require.Equal(t, []string{"limit/repr-1"}, borax.Limits)

	for _, f := range r.Files {
		if f.Path != "figures.json" {
			continue
		}
		var doc struct {
			Verdicts []struct {
				ID    string
				Cards []string
			}
		}
		require.NoError(t, json.Unmarshal(f.Bytes, &doc))
		for _, v := range doc.Verdicts {
			if v.ID == "dispose.silver/route" {
				require.Equal(t, []string{"dispose/silver"}, v.Cards)
			}
			if v.ID == "film-developer.stock/protect@weigh" {
				require.True(t, slices.Contains(v.Cards, "protect/film-developer"))
			}
		}
	}
}

// TestContentsNearALimit: a content by mass prints its interval, and the limit
// is decided by its worst end.
func TestContentsNearALimit(t *testing.T) {
	r := demonstration(t)
	records := map[string]*figure.Record{}
	for _, f := range r.Binder.Figures {
		records[f.ID] = f
	}
	for id, shown := range map[string]string{
		"film-developer.stock/ww.borax.decahydrate": "0.275", "film-developer.stock/ww.borax.decahydrate,low": "0.270", "film-developer.stock/ww.borax.decahydrate,high": "0.281",
		// 1.9784 and 0.8571: bounds are rounded outward.
		"acetic-stop.working/ww.acetic-acid.solution-60,low": "1.97", "ascorbate-developer.stock/ww.ascorbic-acid.pure,high": "0.858",
		"limit/repr-1": "0.30", "print-developer.stock/ww.hydroquinone.pure,low": "0.98", "print-developer.stock/ww.hydroquinone.pure,high": "1.02",
	} {
		require.Equal(t, shown, records[id].Shown, id)
	}
	for _, c := range []struct{ amount, density, boric, id, answer string }{
		{"3 g", `density = "1.09 +- 0.02 g/mL"`, "", "borax.decahydrate", "stays under the limit"},
		{"3.2 g", `density = "1.07 +- 0.02 g/mL"`, "", "borax.decahydrate", "may reach the limit: counts as reaching it"},
		// 0.29953 is printed as 0.300, and what is printed decides.
		{"3.205 g", `density = "1.09 +- 0.02 g/mL"`, "", "borax.decahydrate", "may reach the limit: counts as reaching it"},
		{"3.199 g", `density = "1.09 +- 0.02 g/mL"`, "", "borax.decahydrate", "stays under the limit"},
		{"3.1 +- 0.3 g", `density = "1.09 g/mL"`, "", "borax.decahydrate", "may reach the limit: counts as reaching it"},
		{"3 g", "", "", "borax.decahydrate", "reaches the limit"},
		{"1.6 g", "", "[[step]]\nadd = \"boric-acid.pure\"\namount = \"1.6 g\"\n", "boric-acid.pure", "stays under the limit"},
		{"1.6 g", "", "[[step]]\nadd = \"boric-acid.pure\"\namount = \"1.6 g\"\n", "borates", "reaches the limit"},
	} {
		files := map[string]string{"lab.toml": "[lab]\nname = \"Test\"\n", "solutions/bath.toml": "name = \"bath\"\nper = \"1 L\"\n" + c.density + "\n[[step]]\nadd = \"borax.decahydrate\"\namount = \"" + c.amount + "\"\n" + c.boric}
		r, err := build.Work(options(folder(files)))
		require.NoError(t, err)
		require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
		require.Equal(t, c.answer, verdicts(r)["bath.stock/limit."+c.id].Answer, "%v", c)
	}
}

// TestSpillsBySubstance: what to do and never to do goes by what is in the bath.
func TestSpillsBySubstance(t *testing.T) {
	for _, c := range []struct {
		adds []string
		says []string
		not  []string
	}{
		{[]string{"potassium-permanganate.pure"}, []string{"sand or a mineral absorbent", "use sawdust, paper or a vacuum cleaner, or leave a cloth lying on it: fire", "with a dry plastic scoop, use no broom"}, []string{"then wipe twice"}},
		{[]string{"sodium-hydroxide.pure"}, []string{"It burns: keep rinsing until help comes.", "After alkali, rinse longer still.", "pour acid on it: it splashes", "a little water makes it boil"}, []string{"hydrogencarbonate"}},
		{[]string{"citric-acid.anhydrous"}, []string{"mineral absorbent from the rim inwards"}, []string{"After alkali", "hydrogencarbonate"}},
		{[]string{"boric-acid.pure", "sodium-thiosulfate.pentahydrate"}, []string{"Absorb it, then mop with clean water", "let acid or a stop bath near it: sulfur dioxide"}, []string{"hydrogencarbonate"}},
		{[]string{"potassium-ferricyanide.pure"}, []string{"let strong acid or hot acid near it: hydrogen cyanide"}, nil},
		{[]string{"ammonium-thiosulfate.solution-60"}, []string{"let strong alkali near it: ammonia"}, nil},
	} {
		bath := "name = \"bath\"\nper = \"1 L\"\n"
		for _, a := range c.adds {
			bath += "[[step]]\nadd = \"" + a + "\"\namount = \"10 g\"\n"
		}
		r, err := build.Work(options(folder(map[string]string{"lab.toml": "[lab]\nname = \"Test\"\n", "solutions/bath.toml": bath})))
		require.NoError(t, err)
		require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
		said := saidOn(pageOf(t, r, "spill/bath"))
		for _, s := range c.says {
			require.Contains(t, said, s, "%v", c.adds)
		}
		for _, s := range c.not {
			require.NotContains(t, said, s, "%v", c.adds)
		}
	}
}

// TestGatesAndUnknowns: a gate of a process is a verdict; what nobody has looked
// up has full precautions, no soothing word and no drum.
func TestGatesAndUnknowns(t *testing.T) {
	files := map[string]string{
		"lab.toml":                "[lab]\nname = \"Test\"\n[drum.grey]\nholds = \"10 L\"\n",
		"chemicals/dust.toml":     "name = \"dust\"\n[form.pure]\nformula = \"none\"\n",
		"solutions/bath.toml":     "name = \"bath\"\nper = \"1 L\"\n[[step]]\nadd = \"dust.pure\"\namount = \"15 g\"\n",
		"processes/reversal.toml": "name = \"Reversal\"\nbase = \"film\"\n[[step]]\nid = \"wash\"\nfills = [5, 5]\ngate = \"it can give hydrogen cyanide\"\nbefore = \"bleach\"\n[[step]]\nid = \"bleach\"\nbath = \"bath\"\ntime = \"1:00\"\n",
	}
	r, err := build.Bind(options(folder(files)))
	require.NoError(t, err)
	require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
	gate := verdicts(r)["reversal/gate.wash"]
	require.Equal(t, "do not shorten", gate.Answer)
	require.Equal(t, []string{"it can give hydrogen cyanide"}, gate.Because)
	require.Equal(t, []string{"before bleach"}, gate.Limits)
	require.Equal(t, []string{"hazards not looked up: full precautions"}, verdicts(r)["bath.stock/protect@weigh"].Limits)
	require.Contains(t, saidOn(pageOf(t, r, "spill/bath")), "Nobody has looked up what is in it")
	require.Contains(t, saidOn(pageOf(t, r, "mix/bath")), "to a drum of its own: ask first")
	require.Contains(t, saidOn(pageOf(t, r, "label/drum-grey")), "Put nothing into this drum until somebody has said what may go in.")
	require.Contains(t, saidOn(pageOf(t, r, "spill/bath")), "Pregnant or breast-feeding: do not handle this.")
}

// TestDrumOnTheWall: the sheet of a drum for the wall says in two lines what a month's baths are
// together; the screen has the table instead.
func TestDrumOnTheWall(t *testing.T) {
	const line = "hazardous properties, by a month’s volumes: HP 14 harms water life"
	said := map[string]string{}
	for _, f := range demonstration(t).Files {
		said[f.Path] = strings.Join(strings.Fields(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(string(f.Bytes), " ")), " ")
	}
	require.Contains(t, said["wall/a4/dispose-developers.html"], "A month’s baths together; the collector decides "+line)
	require.Regexp(t, line+`.* pH 10\.6.* Aquatic Chronic 3`, said["wall/a4/dispose-developers.html"])
	require.NotContains(t, said["wall/a4/dispose-selenium.html"], "A month’s baths together", "of which a month pours nothing that can be told")
	require.Contains(t, said["dispose/developers.html"], "What a month’s baths are together in this drum")
	require.NotContains(t, said["dispose/developers.html"], "A month’s baths together; the collector decides")
}
