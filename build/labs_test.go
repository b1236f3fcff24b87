package build_test

import (
	"bytes"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/content"
	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
	"wetside/testdata/published"
	"wetside/themes"
)

// labs are the demonstration and three labs that nobody tuned, each with the day
// it is worked out for.
var labs = map[string]string{"demo": "2026-03-14", "film": "2026-05-22", "print": "2026-09-05", "school": "2026-10-14"}

func labFS(t *testing.T, name string) fs.FS {
	t.Helper()
	if name == "demo" {
		src, err := fs.Sub(content.FS, "demo")
		require.NoError(t, err)
		return src
	}
	return os.DirFS("../testdata/labs/" + name)
}

func labOptions(t *testing.T, name string, src fs.FS) build.Options {
	t.Helper()
	day, err := unit.ParseDate(labs[name])
	require.NoError(t, err)
	return build.Options{Source: src, Library: content.FS, Theme: themes.FS, On: day}
}

var (
	labMutex sync.Mutex
	labBound = map[string]*build.Result{}
)

// boundLab is a lab with its pages, made once for all tests.
func boundLab(t *testing.T, name string) *build.Result {
	t.Helper()
	labMutex.Lock()
	defer labMutex.Unlock()
	if labBound[name] == nil {
		r, err := build.Bind(labOptions(t, name, labFS(t, name)))
		require.NoError(t, err)
		require.False(t, r.Faults.HasErrors(), "%s: %v", name, r.Faults)
		labBound[name] = r
	}
	return labBound[name]
}

// boundFiles binds a lab for a test that looks at some of its files: no others are made.
func boundFiles(t testing.TB, o build.Options, wanted func(path string) bool) *build.Result {
	t.Helper()
	var files some
	files.wanted = wanted
	r, err := build.BindInto(o, &files)
	require.NoError(t, err)
	r.Files = files.list
	return r
}

// some keeps the files that are wanted.
type some struct {
	wanted func(path string) bool
	mutex  sync.Mutex
	list   []build.File
}

func (s *some) Begin([]string) error { return nil }

func (s *some) Put(path string, write func(io.Writer) error) error {
	if !s.wanted(path) {
		return nil
	}
	var b bytes.Buffer
	err := write(&b)
	s.mutex.Lock()
	defer s.mutex.Unlock()
	s.list = append(s.list, build.File{Path: path, Bytes: b.Bytes()})
	return err
}

// these are files by the beginnings of their paths.
func these(begin ...string) func(string) bool {
	return func(path string) bool {
		return slices.ContainsFunc(begin, func(b string) bool { return strings.HasPrefix(path, b) })
	}
}

func figuresOf(r *build.Result) map[string]*figure.Record {
	out := map[string]*figure.Record{}
	for _, f := range r.Binder.Answers {
		out[f.ID] = f
	}
	return out
}

// TestLabValues holds three labs against what was worked out for them by hand.
func TestLabValues(t *testing.T) {
	b, err := os.ReadFile("../testdata/labs/values.tsv")
	require.NoError(t, err)
	n := 0
	for _, line := range strings.Split(strings.TrimSpace(string(b)), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		cols := strings.Split(line, "\t")
		require.Len(t, cols, 5, line)
		f, ok := figuresOf(boundLab(t, cols[0]))[cols[1]]
		require.True(t, ok, "%s: no figure %s", cols[0], cols[1])
		require.Equal(t, cols[2]+" "+cols[3], f.Shown+" "+f.Unit, "%s %s: %s", cols[0], cols[1], cols[4])
		n++
	}
	require.Greater(t, n, 100)
}

