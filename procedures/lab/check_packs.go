package lab

import (
	"fmt"
	"slices"

	"wetside/procedures/figure"
)

// packsInStore warns of packs past their best-before, and of kits that are not whole.
func (c *checker) packsInStore() {
	here := c.lab.InStore()
	warn := func(at figure.Where, what, hint string) {
		c.problems = append(c.problems, Problem{At: at, Code: "pack", Warning: true, What: what, Hint: hint})
	}
	for _, p := range here {
		if p.Past(c.day) {
			warn(p.BestBefore.Where(), fmt.Sprintf("this pack of %s is past its best-before of %s", p.Of,
				p.BestBefore),
				"ask first whether it may still be used; take it out of store.toml when it is gone. Nothing is made of it meanwhile")
		}
	}
	for _, d := range c.lab.Products {
		ids := d.PartIDs()
		var stands, missing []string
		var first InStore
		var lots [][]string
		for _, id := range ids {
			var mine []string
			for _, p := range here {
				if p.Ref == d.ID+"."+id && !p.Empty() {
					mine = append(mine, p.Lot)
					if first.Ref == "" {
						first = p
					}
				}
			}
			if len(mine) == 0 {
				missing = append(missing, id)
				continue
			}
			stands, lots = append(stands, id), append(lots, mine)
		}
		if len(stands) == 0 {
			continue
		}
		at := c.lab.Store.At(first.Key()).At("of")
		if len(missing) > 0 {
			warn(at, fmt.Sprintf("of the kit %q part %s stands in the store, and no part %s", d.ID, list(stands),
				list(missing)),
				"a kit is made up whole: write the pack of the other part as well, or leave the kit for parts")
			continue
		}
		if !shared(lots) {
			warn(at, fmt.Sprintf("the parts of the kit %q in the store are of two lots", d.ID),
				"ask the supplier whether they belong together; parts of one lot are meant for each other")
		}
	}
}

// shared reports that some lot has every part; a part of which nobody has written a lot
// belongs to any.
func shared(lots [][]string) bool {
	unsaid := func(l []string) bool { return slices.Contains(l, "") }
	for _, mine := range lots {
		for _, lot := range mine {
			if !slices.ContainsFunc(lots, func(other []string) bool {
				return !slices.Contains(other, lot) &&
					!unsaid(other)
			}) {
				return true
			}
		}
	}
	return false
}
