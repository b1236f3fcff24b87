package main

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"wetside/build"
	"wetside/build/render"
	"wetside/procedures"
	"wetside/procedures/figure"
	"wetside/procedures/near"
	"wetside/procedures/page"
	"wetside/procedures/unit"
)

var bareNumber = regexp.MustCompile(`^[0-9]+(\.[0-9]+)?$`)

func (c *command) mix(args []string) int {
	c.common()
	words, status, ok := c.parse(args, 4)
	if !ok {
		return status
	}
	if len(words) > 2 && bareNumber.MatchString(words[1]) { // 1 L without quotes
		words = append([]string{words[0], words[1] + " " + words[2]}, words[3:]...)
	}
	if len(words) > 3 {
		return c.wrong("too many words: %s", strings.Join(words[3:], " "))
	}
	if len(words) < 2 {
		return c.wrong(`mix needs a solution and a volume, for example: wetside mix film-developer "1 L"`)
	}
	var volume unit.Quantity[unit.Volume]
	if err := volume.UnmarshalText([]byte(spaced(words[1]))); err != nil {
		return c.failed(fmt.Errorf("%v; write a volume such as 600mL or \"1 L\"", err))
	}
	if !volume.Positive() || volume.IsRange() {
		return c.failed(fmt.Errorf("%q: a volume to mix is above zero", words[1]))
	}
	folder := ""
	if len(words) == 3 {
		folder = words[2]
	}
	r, demo, status := c.work(folder)
	if status != well {
		return status
	}
	day, err := unit.ParseDate(r.Binder.Day)
	if err != nil {
		return c.failed(err)
	}
	p, problems := procedures.Mix(r.Loaded.Lab, words[0], volume, day)
	if len(problems) > 0 {
		for _, p := range problems {
			fmt.Fprintf(c.err, "wetside: %s; %s\n", p.What, p.Hint)
		}
		return misused
	}
	text := render.Terminal(p, 0, 80)
	if demo || !r.Loaded.Lab.Place.Lab.Day.IsZero() {
		text = page.Demonstration + "\n\n" + text
	}
	fmt.Fprintln(c.out, strings.TrimRight(text, "\n"))
	return well
}

// work works a binder out for a question; demo tells whether it is the
// demonstration.
func (c *command) work(folder string) (r *build.Result, demo bool, status int) {
	o, demo, err := c.open(folder, false)
	if err != nil {
		return nil, demo, c.failed(err)
	}
	r, err = build.Work(o)
	if err != nil {
		return nil, demo, c.failed(err)
	}
	if r.Faults.HasErrors() && len(r.Binder.Pages) == 0 { // a fault in a notice alone hinders no answer
		r.Faults.WriteText(c.err)
		return nil, demo, faulty
	}
	return r, demo, well
}

// rest works out what can be answered while some files of a binder have faults, and says
// which files it leaves out.
func (c *command) rest(folder string) (r *build.Result, demo bool, status int) {
	o, demo, err := c.open(folder, false)
	if err != nil {
		return nil, demo, c.failed(err)
	}
	r, left, err := build.Rest(o)
	if err != nil {
		return nil, demo, c.failed(err)
	}
	if r.Faults.HasErrors() {
		r.Faults.WriteText(c.err)
		return nil, demo, faulty
	}
	for _, name := range left {
		fmt.Fprintf(c.err, "left out, because it has faults or needs a file that has faults: %s\n", name)
	}
	if len(left) > 0 {
		fmt.Fprintln(c.err, "wetside proof says what is wrong and how to fix it.")
	}
	return r, demo, well
}

// spaced puts a space between a number and its unit, as people leave it out on
// a command line.
func spaced(s string) string {
	i := strings.LastIndexAny(s, "0123456789.")
	if i >= 0 && i+1 < len(s) && s[i+1] != ' ' {
		return s[:i+1] + " " + s[i+1:]
	}
	return s
}

func (c *command) why(args []string) int {
	c.common()
	words, status, ok := c.parse(args, 2)
	if !ok {
		return status
	}
	if len(words) == 0 {
		return c.wrong("why needs the id of a figure, such as film-developer.working/draw@600ml, a subject, a card, or the code of a fault")
	}
	if e, ok := build.Explain(words[0]); ok {
		fmt.Fprintf(c.out, "%s: %s\n\n", e.Code, e.Means)
		if e.Example != "" {
			fmt.Fprintf(c.out, "for example, in %s:\n%s\n", e.File, indent(e.Example))
		}
		fmt.Fprintf(c.out, "Fix: %s\n", e.Mend)
		return well
	}
	folder := ""
	if len(words) == 2 {
		folder = words[1]
	}
	r, demo, status := c.rest(folder)
	if status != well {
		return status
	}
	if demo {
		fmt.Fprintln(c.out, page.Demonstration)
	}
	var ids []string
	for _, f := range r.Binder.Answers {
		if f.ID == words[0] {
			c.working(f, r)
			return well
		}
		ids = append(ids, f.ID)
	}
	for _, v := range r.Binder.Verdicts {
		if v.ID == words[0] {
			fmt.Fprintf(c.out, "%s\n  %s\n", v.ID, v.Answer)
			for _, line := range append(v.Limits, v.Because...) {
				fmt.Fprintf(c.out, "  %s\n", line)
			}
			fmt.Fprintf(c.out, "  source: %s\n", v.Source)
			return well
		}
	}
	if below := figuresOf(words[0], r.Binder); len(below) > 0 {
		fmt.Fprintf(c.out, "The figures of %s: %d.\n", words[0], len(below))
		for _, a := range below {
			fmt.Fprintf(c.out, "  %-52s %s\n", a.id, a.says)
		}
		fmt.Fprintln(c.out, "Ask for one of them to see how it was worked out.")
		return well
	}
	for p := range r.Binder.All() {
		if p.ID == words[0] {
			fmt.Fprintf(c.out, "The card %s shows no figures.\n", p.ID)
			return well
		}
	}
	return c.failed(fmt.Errorf("there is no figure, subject, card or fault %q%s", words[0], c.meant(words[0], ids, r)))
}

