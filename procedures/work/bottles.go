package work

import (
	"wetside/procedures/shelf"
)

// judged judges the shelf, once. Without a day there is nothing to judge.
func (w *Work) judged() []shelf.Batch {
	if w.shelf == nil && !w.Day.IsZero() && len(w.lab.Batches) > 0 {
		w.shelf = shelf.Judge(w.lab, w.mix.Book, w.Day)
	}
	return w.shelf
}
