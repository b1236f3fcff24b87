package lab

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"wetside/procedures/figure"
)

// Names inside files stand in the ids of figures, and in the addresses and the file names
// of pages. parting are the letters by which an id is cut (figure.ID); noFile are those
// that a file name or an address cannot hold on every machine.
const (
	parting = "/@,"
	noFile  = `#?*:|<>"\`
)

// oneLine puts the names that people read onto one line: the breaks and spaces around
// them are those of the file.
func (l *Lab) oneLine() {
	in := func(name *string) { *name = strings.Join(strings.Fields(*name), " ") }
	control := func(d *Def) {
		if d.Control != nil {
			in(&d.Control.Written)
			in(&d.Control.Approved)
		}
	}
	p := &l.Place
	in(&p.Lab.Name)
	in(&p.Lab.Place)
	control(&p.Def)
	for id, t := range p.Tanks {
		in(&t.Name)
		p.Tanks[id] = t
	}
	for id, t := range p.Trays {
		in(&t.Name)
		p.Trays[id] = t
	}
	for _, d := range l.Chemicals {
		in(&d.Name)
		control(&d.Def)
	}
	for _, d := range l.Products {
		in(&d.Name)
		control(&d.Def)
	}
	for _, d := range l.Solutions {
		in(&d.Name)
		control(&d.Def)
	}
	for _, d := range l.Materials {
		in(&d.Name)
		control(&d.Def)
	}
	for _, d := range l.Processes {
		in(&d.Name)
		control(&d.Def)
	}
	for _, d := range l.Wastes {
		in(&d.Name)
		control(&d.Def)
	}
}

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
		c.problems = append(c.problems, Problem{At: d.At(table + "." + keyName(id)), OnKey: true, Code: "name",
			What: what,
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

// longestName keeps a file name, which may hold a process, a material and a tank, within
// the 255 bytes of a disk, at three bytes a letter.
const longestName = 40

// badName says what is wrong with a name, or nothing.
func badName(name string) string {
	if strings.TrimSpace(name) == "" {
		return "a name without a letter"
	}
	if n := utf8.RuneCountInString(name); n > longestName {
		return fmt.Sprintf("a name of %d letters is too long for an id", n)
	}
	for _, r := range name {
		switch {
		case strings.ContainsRune(parting, r):
			return fmt.Sprintf("%q cannot be a name: it holds %q, and the ids of figures are cut at it", name,
				string(r))
		case strings.ContainsRune(noFile, r) || unicode.IsControl(r):
			return fmt.Sprintf("%q cannot be a name: it holds %q, and the address of a page cannot hold that", name,
				string(r))
		}
	}
	return ""
}

// nameHint offers a name with hyphens for what a name cannot hold.
func nameHint(name string, write func(string) string) string {
	if utf8.RuneCountInString(name) > longestName {
		return fmt.Sprintf("write a name of at most %d letters here; how a thing is called in full goes into its key name",
			longestName)
	}
	better := strings.Join(strings.FieldsFunc(name, func(r rune) bool {
		return strings.ContainsRune(parting+noFile, r) || unicode.IsControl(r) || r == ' '
	}), "-")
	if better == "" {
		return "write a name of letters, digits and hyphens"
	}
	return "write " + write(better) + ", and the same name wherever this one is named"
}
