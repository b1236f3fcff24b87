package timing

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// TestDriftTooFar: a bath is too far off when its average is, or may be, further from where it began than it
// may; just as far passes, in a colder room as in a warmer, and where nobody has said a limit none is passed.
func TestDriftTooFar(t *testing.T) {
	const tau = 40 * 60
	half := unit.Seconds(tau) // after one time constant the average has lost exp(-1) of the difference
	const lost = 6 * 0.36787944117144233
	for name, c := range map[string]struct {
		room   unit.Temperature
		within unit.Kelvin
		low    unit.Seconds // the tank may be as quick as that
		far    bool
	}{
		"colder, just as far":      {14, lost, tau, false},
		"colder, a little too far": {14, lost - 0.001, tau, true},
		"warmer, just as far":      {26, lost, tau, false},
		"warmer, a little too far": {26, lost - 0.001, tau, true},
		"it may be quicker":        {14, lost, 0.9 * tau, true},
		"quicker, and warmer":      {26, lost, 0.9 * tau, true},
		"nobody has said a limit":  {0, 0, tau, false},
	} {
		times := Times{Book: figure.NewLedger()}
		constant := figure.Constant(unit.Seconds(tau), "time constant", "", figure.House).WithBounds(c.low, tau)
		long := figure.Constant(half, "how long", "", figure.House)
		got := times.Drifts("tank.x/drift", c.room, 20, long, constant, c.within)
		require.Equal(t, c.far, got.Far, name)
	}
}
