package build_test

import (
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"wetside/build"
	"wetside/build/load"
	"wetside/build/source"
	"wetside/content"
	"wetside/procedures/figure"
	"wetside/procedures/unit"
	"wetside/testdata/binders"
	"wetside/themes"
)

var march14 = unit.Date{Year: 2026, Month: 3, Day: 14}

func options(src fs.FS) build.Options {
	return build.Options{Source: src, Library: content.FS, Theme: themes.FS, On: march14}
}

func folder(files map[string]string) fstest.MapFS {
	out := fstest.MapFS{}
	for name, text := range files {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}

// TestBinders works out whole binders, good and bad: each archive says in
// want/… what must come of it.
func TestBinders(t *testing.T) {
	names, err := filepath.Glob("../testdata/binders/*.txtar")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(names), 12)
	for _, name := range names {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txtar"), func(t *testing.T) {
			archive, err := txtar.ParseFile(name)
			require.NoError(t, err)
			files, want := map[string]string{}, map[string]string{}
			for _, f := range archive.Files {
				if w, ok := strings.CutPrefix(f.Name, "want/"); ok {
					want[w] = string(f.Data)
				} else {
					files[f.Name] = string(f.Data)
				}
			}
			r, err := build.Bind(options(folder(files)))
			require.NoError(t, err)
			require.Equal(t, want["faults"], faultLines(r))
			require.Empty(t, silentPrints(r), "prints without a word to work by")
			records := map[string]*figure.Record{}
			for _, f := range r.Binder.Answers {
				records[f.ID] = f
			}
			for _, line := range strings.Split(strings.TrimSpace(want["figures"]), "\n") {
				if line == "" {
					continue
				}
				id, _, _ := strings.Cut(line, " ")
				f, ok := records[id]
				require.True(t, ok, "no figure %s", id)
				got := strings.TrimSpace(fmt.Sprintf("%s %s %s", f.ID, f.Shown, f.Unit))
				if strings.Contains(line, " | ") {
					got += " | " + f.Round.Device
				}
				require.Equal(t, line, got)
			}
			for _, id := range strings.Fields(want["absent"]) {
				require.NotContains(t, records, id, "nobody can work it out")
			}
			if w, ok := want["classes"]; ok {
				var got []string
				for _, c := range r.Binder.Classifications {
					if c.Of != "bath" {
						continue
					}
					words := []string{}
					for _, f := range c.Known.Classes {
						words = append(words, f.Class.Word)
					}
					for _, f := range c.Known.Extra {
						words = append(words, f.Code)
					}
					got = append(got, strings.TrimSpace(c.Subject+"."+c.Strength+" "+c.Known.Status.String()+": "+strings.Join(words, ", ")))
				}
				require.Equal(t, strings.Split(strings.TrimSpace(w), "\n"), got)
			}
			if w, ok := want["verdicts"]; ok {
				var got []string
				for _, v := range r.Binder.Verdicts {
					if line := v.ID + " " + v.Answer; strings.HasSuffix(v.ID, "/state") {
						if v.Answer == "cannot be judged" || strings.HasPrefix(strings.Join(v.Because, ""), "spent") {
							line += ": " + v.Because[0]
						}
						got = append(got, line)
					}
				}
				slices.Sort(got)
				wanted := strings.Split(strings.TrimSpace(w), "\n")
				slices.Sort(wanted)
				require.Equal(t, wanted, got)
			}
			if w, ok := want["answers"]; ok {
				answers := map[string]string{}
				for _, v := range r.Binder.Verdicts {
					answers[v.ID] = v.Answer
				}
				for _, line := range strings.Split(strings.TrimSpace(w), "\n") {
					id, _, _ := strings.Cut(line, " ")
					require.Equal(t, line, strings.TrimSpace(id+" "+answers[id]))
				}
			}
			if w, ok := want["holes"]; ok {
				var holes []string
				for _, p := range r.Binder.Pages {
					if p.Kind != "mixing" {
						continue
					}
					for _, h := range p.Foot.Holes {
						holes = append(holes, fmt.Sprintf("%s: %s: %s", p.ID, h.What, h.Until))
					}
				}
				require.Equal(t, strings.TrimSpace(w), strings.Join(holes, "\n"))
			}
		})
	}
}

