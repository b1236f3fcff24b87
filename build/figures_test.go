package build_test

import (
	"os"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/procedures/figure"
)

const demonstrationFigures = "../testdata/demonstration/figures.tsv"

// shownAs is a figure as the file of the demonstration's figures has it.
func shownAs(f *figure.Record, ok bool) string {
	switch {
	case !ok:
		return "-"
	case f.Refused():
		return "NO"
	}
	return strings.TrimSpace(f.Shown + " " + f.Unit)
}

// TestDemonstrationFigures: the figures of the demonstration are those of the file,
// and none has changed without the finding that says so. WETSIDE_FIGURES=write brings
// the file up to date; the finding is written by hand.
func TestDemonstrationFigures(t *testing.T) {
	b, err := os.ReadFile(demonstrationFigures)
	require.NoError(t, err)
	now := figuresOf(boundLab(t, "demo"))
	seen := map[string]bool{}
	var lines, rows []string
	for _, line := range strings.Split(strings.TrimSuffix(string(b), "\n"), "\n") {
		if strings.HasPrefix(line, "#") {
			lines = append(lines, line)
			continue
		}
		cols := strings.Split(line, "\t")
		require.Len(t, cols, 4, line)
		f, ok := now[cols[0]]
		seen[cols[0]] = true
		if os.Getenv("WETSIDE_FIGURES") == "write" {
			cols[2] = shownAs(f, ok)
			rows = append(rows, strings.Join(cols, "\t"))
			continue
		}
		require.Equal(t, cols[2], shownAs(f, ok), "%s has changed", cols[0])
		require.Equal(t, cols[1] != cols[2], cols[3] != "", "%s: %s before, %s now, finding %q", cols[0], cols[1], cols[2], cols[3])
	}
	for id, f := range now {
		if !seen[id] {
			rows = append(rows, strings.Join([]string{id, "-", shownAs(f, true), ""}, "\t"))
			require.Equal(t, "write", os.Getenv("WETSIDE_FIGURES"), "%s is new", id)
		}
	}
	if os.Getenv("WETSIDE_FIGURES") == "write" {
		sort.Strings(rows)
		require.NoError(t, os.WriteFile(demonstrationFigures, []byte(strings.Join(append(lines, rows...), "\n")+"\n"), 0o644))
	}
	require.Greater(t, len(seen), 4000)
}

const labAnswers = "../testdata/labs/answers.tsv"

// answersOf are all figures and verdicts of a lab, a line each: what is shown, or why
// there is nothing to show.
func answersOf(lab string, r *build.Result) []string {
	var out []string
	say := func(kind, id, what string) {
		out = append(out, strings.Join([]string{lab, kind, id, strings.Join(strings.Fields(what), " ")}, "\t"))
	}
	for _, f := range r.Binder.Answers {
		what := shownAs(f, true)
		if f.Refused() {
			what = "NO: " + f.Why
		} else if f.Origin.Weak() {
			what += " (" + f.Origin.String() + ")"
		}
		say("figure", f.ID, what)
	}
	for _, v := range r.Binder.Verdicts {
		say("verdict", v.ID, v.Answer+"; "+strings.Join(v.Limits, ", ")+"; "+strings.Join(v.Because, ", "))
	}
	for _, p := range r.Binder.Pages {
		for _, h := range p.Foot.Holes {
			say("hole", p.ID, h.What+": "+h.Until)
		}
	}
	return out
}

// TestLabAnswers: the three labs that nobody tuned answer as their file says. What was
// worked out for them by hand stands in values.tsv; this file says that nothing else has
// changed unseen. WETSIDE_FIGURES=write brings it up to date: read what has changed.
func TestLabAnswers(t *testing.T) {
	lines := []string{"# What the three labs answer: every figure, verdict and hole. What was worked out by hand", "# stands in values.tsv; a line that changes here is read before it is written.", "# lab\tkind\tid\tanswer"}
	for _, name := range []string{"film", "print", "school"} {
		answers := answersOf(name, boundLab(t, name))
		slices.Sort(answers)
		lines = append(lines, answers...)
	}
	if os.Getenv("WETSIDE_FIGURES") == "write" {
		require.NoError(t, os.WriteFile(labAnswers, []byte(strings.Join(lines, "\n")+"\n"), 0o644))
	}
	b, err := os.ReadFile(labAnswers)
	require.NoError(t, err)
	want := strings.Split(strings.TrimSuffix(string(b), "\n"), "\n")
	have := map[string]bool{}
	for _, l := range lines {
		have[l] = true
	}
	var gone []string
	for _, l := range want {
		if !have[l] {
			gone = append(gone, l)
		}
		delete(have, l)
	}
	require.Empty(t, gone, "no longer so")
	require.Empty(t, have, "new")
}
