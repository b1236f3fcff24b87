package work

import (
	"fmt"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
)

// developLonger works out for the used developers that stand here how long the next film
// takes in each, and how many more have room in it.
func (w *Work) developLonger(p *Process) {
	if p.Developer == nil || p.Any {
		return
	}
	for _, bottle := range w.judged() {
		r := bottle.Reuse
		if r == nil || bottle.Bath.Ref() != p.Developer.Ref() || !bottle.Usable() || r.Done.Value <= 0 {
			continue
		}
		used := UsedBath{Judged: bottle}
		for _, run := range p.Runs {
			used.Runs = append(used.Runs, w.reused(p, run.Material, bottle))
		}
		room := capacity.Room(r.Done.Value, r.Made.Value, r.Most.Value())
		used.Room = w.count(figure.ID(bottle.ID, "room"), room, "rolls", "rolls that still have room in it")
		p.UsedDevelopers = append(p.UsedDevelopers, used)
	}
}

// reused is how long a material takes in a used developer.
func (w *Work) reused(p *Process, m *lab.Material, bottle Judged) *figure.Record {
	b, at := p.Developer.Bath, p.Decl.Temperature.At
	for i, d := range m.Develop {
		if in, bad := w.lab.Bath(d.In, m.At(fmt.Sprintf("develop[%d].in", i))); len(bad) > 0 || in.Ref() != b.Ref() {
			continue
		}
		degrees := float64(d.At.Value())
		if at.Given() {
			degrees = float64(at.Value())
		}
		return w.times.Reused(figure.ID(bottle.ID, "develop", m.ID, p.Decl.ID), m, i, b, degrees, bottle.Reuse.Done,
			bottle.Reuse.Made)
	}
	return w.word("ask", "ask first")
}

// fixLonger works out for the fixers that stand here and clear more slowly than they did
// fresh how long each material is fixed in them.
func (w *Work) fixLonger(p *Process) {
	for i, s := range p.Decl.Steps {
		if p.Baths[i] == nil || !s.Time.Clearing || p.Any {
			continue
		}
		for _, bottle := range w.judged() {
			if bottle.Bath.Ref() != p.Baths[i].Ref() || !bottle.Usable() || bottle.Ratio.Value <= 1 {
				continue
			}
			used := UsedBath{Judged: bottle}
			for _, r := range p.Runs {
				id := w.times.FixUsed(figure.ID(bottle.ID, "fix", r.Material.ID, p.Decl.ID+"."+s.ID), p.Decl, i,
					r.Material, bottle.Ratio)
				if id == nil {
					id = w.word("ask", "ask first")
				}
				used.Runs = append(used.Runs, id)
			}
			p.UsedFixers = append(p.UsedFixers, used)
		}
	}
}
