package procedures

import (
	"wetside/procedures/cards"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/procedures/work"
)

// Mix makes the mixing card of one strength for one volume, with what stands of
// it on the shelf that day. The lab must have passed Compute.
func Mix(l *lab.Lab, ref string, volume unit.Quantity[unit.Volume], day unit.Date) (page.Page, []lab.Problem) {
	bath, problems := l.Bath(ref, figure.Where{})
	if len(problems) > 0 {
		return page.Page{}, problems
	}
	house := l.Place.House.Filled()
	if volume.Exact().Cmp(house.LargestVessel.Exact()) > 0 {
		return page.Page{}, []lab.Problem{{Code: "range", What: volume.Text() + " is larger than largest_vessel (" +
			house.LargestVessel.Text() + ")", Hint: "mix it in batches"}}
	}
	w := work.Of(l, day)
	c := cards.NewContext(w)
	p, problems := cards.MixNow(c, w.Ask(bath, volume))
	p.Foot.Vouched = cards.Vouched(page.Figures(page.Lasting(p)))
	return p, problems
}