// faultLines is the first line of each fault, hints left out; every fault must
// have one.
func faultLines(r *build.Result) string {
	if len(r.Faults) == 0 {
		return "no fault\n"
	}
	var b strings.Builder
	for _, f := range r.Faults {
		fmt.Fprintf(&b, "%s:%d:%d: %s [%s]\n", f.Span.File, f.Span.Start.Line, f.Span.Start.Column, f.What, f.Code)
		if f.Hint == "" {
			fmt.Fprintf(&b, "   without a hint\n")
		}
	}
	return b.String()
}

// TestExplanations holds the example of each fault's code to its code.
func TestExplanations(t *testing.T) {
	for _, e := range build.Explanations {
		if e.Example == "" {
			continue
		}
		t.Run(e.Code, func(t *testing.T) {
			files := map[string]string{"lab.toml": "[lab]\nname = \"Test\"\n", e.File: e.Example}
			r, err := build.Work(options(folder(files)))
			require.NoError(t, err)
			require.True(t, r.Faults.HasErrors())
			for _, f := range r.Faults {
				require.Equal(t, e.Code, f.Code, "%s: %s", f.Span.File, f.What)
				require.NotEmpty(t, f.Hint)
			}
			require.Empty(t, r.Files)
		})
	}
}

// TestStrangeFolders reads folders that are no binder or not quite one.
func TestStrangeFolders(t *testing.T) {
	_, err := build.Work(options(folder(nil)))
	require.ErrorIs(t, err, load.ErrNoBinder)
	rubbish := map[string]string{}
	for i := range 10 {
		rubbish[fmt.Sprintf("x%d.bin", i)] = strings.Repeat("rubbish\x00", 1<<17)
	}
	_, err = build.Work(options(folder(rubbish)))
	require.ErrorIs(t, err, load.ErrNoBinder)

	for _, c := range []struct{ name, file, text, code string }{
		{"a Latin-1 file", "solutions/stop.toml", "name = \"S\xe4ure\"\n", "encoding"},
		{"an id that is none", "solutions/Stop Bath.toml", "name = \"x\"\n", "id"},
		{"a file nobody knows", "labs.toml", "", "file"},
		{"two definitions of one name", "chemicals/citric-stop.toml", "name = \"x\"\n[form.pure]\nformula = \"none\"\n", "id"},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := map[string]string{"lab.toml": "[lab]\nname = \"Test\"\n", "solutions/citric-stop.toml": "name = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n"}
			files[c.file] = c.text
			r, err := build.Work(options(folder(files)))
			require.NoError(t, err)
			require.True(t, r.Faults.HasErrors())
			require.Equal(t, c.code, r.Faults[0].Code, "%v", r.Faults)
		})
	}
}

// TestScaldingHint: who copied degrees Fahrenheit is told what they are in Celsius.
func TestScaldingHint(t *testing.T) {
	got := binders.Read(t, "../testdata/binders/scalds.txtar")
	r, err := build.Work(options(got))
	require.NoError(t, err)
	var hints []string
	for _, f := range r.Faults {
		require.Equal(t, source.Warning, f.Severity)
		hints = append(hints, f.Hint)
	}
	require.Contains(t, hints, "if the sheet says 68 °F, that is 20.0 °C")
	require.Contains(t, hints, "if the sheet says 75 °F, that is 23.9 °C")
	require.Contains(t, hints, "if the sheet says 98 °F, that is 36.7 °C")
}

