package main

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const stop = "name = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n"

// inFolder runs a test in a fresh folder that holds the files.
func inFolder(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	t.Chdir(dir)
	return dir
}

func wetside(args ...string) (status int, out, err string) {
	var o, e bytes.Buffer
	status = run(args, &o, &e)
	return status, o.String(), e.String()
}

func TestCommands(t *testing.T) {
	lab := map[string]string{"lab.toml": "[lab]\nname = \"My darkroom\"\n", "solutions/stop.toml": stop}
	timeless := map[string]string{"lab.toml": "[lab]\nname = \"My darkroom\"\n[tank.solo]\ntakes = { 135 = 1 }\nfill = \"300 mL\"\n",
		"solutions/dev.toml":  "name = \"dev\"\nrole = \"developer\"\nper = \"1 L\"\n[[step]]\nadd = \"sodium-sulfite.anhydrous\"\namount = \"30 g\"\n[strength.stock]\ntemperature = { from = \"18..24 °C\", slope = \"0.08 /K\" }\n",
		"materials/film.toml": "name = \"film\"\nbase = \"film\"\nformats = [\"135-36\"]\ndevelop = [{ in = \"dev.stock\", at = \"20 °C\", time = \"10:00\" }]\n",
		"processes/film.toml": "name = \"film\"\nbase = \"film\"\ntemperature = { at = \"26 °C\" }\n[[step]]\nid = \"develop\"\nbath = \"dev.stock\"\ntime = \"material\"\n"}
	with := func(name, text string) map[string]string {
		m := map[string]string{name: text}
		for k, v := range lab {
			if _, own := m[k]; !own {
				m[k] = v
			}
		}
		return m
	}
	for _, c := range []struct {
		name   string
		files  map[string]string
		args   string
		status int
		out    string // part of standard output
		err    string // part of standard error
		absent string // a file or folder that must not be there afterwards
	}{
		{name: "nothing said", args: "", status: 2, err: "wetside bind"},
		{name: "a command that is none", args: "bnid", status: 2, err: `did you mean "bind"?`},
		{name: "help", args: "help", out: "wetside bind"},
		{name: "the demonstration", args: "bind --out out", out: "DEMONSTRATION"},
		{name: "own binder here", files: lab, args: "bind", out: filepath.Join("binder", "index.html") + " in a browser."},
		{name: "into a folder of the lab's own", files: lab, args: "bind --out shelf/new", status: 2, err: "shelf/ is a folder for what the lab itself writes", absent: "shelf"},
		{name: "a flag after the folder", files: map[string]string{"mine/lab.toml": "[lab]\nname = \"Mine\"\n"}, args: "bind mine --out out", out: "The binder of Mine"},
		{name: "a folder that is none", args: "bind nowhere", status: 2, err: "there is no such folder", absent: "binder"},
		{name: "a folder without a binder", files: map[string]string{"empty/x.txt": "x"}, args: "bind empty", status: 2, err: "there is no lab.toml", absent: "binder"},
		{name: "a file, not a folder", files: lab, args: "bind lab.toml", status: 2, err: "is a file", absent: "binder"},
		{name: "faults: nothing is written", files: with("solutions/stop.toml", strings.Replace(stop, "15 g", "15 gm", 1)), args: "bind", status: 1, err: "solutions/stop.toml:5:10: \"15 gm\" is not a mass [quantity]", absent: "binder"},
		{name: "somebody else's folder", files: with("out/mine.txt", "x"), args: "bind --out out", status: 2, err: "nothing was written", absent: "out/index.html"},
		{name: "a day that is none", files: lab, args: "bind --on tomorrow", status: 2, err: "2026-03-14", absent: "binder"},
		{name: "an address that is none", files: lab, args: "bind --address darkroom.example", status: 2, err: "is not an http or https address", absent: "binder"},
		{name: "an address by another way", files: lab, args: "bind --address file:///binder", status: 2, err: "is not an http or https address", absent: "binder"},
		{name: "an address that is too long", files: lab, args: "bind --address https://" + strings.Repeat("a", 300) + ".example", status: 2, err: "at most 120 characters", absent: "binder"},
		{name: "an address", files: lab, args: "bind --address https://darkroom.example/binder", out: "Open"},
		{name: "an address in lab.toml that is none", files: with("lab.toml", "[print]\naddress = \"javascript:alert(1)\"\n"), args: "bind", status: 1, err: "lab.toml:2:11: \"javascript:alert(1)\" is not an http or https address [address]", absent: "binder"},
		{name: "too many words", files: lab, args: "bind . binder", status: 2, err: "too many words"},
		{name: "proof of nothing", args: "proof", status: 2, err: "--demo"},
		{name: "proof", files: lab, args: "proof", out: "No faults", absent: "binder"},
		{name: "proof of the demonstration", args: "proof --demo", out: "No faults"},
		{name: "proof in JSON", files: with("solutions/stop.toml", "name = 3\n"), args: "proof --json", status: 1, out: `"file": "solutions/stop.toml"`},
		{name: "mix never answers from the demonstration unasked", args: "mix film-developer 1L", status: 2, err: "--demo"},
		{name: "mix", files: lab, args: "mix stop 500mL", out: "7.5"},
		{name: "mix of a dilution names the hazards", args: "mix fixer.film 600mL --demo", out: "Contact with acids liberates toxic gas"},
		{name: "mix too little for one roll", args: "mix film-developer.working 150mL --demo", out: "Not enough for one roll"},
		{name: "mix enough for one roll", args: "mix film-developer.working 300mL --demo", out: "enough for 1 roll"},
		{name: "proof of a process that nobody can time", files: timeless, args: "proof", out: "Refused amounts and times: 1. The cards say NO and why.\n  process/film: 1\n    no time: time of film in dev (film/time@dev.stock,26.0c): outside 18 to 24 °C"},
		{name: "mix for the demonstration says so", args: "mix fixer.film 600mL --demo", out: "DEMONSTRATION"},
		{name: "mix nothing", files: lab, args: "mix stop 0mL", status: 2, err: "above zero"},
		{name: "mix a mass", files: lab, args: "mix stop 600g", status: 2, err: "is a mass where a volume is wanted"},
		{name: "mix a lake", files: lab, args: "mix stop 5000L", status: 2, err: "is larger than largest_vessel"},
		{name: "mix what is not there", files: lab, args: "mix stpo 1L", status: 2, err: `did you mean "stop"?`},
		{name: "why a figure", files: lab, args: "why stop.stock/weigh.citric-acid@1000ml", out: "solutions/stop.toml:5"},
		{name: "why while another file has a fault", files: with("solutions/other.toml", "name = 3\n"), args: "why stop.stock/weigh.citric-acid@1000ml",
			out: "solutions/stop.toml:5", err: "left out, because it has faults or needs a file that has faults: solutions/other.toml"},
		{name: "why leaves out what rests on a fault", files: with("processes/short.toml", "name = \"short\"\nsequence = \"film\"\nmaterials = [\"none\"]\n"),
			args: "why stop.stock/weigh.citric-acid@1000ml", out: "solutions/stop.toml:5", err: "processes/short.toml"},
		{name: "why in the faulty file itself", files: with("solutions/stop.toml", strings.Replace(stop, "15 g", "15 gm", 1)),
			args: "why stop.stock/weigh.citric-acid@1000ml", status: 2, err: "solutions/stop.toml"},
		{name: "why while lab.toml has a fault", files: with("lab.toml", "[lab]\nname = 3\n"), args: "why stop.stock/weigh.citric-acid@1000ml",
			status: 1, err: "lab.toml:2"},
		{name: "why a fault", args: "why dilution", out: "read two ways"},
		{name: "why what is not there", files: lab, args: "why stop.stock/weigh.citric-acid@1000m", status: 2, err: "did you mean"},
		{name: "why a subject", files: lab, args: "why stop.stock", out: "  stop.stock/weigh.citric-acid@1000ml                  15.0 g  citric acid, anhydrous\n"},
		{name: "why all strengths of a solution", files: lab, args: "why stop", out: "stop.stock/weigh.citric-acid@1000ml"},
		{name: "why a card", files: lab, args: "why mix/stop", out: "The figures of mix/stop: "},
		{name: "why a card without figures", files: lab, args: "why board/symbols", out: "The card board/symbols shows no figures."},
		{name: "why a card of the lab's own", args: "why notice/the-first-film --demo", out: "film-negative/temperature"},
		{name: "why a card while another file has a fault", files: with("solutions/other.toml", "name = 3\n"), args: "why mix/stop",
			out: "stop.stock/weigh.citric-acid@1000ml", err: "solutions/other.toml"},
		{name: "why a subject with a slip", files: lab, args: "why stop.stok", status: 2, err: `did you mean "stop.stock"?`},
		{name: "why a piece of a subject", files: lab, args: "why .citric-acid@1000", status: 2, err: "did you mean one of these? stop.stock/weigh.citric-acid@1000ml"},
		{name: "why what the trade calls so", args: "why hypo --demo", status: 2, err: `did you mean "sodium-thiosulfate.pentahydrate"?`},
		{name: "why what the trade calls so, of which there is only a card", args: "why metol --demo", status: 2, err: `did you mean "chemical/methylaminophenol-sulfate"?`},
		{name: "why what the trade calls so, and nobody has here", files: lab, args: "why lye", status: 2, err: "there is no figure, subject, card or fault \"lye\"\n"},
		{name: "why nothing at all like it", files: lab, args: "why xyzzy", status: 2, err: "there is no figure, subject, card or fault \"xyzzy\"\n"},
		{name: "an option that is none", files: lab, args: "bind --outt x", status: 2, err: "bind has no option --outt; did you mean --out?\n\"wetside bind --help\" says how it is used", absent: "binder"},
		{name: "an option without its value", files: lab, args: "bind --out", status: 2, err: "--out needs a value behind it", absent: "binder"},
		{name: "proof counts the holes by card", files: lab, args: "proof", out: "  the whole lab: 11\n    the scales ([scale.…] in lab.toml)"},
		{name: "proof lists reviews apart", files: with("solutions/late.toml", strings.Replace(stop, "citric", "late", 1)+"[control]\nreview = 2026-01-01\n"), args: "proof --on 2026-03-14",
			out: "Reviews that are due: 1. Read the card, correct it, and write the next day under [control].\n  solutions/late.toml: 1\n    the review was due on 2026-01-01\n\nNo faults. Cards for 2026-03-14: "},
		{name: "start", args: "start new", out: "Next:\n  wetside bind new"},
		{name: "start where something is", files: lab, args: "start .", status: 2, err: "not empty", absent: "notices"},
	} {
		t.Run(c.name, func(t *testing.T) {
			inFolder(t, c.files)
			status, out, err := wetside(strings.Fields(c.args)...)
			require.Equal(t, c.status, status, "%s%s", out, err)
			require.Contains(t, out, c.out)
			require.Contains(t, err, c.err)
			if c.absent != "" {
				require.NoFileExists(t, c.absent)
				require.NoDirExists(t, c.absent)
			}
		})
	}
}

