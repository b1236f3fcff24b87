// Package themes holds the standard theme.
package themes

import (
	"embed"
	"io/fs"
)

//go:embed all:standard
var embedded embed.FS

// FS is the standard theme: faces.toml, templates, stylesheet, script, symbols
// and the face for paper.
var FS = mustSub(embedded, "standard")

func mustSub(f fs.FS, dir string) fs.FS {
	sub, err := fs.Sub(f, dir)
	if err != nil {
		panic(err)
	}
	return sub
}
