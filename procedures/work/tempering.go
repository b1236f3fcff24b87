package work

import (
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/timing"
	"wetside/procedures/unit"
)

// Tempering is how water is brought to the temperature of a bath.
type Tempering struct {
	// Seasons is what the two taps give in each season; none where nobody has written how
	// warm both are.
	Seasons []TapWater
	// Stock is how warm the water must be that a cold stock is diluted with, one and one,
	// for a bath at StockFor.
	StockFor *figure.Record
	Stock    []ColdStock
	// IceVolumes are those for which Ice says how much of it cools a bath that is too warm.
	IceVolumes []*figure.Record
	Ice        []Iced
	// Deionised names the solutions that tap water would spoil.
	Deionised []string
}

// Iced is how much ice cools a bath of one temperature to the usual one, by volume.
type Iced struct {
	From  *figure.Record
	Grams []*figure.Record
}

// TapWater is how the two taps are mixed in one season.
type TapWater struct {
	// Name is the name of the season; Always: the cold tap is as warm all year.
	Name   string
	Always bool
	// Cold and Hot are how warm the taps are.
	Cold, Hot *figure.Record
	// Volumes are those that Rows are worked out for.
	Volumes []*figure.Record
	Rows    []Tempered
}

// Tempered is water at one temperature, in every volume.
type Tempered struct {
	At    *figure.Record
	Makes []HotAndCold
}

// HotAndCold is how much of each tap makes a volume.
type HotAndCold struct {
	Hot   mix.Take
	Split Split
	Cold  *figure.Record
	// No is the refusal and Why its reason, where the taps or the cylinders cannot make it.
	No  *figure.Record
	Why string
}

// ColdStock is the water for a stock at one temperature.
type ColdStock struct {
	// At is how warm the stock is, and Water how warm the water must be; refused where no
	// tap gives that.
	At, Water *figure.Record
	// TooCold: the cold tap is warmer than that in summer.
	TooCold bool
}

var (
	temperVolumes     = volumes("1 L", "2 L", "5 L", "10 L")
	usualTemperatures = []float64{18, 20, 24}
	stockTemperatures = []float64{10, 12, 14, 16, 18, 22, 24, 26}
	warmTemperatures  = []float64{24, 28}
)

// stockFor is the usual temperature of a bath, in °C.
const stockFor = 20

// tempering is the stage of the water.
func (w *Work) tempering() {
	t := &w.Tempering
	water := w.lab.Place.Water
	if water.Cold.Given() && water.Hot.Given() {
		for _, season := range water.Cold.List() {
			t.Seasons = append(t.Seasons, w.tapWater(season))
		}
	}
	t.StockFor = w.worksAt(stockFor)
	warmest := coldestWater(water.Cold)
	for _, at := range stockTemperatures {
		id := figure.ID("tempering", "water", "300+300", "stock-"+timing.Degrees(at), timing.Degrees(stockFor))
		s := ColdStock{At: w.worksAt(at), Water: w.times.Dilute(id, 600, 300, stockFor, unit.Temperature(at))}
		s.TooCold = !s.Water.Refused() && warmest.Given() && s.Water.Value < float64(warmest.Value())
		t.Stock = append(t.Stock, s)
	}
	for _, v := range temperVolumes {
		t.IceVolumes = append(t.IceVolumes, w.mix.VolumeFigure(figure.ID("tempering", "volume", mix.Tag(v.Exact())),
			v, figure.Where{}, figure.Standard, "volume wanted"))
	}
	for _, at := range warmTemperatures {
		row := Iced{From: w.worksAt(at)}
		for _, v := range temperVolumes {
			id := figure.ID("tempering", "ice", mix.Tag(v.Exact()), timing.Degrees(at), timing.Degrees(stockFor))
			volume := figure.Constant(v.Value(), "volume of the bath", "asked for, or chosen as an example",
				figure.Standard)
			row.Grams = append(row.Grams, w.times.Ice(id, volume, unit.Temperature(at), stockFor))
		}
		t.Ice = append(t.Ice, row)
	}
	t.Deionised = w.deionised()
}

// coldestWater is what the cold tap gives when it is warmest: nothing colder can be
// promised all year.
func coldestWater(s lab.Seasons) unit.Quantity[unit.Temperature] {
	var out unit.Quantity[unit.Temperature]
	for _, season := range s.List() {
		if !out.Given() || season.At.Value() > out.Value() {
			out = season.At.Quantity
		}
	}
	return out
}

// deionised names the solutions that tap water would spoil.
func (w *Work) deionised() []string {
	var out []string
	for _, b := range w.Baths {
		s, d := b.Solution, b.Decl()
		made := s != nil && s.Water == "deionised" && b.Strength == s.MadeStrength()
		if (made || d != nil && d.Water == "deionised") && !slices.Contains(out, b.Name()) {
			out = append(out, b.Name())
		}
	}
	return out
}

// tapWater is how the two taps are mixed in a season.
func (w *Work) tapWater(season lab.Season) TapWater {
	place := w.lab.Place
	key, word := "water.cold", strings.ReplaceAll(season.Name, " ", "-")
	if season.Key != "" {
		key += "." + season.Key
	}
	t := TapWater{Name: season.Name, Always: season.Key == "",
		Cold: w.temperature(figure.ID("tempering", "cold-"+word), place.Def, key, season.At.Quantity, "cold tap"),
		Hot:  w.temperature(figure.ID("tempering", "hot"), place.Def, "water.hot", place.Water.Hot.Quantity, "hot tap"),
	}
	for _, v := range temperVolumes {
		t.Volumes = append(t.Volumes, w.mix.VolumeFigure(figure.ID("tempering", "volume", mix.Tag(v.Exact())), v,
			figure.Where{},
			figure.Standard, "volume wanted"))
	}
	for _, at := range w.temperAt() {
		row := Tempered{At: w.worksAt(at)}
		for _, v := range temperVolumes {
			row.Makes = append(row.Makes, w.hotAndCold(v, at, season, mix.Tag(v.Exact()), timing.Degrees(at), word))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// hotAndCold is how much of each tap makes a volume at a temperature in °C; variants end
// the ids of its figures.
func (w *Work) hotAndCold(volume unit.Quantity[unit.Volume], at float64, season lab.Season,
	variants ...string) HotAndCold {
	id := figure.ID("tempering", "hot", variants...)
	if unit.Temperature(at) < season.At.Value() || unit.Temperature(at) > w.lab.Place.Water.Hot.Value() {
		why := "not between the two taps"
		return HotAndCold{Why: why, No: w.mix.Book.Refuse(id, figure.KindAmount, "hot water", "ml", why,
			figure.Standard)}
	}
	hot := w.times.Hot(id, volume.Value(), unit.Temperature(at), season)
	take := w.mix.Pour(hot, "hot water", unit.Nearest)
	if take.Refused != "" {
		return HotAndCold{Why: take.Refused, No: take.Amount}
	}
	cold := w.times.Cold(figure.ID("tempering", "cold", variants...), volume.Exact(), hot, take.Amount)
	return HotAndCold{Hot: take, Split: w.splitOf(take), Cold: figure.Enter(w.mix.Book, cold)}
}

// temperAt are the temperatures that are told, in °C: the usual ones, and those of the
// lab's own processes.
func (w *Work) temperAt() []float64 {
	out := slices.Clone(usualTemperatures)
	for _, p := range w.lab.Processes {
		if q := p.Temperature.At; q.Given() && !slices.Contains(out, float64(q.Value())) {
			out = append(out, float64(q.Value()))
		}
	}
	slices.Sort(out)
	return out
}
