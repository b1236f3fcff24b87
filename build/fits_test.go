package build_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
)

// TestFits: what does not fit its paper is told as a warning, with its place, by how
// many mm and what was done; the machine's list names the card.
func TestFits(t *testing.T) {
	step := "[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n"
	stop := "name = \"citric stop\"\nper = \"1 L\"\n" + step
	for _, c := range []struct {
		papers, place, says string
	}{
		{`["index"]`, "lab.toml:4:11", "too high for one sheet of index at its smallest type: cut between steps, over "},
		{`["a5", "index"]`, "lab.toml:4:17", "it is on a5, the next larger paper"},
	} {
		r, err := build.Bind(options(folder(map[string]string{
			"lab.toml":            "[lab]\nname = \"My darkroom\"\n[print]\npapers = " + c.papers + "\n",
			"solutions/stop.toml": stop,
		})))
		require.NoError(t, err)
		require.False(t, r.Faults.HasErrors(), r.Faults)
		var line string
		for _, f := range r.Fits {
			if f.Cards[0] == "mix/stop" {
				line = f.String()
			}
		}
		require.True(t, strings.HasPrefix(line, c.place), line)
		require.Contains(t, line, c.says)
		require.Regexp(t, ` is [0-9]+ mm too high`, line)
		var b bytes.Buffer
		require.NoError(t, r.Fits.WriteJSON(&b))
		var list []struct {
			Code, Severity string
			Cards          []string
		}
		require.NoError(t, json.Unmarshal(b.Bytes(), &list))
		require.Equal(t, "fit", list[0].Code)
		require.Equal(t, "warning", list[0].Severity)
		require.NotEmpty(t, list[0].Cards)
	}
}

// TestFitsElsewhere: what would take too many sheets of a small paper is told with the paper that
// holds it, and is on that.
func TestFitsElsewhere(t *testing.T) {
	var steps strings.Builder
	for i := range 30 {
		fmt.Fprintf(&steps, "[[step]]\nid = \"s%d\"\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n", i)
	}
	r, err := build.Bind(options(folder(map[string]string{
		"lab.toml":            "[lab]\nname = \"My darkroom\"\n[print]\npapers = [\"a6\"]\n",
		"solutions/stop.toml": "name = \"citric stop\"\nper = \"1 L\"\n" + steps.String(),
	})))
	require.NoError(t, err)
	require.False(t, r.Faults.HasErrors(), r.Faults)
	told := ""
	for _, f := range r.Fits {
		if f.Cards[0] == "mix/stop" {
			told = f.String() + f.Hint
		}
	}
	require.Regexp(t, `would take [3-9] cards of a6, which nobody reads at work: it is on (a5|a4) `, told)
	require.Contains(t, told, "under [print] papers")
	small, larger := 0, 0
	for _, f := range r.Files {
		if strings.Contains(f.Path, "/stop.stock+") && strings.HasPrefix(f.Path, "wall/") {
			if strings.HasPrefix(f.Path, "wall/a6/") {
				small++
			} else {
				larger++
			}
		}
	}
	require.Zero(t, small)
	require.Positive(t, larger)
	// Nobody looks for help on the second of two small cards.
	for _, help := range []string{"emergency", "spill-stop"} {
		on := map[string]bool{}
		for _, f := range r.Files {
			if strings.HasSuffix(f.Path, "/"+help+".html") {
				on[f.Path] = true
			}
		}
		require.True(t, on["wall/a4/"+help+".html"], help)
		require.False(t, on["wall/a6/"+help+".html"], help)
	}
}

// TestPapersFault: an unknown paper is a fault at its place.
func TestPapersFault(t *testing.T) {
	r, err := build.Bind(options(folder(map[string]string{
		"lab.toml": "[lab]\nname = \"My darkroom\"\n[print]\npapers = [\"a5\", \"half-leter\"]\n",
	})))
	require.NoError(t, err)
	require.Len(t, r.Faults, 1)
	require.Equal(t, `lab.toml:4:17: "half-leter" is not a paper [word]`, r.Faults[0].String())
	require.Contains(t, r.Faults[0].Hint, `did you mean "half-letter"`)
}

// TestNoName: a lab without a name still prints every card.
func TestNoName(t *testing.T) {
	r, err := build.Bind(options(folder(map[string]string{
		"lab.toml":            "[print]\npapers = [\"index\"]\npunch = true\nlaminate = true\nmono = true\n",
		"solutions/stop.toml": "name = \"" + strings.Repeat("citric stop ", 10) + "\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n",
	})))
	require.NoError(t, err)
	require.False(t, r.Faults.HasErrors(), r.Faults)
	found, small := 0, 0
	for _, f := range r.Files {
		if strings.HasPrefix(f.Path, "wall/index/") {
			small++
		}
		if strings.HasPrefix(f.Path, "wall/") {
			found++
			require.Contains(t, string(f.Bytes), "Never</h2>", f.Path)
		}
	}
	require.Greater(t, found, 3)
	require.Positive(t, small) // first aid and spills are on the usual paper
}
