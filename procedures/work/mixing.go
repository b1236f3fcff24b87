package work

import (
	"fmt"
	"math/big"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

type (
	// MixBatch is a solution made in one volume.
	MixBatch = mix.Batch
	// Instead is another form of a substance that may be weighed in its place.
	Instead = mix.Instead
)

// Mixing is how a solution is mixed, for each volume of a list side by side.
type Mixing struct {
	Batches []MixBatch
	// Volumes are the figures of what each batch makes, and Chosen the batch that a card
	// opens with.
	Volumes []*figure.Record
	Chosen  int
	// Start is what it starts with; nil where nothing is filled up.
	Start *MixStart
	// Solvent is what fills it up where that is not water, or nil.
	Solvent *lab.Ingredient
	Steps   []MixStep
	// Marks are the marks that it is filled to; nil where nothing is filled up.
	Marks []*figure.Record
	// Stand is how long it stands before it is first used, or nil.
	Stand *figure.Record
}

// MixStart is what somebody starts with.
type MixStart struct {
	// Amounts are by batch; refused where Why says why, and Way what would help.
	Amounts  []*figure.Record
	Why, Way string
	// At is how warm it is then, or nil. ColdTap is how warm the cold tap may be, where
	// that is too warm to start with; else nil.
	At, ColdTap *figure.Record
}

// MixStep is one thing that is added, with its amount for each batch.
type MixStep struct {
	// ID is the step's own, else that of what it adds.
	ID   string
	Decl lab.Step
	Adds lab.Ingredient
	// Takes are by batch.
	Takes []Take
	// Devices say by batch on what it is measured, and in which pours; nil where Device
	// says it for all.
	Devices []*figure.Record
	Device  string
	// Percent is the percent solution that it is measured as where it is too little to
	// weigh; zero where it is weighed.
	Percent lab.Bath
	Others  []OtherForm
	// Changes are by batch how far it warms the jug or, if Colder, cools it, where that is so
	// much in one of them that the step says what to do; else nil.
	Changes []*figure.Record
	Colder  bool
	// Loads are by batch what a hundred grams of the water to start with would have to hold of it,
	// and Holds what they can, where that is not enough in every batch; else nil.
	Loads, Holds []*figure.Record
}

// OtherForm is another form that the jar may hold, and what is weighed of it.
type OtherForm struct {
	Name string
	// Milder: it is a milder acid, with as much acid in all and another pH.
	Milder bool
	// Takes are by batch; nil where there is none for it.
	Takes []*Instead
}

// mixing works out a solution for a list of volumes.
func (w *Work) mixing(s *lab.Solution, volumes []unit.Quantity[unit.Volume]) Mixing {
	var out Mixing
	for _, v := range volumes {
		_, at := asWritten(s, v)
		b := w.mix.Batch(s, v, at)
		out.Batches = append(out.Batches, b)
		out.Volumes = append(out.Volumes, w.madeVolume(s, b))
	}
	out.Chosen = chosenBatch(out.Batches)
	if s.Dissolve != nil {
		if in, bad := w.lab.Resolve(s.Dissolve.In, s.At("dissolve.in")); len(bad) == 0 && !in.Water {
			out.Solvent = &in
		}
	}
	out.Start = w.mixStart(s, out.Batches)
	for i := range out.Batches[0].Rows {
		out.Steps = append(out.Steps, w.mixStep(s, out.Batches, i))
	}
	for _, b := range out.Batches {
		if b.Fill == nil {
			return out
		}
	}
	for _, b := range out.Batches {
		out.Marks = append(out.Marks, b.Fill)
	}
	if stand := s.Make.Stand; stand.Given() {
		out.Stand = w.life(figure.ID(s.ID+"."+s.MadeStrength(), "stand"), s.Def, "make.stand", stand.Life,
			"stands before first use")
	}
	return out
}

// asWritten is a volume as it is written, and where: in the list of batches, else as
// the volume of the formula; nowhere where it was asked for at the bench, or where a
// solution by parts says neither.
func asWritten(s *lab.Solution, volume unit.Quantity[unit.Volume]) (unit.Quantity[unit.Volume], figure.Where) {
	for i, q := range s.Make.Batches {
		if q.Exact().Cmp(volume.Exact()) == 0 {
			return q.Quantity, s.At(fmt.Sprintf("make.batches[%d]", i))
		}
	}
	if s.Per.Given() && s.Per.Exact().Cmp(volume.Exact()) == 0 {
		return s.Per.Quantity, s.At("per")
	}
	return volume, figure.Where{}
}

// madeVolume is the volume of a batch: the mark that it is filled to, or what is made.
func (w *Work) madeVolume(s *lab.Solution, b MixBatch) *figure.Record {
	if b.Fill != nil {
		return b.Fill
	}
	made := lab.Bath{Solution: s, Strength: s.MadeStrength()}
	_, at := asWritten(s, b.Volume)
	return w.mix.VolumeFigure(figure.ID(made.Ref(), "made", b.Tag), b.Volume, at, figure.House,
		"volume made")
}

// chosenBatch is the litre, where one is made, else the middle batch.
func chosenBatch(batches []MixBatch) int {
	litre := big.NewRat(1000, 1)
	for i, b := range batches {
		if b.Volume.Exact().Cmp(litre) == 0 {
			return i
		}
	}
	return (len(batches) - 1) / 2
}

// mixStart is what each batch starts with.
func (w *Work) mixStart(s *lab.Solution, batches []MixBatch) *MixStart {
	out := &MixStart{}
	for _, b := range batches {
		if b.Start == nil {
			return nil
		}
		out.Amounts = append(out.Amounts, b.Start)
		if out.Why == "" {
			out.Why, out.Way = b.StartWhy, b.StartWay
		}
	}
	at, key := s.Start.At, "start.at"
	if s.Dissolve != nil && !at.Given() {
		at, key = s.Dissolve.At, "dissolve.at"
	}
	if at.Given() {
		out.At = w.temperature(figure.ID(s.ID+"."+s.MadeStrength(), "start.temperature"), s.Def, key, at.Quantity,
			"what it starts with")
		out.ColdTap = w.tooWarm(at.Quantity)
	}
	return out
}

// tooWarm is how warm the cold tap may be, where that is warmer than wanted; else nil.
func (w *Work) tooWarm(wanted unit.Quantity[unit.Temperature]) *figure.Record {
	cold := w.lab.Place.Water.Cold
	tap, key, id := cold.Year, "water.cold", figure.ID("water", "cold")
	if !tap.Given() {
		tap, key, id = cold.Summer, "water.cold.summer", figure.ID("water", "cold-summer")
	}
	if !tap.Given() || wanted.High() >= tap.Low() {
		return nil
	}
	return w.temperature(id, w.lab.Place.Def, key, tap.Quantity, "cold tap at its warmest")
}

// mixStep is the row of one step in every batch.
func (w *Work) mixStep(s *lab.Solution, batches []MixBatch, row int) MixStep {
	first := batches[0].Rows[row]
	out := MixStep{ID: mix.StepID(first.Step), Decl: first.Step, Adds: first.Ing}
	for _, b := range batches {
		out.Takes = append(out.Takes, b.Rows[row].Take)
		if p := b.Rows[row].Percent; p.Solution != nil {
			out.Percent = p
		}
	}
	w.devices(&out)
	out.Changes, out.Colder = w.changes(batches, row)
	for _, b := range batches {
		if x := b.Rows[row].TooMuch; x != nil {
			out.Loads, out.Holds = append(out.Loads, x.Load), append(out.Holds, x.Holds)
		}
	}
	if len(out.Loads) < len(batches) {
		out.Loads, out.Holds = nil, nil
	}
	out.Others = w.otherForms(s, batches, row)
	return out
}

// changes are by batch how far a step warms or cools the jug, where that is much in one of
// them.
func (w *Work) changes(batches []MixBatch, row int) (out []*figure.Record, colder bool) {
	much := false
	for _, b := range batches {
		if x := b.Rows[row].Warming; x != nil {
			out, colder, much = append(out, x.Change), x.Colder, much || x.Much
		}
	}
	if !much || len(out) < len(batches) { // in one of them it is too little to weigh
		return nil, false
	}
	for i, r := range out {
		out[i] = w.mix.Book.Enter(r)
	}
	return out, colder
}

// devices say on what each amount of a step is measured.
func (w *Work) devices(step *MixStep) {
	var words []string
	same := step.Takes[0].Pour == nil
	for _, t := range step.Takes {
		words = append(words, w.hand(t))
		same = same && words[len(words)-1] == words[0]
	}
	if same {
		step.Device = words[0]
		return
	}
	for i, t := range step.Takes {
		word := words[i]
		if word == "" {
			word = "–"
		}
		face := figure.Face{Kind: figure.KindText, Name: "measured with", Shown: word, Rounded: word,
			Round: figure.Rounding{Rule: "chosen by the house’s error"}}
		core := figure.Core{ID: figure.Beside(t.Amount.ID, "device"), Method: mix.FewestPours, Origin: figure.House}
		step.Devices = append(step.Devices, w.mix.Book.Enter(figure.Of(core, face)))
	}
}

// hand says on what an amount is measured, and in which pours where there are several.
func (w *Work) hand(t Take) string {
	h := t.Hand
	_, weighed := w.lab.Place.Scales[h.Device]
	pour := ""
	if t.Pour != nil {
		pour = t.Pour.Shown
	}
	switch {
	case h.Refused != "":
		return ""
	case h.Full.Sign() > 0:
		return h.Full.String() + " + " + pour + " ml: " + h.FullDevice + " full, then " + h.Device
	case h.Pours > 1:
		return fmt.Sprintf("%d × %s ml, %s", h.Pours, pour, h.Device)
	case weighed && !strings.HasSuffix(h.Device, "scale"):
		return h.Device + " scale"
	}
	return h.Device
}

// otherForms are the other forms that may be weighed at a step.
func (w *Work) otherForms(s *lab.Solution, batches []MixBatch, row int) []OtherForm {
	var out []OtherForm
	for i, b := range batches {
		for j, in := range w.mix.Instead(s, b.Rows[row], b.Tag, b.Volume) {
			if i == 0 {
				out = append(out, OtherForm{Name: in.Name, Takes: make([]*Instead, len(batches))})
			}
			if j < len(out) {
				out[j].Takes[i] = &in
			}
		}
	}
	return append(out, w.milderAcid(s, batches, row)...)
}

// milderAcid is hydrogensulfate in the place of sulfuric acid at a step.
func (w *Work) milderAcid(s *lab.Solution, batches []MixBatch, row int) []OtherForm {
	here := func(c *lab.Chemical) bool { return !c.Library || w.amongChemicals(c) }
	var out []OtherForm
	for i, b := range batches {
		in, ok := w.mix.MilderAcid(s, b.Rows[row], b.Tag, here)
		if !ok {
			continue
		}
		if out == nil {
			out = []OtherForm{{Name: in.Name, Milder: true, Takes: make([]*Instead, len(batches))}}
		}
		out[0].Takes[i] = &in
	}
	return out
}