// TestCostInATray: of a bath that is discarded with its day, twice the tray costs twice as much a
// print, as long as the day does not use it up: 20 g at 10 EUR/kg are 0.20 EUR a litre, for five
// prints a day 0.04 EUR each; two litres 0.08 EUR. Plain arithmetic. Where nobody has written
// the days, what one costs is told for all that the bath can do.
func TestCostInATray(t *testing.T) {
	dear := func(change ...string) string {
		change = append(change, "[tray.small]", "[tray.large]\nfill = \"2 L\"\ninside = \"30 x 40 cm\"\n[tray.small]")
		files := binders.Read(t, "../testdata/binders/days.txtar", change...)
		files["store.toml"] = &fstest.MapFile{Data: []byte("[[pack]]\nof = \"salt.pure\"\nprice = \"10.00 EUR/kg\"\n")}
		r, err := build.Work(options(files))
		require.NoError(t, err)
		require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
		return plainCard(t, r, "capacity/stop")
	}
	text := dear()
	require.Contains(t, text, "of number each costs if used completely paper, 18×24 20 area 0.04 EUR [e] 0.010 EUR [e]")
	require.Contains(t, text, "of 1000 ml 2000 ml paper, 18×24 20; each costs 0.04 EUR [e] 40; each costs 0.08 EUR [e]")
	require.Contains(t, text, "a larger tray costs more, see below")
	busy := dear("print = \"30 paper.18x24\"", "print = \"300 paper.18x24\"")
	require.Contains(t, busy, "20; each costs 0.010 EUR [e] 40; each costs 0.010 EUR [e]", "a day uses up either tray")
	unknown := dear("[days]\nprint = 6\n", "")
	require.Contains(t, unknown, "of number each costs, if all is used paper, 18×24 20 area 0.010 EUR [e]")
	require.Contains(t, unknown, "of 1000 ml 2000 ml paper, 18×24 20 40")
	require.NotContains(t, unknown, "a larger tray costs more")
}

// TestDrumsSoon: a drum that held 5 L on the first of March is full on the thirtieth (worked out by
// hand in the archive): a fortnight before, the front page says so, on the day before that it does
// not yet, and where nobody has looked into a drum it says nothing.
func TestDrumsSoon(t *testing.T) {
	front := func(day unit.Date, change ...string) string {
		o := options(binders.Read(t, "../testdata/binders/drums.txtar", change...))
		o.On = day
		r, err := build.Work(o)
		require.NoError(t, err)
		require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
		return cardText(t, r, "index")
	}
	const none, full = "drums to have emptied: call the collector: 0", "drum to have emptied: call the collector: 1"
	require.Contains(t, front(unit.Date{Year: 2026, Month: 3, Day: 15}), none)
	require.Contains(t, front(unit.Date{Year: 2026, Month: 3, Day: 16}), full)
	require.Contains(t, front(unit.Date{Year: 2026, Month: 3, Day: 16}), "silver, full by 2026-03-30")
	require.Contains(t, front(unit.Date{Year: 2026, Month: 5, Day: 1}), full, "it is past the day")
	require.NotContains(t, front(unit.Date{Year: 2026, Month: 3, Day: 16}, "level = \"5 L\"\nlevel_on = 2026-03-01\n", ""), "to have emptied")
}

// filmAndPaper are the files of a lab that fixes film and paper in the same bath, with changes in pairs.
func filmAndPaper(change ...string) map[string]string {
	files := map[string]string{
		"lab.toml":             "[lab]\nname = \"Test\"\n[tray.small]\nfill = \"1 L\"\ntakes = [\"18x24\"]\n[tank.single]\nfill = \"500 mL\"\ntakes = { 135 = 1 }\n[use]\nfilm = \"3 film.135-36\"\nprint = \"30 paper.18x24\"\n[days]\nprint = 6\n",
		"materials/film.toml":  "name = \"film\"\nbase = \"film\"\nformats = [\"135-36\"]\n",
		"materials/paper.toml": "name = \"paper\"\nbase = \"fibre\"\nformats = [\"18x24\"]\n",
		"solutions/fix.toml":   "name = \"fix\"\nrole = \"fixer\"\nper = \"1 L\"\n[[step]]\nadd = \"sodium-thiosulfate.pentahydrate\"\namount = \"240 g\"\n[strength.stock]\nuse = \"re-use\"\nKEEPS\nlimits = [{ by = \"rolls\", for = \"film\", most = \"20 rolls/L\" }, { by = \"area\", for = \"fibre\", most = \"1 m2/L\" }]\n",
		"processes/film.toml":  "name = \"Film\"\nbase = \"film\"\n[[step]]\nid = \"fix\"\nbath = \"fix.stock\"\ntime = \"5:00\"\n",
		"processes/print.toml": "name = \"Print\"\nbase = \"fibre\"\n[[step]]\nid = \"fix\"\nbath = \"fix.stock\"\ntime = \"5:00\"\n",
	}
	for name, text := range files {
		files[name] = strings.NewReplacer(change...).Replace(text)
	}
	return files
}

