package lab

import (
	"fmt"
	"reflect"
	"strings"

	"wetside/procedures/figure"
)

// Then appends the steps of another process, from a step id on.
type Then struct {
	Like string `toml:"like"`
	From string `toml:"from"`
}

// keyPlace is where a key of a process really stands: in which definition, under
// which key.
type keyPlace struct {
	def Def
	key string
}

// Said returns the definition that says a key of the process, and the key in
// it: a process built on another says little itself.
func (p *Process) Said(key string) (Def, string) {
	for k := key; ; {
		if s, ok := p.declaredAt[k]; ok {
			return s.def, s.key + key[len(k):]
		}
		cut := lastDot(k)
		if cut < 0 {
			return p.Def, key
		}
		k = k[:cut]
	}
}

// At returns the place of a key of the process, in the file that says it.
func (p *Process) At(key string) figure.Where {
	d, k := p.Said(key)
	return d.At(k)
}

// copyPlace notes that a key of the process stands where another process says it.
func (p *Process) copyPlace(key string, from *Process, fromKey string) {
	d, k := from.Said(fromKey)
	if p.declaredAt == nil {
		p.declaredAt = map[string]keyPlace{}
	}
	p.declaredAt[key] = keyPlace{d, k}
}

// processBuilder builds the processes that are like another, each parent first.
type processBuilder struct {
	lab      *Lab
	process  map[string]*Process
	state    map[string]int // 1: being built, 2: built
	problems []Problem
}

// buildProcesses completes every process that is built on another. What is wrong
// with it is kept for Check.
func (l *Lab) buildProcesses() {
	b := processBuilder{lab: l, process: map[string]*Process{}, state: map[string]int{}}
	for _, p := range l.Processes {
		b.process[p.ID] = p
	}
	for _, p := range l.Processes {
		b.build(p)
	}
	l.buildProblems = b.problems
}

func (b *processBuilder) add(p *Process, key string, onKey bool, code, what, hint string) {
	b.problems = append(b.problems, Problem{At: p.Def.At(key), OnKey: onKey, Code: code, What: what, Hint: hint})
	p.incomplete = true
}

func (b *processBuilder) build(p *Process) {
	if b.state[p.ID] != 0 {
		return
	}
	b.state[p.ID] = 1
	defer func() { b.state[p.ID] = 2 }()
	own := len(p.Steps) > 0
	switch {
	case p.Like != "" && own:
		b.add(p, "like", true, "shape",
			"a process that is like another has its steps, and cannot have steps of its own beside them",
			"change steps under [change.ID], or write then = { like = \"…\", from = \"…\" } after steps of its own")
		return
	case p.Like == "" && len(p.Change) > 0:
		b.add(p, "change", true, "shape", "there is nothing to change: this process is not like another", `write like = "film-negative", or change the steps themselves`)
		return
	}
	if p.Like != "" {
		if parent := b.parent(p, "like", p.Like); parent != nil {
			b.copyParent(p, parent)
			b.applyChanges(p)
		}
	}
	if p.Then != nil && !p.incomplete {
		b.appendSteps(p)
	}
}

// parent finds the process that another is built on and builds it first.
func (b *processBuilder) parent(p *Process, key, id string) *Process {
	parent := b.process[id]
	switch {
	case parent == nil && b.lab.Broken["processes/"+id]:
		p.incomplete = true // what is wrong with it has been said in its own file
		return nil
	case parent == nil:
		b.add(p, key, false, "reference", "there is no process "+quoted(id),
			Near(id, sortedKeys(b.process), "write it in processes/, or correct the name"))
		return nil
	case b.state[id] == 1:
		b.add(p, key, false, "loop", "this goes round in a circle: "+p.ID+" is built on "+id+", which is built on it",
			"one of them must have steps of its own")
		return nil
	}
	b.build(parent)
	if parent.incomplete {
		p.incomplete = true
		return nil
	}
	return parent
}

// copyParent fills in what the heir does not say itself. Warnings are never
// dropped: the parent's stand before its own.
func (b *processBuilder) copyParent(p, parent *Process) {
	p.Steps = append([]ProcessStep(nil), parent.Steps...)
	for i := range p.Steps {
		p.copyPlace(StepKey(i), parent, StepKey(i))
		for _, key := range stepKeys {
			p.copyPlace(StepKey(i)+"."+key, parent, StepKey(i)+"."+key)
		}
	}
	b.copySetting(p, parent)
	if p.Base == "" {
		p.Base = parent.Base
		p.copyPlace("base", parent, "base")
	}
	if len(p.Bench) == 0 {
		p.Bench = parent.Bench
	}
	if p.Note == "" {
		p.Note = parent.Note
	}
	if !p.Temperature.At.Given() {
		p.Temperature = parent.Temperature
		p.copyPlace("temperature", parent, "temperature")
	}
}

// copySetting takes over what steps need around them: the clock, the ways to
// agitate and the warnings.
func (b *processBuilder) copySetting(p, parent *Process) {
	if p.Clock.Starts == "" && !p.Clock.Drain.Given() {
		p.Clock = parent.Clock
		p.copyPlace("clock", parent, "clock")
	}
	agitate := map[string]Agitate{}
	for name, a := range p.Agitate {
		agitate[name] = a
	}
	for _, name := range sortedKeys(parent.Agitate) {
		if _, own := agitate[name]; !own {
			agitate[name] = parent.Agitate[name]
			p.copyPlace("agitate."+name, parent, "agitate."+name)
		}
	}
	p.Agitate = agitate
	var never []string
	for _, n := range append(append([]string(nil), parent.Never...), p.Never...) {
		if !contains(never, n) {
			never = append(never, n)
		}
	}
	p.Never = never
}

