package build_test

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// edit is one change to a lab: in a file the old text becomes the new; with no old
// text the file is written anew.
type edit struct{ file, old, new string }

// worked is a lab with some changes, worked out but not laid out.
func workedLab(t *testing.T, name string, edits ...edit) *build.Result {
	t.Helper()
	files := fstest.MapFS{}
	src := labFS(t, name)
	require.NoError(t, fs.WalkDir(src, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(src, path)
		files[path] = &fstest.MapFile{Data: b}
		return err
	}))
	for _, e := range edits {
		text := e.new
		if e.old != "" {
			require.NotNil(t, files[e.file], e.file)
			old := string(files[e.file].Data)
			require.Contains(t, old, e.old, e.file)
			text = strings.ReplaceAll(old, e.old, e.new)
		}
		files[e.file] = &fstest.MapFile{Data: []byte(text)}
	}
	r, err := build.Work(labOptions(t, name, files))
	require.NoError(t, err)
	require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
	return r
}

// batch is the file of batch 9, with its log.
func batch(of, made, mixed, more string, log ...string) edit {
	text := fmt.Sprintf("of = %q\nmixed = %s\nmade = { amount = %q, into = [%q] }\n%s\n", of, mixed, made, made, more)
	for _, e := range log {
		text += "[[log]]\n" + e + "\n"
	}
	return edit{"shelf/9.toml", "", text + "[origin]\nall = \"house\"\n"}
}

// inTray is the same without a bottle.
func inTray(of, made, mixed, more string, log ...string) edit {
	e := batch(of, made, mixed, more, log...)
	e.new = strings.ReplaceAll(e.new, fmt.Sprintf(", into = [%q]", made), "")
	return e
}

// did is a line of a log.
func did(on, more string, worked ...string) string {
	text := "on = " + on + "\nopened = true\ndrew = \"5 mL\"\n" + more
	if len(worked) > 0 {
		text += fmt.Sprintf("\nworked = [%q]", strings.Join(worked, "\", \""))
		text = strings.ReplaceAll(text, `\"`, `"`)
	}
	return text
}

// paperTime develops the fibre paper of the print lab for times differ, at another
// temperature, by another step and slope.
func paperTime(time, at, step, slope string) []edit {
	return []edit{
		{"lab.toml", `time_step     = "5 s"`, `time_step = "` + step + `"`}, {"materials/fibre-smooth.toml", `time = "2:15"`, `time = "` + time + `"`},
		{"processes/fibre-print.toml", `at = "21 °C"`, `at = "` + at + `"`}, {"solutions/print-developer.toml", `slope = "0.06 /K", shortest = "1:00"`, `slope = "` + slope + `", shortest = "0:20"`},
	}
}

// oneRound develops the fast film of the film lab for little more than a minute: the
// tank takes 12 s to drain, a round 8 s, and one comes every 60 s.
func oneRound(time string) []edit {
	return []edit{{"materials/cubic-800.toml", `time = "9:30"`, `time = "` + time + `"`}, {"products/film-concentrate.toml", `shortest = "4:30"`, `shortest = "1:00"`}}
}

// saidOf is what a binder says under an id: a figure with its unit, “refused: ” with
// the reason, or the answer of a verdict with what says so.
func saidOf(r *build.Result, id string) string {
	if f, ok := figuresOf(r)[id]; ok {
		if f.Refused() {
			return "refused: " + f.Why
		}
		return strings.TrimSpace(f.Shown + " " + f.Unit)
	}
	if v, ok := verdicts(r)[id]; ok {
		return verdictSays(v)
	}
	return "nothing"
}

func verdictSays(v figure.Verdict) string {
	if len(v.Because) == 0 {
		return v.Answer
	}
	return v.Answer + ": " + v.Because[0]
}