// TestHelp: help for a command is no mistake, and both it and the list of commands name
// every option that the command takes, and no other.
func TestHelp(t *testing.T) {
	inFolder(t, nil)
	option := regexp.MustCompile(`--[a-z]+`)
	_, all, _ := wetside("help")
	for _, a := range abouts {
		var texts []string
		for _, args := range [][]string{{a.name, "--help"}, {a.name, "-h"}, {a.name, "x", "--help"}, {"help", a.name}} {
			status, out, err := wetside(args...)
			require.Zero(t, status, "%v", args)
			require.Empty(t, err, "%v", args)
			texts = append(texts, out)
		}
		require.Len(t, slices.Compact(texts), 1)
		use, listed, _ := strings.Cut(texts[0], "\nOptions")
		named := option.FindAllString(strings.Split(use, "\n")[0], -1)
		taken := option.FindAllString(listed, -1)
		slices.Sort(named)
		require.Equal(t, named, taken)
		require.Contains(t, all, "wetside "+a.name+" "+a.use+"\n")
	}
	status, _, err := wetside()
	require.Equal(t, misused, status)
	require.Equal(t, all, err, "who says nothing is shown the same")
}

// TestFullPaths: where something was written is said in full, from wherever it was asked.
func TestFullPaths(t *testing.T) {
	dir := inFolder(t, nil)
	_, out, _ := wetside("start", "new")
	require.Contains(t, out, "Wrote a small binder to "+filepath.Join(dir, "new")+".")
	_, out, _ = wetside("bind", "new")
	require.Contains(t, out, "Open "+filepath.Join(dir, "binder", "index.html")+" in a browser.")
}

