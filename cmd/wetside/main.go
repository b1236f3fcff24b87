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

const usage = `wetside makes a darkroom's procedure binder from the lab's own definitions.

  wetside bind [FOLDER] [--out DIR] [--on DATE] [--address URL]
      make the binder (in ./binder unless --out says otherwise); with an address
      labels and wall cards carry a QR code to their own page
  wetside proof [FOLDER] [--json] [--on DATE]
      check everything, write nothing; holes and warnings are listed
  wetside mix SOLUTION VOLUME [FOLDER]
      the mixing card in the terminal, for example: wetside mix film-developer "1 L"
  wetside why ID|CODE [FOLDER]
      how a figure was worked out, or what a fault means
  wetside start FOLDER
      write a small example binder into FOLDER

FOLDER is the current folder unless one is named. Without a binder there, bind
makes the demonstration; the other commands need --demo for that.
`

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
	flags    *flag.FlagSet
	demo     *bool
	on       *string
}

func run(args []string, out, errw io.Writer) int {
	if len(args) == 0 {
		fmt.Fprint(errw, usage)
		return misused
	}
	name, rest := args[0], args[1:]
	c := &command{out: out, err: errw, flags: flag.NewFlagSet(name, flag.ContinueOnError)}
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
	case "help", "-h", "--help":
		fmt.Fprint(out, usage)
		return well
	}
	meant := near.Word(name, []string{"bind", "proof", "mix", "why", "start"})
	if meant != "" {
		return c.wrong("there is no command %q; did you mean %q?", name, meant)
	}
	return c.wrong("there is no command %q", name)
}

func (c *command) wrong(format string, args ...any) int {
	fmt.Fprintf(c.err, "wetside: "+format+"\n", args...)
	fmt.Fprintln(c.err, `"wetside help" lists the commands`)
	return misused
}

func (c *command) failed(err error) int {
	fmt.Fprintf(c.err, "wetside: %v\n", err)
	return misused
}

// parse reads flags that may stand anywhere among the words.
func (c *command) parse(args []string, words int) ([]string, bool) {
	var got []string
	for {
		if err := c.flags.Parse(args); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				fmt.Fprint(c.err, usage)
				return nil, false
			}
			c.wrong("%v", err)
			return nil, false
		}
		args = c.flags.Args()
		if len(args) == 0 {
			break
		}
		got = append(got, args[0])
		args = args[1:]
	}
	if len(got) > words {
		c.wrong("too many words: %s", strings.Join(got[words:], " "))
		return nil, false
	}
	return got, true
}

func (c *command) common() {
	c.demo = c.flags.Bool("demo", false, "use the demonstration")
	c.on = c.flags.String("on", "", "the day to work for")
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
		return o, false, fmt.Errorf("%s: %w; \"wetside start FOLDER\" writes a small example binder", dir, load.ErrNoBinder)
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
	out := c.flags.String("out", "binder", "where the binder goes")
	address := c.flags.String("address", "", "where the binder will stand: cards carry a QR code to their own page")
	words, ok := c.parse(args, 1)
	if !ok {
		return misused
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
	fmt.Fprintf(c.out, "The binder of %s for %s: %d cards, %d files written, %d unchanged, %d removed.\n", nameOf(r.Binder.Lab), r.Binder.Day, len(r.Binder.Pages), done.Written, done.Same, done.Removed)
	whole, err := filepath.Abs(*out)
	if err != nil {
		whole = *out
	}
	fmt.Fprintf(c.out, "Open %s in a browser.\n", filepath.Join(whole, "index.html"))
	return well
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
	asJSON := c.flags.Bool("json", false, "faults as JSON")
	words, ok := c.parse(args, 1)
	if !ok {
		return misused
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
		r.Faults.WriteText(c.err)
	}
	if r.Faults.HasErrors() {
		return faulty
	}
	if !*asJSON {
		c.holes(r)
	}
	return well
}

// holes lists what nobody has filled in, the whole lab's first.
func (c *command) holes(r *build.Result) {
	list := holesOf(r)
	for _, h := range list {
		where := ""
		if h.page != "" {
			where = h.page + ": "
		}
		fmt.Fprintf(c.out, "hole: %s%s (%s): %s\n", where, h.What, h.Key, h.Until)
	}
	none := refusals(r)
	for _, n := range none {
		fmt.Fprintf(c.out, "no %s: %s: %s: %s\n", n.of, n.page, n.what, n.why)
	}
	fmt.Fprintf(c.out, "No faults. Cards for %[2]s: %[1]d; holes: %[3]d; amounts and times refused: %[4]d.\n", len(r.Binder.Pages), r.Binder.Day, len(list), len(none))
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
		out = append(out, refusal{"amount", card, fmt.Sprintf("%s (%s), wanted %s %s", f.Name, f.ID, wanted.Shown, wanted.Unit), f.Why})
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

func (c *command) start(args []string) int {
	words, ok := c.parse(args, 1)
	if !ok {
		return misused
	}
	if len(words) == 0 {
		return c.wrong("start needs the name of a new or empty folder")
	}
	dir := words[0]
	if entries, err := os.ReadDir(dir); err == nil && len(entries) > 0 {
		return c.failed(fmt.Errorf("%s is not empty: nothing was written", dir))
	}
	starter, err := fs.Sub(content.FS, "starter")
	if err != nil {
		return c.failed(err)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return c.failed(err)
	}
	if err := os.CopyFS(dir, starter); err != nil {
		return c.failed(err)
	}
	fmt.Fprintf(c.out, "Wrote a small binder to %s. Next:\n  wetside bind %s\n", dir, dir)
	return well
}
