package lab

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// timedBy is a process whose first bath is timed by the material, and which goes on
// to another.
func timedBy(id string, base Base, developer, then string) *Process {
	return &Process{Def: Def{ID: id}, Base: base, Steps: []ProcessStep{{ID: "develop", Bath: developer, Time: StepTime{Material: true}}, {ID: "then", Bath: then}}}
}

// TestThrough: a film goes through the processes whose developer it has a time in, and
// so through their other baths; one that no developer has a time for through all
// processes of its base; and where nothing is timed by the film, all go through.
func TestThrough(t *testing.T) {
	strengths := map[string]*Strength{"working": {}}
	film := func(id, developer string) *Material {
		m := &Material{Def: Def{ID: id}, Base: "film"}
		if developer != "" {
			m.Develop = []Develop{{In: developer}}
		}
		return m
	}
	l := &Lab{
		Solutions: []*Solution{{Def: Def{ID: "one"}, Strengths: strengths}, {Def: Def{ID: "other"}, Strengths: strengths}, {Def: Def{ID: "fixer"}, Strengths: strengths}, {Def: Def{ID: "spare"}, Strengths: strengths}},
		Materials: []*Material{film("a", "one.working"), film("b", "other.working"), film("timeless", ""), {Def: Def{ID: "paper"}, Base: "fibre"}},
		Processes: []*Process{timedBy("first", "film", "one.working", "fixer.working"), timedBy("second", "film", "other.working", "spare.working"),
			{Def: Def{ID: "tone"}, Base: "fibre", Steps: []ProcessStep{{ID: "tone", Bath: "fixer.working"}}}},
	}
	l.Place.Use = map[string]PiecesList{"second": {{Of: "a.135-36", Count: 2}}}
	l.Index()
	ids := func(list []*Material) (out []string) {
		for _, m := range list {
			out = append(out, m.ID)
		}
		return out
	}
	bath := func(id string) Bath { return Bath{Solution: l.Solution(id), Strength: "working"} }
	require.Equal(t, []string{"a", "timeless"}, ids(l.Through(l.Processes[0])))
	require.Equal(t, []string{"a", "b", "timeless"}, ids(l.Through(l.Processes[1])), "a month's work sends a through it")
	require.Equal(t, []string{"paper"}, ids(l.Through(l.Processes[2])))
	require.Equal(t, []string{"a", "timeless"}, ids(l.Treated(bath("fixer"), "film")))
	require.Equal(t, []string{"paper"}, ids(l.Treated(bath("fixer"), "fibre")))
	require.Equal(t, []string{"a", "b", "timeless"}, ids(l.Treated(bath("spare"), "film")))
	require.Equal(t, []string{"paper"}, ids(l.Treated(bath("spare"), "fibre")), "no process of the base uses it")
	require.Equal(t, []Base{"film", "fibre"}, l.BasesOf(bath("fixer")))
}
