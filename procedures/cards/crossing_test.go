package cards

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/lab"
	"wetside/procedures/work"
)

// TestCrossing: a wash that keeps thiocyanate out of an acid bath says so once: by the lab's own
// words where they name the gas, else by ours. Without a wash the step itself asks for one.
func TestCrossing(t *testing.T) {
	bath := func(name string) *work.Bath {
		return &work.Bath{Bath: lab.Bath{Solution: &lab.Solution{Name: name}, Strength: "working"}}
	}
	for _, c := range []struct {
		name, gate     string
		rinsed, unsaid bool
		want           string
	}{
		{"a wash between", "", true, false, "Do not shorten this wash: thiocyanate is carried from soup into bleach and can give hydrogen cyanide there."},
		{"the lab says it", "a trace can give hydrogen cyanide", true, false, ""},
		{"the lab says something else", "ten minutes at least", true, false, "From soup there can come hydrogen cyanide."},
		{"no wash", "a trace can give hydrogen cyanide", false, false, "Wash before this step, with the extractor fan on: thiocyanate is carried from soup into bleach and can give hydrogen cyanide there."},
		{"nobody knows what is in it", "", true, true, "Do not shorten this wash: thiocyanate is carried from soup into bleach, of which nobody has written whether it is acid, and can give hydrogen cyanide there."},
	} {
		said := ""
		for _, text := range crossing(&work.Step{Decl: lab.ProcessStep{Gate: c.gate},
			Cyanide: &work.Cyanide{From: bath("soup"), Into: bath("bleach"), Rinsed: c.rinsed, Unsaid: c.unsaid}}) {
			for _, in := range text {
				said += in.Text
			}
		}
		require.Equal(t, c.want, said, c.name)
	}
	require.Empty(t, crossing(&work.Step{}))
}
