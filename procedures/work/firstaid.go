package work

import (
	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// FirstAid are the usual numbers of first aid and of spills.
type FirstAid struct {
	// Eyes, EyesAlkali and Skin are how long to rinse at least.
	Eyes, EyesAlkali, Skin *figure.Record
	// Small and Powder are the most that counts as a small spill.
	Small, Powder *figure.Record
}

const usualFirstAid = "common practice, no source; follow the supplier’s sheet and the poison centre first"

// firstAid is the stage of the numbers that hold for every accident.
func (w *Work) firstAid() {
	minutes := func(id, name string, n float64) *figure.Record {
		g := figure.Constant(unit.Factor(n), name, usualFirstAid, figure.Memory)
		return figure.Declare(w.mix.Book, figure.ID("emergency", id), figure.KindTime, g, unit.Short(n), "min")
	}
	volume := figure.Constant(unit.Volume(500), "most of a small spill", usualFirstAid, figure.Memory)
	mass := figure.Constant(unit.Mass(50), "most of a small spill of powder", usualFirstAid, figure.Memory)
	w.FirstAid = FirstAid{
		Eyes:       minutes("eyes", "rinse the eyes for at least", 15),
		EyesAlkali: minutes("eyes-alkali", "after alkali rinse the eyes for at least", 30),
		Skin:       minutes("skin", "rinse the skin for at least", 15),
		Small:      figure.Declare(w.mix.Book, figure.ID("spill", "small"), figure.KindAmount, volume, "500", "ml"),
		Powder:     figure.Declare(w.mix.Book, figure.ID("spill", "powder"), figure.KindAmount, mass, "50", "g"),
	}
}