// TestDecisions holds each decision of the core at its limit, a little under and a
// little over it. What stands here was worked out by hand from the files of the lab.
func TestDecisions(t *testing.T) {
	const may, june = "2026-05-10", "2026-05-12"
	club := func(made string, n int) edit {
		return batch("rapid-fix.club", made, may, "", did(june, "", fmt.Sprintf("%d cubic-125.135-36", n)))
	}
	clip := func(seconds string) edit {
		return batch("rapid-fix.film", "1 L", may, "fresh_clears = \"40 s\"", did(june, "cleared = \""+seconds+"\"", "1 cubic-125.135-36"))
	}
	silver := func(start string, worked ...string) edit {
		if len(worked) == 0 {
			return batch("rapid-fix.film", "1 L", may, "start_silver = \""+start+"\"")
		}
		return batch("rapid-fix.film", "1 L", may, "start_silver = \""+start+"\"\nfresh_clears = \"40 s\"", did(june, "cleared = \"41 s\"", worked...))
	}
	ownClearing := func(most string) edit {
		return edit{"products/rapid-fix.toml", `{ by = "clearing", most = "2 x fresh" }`, `{ by = "clearing", most = "` + most + `" }`}
	}
	needs := func(each string) edit {
		return edit{"products/film-concentrate.toml", `"10 mL/roll"         # of concentrate`, `"` + each + `"`}
	}
	coarse := edit{"lab.toml", "[syringe.twenty]\nholds      = \"20 mL\"\ngraduation = \"1 mL\"", "[syringe.twenty]\nholds      = \"20 mL\"\ngraduation = \"2 mL\""}
	left := func(rest string) edit { return edit{"store.toml", `left    = "1645.5 mL"`, `left    = "` + rest + `"`} }
	acid := func(amount string) edit {
		return edit{"solutions/acid-stop.toml", `amount  = "80 mL"`, `amount  = "` + amount + `"`}
	}
	cold := func(amount string) edit {
		return edit{"solutions/cold.toml", "", "name = \"cold\"\nper = \"1 L\"\nstart = { with = \"500 mL\" }\ndensity = \"1.20 g/mL\"\n[[step]]\nadd = \"potassium-ferricyanide\"\namount = \"" + amount + "\"\n"}
	}
	areaLimit := edit{"products/rapid-fix.toml", `limits = [{ by = "rolls", most = "14 rolls/L" }]`, `limits = [{ by = "area", most = "0.516 m2/L" }]`}
	for _, c := range []struct {
		name, lab string
		edits     []edit
		want      map[string]string
	}{
		// Limits: fourteen rolls a litre.
		{"rolls: one less than the limit", "film", []edit{club("1 L", 13)}, map[string]string{"9/state": "good: *opened", "9/more@cubic-125.135-36": "1 film"}},
		{"rolls: at the limit", "film", []edit{club("1 L", 14)}, map[string]string{"9/state": "dead: spent by rolls", "9/more@cubic-125.135-36": "0 films"}},
		{"rolls: the limit is for each litre", "film", []edit{club("2 L", 27)}, map[string]string{"9/state": "good: *opened", "9/more@cubic-125.135-36": "1 film"}},
		{"rolls: at the limit of two litres", "film", []edit{club("2 L", 28)}, map[string]string{"9/state": "dead: spent by rolls"}},
		{"rolls: not one more fits, though the limit is not reached", "film", []edit{batch("rapid-fix.club", "100 mL", may, "", did(june, "", "1 cubic-125.135-36"))}, map[string]string{"9/more@cubic-125.135-36": "0 films", "9/state": "dead: spent by rolls"}},
		// Uses: three times.
		{"uses: twice", "film", []edit{batch("rapid-fix.weekend", "1 L", june, "", did(june, "", "1 cubic-125.120"), did("2026-05-13", "", "4 cubic-125.120"))}, map[string]string{"9/state": "dying: *opened", "9/more@cubic-125.120": "1 film"}},
		{"uses: three times", "film", []edit{batch("rapid-fix.weekend", "1 L", june, "", did(june, "", "1 cubic-125.120"), did("2026-05-13", "", "1 cubic-125.120"), did("2026-05-14", "", "1 cubic-125.120"))}, map[string]string{"9/state": "dead: spent by uses"}},
		{"uses: a line in which nothing was worked is no use", "film", []edit{batch("rapid-fix.weekend", "1 L", june, "", did(june, "", "1 cubic-125.120"), did("2026-05-13", "", "1 cubic-125.120"), did("2026-05-14", ""))}, map[string]string{"9/state": "dying: *opened", "9/more@cubic-125.120": "1 film"}},
		// Silver: 4.5 g/L.
		{"silver: under the limit from the start", "film", []edit{silver("4.4 g/L")}, map[string]string{"9/state": "good: *mixed"}},
		{"silver: at the limit from the start", "film", []edit{silver("4.5 g/L")}, map[string]string{"9/state": "dead: spent by silver"}},
		// 56 cm² × 5.2 g/m² × 68 % are about 0.2 g: see values.tsv.
		{"silver: what is known is over the limit, what is not does not matter", "film", []edit{silver("4.5 g/L", "1 cubic-800.135-36")}, map[string]string{"9/state": "dead: spent by silver", "9/silver": "refused: nobody has written the silver of cubic-grain film ISO 800", "9/silver.known": "4.5 g/L"}},
		{"silver: what is not known leaves it open", "film", []edit{silver("4.4 g/L", "1 cubic-800.135-36")}, map[string]string{"9/state": "cannot be judged: *silver: nobody has written the silver of cubic-grain film ISO 800", "9/silver.known": "4.4 g/L"}},
		{"silver: a quarter of doubt on either side", "film", []edit{silver("2.0 g/L", "5 cubic-125.135-36")}, map[string]string{"9/silver": "3.0 g/L", "9/silver.least": "2.3 g/L", "9/silver.most": "3.8 g/L"}},
		// Clearing time: fresh it was 40 s.
		{"clearing: a second under twice", "film", []edit{clip("79 s")}, map[string]string{"9/state": "good: *opened", "9/clearing": "1.98 × fresh"}},
		{"clearing: twice", "film", []edit{clip("80 s")}, map[string]string{"9/state": "dead: spent by clearing time"}},
		{"clearing: the strength’s own, stricter", "film", []edit{clip("60 s"), ownClearing("1.5 x fresh")}, map[string]string{"9/state": "dead: spent by clearing time", "9/limit.clearing": "1.5 × fresh"}},
		{"clearing: under the strength’s own", "film", []edit{clip("59 s"), ownClearing("1.5 x fresh")}, map[string]string{"9/state": "good: *opened"}},
		{"clearing: the strength’s own, milder", "film", []edit{clip("119 s"), ownClearing("3 x fresh")}, map[string]string{"9/state": "good: *opened", "9/limit.clearing": "3 × fresh"}},
		{"clearing: at the milder one", "film", []edit{clip("120 s"), ownClearing("3 x fresh")}, map[string]string{"9/state": "dead: spent by clearing time"}},
		{"clearing: without the fresh time nobody can tell", "film", []edit{batch("rapid-fix.film", "1 L", may, "", did(june, "cleared = \"60 s\"", "1 cubic-125.135-36"))}, map[string]string{"9/state": "cannot be judged: *clearing time: nobody wrote the clearing time on the day of mixing"}},
		{"clearing: where no limit names it, twice as well", "film", []edit{batch("rapid-fix.club", "1 L", may, "fresh_clears = \"40 s\"", did(june, "cleared = \"80 s\"", "1 cubic-125.135-36"))}, map[string]string{"9/state": "dead: spent by clearing time", "9/limit.clearing": "2 × fresh"}},
		// Area: a tenth of 0.516 m² is one roll of which nobody wrote the film.
		{"area: nine bare rolls", "film", []edit{areaLimit, batch("rapid-fix.club", "1 L", may, "", did(june, "", "9 rolls"))}, map[string]string{"9/state": "good: *opened"}},
		{"area: ten bare rolls", "film", []edit{areaLimit, batch("rapid-fix.club", "1 L", may, "", did(june, "", "10 rolls"))}, map[string]string{"9/state": "dead: spent by area"}},
		// A house's count, and the place of two: 15 prints a litre in the first.
		{"count: one less", "print", []edit{inTray("print-fixer.tray", "1 L", "2026-09-03", "place = 1\nstart_silver = \"0 g/L\"", did("2026-09-04", "", "14 fibre-smooth.18x24"))}, map[string]string{"9/state": "dying: *in the tray", "9/more@fibre-smooth.18x24": "1 print"}},
		{"count: at the limit", "print", []edit{inTray("print-fixer.tray", "1 L", "2026-09-03", "place = 1\nstart_silver = \"0 g/L\"", did("2026-09-04", "", "15 fibre-smooth.18x24"))}, map[string]string{"9/state": "dead: spent by this lab’s count"}},
		{"count: another size counts by its area", "print", []edit{inTray("print-fixer.tray", "4 L", "2026-09-03", "place = 1\nstart_silver = \"0 g/L\"", did("2026-09-04", "", "12 fibre-smooth.40x50"))}, map[string]string{"9/more.count@fibre-smooth.18x24": "2", "9/more.count@fibre-smooth.40x50": "0"}}, // 60 less 12 × 2062.48 / 427.2
		{"count: and ends it", "print", []edit{inTray("print-fixer.tray", "4 L", "2026-09-03", "place = 1\nstart_silver = \"0 g/L\"", did("2026-09-04", "", "13 fibre-smooth.40x50"))}, map[string]string{"9/state": "dead: spent by this lab’s count"}},
		{"count: what is no print of this base is not counted", "print", []edit{inTray("print-fixer.tray", "4 L", "2026-09-03", "place = 1\nstart_silver = \"0 g/L\"", did("2026-09-04", "", "3 rc-gloss.13x18", "1 fibre-smooth.18x24"))}, map[string]string{"9/more.count@fibre-smooth.18x24": "59"}},
		{"place: nobody wrote which of two it is", "print", []edit{inTray("print-fixer.tray", "1 L", "2026-09-03", "start_silver = \"0 g/L\"", did("2026-09-04", "", "1 fibre-smooth.18x24"))}, map[string]string{"9/state": "cannot be judged: *nobody has written which of two baths it is (place), and its limits differ"}},
		{"place: for paper whose limit names none it does not matter", "print", []edit{inTray("print-fixer.tray", "1 L", "2026-09-03", "start_silver = \"0 g/L\"", did("2026-09-04", "", "1 rc-gloss.13x18"))}, map[string]string{"9/state": "dying: *in the tray"}},
		{"place: 0.3 g/L end the second", "print", []edit{inTray("print-fixer.tray", "1 L", "2026-09-03", "place = 2\nstart_silver = \"0.3 g/L\"")}, map[string]string{"9/state": "dead: spent by silver"}},
		{"place: and not the first", "print", []edit{inTray("print-fixer.tray", "1 L", "2026-09-03", "place = 1\nstart_silver = \"0.3 g/L\"")}, map[string]string{"9/state": "dying: *in the tray"}},

		// Times: 4:30 is the shortest of this developer, and 24 °C its warmest.
		{"shortest: a second under, at 24 °C", "film", []edit{{"materials/cubic-125.toml", `at = "20 °C", time = "7:30"`, `at = "20 °C", time = "6:04"`}}, map[string]string{"cubic-125/time@film-concentrate.brisk,24.0c": "refused: under 4:30: too short to be even"}},
		{"shortest: just over, at 24 °C", "film", []edit{{"materials/cubic-125.toml", `at = "20 °C", time = "7:30"`, `at = "20 °C", time = "6:05"`}}, map[string]string{"cubic-125/time@film-concentrate.brisk,24.0c": "4:30 s"}},
		{"shortest: as measured, at the developer’s own", "film", []edit{{"materials/cubic-125.toml", `at = "20 °C", time = "7:30"`, `at = "20 °C", time = "4:30"`}}, map[string]string{"cubic-125/time@film-concentrate.brisk,20.0c": "4:30 s"}},
		{"shortest: the house’s, where the developer has none", "film", []edit{{"materials/cubic-125.toml", `at = "20 °C", time = "9:20"`, `at = "20 °C", time = "3:59"`}}, map[string]string{"cubic-125/time@film-concentrate.mild,20.0c": "refused: under 4:00: too short to be even"}},
		{"shortest: at the house’s", "film", []edit{{"materials/cubic-125.toml", `at = "20 °C", time = "9:20"`, `at = "20 °C", time = "4:00"`}}, map[string]string{"cubic-125/time@film-concentrate.mild,20.0c": "4:00 s"}},
		{"shortest: the developer’s own goes before the house’s", "film", []edit{{"products/film-concentrate.toml", `shortest = "4:30"`, `shortest = "3:00"`}, {"materials/cubic-125.toml", `at = "20 °C", time = "7:30"`, `at = "20 °C", time = "3:30"`}}, map[string]string{"cubic-125/time@film-concentrate.brisk,20.0c": "3:30 s"}},
		{"shortest: and forbids what the house allows", "film", []edit{{"materials/cubic-125.toml", `at = "20 °C", time = "7:30"`, `at = "20 °C", time = "4:20"`}}, map[string]string{"cubic-125/time@film-concentrate.brisk,20.0c": "refused: under 4:30: too short to be even"}},
		{"shortest: no paper’s", "print", []edit{{"materials/fibre-smooth.toml", `time = "2:15"`, `time = "1:10"`}, {"solutions/print-developer.toml", `, shortest = "1:00"`, ""}}, map[string]string{"fibre-smooth/time@print-developer.working,20.0c": "1:10 s"}},
		// Fixing: three times 40 s, never under 2:30.
		{"fixing: the step’s least", "film", nil, map[string]string{"film-warm/time.fix@cubic-125": "2:30 s"}},
		{"fixing: three times the clearing time, where that is longer", "film", []edit{{"materials/cubic-125.toml", `clears  = "40 s"`, `clears  = "51 s"`}}, map[string]string{"film-warm/time.fix@cubic-125": "2:40 s"}},
		{"fixing: a tabular grain four times", "film", nil, map[string]string{"film-warm/time.fix@tabular-100": "4:40 s"}},
		// Draining: 12 s, pouring into the tall tank 18 s.
		{"draining: as long as pouring, where that is longer", "film", nil, map[string]string{"film-warm/draining@tall": "0:18 s"}},
		{"draining: pouring takes as long", "film", []edit{{"lab.toml", `pour  = "18 s"`, `pour  = "12 s"`}}, map[string]string{"film-warm/draining@tall": "nothing"}},
		// Two films share a tank up to twenty seconds apart.
		{"share: exactly as far apart as the house allows", "film", []edit{{"materials/tabular-100.toml", `in = "film-concentrate.mild", at = "20 °C", time = "10:40"`, `in = "film-concentrate.mild", at = "20 °C", time = "9:40"`}}, map[string]string{"film-mild/share@cubic-125,tabular-100,tall": "yes: 0:20 apart, within the lab’s 20 s"}},
		{"share: a second more", "film", []edit{{"materials/tabular-100.toml", `in = "film-concentrate.mild", at = "20 °C", time = "10:40"`, `in = "film-concentrate.mild", at = "20 °C", time = "9:41"`}}, map[string]string{"film-mild/share@cubic-125,tabular-100,tall": "no: 0:21 apart, and the lab allows 20 s"}},
		// 600 ml at 1+25 hold 600/26 = 23.08, measured as 23 ml.
		{"solution: exactly enough for two", "film", []edit{needs("11.5 mL/roll")}, map[string]string{"film-concentrate.brisk/rolls@twin,135": "2 rolls", "film-concentrate.brisk/serves@twin,135": "2 × 135: limited by the reels"}},
		{"solution: not quite enough for two", "film", []edit{needs("12 mL/roll")}, map[string]string{"film-concentrate.brisk/rolls@twin,135": "1 roll", "film-concentrate.brisk/serves@twin,135": "1 × 135: limited by the solution"}},
		{"solution: not enough for one", "film", []edit{needs("15 mL/roll")}, map[string]string{"film-concentrate.brisk/rolls@solo,135": "0 rolls", "film-concentrate.brisk/draw@solo,135": "refused: 14.5 ml of supplied are not enough for one roll; take a larger tank, or a strength with less water"}},
		// Solution for two formats in one tank: 1200/26 = 46.15, measured as 46 ml.
		{"two formats: the solution is exactly enough for one of each", "film", []edit{needs("23 mL/roll")}, map[string]string{"film-warm/share@cubic-125.120,cubic-125.135,tall": "yes, filled to 1200 ml: the larger format’s fill covers both"}},
		{"two formats: it is not quite enough", "film", []edit{needs("23.1 mL/roll")}, map[string]string{"film-warm/share@cubic-125.120,cubic-125.135,tall": "no: 46 ml of supplied are not enough for both"}},
		{"two formats: one film fills the whole column", "film", nil, map[string]string{"film-warm/share@cubic-125.120,cubic-125.135,twin": "no: one 120 film fills the whole column"}},
		// 375/26 = 14.42 to the nearest millilitre is 14, and one roll needs no more.
		{"measured to the nearest, whatever the rolls of a larger tank would need", "film", []edit{needs("7.2 mL/roll"), coarse}, map[string]string{"film-concentrate.brisk/draw@375ml": "14 ml"}},
		{"measured up where the nearest would be too little", "film", []edit{needs("14.42 mL/roll"), coarse}, map[string]string{"film-concentrate.brisk/draw@375ml": "15 ml"}},

		// The order board: 7 + 3 + 6 rolls of 135 draw half of 600/26 ml each, 5 of 120 all of it,
		// and 4 of the other strength 375/32 ml: 184.62 + 115.38 + 46.88 = 346.88 ml a month, more
		// than the 10 ml that each needs. It comes in 10 days, is to last two months, and 250 ml
		// are kept in reserve: 346.88 × (10/30.4375 + 2) + 250 = 1057.7.
		{"order: nothing is left", "film", []edit{left("0 mL")}, map[string]string{"order/film-concentrate.supplied,use": "347 ml", "order/film-concentrate.supplied,missing": "1058 ml", "order/film-concentrate.supplied": "2"}},
		{"order: a little too little", "film", []edit{left("1057 mL")}, map[string]string{"order/film-concentrate.supplied,missing": "1 ml", "order/film-concentrate.supplied": "1"}},
		{"order: just enough", "film", []edit{left("1058 mL")}, map[string]string{"order/film-concentrate.supplied,missing": "0 ml", "order/film-concentrate.supplied": "0"}},
		{"order: no reserve", "film", []edit{left("0 mL"), {"store.toml", `reserve = "250 mL"`, ""}}, map[string]string{"order/film-concentrate.supplied,missing": "808 ml"}},
		{"order: a pack that is a little too small", "film", []edit{left("0 mL"), {"store.toml", "size    = \"1 L\"\nprice   = \"34 GBP/L\"", "size    = \"1057 mL\"\nprice   = \"34 GBP/L\""}}, map[string]string{"order/film-concentrate.supplied": "2"}},
		// By mass: 2.519 L for fibre and 2.431 L for the other paper hold 99.0 g at 20 g a
		// litre; it comes in three weeks and is to last three months; 200 g in reserve.
		{"order: a reserve by mass", "print", []edit{{"store.toml", "left    = \"900 g\"", "left    = \"0 g\""}}, map[string]string{"order/potassium-carbonate.pure,use": "100 g", "order/potassium-carbonate.pure,missing": "566 g", "order/potassium-carbonate.pure": "1"}},
		{"order: by mass, none in reserve", "print", []edit{{"store.toml", "left    = \"900 g\"", "left    = \"0 g\""}, {"store.toml", `reserve = "200 g"`, ""}}, map[string]string{"order/potassium-carbonate.pure,missing": "366 g"}},

		// A cold shelf of 13 °C: of ferricyanide 31.41 g dissolve in 100 g of water at
		// 0 °C, 38.12 at 10 °C, 45.14 at 20 °C, 59.24 at 40 °C, and nine tenths count. At
		// a density of 1.20 a litre with m grams of it holds 100 m/(1200 − m).
		{"cold shelf: clear at the coldest point of the table", "print", []edit{cold("264 g")}, map[string]string{"cold.stock/cold-shelf.potassium-ferricyanide": "clear down to 0 °C*", "cold.stock/clear-above.potassium-ferricyanide": "nothing"}},
		{"cold shelf: clear at 13 °C", "print", []edit{cold("318 g")}, map[string]string{"cold.stock/cold-shelf.potassium-ferricyanide": "clear on the coldest shelf, 13 °C*", "cold.stock/clear-above.potassium-ferricyanide": "nothing"}},
		{"cold shelf: not clear at 13 °C", "print", []edit{cold("321 g")}, map[string]string{"cold.stock/cold-shelf.potassium-ferricyanide": "crystals of potassium ferricyanide below 14 °C*", "cold.stock/clear-above.potassium-ferricyanide": "14 °C"}},
		{"cold shelf: clear at the warmest point of the table", "print", []edit{cold("416 g")}, map[string]string{"cold.stock/cold-shelf.potassium-ferricyanide": "crystals of potassium ferricyanide below 40 °C*"}},
		{"cold shelf: not clear even there", "print", []edit{cold("418 g")}, map[string]string{"cold.stock/cold-shelf.potassium-ferricyanide": "not clear even at 40 °C*"}},
		// 318 g at a density of 1.20, but it may be as low as 1.19: 36.5 g in 100 g.
		{"cold shelf: the strongest that it may be counts", "print", []edit{cold("318 g"), {"solutions/cold.toml", `"1.20 g/mL"`, `"1.20 +- 0.01 g/mL"`}}, map[string]string{"cold.stock/cold-shelf.potassium-ferricyanide": "crystals of potassium ferricyanide below 14 °C*"}},

		// Water to start with: at most half of a batch may be liquids.
		{"start: half of it liquid", "film", []edit{acid("250 mL")}, map[string]string{"acid-stop.stock/start@500ml": "200 ml"}},
		{"start: more than half", "film", []edit{acid("252 mL")}, map[string]string{"acid-stop.stock/start@500ml": "refused: liquids are more than half of it: the formula must give its own figure*"}},
		{"start: never more than eight tenths", "film", []edit{acid("20 mL")}, map[string]string{"acid-stop.stock/start@500ml": "400 ml"}},

		// A tank that empties in a second, or in no time at all.
		{"draining: a second", "film", []edit{{"processes/film-warm.toml", `drain = "12 s"`, `drain = "1 s"`}}, map[string]string{"film-warm/drain.stop@cubic-125,22.0c": "7:09 s"}},
		{"draining: a step longer than it", "film", []edit{{"processes/film-warm.toml", `time    = "0:40"`, `time    = "0:13"`}}, map[string]string{"film-warm/drain.stop@cubic-125,22.0c": "6:31 s"}},
		{"draining: a step no longer than it", "film", []edit{{"processes/film-warm.toml", `time    = "0:40"`, `time    = "0:12"`}}, map[string]string{"film-warm/drain.stop@cubic-125,22.0c": "nothing"}},
		{"a step’s own time is rounded to the second", "film", []edit{{"processes/film-warm.toml", `time    = "0:40"`, `time    = "40.6 s"`}}, map[string]string{"film-warm/time.stop": "0:41 s"}},
		// A time that the clock's step rounds to nothing, and one that no clock reaches.
		{"time: less than half a step", "print", paperTime("0:35", "24 °C", "60 s", "0.06 /K"), map[string]string{"fibre-smooth/time@print-developer.working,24.0c": "refused: it is shorter than half of 60 s, to which times are rounded here"}},
		{"time: more than half a step", "print", paperTime("0:35", "22 °C", "60 s", "0.06 /K"), map[string]string{"fibre-smooth/time@print-developer.working,22.0c": "1:00 s"}},
		{"time: more than a day", "print", paperTime("20 h", "18 °C", "5 s", "0.5 /K"), map[string]string{"fibre-smooth/time@print-developer.working,18.0c": "refused: it comes to more than a day*"}},
		// Nothing drains where nobody has written how long it takes.
		{"draining: nobody has written it", "film", []edit{{"processes/film-warm.toml", `starts = "poured", drain = "12 s"`, `starts = "poured"`}}, map[string]string{"film-warm/drains.develop@cubic-125,22.0c": "nothing", "film-warm/drain.stop@cubic-125,22.0c": "nothing"}},
		// The next round begins on a whole interval after the first turns have ended.
		{"turning: the first turns end within the interval", "film", []edit{{"processes/film-warm.toml", `first = "8 in 40 s"`, `first = "8 in 60 s"`}}, map[string]string{"film-warm/agitate.develop@cubic-125,22.0c": "1:00 2:00 3:00 4:00 5:00 6:00 s"}},
		{"turning: they end a second later", "film", []edit{{"processes/film-warm.toml", `first = "8 in 40 s"`, `first = "8 in 61 s"`}}, map[string]string{"film-warm/agitate.develop@cubic-125,22.0c": "2:00 3:00 4:00 5:00 6:00 s"}},
		{"turning: a round just fits before the draining", "film", oneRound("1:20"), map[string]string{"film-warm/agitations.develop@cubic-800,22.0c": "1", "film-warm/agitate.develop@cubic-800,22.0c": "1:00 s"}},
		{"turning: it would run into it", "film", oneRound("1:19"), map[string]string{"film-warm/agitations.develop@cubic-800,22.0c": "nothing"}},
		// What nobody has written is no nought.
		{"cost: nobody has written what deionised water costs", "demo", []edit{{"lab.toml", "deionised = \"0.35 EUR/L\"\n", ""}}, map[string]string{"film-developer.working/cost": "refused: no price for deionised water in lab.toml"}},
		{"order: nobody has written what is left of a concentrate", "film", []edit{{"store.toml", "left  = \"3200 mL\"\n", ""}}, map[string]string{"order/rapid-fix.supplied,use": "239 ml", "order/rapid-fix.supplied,missing": "nothing"}},
		{"order: nor what is left of an acid", "film", []edit{{"store.toml", "left  = \"840 mL\"\n", ""}}, map[string]string{"order/acetic-acid.solution-60,use": "33 g", "order/acetic-acid.solution-60,missing": "nothing"}},
		// Water onto lye: what is refused is the lye, and nothing else of that batch.
		{"start: nobody knows how much, and only the lye is refused", "film", []edit{{"solutions/lye.toml", "", "name = \"lye\"\nper = \"1 L\"\nmake = { batches = [\"1 L\"] }\n[[step]]\nadd = \"propylene-glycol\"\namount = \"600 mL\"\n[[step]]\nadd = \"sodium-hydroxide\"\namount = \"10 g\"\n"}, {"lab.toml", "[tank.solo]", "[scale.fine]\nreads = \"0.01 g\"\nup_to = \"200 g\"\n[tank.solo]"}},
			map[string]string{"lye.stock/weigh.sodium-hydroxide@1000ml": "refused: *goes into water, never water onto it", "lye.stock/pour.propylene-glycol@1000ml": "600 ml"}},
		// A bath without a limit is no bath that cannot be judged.
		{"no limit, and a film was worked in it", "film", []edit{batch("acid-stop.stock", "1 L", "2026-05-20", "", did("2026-05-20", "", "1 cubic-125.135-36"))}, map[string]string{"9/state": "good*"}},
		{"a clearing test in the first line of the log", "film", []edit{batch("rapid-fix.club", "1 L", "2026-05-18", "fresh_clears = \"50 s\"", did("2026-05-19", "cleared = \"60 s\"", "1 cubic-125.135-36"))}, map[string]string{"9/clears": "60 s"}},
		// A bath that age ends: 2 × 800 ml and 2 × 4200 ml stand at a time and live for five
		// of 30.4375 days; for the other base 800 ml and 300 ml, one bath of each.
		{"order: two baths in two sizes of tray", "print", nil, map[string]string{"print-fixer.tray/stands@fibre": "10000 ml", "print-fixer.tray/month@fibre": "60875 ml", "print-fixer.tray/stands@resin-coated": "1100 ml"}},
		{"order: prints of one size alone", "print", []edit{{"lab.toml", `["30 fibre-smooth.18x24", "6 fibre-smooth.40x50"]`, `["30 fibre-smooth.18x24"]`}}, map[string]string{"print-fixer.tray/stands@fibre": "1600 ml"}},
		{"a step that may be shortened has no gate", "film", nil, map[string]string{"film-warm/gate.develop": "nothing"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			r := workedLab(t, c.lab, c.edits...)
			for id, want := range c.want {
				got := saidOf(r, id)
				if before, after, ok := strings.Cut(want, "*"); ok {
					require.True(t, strings.HasPrefix(got, before) && strings.Contains(got, after), "%s: %s, not %s", id, got, want)
					continue
				}
				require.Equal(t, want, got, id)
			}
		})
	}
}

