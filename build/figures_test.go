package build_test

import (
	"os"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
)

const demonstrationFigures = "../testdata/demonstration/figures.tsv"

// shownAs is a figure as the file of the demonstration's figures has it.
func shownAs(f figure.Record, ok bool) string {
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