// stepKeys are the keys of a process step.
var stepKeys = func() []string {
	var keys []string
	t := reflect.TypeFor[ProcessStep]()
	for i := range t.NumField() {
		keys = append(keys, t.Field(i).Tag.Get("toml"))
	}
	return keys
}()

// kinds are the keys of which a step has exactly one.
func (s ProcessStep) kinds() []string {
	var out []string
	for _, k := range []struct {
		key string
		is  bool
	}{{"bath", s.Bath != ""}, {"fills", len(s.Fills) > 0}, {"flow", s.Flow.Given()}, {"do", s.Do != ""}} {
		if k.is {
			out = append(out, k.key)
		}
	}
	return out
}

// applyChanges puts the changed keys of [change.ID] into the steps taken over. Each
// changed key points into that table from then on.
func (b *processBuilder) applyChanges(p *Process) {
	at := map[string]int{}
	var ids []string
	for i, s := range p.Steps {
		at[s.ID] = i
		ids = append(ids, s.ID)
	}
	for _, id := range sortedKeys(p.Change) {
		key := "change." + id
		i, ok := at[id]
		if !ok {
			b.add(p, key, true, "reference", p.Like+" has no step "+quoted(id),
				Near(id, ids, "its steps are "+list(ids)))
			continue
		}
		c := p.Change[id]
		if kinds := c.kinds(); len(kinds) > 1 {
			b.add(p, key, true, "shape", "a changed step has "+strings.Join(kinds, " and "),
				"a step has exactly one of bath, fills, flow and do")
			continue
		} else if len(kinds) == 1 {
			clearKind(&p.Steps[i], kinds[0])
		}
		if c.ID != "" {
			b.add(p, key+".id", false, "shape", "a changed step keeps its id", "take the id out")
			continue
		}
		s := &p.Steps[i]
		if c.Until != "" && !c.Time.Given() {
			s.Time = StepTime{}
		}
		if c.Time.Given() && c.Until == "" {
			s.Until = ""
		}
		from, into := reflect.ValueOf(c), reflect.ValueOf(s).Elem()
		for n, name := range stepKeys {
			if !from.Field(n).IsZero() {
				into.Field(n).Set(from.Field(n))
				p.declaredAt[StepKey(i)+"."+name] = keyPlace{p.Def, key + "." + name}
			}
		}
	}
}

// clearKind takes away what a step was, when it becomes something else.
func clearKind(s *ProcessStep, becomes string) {
	was := s.kinds()
	if len(was) == 1 && was[0] == becomes {
		return
	}
	if becomes != "bath" {
		s.Place, s.Fill, s.Agitate = 0, ProcessStep{}.Fill, ""
	}
	if becomes != "fills" {
		s.CollectFirst, s.InsteadOf = SaidNumber{}, ProcessStep{}.InsteadOf
	}
	s.Bath, s.Fills, s.Flow, s.Do = "", nil, ProcessStep{}.Flow, ""
}

// appendSteps puts the steps of another process after those that are there.
func (b *processBuilder) appendSteps(p *Process) {
	if p.Then.Like == "" || p.Then.From == "" {
		b.add(p, "then", false, "missing", "then says which process goes on, and from which of its steps", `write then = { like = "fibre-print", from = "hold" }`)
		return
	}
	parent := b.parent(p, "then.like", p.Then.Like)
	if parent == nil {
		return
	}
	first, ids, have := -1, []string(nil), map[string]bool{}
	for i, s := range parent.Steps {
		ids = append(ids, s.ID)
		if s.ID == p.Then.From {
			first = i
		}
	}
	if first < 0 {
		b.add(p, "then.from", false, "reference", p.Then.Like+" has no step "+quoted(p.Then.From),
			Near(p.Then.From, ids, "its steps are "+list(ids)))
		return
	}
	for _, s := range p.Steps {
		have[s.ID] = true
	}
	own := sortedKeys(p.Agitate)
	for i := first; i < len(parent.Steps); i++ {
		s := parent.Steps[i]
		if have[s.ID] {
			b.add(p, "then.from", false, "id", fmt.Sprintf("the step %q of %s would be there twice", s.ID,
				p.Then.Like), "give this process's own step another id")
			return
		}
		if s.Agitate != "" && contains(own, s.Agitate) {
			b.add(p, "agitate."+s.Agitate, true, "id",
				fmt.Sprintf("%s agitates its step %q in a way of the same name", p.Then.Like, s.ID),
				"give the way to agitate another name here")
			return
		}
	}
	for i := first; i < len(parent.Steps); i++ {
		n := len(p.Steps)
		p.Steps = append(p.Steps, parent.Steps[i])
		p.copyPlace(StepKey(n), parent, StepKey(i))
		for _, key := range stepKeys {
			p.copyPlace(StepKey(n)+"."+key, parent, StepKey(i)+"."+key)
		}
	}
	b.copySetting(p, parent)
	if p.Base == "" {
		p.Base = parent.Base
		p.copyPlace("base", parent, "base")
	}
}
