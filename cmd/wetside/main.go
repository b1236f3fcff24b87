// Command wetside makes a darkroom's procedure binder from the lab's own
// definitions.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime/debug"
	"slices"
	"strings"

	"wetside/build"
	"wetside/build/load"
	"wetside/build/output"
	"wetside/build/source"
	"wetside/content"
	"wetside/procedures/figure"
	"wetside/procedures/near"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/themes"
)

// Exit statuses.
const (
	well    = 0
	faulty  = 1 // faults in the binder
	misused = 2 // wrong usage, or a system error
)

// nearly1GB is, in bytes, what a binder of a thousand solutions should stay under.
const nearly1GB = 900 << 20

func main() {
	// What a large lab holds is small beside what is used up on the way: collecting it
	// sooner keeps the peak low and costs little.
	debug.SetGCPercent(50)
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(nearly1GB) // near it, it is collected more often still
	}
	os.Exit(guarded(os.Args[1:], os.Stdout, os.Stderr))
}

// guarded runs a command. A mistake of the program itself becomes one line that says
// what it was about; nothing is written then.
func guarded(args []string, out, errw io.Writer) (status int) {
	defer func() {
		if what := recover(); what != nil {
			fmt.Fprintf(errw, "wetside: this is a mistake of the program, not of the binder: %v\n", what)
			status = misused
		}
	}()
	return run(args, out, errw)
}

type command struct {
	out, err io.Writer
	name     string
	flags    *flag.FlagSet
	demo     *bool
	on       *string
}

func run(args []string, out, errw io.Writer) int {
	if len(args) == 0 {
		fmt.Fprint(errw, usage())
		return misused
	}
	name, rest := args[0], args[1:]
	if name == "help" && len(rest) == 1 {
		name, rest = rest[0], []string{"--help"}
	}
	c := &command{out: out, err: errw, name: name, flags: flag.NewFlagSet(name, flag.ContinueOnError)}
	c.flags.SetOutput(io.Discard)
	switch name {
	case "bind":
		return c.bind(rest)
	case "proof":
		return c.proof(rest)
	case "mix":
		return c.mix(rest)
	case "why":
		return c.why(rest)
	case "start":
		return c.start(rest)
	case "help", "-h", "-help", "--help":
		fmt.Fprint(out, usage())
		return well
	}
	c.name = ""
	var names []string
	for _, a := range abouts {
		names = append(names, a.name)
	}
	if meant := near.Word(name, names); meant != "" {
		return c.wrong("there is no command %q; did you mean %q?", name, meant)
	}
	return c.wrong("there is no command %q", name)
}

func (c *command) wrong(format string, args ...any) int {
	fmt.Fprintf(c.err, "wetside: "+format+"\n", args...)
	if c.name == "" {
		fmt.Fprintln(c.err, `"wetside help" lists the commands`)
	} else {
		fmt.Fprintf(c.err, "\"wetside %s --help\" says how it is used\n", c.name)
	}
	return misused
}

func (c *command) failed(err error) int {
	fmt.Fprintf(c.err, "wetside: %v\n", err)
	return misused
}

// parse reads flags that may stand anywhere among the words. Unless ok, the command ends
// with the status: it was asked for help, or used wrongly.
func (c *command) parse(args []string, words int) (got []string, status int, ok bool) {
	for {
		if err := c.flags.Parse(args); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				fmt.Fprint(c.out, c.help())
				return nil, well, false
			}
			return nil, c.wrong("%s", c.badFlag(err)), false
		}
		args = c.flags.Args()
		if len(args) == 0 {
			break
		}
		got = append(got, args[0])
		args = args[1:]
	}
	if len(got) > words {
		return nil, c.wrong("too many words: %s", strings.Join(got[words:], " ")), false
	}
	return got, well, true
}

func (c *command) common() {
	c.demo = c.flags.Bool("demo", false, "use the demonstration, an invented darkroom")
	c.on = c.flags.String("on", "", "work for the day `DATE`, such as 2026-03-14, and not for today")
}

var errDemoOnly = errors.New("there is no binder in the current folder (no lab.toml); name a folder, or say --demo to ask the demonstration, whose figures are invented")

// open finds the binder that was asked for.
func (c *command) open(folder string, mayDemo bool) (build.Options, bool, error) {
	o := build.Options{Library: content.FS, Theme: themes.FS}
	if *c.on != "" {
		day, err := unit.ParseDate(*c.on)
		if err != nil {
			return o, false, fmt.Errorf("--on: %v; write it as 2026-03-14", err)
		}
		o.On = day
	}
	if *c.demo {
		if folder != "" {
			return o, false, errors.New("name a folder or say --demo, not both")
		}
		return demonstration(o)
	}
	dir := folder
	if dir == "" {
		dir = "."
	}
	info, err := os.Stat(dir)
	if err != nil {
		return o, false, fmt.Errorf("%s: there is no such folder", dir)
	}
	if !info.IsDir() {
		return o, false, fmt.Errorf("%s is a file; name the folder that holds lab.toml", dir)
	}
	if _, err := os.Lstat(filepath.Join(dir, "lab.toml")); err != nil {
		switch {
		case folder == "" && mayDemo:
			return demonstration(o)
		case folder == "":
			return o, false, errDemoOnly
		}
		return o, false, fmt.Errorf("%s: %w; \"wetside start FOLDER\" writes a small example binder", dir,
			load.ErrNoBinder)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return o, false, err
	}
	o.Source = root.FS()
	return o, false, nil
}

