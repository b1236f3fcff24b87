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
	with := c.flags.String("with", "", "write the `FORM` of something that is bought, to fill in from its label")
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
	files, err := writeForm(dir, *with)
	if err != nil {
		return c.failed(err)
	}
	it := "the file"
	if len(files) > 1 {
		it = "the files"
	}
	fmt.Fprintf(c.out,
		"Wrote a form to %s.\nFill in each empty \"\" in it from the label, and name %s as you like. What is still\nempty is listed by:\n  wetside proof %s\n",
		strings.Join(files, ",\n  "), it, dir)
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

// writeForm writes the files of a form into a binder, and returns their names. It writes none
// where one of them is there already.
func writeForm(dir, form string) ([]string, error) {
	texts := map[string][]byte{} // by the file's place in the binder
	var names []string
	root := "forms/" + form
	err := fs.WalkDir(content.FS, "forms", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		place, mine := strings.CutPrefix(name, root+"/")
		if name == root+".toml" {
			place, mine = "products/"+form+".toml", true
		}
		if !mine {
			return nil
		}
		text, err := fs.ReadFile(content.FS, name)
		names, texts[place] = append(names, place), text
		return err
	})
	if err != nil {
		return nil, err
	}
	for _, place := range names {
		file := filepath.Join(dir, filepath.FromSlash(place))
		if _, err := os.Lstat(file); !errors.Is(err, fs.ErrNotExist) {
			if err != nil {
				return nil, err
			}
			return nil, fmt.Errorf("%s is there already: nothing was written; rename it first", file)
		}
	}
	var files []string
	for _, place := range names {
		file := filepath.Join(dir, filepath.FromSlash(place))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			return nil, err
		}
		f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if err != nil {
			return nil, err
		}
		_, err = f.Write(texts[place])
		if err := errors.Join(err, f.Close()); err != nil {
			return nil, err
		}
		files = append(files, whole(file))
	}
	return files, nil
}

// forms are the names of the forms that come with the program: a file for what is one
// product, a folder of files for what takes several.
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
