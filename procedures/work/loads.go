package work

import (
	"cmp"
	"fmt"
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/ph"
	"wetside/procedures/unit"
	"wetside/procedures/waste"
)

// Brought is what one thing brings into a drum in a month.
type Brought = waste.Brought

// DrumMonth is what a month's work brings into a drum.
type DrumMonth struct {
	waste.Load
	// From says what each of the streams is.
	From []From
	// Left is what goes into the drum besides, and is not counted.
	Left []LeftOut
	// Holds is what the baths of the month are together; nil where none is counted.
	Holds *Holds
}

// Holds is what the baths are that a month's work pours into a drum, by the volume of each and as
// fresh as they were made. The water of washes is left out: it makes all of them weaker.
type Holds struct {
	Contents []Content
	Acidity  Acidity
	// Dangers are worked out from what is in it; their status is Unknown where that cannot be done.
	Dangers Dangers
	// Properties are what makes it hazardous waste; nil where no list says how that is found.
	Properties *Properties
	// Alone are the strengths that go into the drum, whether a month counts them or not, and have by
	// themselves what the month's waste has not: a drum that has been emptied holds at first nothing
	// else, and a whole bottle of one may change all of it.
	Alone []Alone
	// Untold are those of which nobody can tell it, since not all that is in them is known.
	Untold []*Bath
}

// Alone are strengths that have the same properties by themselves, and which those are.
type Alone struct {
	Baths []*Bath
	Codes []string
}

// From is where a stream comes from: a strength, or the first fills of a wash.
type From struct {
	Bath *Bath
	// Process and Step are those of the wash, and Fills how many of its fills are collected.
	Process *lab.Process
	Step    lab.ProcessStep
	Fills   *figure.Record
}

// LeftOut is one thing that a drum's month leaves out.
type LeftOut struct {
	Why LeftOutWhy
	// Process and Step are whose water, whose use or whose silver it is, and Bath the strength.
	Process *lab.Process
	Step    lab.ProcessStep
	Bath    *Bath
	// Says is what nobody has written of it.
	Says string
}

// LeftOutWhy is why something is left out.
type LeftOutWhy uint8

// The reasons.
const (
	// NoVolume: nobody has written how much water it is.
	NoVolume LeftOutWhy = iota
	// NoMonth: no month's work is written for the process.
	NoMonth
	// NoLimit: nobody has written how much the bath treats.
	NoLimit
	// NoSilver: nobody has written the silver of what is worked in it.
	NoSilver
	// InBleach: the silver goes into a bleach before the fixer, and into the picture.
	InBleach
)

// drumMonths is the stage of what a month brings into each drum.
func (w *Work) drumMonths() {
	for _, d := range w.Drums {
		if d.Here {
			d.Month = w.load(d)
		}
	}
}

func (w *Work) load(d *Drum) *DrumMonth {
	out := &DrumMonth{}
	var streams []waste.Stream
	for _, b := range d.Baths {
		if s, ok := w.bathStream(d, b); ok {
			s.Silver = w.silverInto(d, b, out)
			streams, out.From = append(streams, s), append(out.From, From{Bath: b})
		} else if len(b.UsedIn) > 0 && w.useOf(b.Bath).Known() && !b.Written().Coat.Given() {
			out.Left = append(out.Left, LeftOut{Why: NoLimit, Bath: b})
		}
	}
	for _, p := range w.Processes {
		into := false
		for i, s := range p.Decl.Steps {
			route := w.lab.WasteRoute(s.Waste)
			to := route != nil && route.Drum == d.ID
			former := formerBath(p, i)
			switch {
			case len(s.Fills) > 0 && s.CollectFirst.N > 0 && former != nil && goesInto(former, d):
				if stream, ok := w.washStream(d, p.Decl, i); ok {
					streams = append(streams, stream)
					out.From = append(out.From, From{Process: p.Decl, Step: s, Fills: w.collected(p.Decl, i)})
				} else if len(w.lab.Place.Use[p.Decl.ID]) > 0 {
					out.Left = append(out.Left, LeftOut{Why: NoVolume, Process: p.Decl, Step: s})
				}
			case s.Bath == "" && to && len(w.lab.Place.Use[p.Decl.ID]) > 0:
				out.Left = append(out.Left, LeftOut{Why: NoVolume, Process: p.Decl, Step: s})
			}
			into = into || to || p.Baths[i] != nil && s.Waste == "" && goesInto(p.Baths[i], d)
		}
		if into && len(w.lab.Place.Use[p.Decl.ID]) == 0 {
			out.Left = append(out.Left, LeftOut{Why: NoMonth, Process: p.Decl})
		}
	}
	if len(streams) == 0 {
		return nil
	}
	out.Load = waste.LoadOf(w.mix, d.ID, d.Decl, d.Full, streams, capacity.DaysInMonth)
	out.Holds = w.holds(d, streams, out.From)
	return out
}

