package air

import (
	"cmp"
	"slices"

	"wetside/procedures/figure"
)

// Emptied is H4: into which bottles a batch goes, so that each that is opened is emptied at once.
var Emptied = figure.RegisterMethod(&figure.Method{
	ID: "air.bottles", Name: "bottles that are emptied at once",
	Equations: []string{
		"a set of bottles is opened together and emptied by one draw; where the lab has too few bottles for that, by the least number of draws for which it has enough",
		"of the sets that hold so much and are at least half full, the one with the least air in it; of those, the one with the fewest bottles, then the largest ones",
		"as many sets as the batch fills, and what is left over in the set that holds it with the least air",
	},
	Check:  "no other set with so much in it has less air, or as little in fewer bottles, that the lab has enough bottles for",
	Valid:  "at most a dozen bottles for a batch, six in a set and three draws to empty it; all bottles that the lab owns are empty",
	Source: "common practice, no source", Origin: figure.Default,
})

const (
	mostBottles = 12
	mostInSet   = 6
	mostDraws   = 3
)

// Kind is one size of bottle: what it holds, in tenths of a millilitre, and how many there are; 0:
// nobody has written it, and as many as are wanted are counted on.
type Kind struct {
	Holds int64
	Count int
}

// Split is into which bottles a batch goes.
type Split struct {
	// Sets is how many sets are filled, and Draws how many draws empty one.
	Sets, Draws int
	// Set is how many of each kind are in one set, and Rest in the one for what is left over.
	Set, Rest []int
	// Air is what of the set is not filled, in tenths of a millilitre.
	Air int64
}

// All is how many of each kind are filled.
func (s Split) All() []int {
	out := make([]int, len(s.Set))
	for i, n := range s.Set {
		out[i] = s.Sets*n + s.Rest[i]
	}
	return out
}

// BottlesFor finds the bottles for a batch that is drawn from in draws of one size, both in tenths
// of a millilitre; ok is false where a draw is more than the batch, or where there are none.
func BottlesFor(volume, draw int64, kinds []Kind) (s Split, ok bool) {
	if draw <= 0 || volume < draw {
		return Split{}, false
	}
	for draws := int64(1); draws <= mostDraws && draws*draw <= volume; draws++ {
		amount := draws * draw
		sets := volume / amount
		if sets > mostBottles {
			continue
		}
		for _, set := range setsFor(amount, kinds) {
			left, enough := take(kinds, set, int(sets))
			if !enough || 2*amount < holds(kinds, set) {
				continue
			}
			out := Split{Sets: int(sets), Draws: int(draws), Set: set, Rest: make([]int, len(kinds)),
				Air: holds(kinds, set) - amount}
			if rest := volume - sets*amount; rest > 0 {
				found := false
				for _, more := range setsFor(rest, kinds) {
					if _, enough := take(left, more, 1); enough {
						out.Rest, found = more, true
						break
					}
				}
				if !found {
					continue
				}
			}
			if count(out.All()) <= mostBottles {
				return out, true
			}
		}
	}
	return Split{}, false
}

// setsFor are the sets that hold an amount and of which no bottle stays empty, best first.
func setsFor(amount int64, kinds []Kind) [][]int {
	var out [][]int
	set := make([]int, len(kinds))
	var add func(i int, held int64)
	add = func(i int, held int64) {
		if held >= amount {
			out = append(out, slices.Clone(set))
			return
		}
		if count(set) == mostInSet {
			return
		}
		for k := i; k < len(kinds); k++ {
			set[k]++
			if least := smallest(kinds, set); held+kinds[k].Holds-least < amount {
				add(k, held+kinds[k].Holds)
			}
			set[k]--
		}
	}
	add(0, 0)
	slices.SortFunc(out, func(a, b []int) int {
		if c := cmp.Or(cmp.Compare(holds(kinds, a), holds(kinds, b)), cmp.Compare(count(a), count(b))); c != 0 {
			return c
		}
		for i := len(kinds) - 1; i >= 0; i-- {
			if a[i] != b[i] {
				return cmp.Compare(b[i], a[i])
			}
		}
		return 0
	})
	return out
}

// smallest is what the smallest bottle of a set holds.
func smallest(kinds []Kind, set []int) int64 {
	least := int64(0)
	for i, n := range set {
		if n > 0 && (least == 0 || kinds[i].Holds < least) {
			least = kinds[i].Holds
		}
	}
	return least
}

// take is what is left of the lab's bottles when some sets are filled.
func take(kinds []Kind, set []int, sets int) (left []Kind, enough bool) {
	left = slices.Clone(kinds)
	for i, n := range set {
		switch want := n * sets; {
		case want == 0 || kinds[i].Count == 0:
		case want > kinds[i].Count:
			return nil, false
		case want == kinds[i].Count:
			left[i].Count = -1 // none of them are left
		default:
			left[i].Count -= want
		}
	}
	return left, true
}

func holds(kinds []Kind, set []int) int64 {
	var sum int64
	for i, n := range set {
		sum += int64(n) * kinds[i].Holds
	}
	return sum
}

func count(set []int) int {
	n := 0
	for _, k := range set {
		n += k
	}
	return n
}
