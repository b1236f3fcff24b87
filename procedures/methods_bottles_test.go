package procedures_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/air"
)

// emptiedBottles tries, for many labs and batches, every set of bottles by counting through all of
// them, and wants none that is better than the one that was found.
func emptiedBottles(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	found, none, several, rests := 0, 0, 0, 0
	for range 4000 {
		kinds := make([]air.Kind, 1+random.IntN(3))
		for i := range kinds {
			kinds[i] = air.Kind{Holds: int64(i*300 + 100*(1+random.IntN(3))), Count: random.IntN(6)}
		}
		volume, draw := int64(100*(1+random.IntN(30))), int64(50*(1+random.IntN(20)))
		got, ok := air.BottlesFor(volume, draw, kinds)
		best, exists := air.Split{}, false
		for draws := int64(1); draws <= 3 && !exists; draws++ {
			if draws*draw > volume || volume/(draws*draw) > 12 {
				continue
			}
			best, exists = bestSplit(volume, draws*draw, kinds)
			best.Draws = int(draws)
		}
		require.Equal(t, exists, ok, "%d ml in draws of %d from %v", volume/10, draw/10, kinds)
		if !ok {
			none++
			continue
		}
		require.Equal(t, best.Draws, got.Draws, "%v %d %d", kinds, volume, draw)
		require.Equal(t, best.Air, got.Air, "%v %d %d", kinds, volume, draw)
		require.Equal(t, number(best.Set), number(got.Set), "%v %d %d", kinds, volume, draw)
		require.Equal(t, airIn(best.Rest, kinds), airIn(got.Rest, kinds), "%v %d %d", kinds, volume, draw)
		found++
		if got.Draws > 1 {
			several++
		}
		if number(got.Rest) > 0 {
			rests++
		}
	}
	require.Greater(t, found, 800)
	require.Greater(t, none, 500)
	require.Greater(t, several, 100)
	require.Greater(t, rests, 300)

	demonstration := []air.Kind{{Holds: 1000, Count: 12}, {Holds: 2500, Count: 10}, {Holds: 5000, Count: 10}, {Holds: 10000, Count: 14}}
	litre, ok := air.BottlesFor(10000, 3000, demonstration)
	require.True(t, ok)
	require.Equal(t, []int{10, 0, 0, 0}, litre.All(), "worked example H4 as corrected: three draws of 300 ml, and 100 ml over; no bottle of 300 ml exists, three of 100 ml are full")
	require.Equal(t, 3, litre.Sets)
	require.Equal(t, []int{1, 0, 0, 0}, litre.Rest)
	_, ok = air.BottlesFor(2000, 3000, demonstration)
	require.False(t, ok, "a draw is more than the batch")
}

func number(set []int) int {
	n := 0
	for _, k := range set {
		n += k
	}
	return n
}

func airIn(set []int, kinds []air.Kind) int64 {
	var sum int64
	for i, n := range set {
		sum += int64(n) * kinds[i].Holds
	}
	return sum
}

// bestSplit counts through all sets of up to six bottles, and for each through all sets for the rest.
func bestSplit(volume, amount int64, kinds []air.Kind) (best air.Split, found bool) {
	sets := int(volume / amount)
	rest := volume - int64(sets)*amount
	all := func(of []air.Kind) [][]int {
		out := [][]int{make([]int, len(of))}
		for i := range of {
			var next [][]int
			for _, s := range out {
				for n := 0; n <= 6-number(s); n++ {
					more := append([]int{}, s...)
					more[i] = n
					next = append(next, more)
				}
			}
			out = next
		}
		return out
	}(kinds)
	needed := func(set []int, least int64) bool { // it holds so much, and no bottle stays empty
		if airIn(set, kinds) < least {
			return false
		}
		for i, n := range set {
			if n > 0 && airIn(set, kinds)-kinds[i].Holds >= least {
				return false
			}
		}
		return true
	}
	for _, set := range all {
		if !needed(set, amount) || airIn(set, kinds) > 2*amount {
			continue
		}
		var least []int
		for _, more := range all {
			if rest == 0 && number(more) > 0 || rest > 0 && !needed(more, rest) {
				continue
			}
			if !owned(kinds, set, more, sets) {
				continue
			}
			if least == nil || airIn(more, kinds) < airIn(least, kinds) || airIn(more, kinds) == airIn(least, kinds) && number(more) < number(least) {
				least = more
			}
		}
		if least == nil || sets*number(set)+number(least) > 12 {
			continue
		}
		over := airIn(set, kinds) - amount
		alike := found && over == best.Air && number(set) == number(best.Set)
		if !found || over < best.Air || over == best.Air && number(set) < number(best.Set) || alike && larger(set, best.Set) {
			best, found = air.Split{Sets: sets, Set: set, Rest: least, Air: over}, true
		}
	}
	return best, found
}

// larger reports whether the first set has more of the largest bottles; kinds grow in size.
func larger(a, b []int) bool {
	for i := len(a) - 1; i >= 0; i-- {
		if a[i] != b[i] {
			return a[i] > b[i]
		}
	}
	return false
}

func owned(kinds []air.Kind, set, rest []int, sets int) bool {
	for i, k := range kinds {
		if k.Count > 0 && sets*set[i]+rest[i] > k.Count {
			return false
		}
	}
	return true
}