func demonstration(o build.Options) (build.Options, bool, error) {
	sub, err := fs.Sub(content.FS, "demo")
	o.Source = sub
	return o, true, err
}

func first(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return words[0]
}

func (c *command) bind(args []string) int {
	c.common()
	out := c.flags.String("out", "binder", "write the binder into `DIR`, and not into ./binder")
	address := c.flags.String("address", "", "print QR codes on labels and wall cards: the binder will stand at `URL`")
	words, status, ok := c.parse(args, 1)
	if !ok {
		return status
	}
	if *address != "" {
		if err := build.CheckAddress(*address); err != nil {
			return c.wrong("--address: %v", err)
		}
	}
	o, demo, err := c.open(first(words), true)
	if err != nil {
		return c.failed(err)
	}
	if name := reserved(first(words), *out); !demo && name != "" {
		return c.wrong("--out: %s/ is a folder for what the lab itself writes; choose another", name)
	}
	if err := output.Check(*out); err != nil {
		return c.failed(err)
	}
	o.Address = *address
	to := output.Into(*out)
	defer to.Leave()
	r, err := build.BindInto(o, to)
	if err != nil {
		return c.failed(err)
	}
	if r.Faults.HasErrors() {
		r.Faults.WriteText(c.err)
		fmt.Fprintln(c.err, "nothing was written")
		return faulty
	}
	r.Faults.WriteText(c.err)
	done, err := to.Keep()
	if err != nil {
		return c.failed(err)
	}
	if demo {
		fmt.Fprintln(c.out, "This is the DEMONSTRATION: an invented darkroom, do not mix from it.")
	}
	fmt.Fprintf(c.out, "The binder of %s for %s: %d cards, %d files written, %d unchanged, %d removed.\n",
		nameOf(r.Binder.Lab), r.Binder.Day, len(r.Binder.Pages), done.Written, done.Same, done.Removed)
	fmt.Fprintf(c.out, "Open %s in a browser.\n", filepath.Join(whole(*out), "index.html"))
	return well
}

// whole is the full path of a folder, which says where it is whatever the current one is.
func whole(dir string) string {
	if full, err := filepath.Abs(dir); err == nil {
		return full
	}
	return dir
}

// reserved is the folder of a binder's own definitions in which out lies, or nothing.
func reserved(folder, out string) string {
	from, err := filepath.Abs(folder)
	if err != nil {
		return ""
	}
	to, err := filepath.Abs(out)
	if err != nil {
		return ""
	}
	inside, err := filepath.Rel(from, to)
	if err != nil {
		return ""
	}
	if name, _, _ := strings.Cut(filepath.ToSlash(inside), "/"); load.Reserved(name) {
		return name
	}
	return ""
}

func nameOf(lab string) string {
	if lab == "" {
		return "a darkroom without a name"
	}
	return lab
}

func (c *command) proof(args []string) int {
	c.common()
	asJSON := c.flags.Bool("json", false, "write the list as JSON, for another program")
	words, status, ok := c.parse(args, 1)
	if !ok {
		return status
	}
	o, _, err := c.open(first(words), false)
	if err != nil {
		return c.failed(err)
	}
	r, err := build.BindInto(o, build.Nowhere{})
	if err != nil {
		return c.failed(err)
	}
	r.Faults = append(r.Faults, r.Fits...)
	r.Faults.Sort()
	if *asJSON {
		list := r.Faults
		if !list.HasErrors() {
			for _, h := range holesOf(r) {
				list = append(list, source.HoleFault(h.page, h.What, h.Until, h.Key))
			}
			for _, n := range refusals(r) {
				list = append(list, source.NoFault(n.of, n.page, n.what, n.why))
			}
		}
		if err := list.WriteJSON(c.out); err != nil {
			return c.failed(err)
		}
	} else {
		var due source.Faults
		if !r.Faults.HasErrors() {
			due = reviews(r)
		}
		r.Faults.WriteText(c.err)
		if !r.Faults.HasErrors() {
			c.list(r, due)
		}
	}
	if r.Faults.HasErrors() {
		return faulty
	}
	return well
}

// reviews takes the reviews that are due out of the warnings: proof lists them apart.
func reviews(r *build.Result) (due source.Faults) {
	of := func(f source.Fault) bool { return f.Code == "review" }
	for _, f := range r.Faults {
		if of(f) {
			due = append(due, f)
		}
	}
	r.Faults = slices.DeleteFunc(r.Faults, of)
	return due
}

