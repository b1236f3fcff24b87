package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"wetside/content"
	"wetside/procedures/near"
)

// start writes a small binder into a new folder; with a form, that of a product into it, or
// into a binder that is there.
func (c *command) start(args []string) int {
	with := c.flags.String("with", "", "write the `FORM` of something that is bought into products/, to fill in from its label")
	words, status, ok := c.parse(args, 1)
	if !ok {
		return status
	}
	if len(words) == 0 {
		return c.wrong("start needs the name of a new or empty folder; with --with, also that of a binder")
	}
	dir := words[0]
	if *with != "" && !isForm(*with) {
		said := fmt.Sprintf("there is no form %q", *with)
		if meant := near.Word(*with, forms()); meant != "" {
			said += fmt.Sprintf("; did you mean %q?", meant)
		}
		return c.wrong("%s; the forms are %s", said, strings.Join(forms(), ", "))
	}
	_, err := os.Stat(filepath.Join(dir, "lab.toml"))
	here := err == nil
	if entries, err := os.ReadDir(dir); err == nil && len(entries) > 0 && (*with == "" || !here) {
		return c.failed(fmt.Errorf("%s is not empty: nothing was written", dir))
	}
	if !here {
		if err := starter(dir); err != nil {
			return c.failed(err)
		}
		fmt.Fprintf(c.out, "Wrote a small binder to %s. ", whole(dir))
	}
	if *with == "" {
		fmt.Fprintf(c.out, "Next:\n  wetside bind %s\n", dir)
		return well
	}
	file := filepath.Join(dir, "products", *with+".toml")
	if err := writeForm(file, *with); err != nil {
		return c.failed(err)
	}
	fmt.Fprintf(c.out,
		"Wrote a form to %s.\nFill in each empty \"\" in it from the label, and name the file as you like. What is still\nempty is listed by:\n  wetside proof %s\n",
		whole(file), dir)
	return well
}

// starter writes the small binder.
func starter(dir string) error {
	from, err := fs.Sub(content.FS, "starter")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	return os.CopyFS(dir, from)
}

// writeForm writes a form to a file that is not there yet.
func writeForm(file, form string) error {
	text, err := fs.ReadFile(content.FS, "forms/"+form+".toml")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return err
	}
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s is there already: nothing was written; rename it first", file)
	}
	if err != nil {
		return err
	}
	if _, err := f.Write(text); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

// forms are the names of the forms that come with the program.
func forms() []string {
	entries, _ := fs.ReadDir(content.FS, "forms")
	var out []string
	for _, e := range entries {
		out = append(out, strings.TrimSuffix(e.Name(), ".toml"))
	}
	return out
}

func isForm(name string) bool {
	for _, f := range forms() {
		if f == name {
			return true
		}
	}
	return false
}