// TestFixersByKind: the twenty rolls a litre of an ammonium fixer are told of no bath
// of plain hypo; that is held against what published tests of such baths came to.
func TestFixersByKind(t *testing.T) {
	rows := published.Open(t, "fixers.tsv")
	const foot, gallon, wide = .3048, 3.785412, .035 // m, L, m
	rolls := func(feet string) float64 { return rows.Row(feet).Want * foot * wide / gallon / .0516128 }
	rows.Holds("fix_neg_roll", rolls("fix_neg"))
	rows.Holds("fix_neg_ag_roll", rolls("fix_neg_ag"))
	ammonium, plain := rows.Row("cap_film"), rows.Row("fix_neg_ag_roll")
	require.Less(t, plain.Want, ammonium.Want)
	seen := map[bool]int{}
	for name := range labs {
		r := boundLab(t, name)
		l := r.Loaded.Lab
		for _, b := range l.Baths() {
			if b.Role() != "fixer" || b.Solution == nil {
				continue
			}
			hypo := map[string]bool{}
			for i, s := range b.Solution.Steps {
				if in, bad := l.Resolve(s.Add, b.Solution.At(lab.StepKey(i))); len(bad) == 0 && in.Chemical != nil {
					hypo[in.Chemical.ID] = true
				}
			}
			for _, f := range capacity.Formats(l, l.OfBase("film")...) {
				n, ok := figuresOf(r)[b.Ref()+"/capacity@"+f.Ref()+",1000ml"]
				q, counted := f.Rolls()
				if !ok || n.Refused() || !counted {
					continue
				}
				isPlain := hypo["sodium-thiosulfate"] && !hypo["ammonium-thiosulfate"]
				most := ammonium.Want + ammonium.Tolerance
				if isPlain {
					most = plain.Want
				}
				require.LessOrEqual(t, n.Value*float64(q.Value), most, "%s: %s of %s in %s", name, n.Shown, f.Ref(), b.Ref())
				seen[isPlain]++
			}
		}
	}
	require.Positive(t, seen[true])
	require.Positive(t, seen[false])
}

// TestLabStates holds each batch of the three labs against the state that was worked
// out for it by hand, and what says so.
func TestLabStates(t *testing.T) {
	for name, states := range map[string]map[string]string{
		"film": {"2601": "good: mixed", "2602": "good: opened", "2603": "dying: below half", "2604": "dead: silver", "2605": "good: opened", "2606": "dead: rolls", "2607": "dead: uses",
			"2608": "dead: mixed", "2609": "dying: in the tray", "2610": "cannot be judged: nobody has written how long an opened bottle of it keeps", "2611": "good: opened", "2612": "good: mixed", "2613": "good: opened"},
		"print": {"k01": "good: mixed", "k02": "dying: below half", "k03": "good: opened", "k04": "dying: in the tray", "k05": "dying: in the tray", "k06": "dead: this lab’s count", "k07": "dead: in the tray",
			"k08": "good: opened", "k09": "cannot be judged: nobody has written how long an opened bottle of it keeps", "k10": "dying: in the tray", "k11": "good: mixed", "k12": "dead: mixed", "k13": "good: opened"},
		"school": {"101": "good: mixed", "102": "dying: opened", "103": "dead: rolls", "104": "good: opened", "105": "dead: rolls", "106": "dying: in the tray", "107": "dead: mixed",
			"108": "cannot be judged: nobody has written how long rinse aid, supplied, keeps", "109": "dying: below half", "110": "good: opened", "111": "good: below half", "112": "good: opened"},
	} {
		got := map[string]string{}
		for id, v := range verdicts(boundLab(t, name)) {
			batch, ok := strings.CutSuffix(id, "/state")
			if !ok {
				continue
			}
			why := v.Because[0]
			if _, after, ok := strings.Cut(why, "reason \""); ok {
				why, _, _ = strings.Cut(after, "\"")
			}
			got[batch] = v.Answer + ": " + strings.TrimPrefix(why, "spent by ")
		}
		require.Equal(t, states, got, name)
	}
	// A count that is not known is refused with its reason, and never a number.
	for lab, ids := range map[string][]string{
		"film": {"2606/silver", "2607/silver", "2613/left", "2610/dies"}, "school": {"105/silver"},
		"print": {"print-fixer.tray/capacity@fibre-smooth.18x24,1000ml,place=2", "print-fixer.tray/capacity@fibre-smooth.40x50,4200ml,place=2"},
	} {
		for _, id := range ids {
			f, ok := figuresOf(boundLab(t, lab))[id]
			require.True(t, ok && f.Refused(), "%s: %s is %q", lab, id, f.Shown)
		}
	}
}