// TestDecisionsOnCards holds what a card tells or leaves out by a decision.
func TestDecisionsOnCards(t *testing.T) {
	unknown := []edit{
		{"lab.toml", "approved = \"OS\"\n", ""}, // nobody approves what nobody has looked up
		{"chemicals/strange.toml", "", "name = \"strange salt\"\n[form.pure]\nformula = \"NaCl\"\n"},
		{"solutions/strange-bath.toml", "", "name = \"strange bath\"\nper = \"1 L\"\nstart = { with = \"800 mL\" }\n[[step]]\nadd = \"strange\"\namount = \"10 g\"\n"},
	}
	const untilHelp = "Keep rinsing until help comes"
	bath := func(add, amount string) []edit {
		return []edit{{"solutions/new-bath.toml", "", "name = \"new bath\"\nper = \"1 L\"\ndensity = \"1.00 g/mL\"\n[[step]]\nadd = \"" + add + "\"\namount = \"" + amount + "\"\n"}}
	}
	for _, c := range []struct {
		name, lab, card string
		edits           []edit
		says, not       []string
	}{
		{"eyes: what nobody has looked up is rinsed until help comes", "film", "spill/strange-bath", unknown, []string{untilHelp}, nil},
		{"eyes: what burns as well", "film", "spill/acid-stop", nil, []string{untilHelp}, nil},
		{"eyes: what irritates is rinsed for the minutes", "film", "spill/drop-agent", nil, []string{"lids open", "into a closed bag"}, []string{untilHelp, "down the foul drain"}},
		{"skin: what goes through it", "film", "spill/new-bath", bath("pyrocatechol", "350 g"), []string{"It goes through the skin: see a doctor even if nothing hurts."}, nil},
		{"skin: so little of it goes through that no class says so", "film", "spill/new-bath", bath("pyrocatechol", "60 g"), nil, []string{"goes through the skin"}},
		{"breath: a gas that strikes down at once", "film", "spill/new-bath", bath("sodium-sulfide.nonahydrate", "20 g"), []string{"If somebody has collapsed, call and do not go in.", "Give no breath from mouth to mouth.", "let acid, stop bath, fixer or clearing bath near it"}, nil},
		{"breath: one that does not", "film", "spill/rapid-fix", nil, []string{"It can give off"}, []string{"mouth to mouth"}},
		{"alcohol is kept from flames, in its pack and spilt", "film", "chemical/isopropanol", bath("isopropanol", "100 mL"), []string{"Put out every flame and heater", "let a flame, a spark or a heater meet it: fire"}, nil},
		{"glycol does not catch fire from a flame", "film", "chemical/propylene-glycol", bath("propylene-glycol", "100 mL"), nil, []string{"a flame, a spark or a heater"}},
		{"acid as it comes: the strength that stands here", "film", "chemical/acetic-acid", nil, []string{"Skin Corr. 1B: acetic acid"}, []string{"Flam. Liq. 3: acetic acid", "Skin Corr. 1A: acetic acid"}},
		{"acid as it comes: glacial beside it, and the harder class of both", "film", "chemical/acetic-acid", bath("acetic-acid.glacial", "17 mL"), []string{"Flam. Liq. 3: acetic acid", "Skin Corr. 1A: acetic acid"}, []string{"Skin Corr. 1B: acetic acid"}},
		{"what the lab has written a file for is kept", "film", "chemical/potassium-dichromate", append(bath("potassium-dichromate", "1 g"), edit{"chemicals/potassium-dichromate.toml", "", "name = \"potassium dichromate\"\n[form.pure]\nformula = \"K2Cr2O7\"\n[hazards]\nclasses = [\"Carc. 1B\"]\nassessed = { by = \"KH1\", on = 2026-01-12 }\n"}), []string{"Carc. 1B"}, []string{"Not kept in this lab"}},
		{"what is not kept says so, and what to do instead", "film", "chemical/formaldehyde", []edit{{"store.toml", `of    = "acetic-acid.solution-60"`, `of    = "formaldehyde.solution-37"`}}, []string{"Not kept in this lab", "Harden with potassium alum"}, nil},
		{"a batch in which nothing was worked is told by what goes through it most", "film", "label/9",
			[]edit{batch("rapid-fix.club", "1 L", "2026-05-20", "")}, []string{"tick one box for each cubic-grain film ISO 800, 135 with 24 exposures"}, nil},
		{"else by what was worked in it last", "film", "label/9",
			[]edit{batch("rapid-fix.club", "1 L", "2026-05-20", "", did("2026-05-20", "", "1 cubic-125.120"), did("2026-05-21", "", "1 tabular-100.135-36"))}, []string{"tick one box for each tabular-grain film ISO 100"}, nil},
		{"a limit names its place of two only where it has one", "print", "mix/print-fixer", nil, []string{"(resin-coated)", "(fibre, first bath)", "(fibre, second bath)"}, []string{"resin-coated, "}},
		{"dead: the batch is named, and none that is good", "film", "process/film-warm", nil, []string{"Dead, do not use: rapid fixer concentrate, film, batch 2604"}, []string{"Dead, do not use: rapid fixer concentrate, film, batch 2605"}},
		{"what stands here is enough, or can be mixed from what does", "film", "process/film-warm", nil, nil, []string{"Not enough", "How much stands here"}},
		{"too little stands here, and of its concentrate too", "film", "process/film-warm", []edit{{"store.toml", `left  = "3200 mL"`, `left  = "200 mL"`}}, []string{"Not enough: rapid fixer concentrate, film, for the tall tank: it needs ,"}, []string{"for the twin tank"}},
		{"a bath stands here of which nobody knows how much", "film", "process/film-club", []edit{{"store.toml", "left  = \"3200 mL\"\n", ""}}, []string{"How much stands here, nobody has written: rapid fixer concentrate, supplied, for the twin tank"}, nil},
		{"first and second bath stand apart", "print", "process/fibre-print", nil, []string{"Not enough: print fixer, stock, for the big tray"}, []string{"print fixer, tray, first bath, for the small tray"}},
		{"one of the two has no place", "print", "process/fibre-print", []edit{{"shelf/k04.toml", "place = 1\n", ""}}, []string{"Cannot be judged: print fixer, tray, batch k04", "citric stop, working; print fixer, tray, first bath; clearing bath"}, []string{"citric stop, working; print fixer, tray, second bath"}},
		{"an unused one has no place", "print", "process/fibre-print", []edit{{"shelf/k05.toml", "place = 2\n", ""}}, []string{"First or second bath: print fixer, tray, batch k05", "citric stop, working; print fixer, tray, second bath; clearing bath"}, []string{"citric stop, working; print fixer, tray, first bath"}},
		{"a bath of two parts, of one of which too little stands here", "school", "process/film-hardened", []edit{{"shelf/111.toml", "", "of = \"hardener.stock\"\nmixed = 2026-10-01\nmade = { amount = \"104 mL\", into = [\"250 mL\"] }\n"}}, []string{"Not enough: hardener, stock, for the class tank: it needs ,"}, []string{"hardener, stock, for the steel tank"}},
		{"what goes into a bath is not taken from a used one", "school", "mix/hardening-fixer", nil, []string{"Only a used one on the shelf: plain hypo fixer, working"}, nil},
		{"two steps that take the same stock take it twice", "demo", "process/film-reversal", nil, []string{"Not enough: MQ carbonate print developer, stock, for the five-reel tank"}, []string{"MQ carbonate print developer, stock, for the single tank"}},
		{"warmer than a bath is for", "demo", "process/film-reversal", []edit{{"solutions/reversal-bleach.toml", `from = "18..20 °C"`, `from = "17..19 °C"`}}, []string{"This bath works at "}, nil},
		{"within what a bath is for", "demo", "process/film-reversal", nil, nil, []string{"This bath works at "}},
		{"what stands here is not enough", "film", "process/film-warm", []edit{
			{"shelf/2601.toml", `made  = { amount = "1 L"`, `made  = { amount = "20 mL"`}, {"shelf/2602.toml", `made  = { amount = "500 mL"`, `made  = { amount = "90 mL"`},
			{"shelf/2603.toml", `made  = { amount = "500 mL"`, `made  = { amount = "275 mL"`}, {"store.toml", `left    = "1645.5 mL"`, `left    = "0 mL"`}},
			[]string{"Not enough: film developer concentrate"}, nil},
		// What a product contains is known by its id and by its name.
		{"a drum for bought fixer, by the name of what is in it", "film", "dispose/fixer", []edit{{"products/rapid-fix.toml", `ammonium-thiosulfate = "45..50 % w/w", sodium-sulfite`, `"Ammonium thiosulfate" = "45..50 % w/w", "sodium sulfite"`}}, []string{"let strong alkali meet it: ammonia"}, nil},
		{"what a substance that no file knows reacts like is not guessed from a word of its name", "film", "protect/film-concentrate", []edit{{"products/film-concentrate.toml", `potassium-sulfite = "20..30 % w/w"`, `"lithium sulfite" = "20..30 % w/w"`}}, []string{"nobody has said what it reacts with: lithium sulfite"}, nil},
		{"a name that a group knows is enough", "film", "protect/film-concentrate", []edit{{"products/film-concentrate.toml", `potassium-sulfite = "20..30 % w/w"`, `"potassium disulphite (E 224)" = "20..30 % w/w"`}}, []string{"sulfur dioxide with acid or a stop bath: potassium disulphite (E 224)"}, []string{"nobody has said"}},
		{"plain hypo gives no ammonia", "school", "dispose/silver", nil, []string{"let household bleach meet it"}, []string{"ammonia"}},
		{"what is discarded in the evening comes on top of a month", "print", "board/shopping", nil, []string{"counted as if each tray were used until it is spent"}, nil},
		{"tanks are filled from bottles that keep", "film", "board/shopping", nil, []string{"missing"}, []string{"counted as if each tray"}},
		{"a bottle of a kit that goes in whole", "demo", "product/print-developer-kit", nil, []string{"all of it"}, []string{"its pack holds"}},
		// Pregnant: what may cause cancer or harm the genes is not diluted either.
		{"pregnant: a concentrate that may harm the genes", "film", "mix/film-concentrate", nil, []string{"Pregnant or breast-feeding: do not dilute this."}, nil},
		{"pregnant: one that does not", "film", "mix/film-concentrate", []edit{{"products/film-concentrate.toml", `"Muta. 2", "Carc. 2", `, ""}, {"products/film-concentrate.toml", `hydroquinone = "4..7 % w/w", `, ""}}, nil, []string{"Pregnant"}},
		{"pregnant: what is in the tank may be handled, what it is diluted from may not", "film", "process/film-warm", nil, []string{"Pregnant or breast-feeding: do not dilute film developer concentrate."}, nil},
		{"pregnant: nor need be, of one that does no harm", "film", "process/film-warm", []edit{{"products/film-concentrate.toml", `"Muta. 2", "Carc. 2", `, ""}, {"products/film-concentrate.toml", `hydroquinone = "4..7 % w/w", `, ""}}, nil, []string{"Pregnant"}},
		// A concentrate is no spent bath.
		{"the permit for what was worked in opens no drain for the concentrate", "film", "dispose/last-bath", nil, []string{"not down the drain: the permit covers only baths that have been used", "supplied: "}, nil},
		{"nor on the label of its bottle", "film", "label/2610", nil, []string{"ask first; not into any drum of this room"}, []string{"down the foul drain"}},
		{"and it does for the bath", "film", "process/film-warm", nil, []string{"spent: down the foul drain: half a litre at a time"}, nil},
		// Two steps take from the same bottles.
		{"two steps that take the same stock: exactly enough", "demo", "process/film-reversal", []edit{{"shelf/0304.toml", `drew   = "280 mL"`, `drew   = "500 mL"`}}, []string{"print developer, stock, for the sheet tank"}, []string{"print developer, stock, for the double tank"}},
		{"two steps that take the same stock: a little less", "demo", "process/film-reversal", []edit{{"shelf/0304.toml", `drew   = "280 mL"`, `drew   = "501 mL"`}}, []string{"print developer, stock, for the double tank"}, []string{"print developer, stock, for the single tank"}},
		// What keeps for minutes is not mixed before the light goes out.
		{"a bath that keeps for half an hour", "demo", "process/film-reversal", nil, []string{"reversal bleach, working: have its parts ready, it keeps only  once it is mixed", "mix it only while the step before runs: it keeps "}, []string{"reversal bleach, working: mix", "reversal bleach, working; "}},
		{"a bath that keeps for an evening", "demo", "process/film-reversal", []edit{{"solutions/reversal-bleach.toml", `poured = "30 min"`, `poured = "3 h"`}}, []string{"Not on the shelf: ", "reversal bleach, working; ", ": mix first"}, []string{"mix it only while"}},
		// A used developer takes longer, and another base may have used a bath up.
		{"how long the next film takes in what stands here", "school", "process/film-class", nil, []string{"Used developer: class film developer, class, batch 102: the next film takes  in it, and  still have room"}, []string{"Used developer: class film developer, class, batch 103"}},
		{"a time for fresh developer says so", "school", "process/film-class", nil, []string{"in fresh developer only: for used developer read the strip of its bottle"}, nil},
		{"and one for a bath used once does not", "film", "process/film-warm", nil, nil, []string{"in fresh developer only"}},
		{"what never stands beside fixer", "demo", "label/shelf-thiosulfates", nil, []string{"beside acid or a stop bath: sulfur dioxide, and sulfur in the fixer"}, nil},
		{"spent for films, though good for prints", "school", "process/film-class", nil, []string{"Spent for film, do not use: plain hypo fixer, working, batch 112: rolls"}, nil},
		{"prints do not make it so for prints", "school", "process/paper-print", nil, nil, []string{"Spent for"}},
		{"a bath with room for a film", "school", "process/film-class", []edit{{"shelf/112.toml", `worked = ["14 class-paper.20x25", "10 class-paper.13x18"]`, `worked = ["4 class-paper.20x25"]`}}, nil, []string{"Spent for film"}},
		// Bottles of one batch, and tanks without a name.
		{"a bottle of two has no file", "film", "shelf/index", []edit{{"shelf/9.toml", "", "of = \"rapid-fix.film\"\nmixed = 2026-05-20\nmade = { amount = \"2 L\", into = [\"1 L\", \"1 L\"] }\n"}}, []string{"filled into 2 bottles, and only 1 of them in shelf/"}, nil},
		{"its sister has one", "film", "shelf/index", []edit{{"shelf/9.toml", "", "of = \"rapid-fix.film\"\nmixed = 2026-05-20\nmade = { amount = \"2 L\", into = [\"1 L\", \"1 L\"] }\n"}, {"shelf/10.toml", "", "of = \"rapid-fix.film\"\nmixed = 2026-05-20\npart_of = \"9\"\nbottle = \"1 L\"\n"}}, nil, []string{"of them in shelf/"}},
		{"a tank without a name", "film", "mix/film-concentrate", []edit{{"lab.toml", "name  = \"solo tank\"\n", ""}}, []string{"solo tank"}, nil},
		{"two reasons are both told", "school", "label/citric-stop.working", nil, []string{"(danger: sulfur dioxide, pressure)"}, []string{"pressure, and more"}},
		{"the only volatile liquid of a bath", "film", "protect/acid-stop", nil, []string{"gives off vapour: acetic acid"}, nil},
		// Water colder than the tap ever is in summer.
		{"colder than the tap", "demo", "mix/thiourea-toner-b", nil, []string{"cool the water first, in the refrigerator or in ice"}, nil},
		{"as cold as the tap", "demo", "mix/thiourea-toner-b", []edit{{"lab.toml", `summer = "17 °C"`, `summer = "12 °C"`}}, nil, []string{"refrigerator"}},
		{"a degree colder", "demo", "mix/thiourea-toner-b", []edit{{"lab.toml", `summer = "17 °C"`, `summer = "13 °C"`}}, []string{"refrigerator"}, nil},
		// What must never be done is never torn from its never.
		{"never stays never", "demo", "process/selenium-toning", nil, []string{"never mix this alone"}, []string{"caution: use it without", "caution: mix this alone", "caution: do this alone"}},
		// The board of what to put on.
		{"what nobody has looked up is a hole on the board, not a row like another", "film", "board/protect", unknown, []string{"Strange bath", "first nobody has looked it up"}, nil},
		{"no hole where all has been looked up", "demo", "board/protect", nil, []string{"MQ borax film developer", "not if pregnant"}, []string{"nobody has looked it up"}},
		{"tongs stand on the sheet for protection too", "demo", "protect/selenium-toner", nil, []string{"Tongs"}, nil},
		// A permit to treat, and one for the drain.
		{"an acid is wiped up, not fizzed away, without a permit to treat", "film", "spill/acid-stop", nil, []string{"mineral absorbent from the rim"}, []string{"hydrogencarbonate"}},
		{"with one it may be", "film", "spill/acid-stop", []edit{{"local.toml", "[permit]", "[permit]\ntreat = \"letter 5\""}}, []string{"sodium hydrogencarbonate from the rim"}, []string{"mineral absorbent from the rim"}},
		{"the permit for one route opens no other", "film", "dispose/stop", nil, []string{"this does not go down: the permit WR 26-0417 of 2026-02-19 is for other routes"}, []string{"permitted:"}},
		{"and its own it does", "film", "dispose/last-bath", nil, []string{"permitted: WR 26-0417 of 2026-02-19", "read the permit"}, []string{"drum’s label", "nobody knows all that is in a drum"}},
		// The limits of a permit.
		{"a spent fixer holds thousands of times what is allowed", "film", "dispose/fixer", poured(silverLimit), []string{"silver , when it is spent", "not met:  what is allowed",
			"To a drum of its own: ask first", "this does not go down: a limit of the permit WR 26-0417 of 2026-02-19 is not met, or nobody can tell"}, []string{"oul drain: one litre"}},
		{"without limits it goes where its route leads", "film", "dispose/fixer", poured(""), []string{"Down the foul drain: one litre at a time"}, []string{"Against the limits", "when it is spent at"}},
		{"the board of what goes where", "film", "board/waste", poured(silverLimit), []string{"Rapid fixer concentrate", "pour it nowhere: ask first"}, []string{"the foul drain"}},
		{"what nobody can tell is no leave", "film", "dispose/last-bath", poured(silverLimit), []string{"a limit of the permit WR 26-0417 of 2026-02-19 is not met, or nobody can tell"}, []string{"oul drain: half"}},
		{"the card of the work says it too", "film", "process/film-warm", poured(silverLimit), []string{"apart, into no drum"}, []string{"down the foul drain"}},
		{"what a laboratory has found opens it", "film", "dispose/last-bath", append(poured(silverLimit), edit{"products/drop-agent.toml", "water  = \"deionised\"\n", "water  = \"deionised\"\nfound  = { silver = \"0.02 mg/L\" }\n"}),
			[]string{"silver , as it was found when it was spent", "Down the foul drain: half a litre"}, nil},
		{"up to the limit itself", "film", "process/film-warm", append(poured(silverLimit), edit{"products/drop-agent.toml", "water  = \"deionised\"\n", "water  = \"deionised\"\nfound  = { silver = \"1 mg/L\" }\n"}),
			[]string{"down the foul drain: half a litre"}, nil},
		{"and no further", "film", "dispose/last-bath", append(poured(silverLimit), edit{"products/drop-agent.toml", "water  = \"deionised\"\n", "water  = \"deionised\"\nfound  = { silver = \"1.1 mg/L\" }\n"}),
			[]string{"not met:  what is allowed"}, []string{"oul drain: half"}},
		{"the pH as it is written, with what paper is off", "film", "dispose/last-bath", append(poured(`{ of = "ph", least = "6.5", most = "9" }`), edit{"products/drop-agent.toml", "water  = \"deionised\"\n", "water  = \"deionised\"\nph = \"6.6\"\n"}),
			[]string{"pH  ± , as it is written", "met,  from the nearer end", "dip pH paper into it: not down the drain unless it shows  to ", "Down the foul drain"}, nil},
		{"which may be just too much", "film", "dispose/last-bath", append(poured(`{ of = "ph", least = "6.5", most = "9" }`), edit{"products/drop-agent.toml", "water  = \"deionised\"\n", "water  = \"deionised\"\nph = \"6.5\"\n"}),
			[]string{"pH  ± , as it is written", "To a drum of its own: ask first"}, []string{"dip pH paper", "oul drain: half"}},
		{"a stop bath is too acid", "film", "dispose/stop", poured(`{ of = "ph", least = "6.5", most = "9" }`), []string{"not met: too acid by "}, []string{"oul drain: one"}},
		{"what nobody works out", "film", "dispose/stop", poured(`{ of = "cod", most = "2 g/L" }`), []string{"chemical oxygen demand", "To a drum of its own: ask first"}, []string{"oul drain: one"}},
		{"the fills that a limit keeps back", "film", "process/film-warm", poured(silverLimit), []string{"the first  fills "}, []string{"the first fill ", "its water down no drain"}},
		{"the lab’s own count, where the limit asks for no more", "film", "process/film-warm", poured(`{ of = "silver", most = "20 mg/L" }`), []string{"the first fill "}, []string{"its water down no drain"}},
		{"a wash of which nobody can tell", "film", "process/film-warm", poured(`{ of = "ph", least = "6", for = "wash" }`), []string{"its water down no drain: ask first"}, []string{"the first fill "}},
		{"no wash is closed by a limit for the drain", "film", "process/film-warm", poured(`{ of = "silver", most = "1 mg/L", for = "drain" }`), []string{"the first fill "}, []string{"its water down no drain"}},
		{"a limit for washes alone closes no drain", "film", "dispose/stop", poured(`{ of = "silver", most = "1 mg/L", for = "wash" }`), []string{"Down the foul drain: one litre"}, []string{"Against the limits"}},
		// Sources that say the same do not disagree.
		{"a list that says the same", "demo", "chemical/benzotriazole", nil, []string{"STOT SE 2"}, []string{"1H-benzotriazole Acute Tox. 4 (oral)", "1H-benzotriazole Eye Irrit. 2"}},
		// A bath that is counted in uses, and one in a bottle that others draw from.
		{"uses are no films", "film", "capacity/rapid-fix", nil, []string{"tick one box for each use, up to "}, nil},
		{"a bottle that two strengths draw from", "film", "capacity/film-concentrate", nil, []string{"Other strengths come from the same bottle"}, []string{"of stock in one opened bottle gets too old"}},
		{"a bottle of one strength alone", "demo", "capacity/film-developer", nil, nil, []string{"Other strengths are drawn"}},
		// A tray takes what lies flat in it.
		{"a dish in which no sheet of this paper lies", "print", "process/fibre-print", nil, []string{"small tray"}, []string{"dish"}},
		{"the temperatures of the board are the lab’s own too", "print", "board/tempering", nil, []string{"bath of"}, nil},
		// A dead batch says so, and nothing else.
		{"spent, though its date has not come", "film", "label/2604", nil, []string{"Dead: do not use.", "dead, spent by silver", "spent"}, []string{"discard by", "How many more"}},
		{"the least that is known stands beside what is not", "film", "label/2606", nil, []string{"at least ", "the rest ", "nobody has written the silver of cubic-grain film ISO 800"}, nil},
		{"one that cannot be judged tells no number", "film", "label/9", []edit{batch("rapid-fix.film", "1 L", "2026-05-10", "", did("2026-05-12", "cleared = \"60 s\"", "1 cubic-125.135-36"))}, []string{"how many more: "}, []string{"How many more it treats"}},
		{"a limit for other work is told as well", "school", "label/112", nil, []string{"rolls, for each litre, for film", "area, for each litre, for resin-coated"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := pageOf(t, workedLab(t, c.lab, c.edits...), c.card)
			said := saidOn(p)
			for _, s := range c.says {
				require.Contains(t, said, s)
			}
			for _, s := range c.not {
				require.NotContains(t, said, s)
			}
		})
	}
}