func TestStartedBinderBinds(t *testing.T) {
	inFolder(t, nil)
	status, _, err := wetside("start", "new")
	require.Zero(t, status, err)
	status, _, err = wetside("bind", "new", "--out", "out")
	require.Zero(t, status, err)
	require.Empty(t, err)
	require.FileExists(t, "out/mix/citric-stop.html")
}

// TestBindAgain: what is unchanged stays untouched, what no longer belongs goes,
// what others put there stays.
func TestBindAgain(t *testing.T) {
	inFolder(t, map[string]string{"lab.toml": "[lab]\nname = \"My darkroom\"\n", "solutions/stop.toml": stop})
	bind := func() string {
		status, out, err := wetside("bind", "--on", "2026-03-14")
		require.Zero(t, status, err)
		return out
	}
	bind()
	require.FileExists(t, "binder/mix/stop.html")
	require.NoError(t, os.WriteFile("binder/mine.txt", []byte("mine"), 0o644))
	require.Contains(t, bind(), "0 files written")
	require.NoError(t, os.Rename("solutions/stop.toml", "solutions/halt.toml"))
	bind()
	require.NoFileExists(t, "binder/mix/stop.html")
	require.FileExists(t, "binder/mix/halt.html")
	require.FileExists(t, "binder/mine.txt")

	// A fault leaves the last good binder as it was.
	require.NoError(t, os.WriteFile("solutions/halt.toml", []byte("name = \n"), 0o644))
	status, _, err := wetside("bind")
	require.Equal(t, 1, status)
	require.Contains(t, err, "nothing was written")
	require.FileExists(t, "binder/mix/halt.html")
}

