package work

import (
	"wetside/procedures/mix"
)

// Window is what one device can measure within the error that the house allows.
type Window = mix.Window

// Bench is what each device of the bench may measure.
type Bench struct {
	Scales []Window
	// Cylinders are the measuring cylinders and syringes.
	Cylinders []Window
}

// bench is the stage of the devices.
func (w *Work) bench() { w.Bench.Scales, w.Bench.Cylinders = w.mix.Windows() }