// list prints what proof has found besides faults and warnings: what is refused, what
// nobody has written and which reviews are due, each counted, by card or file.
func (c *command) list(r *build.Result, due source.Faults) {
	var holes, none, late sorted
	for _, h := range holesOf(r) {
		holes.add(h.page, fmt.Sprintf("%s (%s): %s", h.What, h.Key, h.Until))
	}
	for _, n := range refusals(r) {
		none.add(n.page, fmt.Sprintf("no %s: %s: %s", n.of, n.what, n.why))
	}
	for _, f := range due {
		late.add(f.Span.File, f.What)
	}
	none.print(c.out, "Refused amounts and times: %d. The cards say NO and why.")
	holes.print(c.out, "Holes: %d. Nobody has written this; until then the cards say what stands behind each.")
	late.print(c.out, "Reviews that are due: %d. Read the card, correct it, and write the next day under [control].")
	fmt.Fprintf(c.out,
		"No faults. Cards for %s: %d; warnings: %d; refused amounts and times: %d; holes: %d; reviews due: %d.\n",
		r.Binder.Day, len(r.Binder.Pages), r.Faults.Warnings(), none.n, holes.n, late.n)
}

// sorted are lines by what they are about, in the order in which they come.
type sorted struct {
	about []string
	lines map[string][]string
	n     int
}

func (s *sorted) add(about, line string) {
	if s.lines == nil {
		s.lines = map[string][]string{}
	}
	if s.lines[about] == nil {
		s.about = append(s.about, about)
	}
	s.lines[about] = append(s.lines[about], line)
	s.n++
}

// print writes the lines below a heading that counts them; without lines, nothing.
func (s *sorted) print(w io.Writer, heading string) {
	if s.n == 0 {
		return
	}
	fmt.Fprintf(w, heading+"\n", s.n)
	for _, about := range s.about {
		name := about
		if name == "" {
			name = "the whole lab"
		}
		fmt.Fprintf(w, "  %s: %d\n    %s\n", name, len(s.lines[about]), strings.Join(s.lines[about], "\n    "))
	}
	fmt.Fprintln(w)
}

// refusal is an amount or a time that a card refuses: of what, how much of an amount
// was wanted, and why there is none, with what would help.
type refusal struct{ of, page, what, why string }

// asked are the ids of amounts that somebody wants to weigh or to measure.
var asked = regexp.MustCompile(`/(draw@|weigh\.|pour\.|instead\.)`)

// refusals lists the amounts that cards refuse and the times of a process's steps,
// each once, at the card that shows it first. What a card refuses to show that nobody
// should do it is not among them.
func refusals(r *build.Result) []refusal {
	shown := map[string]string{}
	for p := range r.Binder.All() {
		for _, f := range page.Figures(p) {
			if _, ok := shown[f.ID]; !ok {
				shown[f.ID] = p.ID
			}
		}
	}
	var out []refusal
	for _, f := range r.Binder.Figures {
		card, ok := shown[f.ID]
		if !ok || !f.Refused() || f.Kind != figure.KindAmount || len(f.From()) == 0 || !asked.MatchString(f.ID) {
			continue
		}
		wanted := f.From()[0]
		out = append(out, refusal{"amount", card, fmt.Sprintf("%s (%s), wanted %s %s", f.Name, f.ID, wanted.Shown,
			wanted.Unit), f.Why})
	}
	for _, p := range r.Binder.Pages {
		for _, f := range stepTimes(p) {
			if f.Refused() {
				out = append(out, refusal{"time", p.ID, fmt.Sprintf("%s (%s)", f.Name, f.ID), f.Why})
			}
		}
	}
	return out
}

// stepTimes are the times of the steps on a process card, each once.
func stepTimes(p page.Page) []*figure.Record {
	var out []*figure.Record
	for _, b := range p.Do {
		clock, ok := b.(page.Clock)
		if !ok {
			continue
		}
		for _, row := range clock.Rows {
			for _, in := range row.For {
				for _, f := range in.Figures {
					if !slices.ContainsFunc(out, func(o *figure.Record) bool { return o.ID == f.ID }) {
						out = append(out, f)
					}
				}
			}
		}
	}
	return out
}

type pageHole struct {
	page string
	page.Hole
}

// holesOf gathers the holes of the lab and of every card, each once, at the card
// that shows it first.
func holesOf(r *build.Result) []pageHole {
	var out []pageHole
	seen := map[string]bool{}
	add := func(id string, list []page.Hole) {
		for _, h := range list {
			if key := h.What + "/" + h.Key; !seen[key] {
				seen[key] = true
				out = append(out, pageHole{page: id, Hole: h})
			}
		}
	}
	add("", r.Binder.Holes)
	for _, p := range r.Binder.Pages {
		add(p.ID, p.Foot.Holes)
	}
	return out
}