// TestBindBroken: a binder that cannot be rendered leaves the last one as it was, and no
// folder where there was none.
func TestBindBroken(t *testing.T) {
	files := map[string]string{"lab.toml": "[lab]\nname = \"My darkroom\"\n", "solutions/stop.toml": stop}
	inFolder(t, files)
	status, _, err := wetside("bind", "--on", "2026-03-14")
	require.Zero(t, status, err)
	list, cause := os.ReadFile("binder/.made")
	require.NoError(t, cause)
	require.NoError(t, os.MkdirAll("house-style/blocks", 0o755))
	require.NoError(t, os.WriteFile("house-style/blocks/para.html", []byte("{{.B.Nothing}}"), 0o644))
	require.NoError(t, os.WriteFile("solutions/halt.toml", []byte(strings.Replace(stop, "citric", "other", 1)), 0o644))
	for _, out := range []string{"binder", "other"} {
		status, _, err = wetside("bind", "--on", "2026-03-14", "--out", out)
		require.Equal(t, 2, status)
		require.Contains(t, err, "Nothing")
	}
	require.NoDirExists(t, "other")
	now, cause := os.ReadFile("binder/.made")
	require.NoError(t, cause)
	require.Equal(t, string(list), string(now))
	require.NoError(t, filepath.WalkDir("binder", func(name string, _ fs.DirEntry, err error) error {
		require.NotContains(t, name, ".part")
		require.NotContains(t, name, "halt")
		return err
	}))
}

// TestLinkOutOfTheFolder: a binder reads nothing from outside its folder.
func TestLinkOutOfTheFolder(t *testing.T) {
	outside := filepath.Join(t.TempDir(), "stop.toml")
	require.NoError(t, os.WriteFile(outside, []byte(stop), 0o644))
	inFolder(t, map[string]string{"lab.toml": "[lab]\nname = \"My darkroom\"\n", "solutions/halt.toml": stop})
	require.NoError(t, os.Symlink(outside, "solutions/stop.toml"))
	status, _, err := wetside("bind")
	require.Equal(t, 1, status)
	require.Contains(t, err, "solutions/stop.toml:1:1: leads out of this folder")
	require.NoDirExists(t, "binder")
}

// TestGuarded: a mistake of the program itself is one line and status 2, no dump of
// its insides.
func TestGuarded(t *testing.T) {
	var said bytes.Buffer
	require.Equal(t, misused, guarded([]string{"help"}, nil, &said))
	require.Equal(t, 1, strings.Count(said.String(), "\n"))
	require.Contains(t, said.String(), "a mistake of the program, not of the binder")
}
