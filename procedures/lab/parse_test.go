package lab

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTurns(t *testing.T) {
	for _, c := range []struct {
		in    string
		count int
		over  float64
		ok    bool
	}{
		{"6 in 30 s", 6, 30, true}, {"4 every 60 s", 4, 60, true}, {"4 every 1 min", 4, 60, true}, {"continuous for 15 s", 0, 15, true},
		{"continuous in 15 s", 0, 0, false}, {"6 for 30 s", 0, 0, false}, {"0 in 30 s", 0, 0, false}, {"6 in 0 s", 0, 0, false}, {"six in 30 s", 0, 0, false}, {"6 in 30 g", 0, 0, false}, {"", 0, 0, false},
	} {
		var turns Turns
		err := turns.UnmarshalText([]byte(c.in))
		require.Equal(t, c.ok, err == nil, "%q: %v", c.in, err)
		if c.ok {
			require.Equal(t, c.count, turns.Count)
			require.Equal(t, c.over, float64(turns.Over.Value()))
		}
	}
}

func FuzzStepWords(f *testing.F) {
	for _, s := range []string{"6 in 30 s", "4 every 60 s", "continuous for 15 s", "material", "clearing", "1:00", "99999999999999999999 in 1 s", "6 in 1:4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var turns Turns
		if turns.UnmarshalText([]byte(s)) == nil {
			require.Positive(t, turns.Over.Exact().Sign())
		}
		var time StepTime
		if time.UnmarshalText([]byte(s)) == nil {
			require.True(t, time.Material || time.Clearing || time.Fixed.Given())
		}
	})
}
