package work

import (
	"math/big"

	"wetside/procedures/figure"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Size is a size of bottle or drum that a label is drawn for.
type Size struct {
	// Name is the word for it in the label's path, such as "500ml".
	Name string
	// Holds is what it holds, and Ml the same in whole millilitres, rounded up.
	Holds *figure.Record
	Ml    int
}

// sizeOf is a size of bottle or drum; id is that of the figure of what it holds.
func (w *Work) sizeOf(id string, holds unit.Quantity[unit.Volume], at figure.Where, by figure.Origin) Size {
	up := new(big.Int)
	up.Add(holds.Exact().Num(), new(big.Int).Sub(holds.Exact().Denom(), big.NewInt(1))).Quo(up, holds.Exact().Denom())
	return Size{
		Name:  mix.Tag(holds.Exact()),
		Holds: w.mix.VolumeFigure(id, holds, at, by, "what the bottle holds"),
		Ml:    int(min(up.Int64(), 1<<30)),
	}
}
