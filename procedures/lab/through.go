package lab

import (
	"slices"
	"strings"
)

// ways is what goes through what, found once for all questions.
type ways struct {
	users     map[string][]*Process  // bath → the processes that use it
	timed     map[string][]*Material // developer → the materials that have a time in it
	ofBase    map[Base][]*Material
	developer map[*Process]string // the developer that a process takes its materials' times from
	baths     []Bath
	goes      map[string][]Bath // waste route → the baths that name it
	diluted   map[string]bool   // baths from which others are diluted
	inStore   []InStore
	packs     map[string][]InStore // by what is in them
}

// findWays fills the ways.
func (l *Lab) findWays() {
	w := ways{users: map[string][]*Process{}, timed: map[string][]*Material{}, ofBase: map[Base][]*Material{},
		developer: map[*Process]string{}, baths: l.strengths(), goes: map[string][]Bath{}, diluted: map[string]bool{},
		inStore: l.readable(), packs: map[string][]InStore{}}
	for _, b := range w.baths {
		if route := b.Waste(); route != "" {
			w.goes[route] = append(w.goes[route], b)
		}
		if from, _, ok := b.From(); ok {
			w.diluted[from.Ref()] = true
		}
	}
	for _, s := range w.inStore {
		w.packs[s.Ref] = append(w.packs[s.Ref], s)
	}
	for _, p := range l.Processes {
		for i, s := range p.Steps {
			if s.Bath == "" {
				continue
			}
			b, bad := l.Bath(s.Bath, p.At(StepKey(i)))
			if len(bad) > 0 || b.Zero() {
				continue
			}
			if !slices.Contains(w.users[b.Ref()], p) {
				w.users[b.Ref()] = append(w.users[b.Ref()], p)
			}
			if s.Time.Material && w.developer[p] == "" {
				w.developer[p] = b.Ref()
			}
		}
	}
	for _, m := range l.Materials {
		w.ofBase[m.Base] = append(w.ofBase[m.Base], m)
		for _, d := range m.Develop {
			b, bad := l.Bath(d.In, m.At("develop"))
			if len(bad) == 0 && !b.Zero() && !slices.Contains(w.timed[b.Ref()], m) {
				w.timed[b.Ref()] = append(w.timed[b.Ref()], m)
			}
		}
	}
	l.ways = w
}

// Baths lists every strength of every solution and product.
func (l *Lab) Baths() []Bath { return slices.Clip(l.ways.baths) }

// BathsTo lists the strengths whose definitions name a waste route.
func (l *Lab) BathsTo(route string) []Bath { return slices.Clip(l.ways.goes[route]) }

// Diluted reports a strength from which others are diluted.
func (l *Lab) Diluted(b Bath) bool { return l.ways.diluted[b.Ref()] }

// OfBase lists the materials on a base, in the order of their ids.
func (l *Lab) OfBase(base Base) []*Material { return l.ways.ofBase[base] }

// Through lists the materials that go through a process, in the order of their ids. They
// are of its base. Where the process takes the time in its developer from the material,
// they are those that have a time in that developer, those that have a time in none at
// all, and those that a month's work sends through the process.
func (l *Lab) Through(p *Process) []*Material {
	developer := l.ways.developer[p]
	if developer == "" {
		return l.OfBase(p.Base)
	}
	var out []*Material
	for _, m := range l.ways.timed[developer] {
		if m.Base == p.Base {
			out = append(out, m)
		}
	}
	for _, m := range l.OfBase(p.Base) {
		if len(m.Develop) == 0 {
			out = append(out, m)
		}
	}
	for _, pieces := range l.Place.Use[p.ID] {
		id, _ := split(pieces.Of)
		if m := l.Material(id); m != nil && m.Base == p.Base {
			out = append(out, m)
		}
	}
	return inOrder(out)
}

// Treated lists the materials on a base that go through a bath, in the order of their
// ids: those that go through the processes that use it. A bath that no process of the
// base uses treats whatever is brought to it.
func (l *Lab) Treated(b Bath, base Base) []*Material {
	var out []*Material
	used := false
	for _, p := range l.ways.users[b.Ref()] {
		if p.Base == base {
			used = true
			out = append(out, l.Through(p)...)
		}
	}
	if !used {
		return l.OfBase(base)
	}
	return inOrder(out)
}

// inOrder is a list of materials in the order of their ids, each once.
func inOrder(list []*Material) []*Material {
	list = slices.SortedFunc(slices.Values(list), func(a, b *Material) int { return strings.Compare(a.ID, b.ID) })
	return slices.Compact(list)
}

// Users lists the processes that use a bath, in the order of their ids.
func (l *Lab) Users(b Bath) []*Process { return l.ways.users[b.Ref()] }

// BasesOf are the bases of the processes that use a bath, in the order of Bases.
func (l *Lab) BasesOf(b Bath) []Base {
	var out []Base
	for _, base := range Bases {
		if slices.ContainsFunc(l.Users(b), func(p *Process) bool { return p.Base == base }) {
			out = append(out, base)
		}
	}
	return out
}
