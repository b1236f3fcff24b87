package work

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/lab"
)

// TrayUse is what stands in a tray.
type TrayUse int

// What stands in a tray: a bath, the water of a wash, or the water in which prints wait.
const (
	TrayBath TrayUse = iota
	TrayWash
	TrayHold
)

// Tray is one place in the row of trays that prints pass through.
type Tray struct {
	// Letters name it, such as "DEV" or "FIX 2".
	Letters string
	Use     TrayUse
	// Role is that of its bath, empty for water.
	Role lab.Role
	// Baths are all that stand in it, one after the other, and Dangers theirs together;
	// none for water.
	Baths   []*Bath
	Dangers Dangers
}

// trayLetters are those of a role; a bath of any other goes by its name.
var trayLetters = map[lab.Role]string{
	lab.Developer: "DEV", lab.StopBath: "STOP", lab.Fixer: "FIX", lab.ClearingBath: "CLEAR", lab.Bleach: "BLEACH",
	lab.Toner: "TONE", lab.Wetting: "WET",
}

// trays is the stage of the row of trays: one for each place that any print passes
// through, in the order of the processes.
func (w *Work) trays() {
	at := map[string]*Tray{}
	stand := func(letters string, use TrayUse, role lab.Role, b *Bath) {
		t := at[letters]
		if t == nil {
			t = &Tray{Letters: letters, Use: use, Role: role}
			at[letters] = t
			w.Trays = append(w.Trays, t)
		}
		if b != nil && !slices.Contains(t.Baths, b) {
			t.Baths = append(t.Baths, b)
		}
	}
	for _, p := range w.Processes {
		if p.Decl.Base == lab.Film {
			continue
		}
		for i, s := range p.Decl.Steps {
			switch b := p.Baths[i]; {
			case b != nil && b.Role() == lab.Sensitiser: // brushed on, in no tray
			case b != nil:
				letters, ok := trayLetters[b.Role()]
				if !ok {
					letters = strings.ToUpper(b.Name())
				}
				if s.Place > 0 {
					letters += fmt.Sprintf(" %d", s.Place)
				}
				stand(letters, TrayBath, b.Role(), b)
			case s.Bath != "":
			case len(s.Fills) > 0 || s.Flow.Given():
				stand("WASH", TrayWash, "", nil)
			case s.ID == "hold":
				stand("HOLD", TrayHold, "", nil)
			}
		}
	}
	for _, t := range w.Trays {
		if len(t.Baths) > 0 {
			t.Dangers = together(t.Baths)
		}
	}
}