// TestWeighedByNobody: what is bought as a liquid stands on the sheet of every job but the
// scale’s.
func TestWeighedByNobody(t *testing.T) {
	p := pageOf(t, workedLab(t, "film"), "board/protect")
	for i, choice := range p.Choices {
		has := strings.Contains(saidOn(page.In(page.Page{Do: p.Do}, i)), "Film developer concentrate")
		require.Equal(t, choice.Variant != "weigh", has, choice.Variant)
	}
	require.Equal(t, 5, len(p.Choices))
}

// TestDiscardDays: the calendar says what a day means for a batch: the last on which it
// may be used, or that it is dead already.
func TestDiscardDays(t *testing.T) {
	says := map[string]string{}
	for _, d := range workedLab(t, "film").Binder.Discards {
		says[d.Batch] = d.On + " " + d.Says
	}
	require.Equal(t, "2026-05-22 Dead: do not use. Spent by silver.", says["2604"])
	require.Equal(t, "2026-05-14 Dead since the end of this day: do not use. Reason: mixed.", says["2608"])
	require.Equal(t, "2026-07-03 Last day on which it may be used. Reason: opened.", says["2605"])
	require.NotContains(t, says, "2610")
	r := workedLab(t, "film", batch("rapid-fix.film", "1 L", "2026-05-10", "", did("2026-05-12", "cleared = \"60 s\"", "1 cubic-125.135-36")))
	for _, d := range r.Binder.Discards {
		if d.Batch == "9" {
			require.Contains(t, d.Says, "Nobody can judge it: do not use")
		}
	}
}

