package work

import (
	"cmp"
	"maps"
	"slices"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/timing"
	"wetside/procedures/unit"
)

// Drifting is how far the tanks for film drift to the temperature of a colder or warmer room.
type Drifting struct {
	// Baths are the answers for each temperature of the processes on film.
	Baths []DriftAt
	// Unmeasured names the tanks of which nobody has measured how fast, and Measure is how that is done.
	Unmeasured []string
	Measure    Measuring
}

// DriftAt is how far baths of one temperature drift.
type DriftAt struct {
	// At is the temperature at which all baths go in.
	At *figure.Record
	// Within is how far off the baths of the strictest process may be; nil where nobody has said it.
	Within *figure.Record
	// Rooms are the examples that Tanks are worked out for.
	Rooms []*figure.Record
	Tanks []TankDrift
}

// TankDrift is one tank after some minutes, by room.
type TankDrift struct {
	Name  string
	After *figure.Record
	In    []timing.Drift
}

// Measuring is how the time constant of a tank is measured: water at From is in the room until the
// thermometer reads Reads.
type Measuring struct{ From, Room, Reads *figure.Record }

// The examples of rooms, in °C, and of how long a bath is in the tank, in minutes.
var (
	exampleRooms   = []float64{10, 14, 24, 28}
	exampleMinutes = []float64{10, 20}
)

// drifting is the stage of the tanks that stand in air.
func (w *Work) drifting() {
	temperatures, tanks := w.filmAt(), w.lab.Place.Tanks
	if len(temperatures) == 0 || len(tanks) == 0 {
		return
	}
	const from, room = 30, 18
	out := &Drifting{Measure: Measuring{From: w.worksAt(from), Room: w.room(room),
		Reads: w.times.DriftReads(figure.ID("drift", "constant", timing.Degrees(from), "room-"+timing.Degrees(room)),
			room, from)}}
	var known []string
	for _, id := range slices.Sorted(maps.Keys(tanks)) {
		if tanks[id].TimeConstant.Given() {
			known = append(known, id)
		} else {
			out.Unmeasured = append(out.Unmeasured, tankName(tanks[id], id))
		}
	}
	w.Drifting = out
	if len(known) == 0 {
		return
	}
	for _, at := range temperatures {
		out.Baths = append(out.Baths, w.driftAt(at, known))
	}
}

// driftAt is how far baths at a temperature in °C drift in some tanks.
func (w *Work) driftAt(at float64, known []string) DriftAt {
	d := DriftAt{At: w.worksAt(at)}
	within := w.strictest(at)
	if within.Given() {
		d.Within = figure.Declare(w.mix.Book, figure.ID("drift", "within", timing.Degrees(at)),
			figure.KindTemperature, within.Figure("how far off the baths may be"),
			unit.Short(float64(within.Value())), "K")
	}
	var rooms []float64
	for _, room := range exampleRooms {
		if room != at {
			rooms, d.Rooms = append(rooms, room), append(d.Rooms, w.room(room))
		}
	}
	for _, id := range known {
		x := w.lab.Place.Tanks[id]
		tau := x.TimeConstant.Figure("time constant of the tank")
		for _, minutes := range exampleMinutes {
			long := figure.Constant(unit.Seconds(60*minutes), "how long it is in the tank", "chosen as an example",
				figure.Standard)
			tank := TankDrift{Name: tankName(x, id), After: figure.Declare(w.mix.Book,
				figure.ID("minutes", unit.Short(minutes)), figure.KindTime,
				figure.Constant(unit.Factor(minutes), "how long it is in the tank", "chosen as an example",
					figure.Standard), unit.Short(minutes), "min")}
			for _, room := range rooms {
				tank.In = append(tank.In, w.times.Drifts(figure.ID("tank."+id, "drift", timing.Degrees(at),
					"room-"+timing.Degrees(room), unit.Short(minutes)+"min"), unit.Temperature(room),
					unit.Temperature(at), long, tau, within.Value()))
			}
			d.Tanks = append(d.Tanks, tank)
		}
	}
	return d
}

// tankName is the name of a tank, as it stands on the cards of its baths.
func tankName(t lab.Tank, id string) string { return cmp.Or(t.Name, lab.Title(id)+" tank") }

// room is an example of how warm a room is, in °C.
func (w *Work) room(at float64) *figure.Record {
	g := figure.Constant(unit.Temperature(at), "temperature of the room", "chosen as an example", figure.Standard)
	return figure.Declare(w.mix.Book, figure.ID("drift", "room", timing.Degrees(at)), figure.KindTemperature, g,
		unit.Format(at, unit.NewDecimal(1, 1)), "°C")
}

// filmAt are the temperatures of the processes on film, in °C; a process without one stands for the usual one.
func (w *Work) filmAt() []float64 {
	var out []float64
	for _, p := range w.lab.Processes {
		at := float64(stockFor)
		if q := p.Temperature.At; q.Given() {
			at = float64(q.Value())
		}
		if p.Base == lab.Film && !slices.Contains(out, at) {
			out = append(out, at)
		}
	}
	slices.Sort(out)
	return out
}

// strictest is how far off the baths of the strictest process on film at a temperature in °C may be.
func (w *Work) strictest(at float64) (out lab.Said[unit.Kelvin]) {
	for _, p := range w.lab.Processes {
		q := p.Temperature
		if p.Base == lab.Film && q.At.Given() && float64(q.At.Value()) == at && q.Within.Positive() &&
			(!out.Given() || q.Within.Value() < out.Value()) {
			out = q.Within
		}
	}
	return out
}