// TestLabCards: what must stand on the cards of labs that nobody tuned, and what must
// not.
func TestLabCards(t *testing.T) {
	for _, c := range []struct {
		lab, file string
		says      []string
		not       []string
	}{
		{"film", "process/film-warm.html", []string{"22.0 °C", "the tank serves", "2 × 135", "Dead, do not use: rapid fixer concentrate , film , batch 2604", "the first fill to the drum for silver"}, []string{"Not enough: acetic stop", "look at the shelf board first"}},
		{"film", "process/film-mild.html", []string{"1 × 120 or 1 × 135", "2 × 120 or 3 × 135"}, []string{"22.0 °C"}},
		{"film", "mix/film-concentrate.html", []string{"1 roll (limit: the solution)", "3 rolls (limit: the solution)", "3 × 3.9 ml , 5 ml syringe"}, nil},
		{"film", "mix/acid-stop.html", []string{"start with tap water", "370 ml"}, []string{"instead"}},
		{"film", "label/2605.html", []string{"8 done, by the log", "19", "more, by silver", "Fix at least", "7:20", "the limit"}, []string{"Dead"}},
		{"film", "label/2606.html", []string{"Dead: do not use."}, []string{"how many more"}},
		{"film", "shelf/index.html", []string{"cannot be judged", "nobody has written how long an opened bottle of it keeps"}, nil},
		{"film", "board/shopping.html", []string{"Film developer concentrate", "Rapid fixer concentrate", "1645 ml"}, nil},
		{"print", "process/fibre-print.html", []string{"first of two", "second of two", "2:05", "pour it back into its bottle, tick the prints"}, []string{"No time"}},
		{"print", "process/cyanotype.html", []string{"2.2 ml", "a sheet of 28×38"}, nil},
		{"print", "label/k06.html", []string{"first bath", "Dead: do not use."}, []string{"second bath"}},
		{"print", "label/k04.html", []string{"20 done, by the log", "4", "by this lab’s count"}, nil},
		{"print", "board/shopping.html", []string{"Ammonium iron(III) citrate, green"}, nil},
		{"school", "mix/class-developer.html", []string{"review overdue since 2026-09-29: ask first"}, nil},
		{"school", "mix/hardening-fixer.html", nil, []string{"review overdue"}},
		{"school", "index.html", []string{"Past the review date: ask first", "Class film developer since 2026-09-29", "Somebody is hurt since 2026-09-30"}, nil},
		{"school", "reuse/102.html", []string{"at 21.0 °C", "7.2 rolls", "10:15"}, []string{"at 20.0 °C"}},
		{"school", "process/film-class.html", []string{"Dead, do not use: class film developer , class , batch 103", "3 × 127", "4 × 135"}, nil},
		{"demo", "process/film-reversal.html", []string{"Dead, do not use: reversal bleach A, permanganate , stock , batch 0310", "Not on the shelf: reversal first developer", "reversal bleach B, acid , stock", "potassium thiocyanate 20 % , stock", ": mix first"}, nil},
		{"demo", "mix/film-developer.html", []string{"Not on the shelf: potassium bromide 10 % , stock : mix first"}, nil},
		{"demo", "label/0310.html", []string{"not into any drum of this room", "(danger: fire"}, []string{"not the drum for"}},
		{"demo", "label/0307.html", []string{"15 done, by the log", "4 films"}, nil},
		{"demo", "label/0308.html", []string{"26 done, by the log", "14 prints"}, nil},
		{"demo", "label/0302.html", []string{"3 done, by the log", "3 films"}, nil},
		{"demo", "label/0311.html", []string{"second bath", "how many more: ask first"}, nil},
		{"demo", "mix/print-developer.html", []string{"Pregnant or breast-feeding: do not mix this."}, nil},
		{"demo", "mix/selenium-toner.html", []string{"Pregnant or breast-feeding"}, nil},
		{"demo", "protect/selenium-toner.html", []string{"Pregnant or breast-feeding: do not handle this."}, nil},
		{"demo", "mix/acetic-stop.html", []string{"extractor fan on", "face shield"}, []string{"FFP"}},
		{"demo", "process/selenium-toning.html", []string{"Tongs", "hydrogen selenide"}, nil},
		{"demo", "process/film-negative.html", []string{"no sign of bad fixing", "or 2 × 3 × the clearing time, if longer"}, nil},
		{"demo", "chemical/borax.html", []string{"harms the unborn child"}, nil},
		{"demo", "mix/bromide-ten.html", nil, []string{"Never start with the full", "never start with the full"}},
		{"demo", "label/bromide-ten.stock.html", nil, []string{"pour another bath"}},
	} {
		t.Run(c.lab+"/"+c.file, func(t *testing.T) {
			said := fileText(t, boundLab(t, c.lab), c.file)
			for _, s := range c.says {
				require.Contains(t, strings.ToLower(said), strings.ToLower(s))
			}
			for _, s := range c.not {
				require.NotContains(t, said, s)
			}
		})
	}
}
