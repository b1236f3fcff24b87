package lab

import (
	"fmt"
	"strings"
	"unicode"

	"wetside/procedures/figure"
)

// Names inside files stand in the ids of figures, and in the addresses and the file names
// of pages. parting are the letters by which an id is cut (figure.ID); noFile are those
// that a file name or an address cannot hold on every machine.
const (
	parting = "/@,"
	noFile  = `#?*:|<>"\`
)

// names checks every name inside the files that an id may hold.
func (c *checker) names() {
	l := c.lab
	p := l.Place
	namesIn(c, p.Def, "scale", p.Scales)
	namesIn(c, p.Def, "cylinder", p.Cylinders)
	namesIn(c, p.Def, "syringe", p.Syringes)
	namesIn(c, p.Def, "tank", p.Tanks)
	namesIn(c, p.Def, "tray", p.Trays)
	namesIn(c, p.Def, "bottle", p.Bottles)
	namesIn(c, p.Def, "drum", p.Drums)
	for _, d := range l.Chemicals {
		namesIn(c, d.Def, "form", d.Forms)
	}
	for _, d := range l.Products {
		namesIn(c, d.Def, "strength", d.Strengths)
		namesIn(c, d.Def, "part", d.Parts)
	}
	for _, d := range l.Solutions {
		namesIn(c, d.Def, "strength", d.Strengths)
		c.nameAt(d.Makes, d.At("makes"))
		for i, s := range d.Steps {
			c.nameAt(s.ID, d.At(StepKey(i)+".id"))
		}
	}
	for _, d := range l.Materials {
		namesIn(c, d.Def, "format", d.Format)
		for _, id := range sortedKeys(d.Format) {
			c.nameAt(d.Format[id].Family, d.At("format."+keyName(id)+".family"))
		}
	}
	for _, d := range l.Processes {
		for i, s := range d.Steps {
			c.nameAt(s.ID, d.At(StepKey(i)+".id"))
		}
	}
}

// namesIn checks the names of a table of tables, such as [tank.double].
func namesIn[T any](c *checker, d Def, table string, named map[string]T) {
	for _, id := range sortedKeys(named) {
		what := badName(id)
		if what == "" {
			continue
		}
		c.problems = append(c.problems, Problem{At: d.At(table + "." + keyName(id)), OnKey: true, Code: "name", What: what,
			Hint: nameHint(id, func(name string) string { return "[" + table + "." + keyName(name) + "]" })})
	}
}

// nameAt checks a name that is the value of a key; one that is left out is no name.
func (c *checker) nameAt(name string, at figure.Where) {
	if name == "" {
		return
	}
	if what := badName(name); what != "" {
		c.add(at, "name", what, nameHint(name, quoted))
	}
}

// badName says what is wrong with a name, or nothing.
func badName(name string) string {
	if strings.TrimSpace(name) == "" {
		return "a name without a letter"
	}
	for _, r := range name {
		switch {
		case strings.ContainsRune(parting, r):
			return fmt.Sprintf("%q cannot be a name: it holds %q, and the ids of figures are cut at it", name, string(r))
		case strings.ContainsRune(noFile, r) || unicode.IsControl(r):
			return fmt.Sprintf("%q cannot be a name: it holds %q, and the address of a page cannot hold that", name, string(r))
		}
	}
	return ""
}

// nameHint offers a name with hyphens for what a name cannot hold.
func nameHint(name string, write func(string) string) string {
	better := strings.Join(strings.FieldsFunc(name, func(r rune) bool {
		return strings.ContainsRune(parting+noFile, r) || unicode.IsControl(r) || r == ' '
	}), "-")
	if better == "" {
		return "write a name of letters, digits and hyphens"
	}
	return "write " + write(better) + ", and the same name wherever this one is named"
}
