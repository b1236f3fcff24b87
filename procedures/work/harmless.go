package work

import (
	"wetside/procedures/react"
)

type (
	// Treatment is what makes a litre of a spent bath harmless.
	Treatment = react.Treatment
	// TreatStep is one thing that is done to it.
	TreatStep = react.Step
)

// The kinds of treatment.
const (
	Neutralise = react.Neutralise
	Reduce     = react.Reduce
	Oxidise    = react.Oxidise
)

// treatments is the stage of what makes spent baths harmless. Cards show it under a permit alone.
func (w *Work) treatments() {
	may := w.Permit("treat").Ref != ""
	for _, b := range w.Baths {
		if !b.Concentrate && b.Acid.Cool.Within != nil {
			b.Treatment = react.Of(w.mix, w.asker, b.Bath, b.Acid.Cool.PH.Value, may)
		}
	}
}