// TestSharedDrum: which two developers may share a drum.
func TestSharedDrum(t *testing.T) {
	of := func(add string) map[string]string {
		return map[string]string{"lab.toml": "[lab]\nname = \"Test\"\n", "waste/dev.toml": "name = \"developers\"\ndrum = \"dev\"\n", "waste/more.toml": "name = \"more\"\ndrum = \"dev\"\n",
			"solutions/soda.toml":  "name = \"soda\"\nper = \"1 L\"\nwaste = \"dev\"\n[[step]]\nadd = \"sodium-sulfite.anhydrous\"\namount = \"50 g\"\n[[step]]\nadd = \"sodium-carbonate.anhydrous\"\namount = \"20 g\"\n",
			"solutions/other.toml": "name = \"other\"\nper = \"1 L\"\nwaste = \"more\"\n[[step]]\nadd = \"" + add + "\"\namount = \"5 g\"\n"}
	}
	for add, faults := range map[string]int{"boric-acid.pure": 0, "borax.decahydrate": 0, "hydroquinone.pure": 0, "citric-acid.anhydrous": 2, "potassium-permanganate.pure": 1, "sodium-hydroxide.pure": 0} {
		r, err := build.Work(options(folder(of(add))))
		require.NoError(t, err)
		n := 0
		for _, f := range r.Faults {
			if f.Code == "apart" {
				n++
			}
		}
		require.Equal(t, faults, n, add)
	}
}

