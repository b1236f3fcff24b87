package main

import (
	"flag"
	"fmt"
	"regexp"
	"strings"

	"wetside/build"
	"wetside/procedures/near"
)

// about is what help says of a command.
type about struct{ name, use, short, long string }

var abouts = []about{
	{"bind", "[FOLDER] [--out DIR] [--on DATE] [--address URL] [--demo]", "make the binder",
		"It reads the definitions in FOLDER and writes the binder: pages for the screen, cards\nfor the wall, labels. With a fault nothing is written."},
	{"proof", "[FOLDER] [--json] [--on DATE] [--demo]", "check everything and write nothing",
		"It lists faults and warnings, and then by card what is refused, what nobody has\nwritten, and which reviews are due."},
	{"mix", "SOLUTION VOLUME [FOLDER] [--on DATE] [--demo]", "the mixing card in the terminal",
		"For example: wetside mix film-developer \"1 L\"\n             wetside mix fixer.film 600mL"},
	{"why", "ID|SUBJECT|CARD|CODE [FOLDER] [--on DATE] [--demo]", "how a figure was worked out; what a fault means",
		"Of a figure it shows the formula and the inputs: wetside why fixer.film/draw@600ml\n" +
			"Of a subject or a card it lists the figures:     wetside why fixer.film\n" +
			"                                                 wetside why mix/fixer\n" +
			"Of a code in brackets it says what is wrong:     wetside why dilution\n" +
			"Files with faults, and what rests on them, are left out and named."},
	{"start", "FOLDER [--with FORM]", "write a small example binder into FOLDER",
		"FOLDER is new or empty. With a form it may be a binder: the form of something that is\nbought is written into its products/, to fill in from the label. The forms are\n" +
			strings.Join(forms(), ", ") + "."},
}

// usage is the help for all commands.
func usage() string {
	var b strings.Builder
	b.WriteString("wetside makes a darkroom's procedure binder from the lab's own definitions.\n\n")
	for _, a := range abouts {
		fmt.Fprintf(&b, "  wetside %s %s\n      %s\n", a.name, a.use, a.short)
	}
	b.WriteString(`
"wetside bind --help" says what each option of bind does; so for the other commands.
FOLDER is the current folder unless one is named. Without a binder there, bind
makes the demonstration; the other commands need --demo for that.
Exit status: 0 success, 1 faults in the binder, 2 wrong use or a system error.
`)
	return b.String()
}

// help is the help for one command, with every option that it has.
func (c *command) help() string {
	var b strings.Builder
	for _, a := range abouts {
		if a.name == c.name {
			fmt.Fprintf(&b, "wetside %s %s\n    %s\n\n%s\n", a.name, a.use, a.short, a.long)
		}
	}
	first := true
	c.flags.VisitAll(func(f *flag.Flag) {
		if first {
			b.WriteString("\nOptions, before or after the words:\n")
			first = false
		}
		value, what := flag.UnquoteUsage(f)
		fmt.Fprintf(&b, "  %-15s %s\n", strings.TrimSpace("--"+f.Name+" "+value), what)
	})
	if c.name == "why" {
		b.WriteString("\nThe codes of faults:")
		for i, e := range build.Explanations {
			if i%8 == 0 {
				b.WriteString("\n ")
			}
			b.WriteString(" " + e.Code)
		}
		b.WriteString("\n")
	}
	return b.String()
}

var (
	unknownFlag = regexp.MustCompile(`^flag provided but not defined: -(.*)$`)
	bareFlag    = regexp.MustCompile(`^flag needs an argument: -(.*)$`)
)

// badFlag says in our words what is wrong with an option.
func (c *command) badFlag(err error) string {
	if m := bareFlag.FindStringSubmatch(err.Error()); m != nil {
		return fmt.Sprintf("--%s needs a value behind it", m[1])
	}
	m := unknownFlag.FindStringSubmatch(err.Error())
	if m == nil {
		return err.Error()
	}
	var names []string
	c.flags.VisitAll(func(f *flag.Flag) { names = append(names, f.Name) })
	said := fmt.Sprintf("%s has no option --%s", c.name, m[1])
	if meant := near.Word(m[1], names); meant != "" {
		return said + fmt.Sprintf("; did you mean --%s?", meant)
	}
	return said
}