// holds is what the counted baths of a drum are together.
func (w *Work) holds(d *Drum, streams []waste.Stream, from []From) *Holds {
	var poured []mix.Poured
	var volumes []figure.Figure[unit.Volume]
	var known []Known
	for i, f := range from {
		if f.Bath == nil {
			continue
		}
		poured = append(poured, mix.Poured{Made: w.mix.Made(f.Bath.Bath), Volume: streams[i].Volume})
		volumes = append(volumes, streams[i].Volume)
		known = append(known, f.Bath.Dangers.Known)
	}
	if len(poured) == 0 {
		return nil
	}
	named := lab.Bath{Solution: &lab.Solution{Def: lab.Def{ID: waste.Subject(d.ID)}}, Strength: "month"}
	made := w.mix.Together(named, waste.Poured(figure.ID(named.Ref(), "volume"), volumes...), poured...)
	out := &Holds{Contents: w.inDrum(made), Acidity: Acidity{Acidity: w.asker.Of(made, cool, ph.Closed)}}
	k := hazard.OfTogether(w.mix, made, worked(out.Acidity), known...)
	out.Dangers = dangersOf(k, nil)
	p, ok := hazard.PropertiesOf(w.mix, made, k, known...)
	if !ok {
		return out
	}
	out.Properties = &p
	for _, b := range d.Baths {
		k := b.Dangers.Known
		alone, ok := hazard.PropertiesOf(w.mix, w.mix.Made(b.Bath), k, k)
		if !ok || !alone.Whole || len(alone.Open) > 0 {
			out.Untold = append(out.Untold, b)
		}
		var codes []string
		for _, has := range alone.Has {
			if !slices.ContainsFunc(p.Has, func(o Property) bool { return o.Code == has.Code }) {
				codes = append(codes, has.Code)
			}
		}
		if len(codes) == 0 {
			continue
		}
		if i := slices.IndexFunc(out.Alone, func(a Alone) bool { return slices.Equal(a.Codes, codes) }); i >= 0 {
			out.Alone[i].Baths = append(out.Alone[i].Baths, b)
		} else {
			out.Alone = append(out.Alone, Alone{[]*Bath{b}, codes})
		}
	}
	return out
}

// inDrum are the contents by mass of what is poured together, the most first.
func (w *Work) inDrum(made *mix.Made) []Content {
	out := w.contents(made)
	for _, o := range made.Others {
		share := w.mix.OtherPercent(made, o)
		out = append(out, Content{Name: o.Name, ByVolume: figure.Enter(w.mix.Book, o.Conc),
			ByMass: figure.Enter(w.mix.Book, share)})
	}
	slices.SortStableFunc(out, func(a, b Content) int { return cmp.Compare(b.ByMass.Value, a.ByMass.Value) })
	return out
}

func goesInto(b *Bath, d *Drum) bool { return b.Goes.Waste != nil && b.Goes.Waste.Drum == d.ID }

// formerBath is the last bath before a step.
func formerBath(p *Process, i int) *Bath {
	for j := i - 1; j >= 0; j-- {
		if p.Baths[j] != nil {
			return p.Baths[j]
		}
	}
	return nil
}