// meant asks whether another id, subject or card was meant: what the trade calls so, else the
// nearest, else those that hold the word.
func (c *command) meant(word string, ids []string, r *build.Result) string {
	var names []string
	for p := range r.Binder.All() {
		names = append(names, p.ID)
	}
	for _, id := range ids {
		subject, _, _ := strings.Cut(id, "/")
		names = append(names, subject)
	}
	for _, id := range r.Loaded.Lab.Called(word) {
		for _, of := range []string{id, "chemical/" + id} {
			if slices.Contains(names, of) {
				return fmt.Sprintf("; did you mean %q?", of)
			}
		}
	}
	names = append(names, ids...)
	if meant := near.Word(word, names); meant != "" {
		return fmt.Sprintf("; did you mean %q?", meant)
	}
	const most = 4
	var holding []string
	for _, name := range names {
		if strings.Contains(name, word) && !slices.Contains(holding, name) && len(holding) < most {
			holding = append(holding, name)
		}
	}
	if len(holding) == 0 {
		return ""
	}
	return "; did you mean one of these? " + strings.Join(holding, ", ")
}

// answer is a figure or a verdict in one line.
type answer struct{ id, says string }

// figuresOf lists the figures and verdicts of a subject, such as film-developer.working,
// of all strengths of film-developer, or of a card, such as mix/film-developer.
func figuresOf(word string, b procedures.Binder) []answer {
	var out []answer
	seen := map[string]bool{}
	add := func(id, says string) {
		if !seen[id] {
			seen[id] = true
			out = append(out, answer{id, says})
		}
	}
	of := func(id string) bool {
		subject, _, _ := strings.Cut(id, "/")
		return subject == word || strings.HasPrefix(subject, word+".") || strings.HasPrefix(subject, word+"+")
	}
	for _, f := range b.Answers {
		if of(f.ID) {
			add(f.ID, inShort(f))
		}
	}
	for p := range b.All() {
		if p.ID != word {
			continue
		}
		for _, f := range page.Figures(p) {
			add(f.ID, inShort(f))
		}
		for _, v := range p.Verdicts {
			add(v.ID, v.Answer)
		}
	}
	for _, v := range b.Verdicts {
		if of(v.ID) {
			add(v.ID, v.Answer)
		}
	}
	return out
}

// inShort is what a figure shows, and what it is.
func inShort(f *figure.Record) string { return shown(f) + "  " + f.Name }

// shown is a figure as cards show it, or NO.
func shown(f *figure.Record) string {
	switch {
	case f.Refused():
		return "NO"
	case strings.Contains(f.Shown, ":"): // a clock time needs no unit
		return f.Shown
	}
	return strings.TrimSpace(f.Shown + " " + f.Unit)
}

func indent(s string) string {
	return "  " + strings.ReplaceAll(strings.TrimRight(s, "\n"), "\n", "\n  ")
}

func (c *command) working(f *figure.Record, r *build.Result) {
	fmt.Fprintf(c.out, "%s\n%s: ", f.ID, f.Name)
	fmt.Fprint(c.out, shown(f))
	if f.Refused() {
		fmt.Fprint(c.out, ": ", f.Why)
	}
	fmt.Fprintln(c.out)
	if f.Formula != nil {
		fmt.Fprintf(c.out, "  %s = %s\n", f.Formula.Result, f.Formula.Text)
	} else if f.Method != nil {
		fmt.Fprintf(c.out, "  %s:\n", f.Method.Name)
		for _, line := range f.Method.Equations {
			fmt.Fprintf(c.out, "    %s\n", line)
		}
		fmt.Fprintf(c.out, "  every result is checked by this: %s\n", f.Method.Check)
	}
	for _, in := range f.Inputs {
		from := in.ID
		switch {
		case in.Where.File != "":
			from = fmt.Sprintf("%s:%d %s", in.Where.File, r.Loaded.Line(in.Where.File, in.Where.Key), in.Where.Key)
		case in.Constant != "":
			from = strings.TrimSpace(in.Constant + " " + in.Source)
		}
		value := in.Text
		if value == "" {
			value = strings.TrimSpace(fmt.Sprintf("%g %s", in.Value, in.Unit))
		}
		fmt.Fprintf(c.out, "  %-7s %-22s %s  [%s; %s]\n", in.Symbol, value, in.Name, from, in.Origin)
	}
	if f.Round.Step != "" {
		fmt.Fprintf(c.out, "  unrounded %.8g, rounded %s in steps of %s %s\n", f.Counted(f.Value), f.Round.Rule,
			f.Round.Step, inBrackets(f.Round.Device))
	}
	if f.HasLow {
		fmt.Fprintf(c.out, "  between %.4g and %.4g\n", f.Counted(f.Low), f.Counted(f.High))
	}
	if f.Source != "" {
		fmt.Fprintf(c.out, "  source: %s\n", f.Source)
	}
	fmt.Fprintf(c.out, "  origin: %s (the weakest input)\n", f.Origin)
}

// inBrackets puts a device that a figure is rounded for behind its step.
func inBrackets(device string) string {
	if device == "" {
		return ""
	}
	return "(" + device + ")"
}
