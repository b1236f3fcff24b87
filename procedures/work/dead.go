package work

import (
	"wetside/procedures/shelf"
)

// dead is the stage of the bottles that nobody may use.
func (w *Work) dead() {
	for _, b := range w.Bottles() {
		if b.Answer == shelf.Dead {
			w.Dead = append(w.Dead, b)
		}
	}
}