// TestLifeInATray: how long a bath keeps in a tray is no life of what is worked in tanks: film at three
// rolls a month in 30 days of an opened bottle is 2 rolls (3 / 30.4375 x 30 = 2.96, plain arithmetic),
// and paper is discarded with its day. Where nobody has written another life, that of the tray holds.
func TestLifeInATray(t *testing.T) {
	text := func(keeps string) string {
		r, err := build.Work(options(folder(filmAndPaper("KEEPS", "keeps = { "+keeps+" }"))))
		require.NoError(t, err)
		require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
		return plainCard(t, r, "capacity/fix")
	}
	both := text("full = \"60 days\", part = \"30 days\", tray = \"24 h\"")
	require.Contains(t, both, "age ends it after each costs film, 135-36 20 rolls 2 ")
	require.Contains(t, both, "Discard what is in a tray 24 h after pouring")
	require.Contains(t, both, "paper, 18×24 23 area")
	alone := text("tray = \"24 h\"")
	require.Contains(t, alone, "number each costs film, 135-36 20 rolls")
	require.Contains(t, alone, "Discard it 24 h after pouring")
}

// TestFilmAndPaper: a fixer that goes back into its bottle and is used for film and for paper wants a
// bottle for each, on every card that has it in the hand. Common practice, no source.
func TestFilmAndPaper(t *testing.T) {
	const words = "fix prints in what has fixed film: keep a bottle for each"
	cards := []string{"process/film", "process/print", "mix/fix", "label/fix.stock", "capacity/fix"}
	for _, c := range []struct {
		change []string
		said   bool
	}{
		{nil, true}, {[]string{"role = \"fixer\"", "role = \"stop\""}, false}, {[]string{"use = \"re-use\"", "use = \"tray\""}, false},
		{[]string{"base = \"fibre\"\n[[step]]", "base = \"film\"\n[[step]]", "print = \"30 paper.18x24\"\n", "", "print = 6", ""}, false},
	} {
		r, err := build.Work(options(folder(filmAndPaper(append(c.change, "KEEPS", "keeps = { part = \"30 days\" }")...))))
		require.NoError(t, err)
		require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
		for _, id := range cards {
			require.Equal(t, c.said, strings.Contains(plainCard(t, r, id), words), "%s %v", id, c.change)
		}
	}
}

// TestYieldOfAPart: what goes into a bath that is used for film alone does no paper; where nobody uses
// that bath yet, everything is told that it could treat.
func TestYieldOfAPart(t *testing.T) {
	text := func(used bool) string {
		files := filmAndPaper("KEEPS", "keeps = { part = \"30 days\" }")
		files["products/syrup.toml"] = "name = \"syrup\"\nstate = \"liquid\"\nrole = \"developer\"\npack = { holds = \"250 mL\", price = \"10.00 EUR\" }\nyields = [ { strength = \"supplied\", count = \"40 rolls\", says = \"supplier\" } ]\n[strength.supplied]\nph = \"6\"\n"
		files["solutions/soup.toml"] = "name = \"soup\"\nrole = \"developer\"\nper = \"1 L\"\nmakes = \"working\"\n[[step]]\nadd = \"syrup\"\namount = \"20 mL\"\n[strength.working]\nuse = \"one-shot\"\nneeds = \"250 mL/roll\"\n"
		if used {
			files["processes/film.toml"] += "[[step]]\nid = \"develop\"\nbath = \"soup.working\"\ntime = \"9:00\"\n"
		}
		r, err := build.Work(options(folder(files)))
		require.NoError(t, err)
		require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
		return plainCard(t, r, "product/syrup")
	}
	require.Contains(t, text(true), "film, 135-36 40")
	require.NotContains(t, text(true), "paper, 18×24")
	require.Contains(t, text(false), "paper, 18×24")
}