// bathStream is what a month pours of a strength: of a one-shot dilution, all that its stock makes.
// What is brushed on is not poured.
func (w *Work) bathStream(drum *Drum, b *Bath) (waste.Stream, bool) {
	parts, d := w.poured[b.Ref()], b.Decl()
	if len(parts) == 0 || d == nil || d.Coat.Given() {
		return waste.Stream{}, false
	}
	if d.Use == "one-shot" && d.Needs.Given() {
		stock := waste.Poured(figure.ID(b.Ref(), "month"), parts...)
		if r := w.mix.Largest(b.Bath, stock, "month"); r != nil {
			parts = []figure.Figure[unit.Volume]{figure.Entered[unit.Volume](r)}
		}
	}
	return waste.Stream{Key: b.Ref(), Volume: waste.Poured(figure.ID(waste.Subject(drum.ID), "month", b.Ref()), parts...)},
		true
}

// washStream is the water of the first fills of a wash that go into a drum, in the smallest tank
// that takes what is worked.
func (w *Work) washStream(d *Drum, p *lab.Process, i int) (waste.Stream, bool) {
	s := p.Steps[i]
	tanks, _ := capacity.Vessels(w.lab)
	collected := s.CollectFirst.Figure("fills that are collected")
	out := waste.Stream{Key: p.ID + "." + s.ID}
	var parts []figure.Figure[unit.Volume]
	for n, e := range w.lab.Place.Use[p.ID] {
		formats := capacity.Formats(w.lab, w.lab.OfBase(p.Base)...)
		if f, ok := capacity.FormatNamed(w.lab, e.Of); ok {
			formats = []capacity.Format{f}
		}
		tank, ok := smallestFor(tanks, formats)
		if !ok {
			return out, false
		}
		id := figure.ID(waste.Subject(d.ID), "month", fmt.Sprintf("%s.%d", out.Key, n+1))
		parts = append(parts, waste.FirstFills(id, e.Figure("films in a month"), collected,
			tank.Fill.Figure("what fills the "+tank.Name), tank.Takes.Figure("films in it")))
	}
	if len(parts) == 0 {
		return out, false
	}
	out.Volume = waste.Poured(figure.ID(waste.Subject(d.ID), "month", out.Key), parts...)
	return out, true
}

// smallestFor is the smallest tank that takes one of some formats.
func smallestFor(tanks []capacity.Vessel, formats []capacity.Format) (capacity.Vessel, bool) {
	i := slices.IndexFunc(tanks, func(v capacity.Vessel) bool {
		return v.Takes.N > 0 && slices.ContainsFunc(formats, v.Fits)
	})
	if i < 0 {
		return capacity.Vessel{}, false
	}
	return tanks[i], true
}

// collected is how many of the first fills of a wash are collected.
func (w *Work) collected(p *lab.Process, i int) *figure.Record {
	n := p.Steps[i].CollectFirst
	return figure.Declare(w.mix.Book, figure.ID(p.ID, "collect."+p.Steps[i].ID),
		figure.KindCount, n.Figure("fills collected"), fmt.Sprint(n.N), "")
}

// silverInto is what a fixer takes from the film and paper of a month's work, where it is the first
// fixer that they come into; what of it nobody can tell is noted.
func (w *Work) silverInto(d *Drum, b *Bath, out *DrumMonth) []figure.Figure[unit.Mass] {
	var parts []figure.Figure[unit.Mass]
	for _, p := range w.Processes {
		use := w.lab.Place.Use[p.Decl.ID]
		first, bleached := firstFixer(p)
		if first != b || len(use) == 0 {
			continue
		}
		if bleached {
			out.Left = append(out.Left, LeftOut{Why: InBleach, Process: p.Decl})
			continue
		}
		for n, e := range use {
			id := figure.ID(waste.Subject(d.ID), "silver", b.Ref(), fmt.Sprintf("%s.%d", p.Decl.ID, n+1))
			m, why := capacity.SilverLeft(w.lab, id, e)
			if why != "" {
				out.Left = append(out.Left, LeftOut{Why: NoSilver, Process: p.Decl, Says: why})
				continue
			}
			parts = append(parts, m)
		}
	}
	return parts
}

// firstFixer is the first fixer of a process, and whether a bleach comes before it.
func firstFixer(p *Process) (b *Bath, bleached bool) {
	for _, b := range p.Baths {
		switch {
		case b == nil:
		case b.Role() == "fixer":
			return b, bleached
		case b.Role() == "bleach":
			bleached = true
		}
	}
	return nil, bleached
}