// TestTooWarm: a process as warm as one of its baths must never be is a fault.
func TestTooWarm(t *testing.T) {
	for _, c := range []struct {
		at, stop string
		fault    bool
	}{{"20 °C", "22 °C", false}, {"21 °C", "22 °C", false}, {"21.5 °C", "22 °C", true}, {"23 °C", "24 °C", false}, {"23 °C", "23 °C", true}} {
		files := demonstrationWith(t, map[string]func(string) string{
			"processes/film-reversal.toml": func(s string) string {
				s = strings.Replace(s, `stop_above = "22 °C"`, `stop_above = "`+c.stop+`"`, 1)
				return strings.Replace(s, `at = "20 °C", within = "1 K"`, `at = "`+c.at+`", within = "1 K"`, 1)
			},
			"solutions/reversal-bleach.toml": func(s string) string {
				return strings.Replace(s, `stop_above = "22 °C"`, `stop_above = "30 °C"`, 1)
			},
		})
		r, err := build.Work(options(files))
		require.NoError(t, err)
		require.Equal(t, c.fault, strings.Contains(faultLines(r), "must stop above"), "%s, stop above %s: %s", c.at, c.stop, faultLines(r))
	}
}

// silverLimit is a limit of silver as a permit may set it.
const silverLimit = `{ of = "silver", most = "1 mg/L" }`

// poured leads the fixer and the stop bath of the lab for films down the drain, under a permit with
// some limits.
func poured(limits string) []edit {
	list := "limits = [ " + limits + " ]\n"
	if limits == "" {
		list = ""
	}
	return []edit{{"local.toml", "[permit]\n", "[permit]\nwash = \"WR 26-0418 of 2026-02-19\"\n" + list},
		{"waste/fixer.toml", "drum    = \"silver\"", "drain = \"one litre at a time\""},
		{"waste/stop.toml", "drum  = \"acid\"", "drain = \"one litre at a time\""}}
}
