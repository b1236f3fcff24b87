package load

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

// TestSupplierSheets: what is copied into a binder, and what is not.
func TestSupplierSheets(t *testing.T) {
	svg := func(inside string) []byte {
		return []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10">` + inside + `</svg>`)
	}
	for _, c := range []struct {
		name string
		data []byte
		says string
	}{
		{"sheet.pdf", []byte("%PDF-1.4"), ""},
		{"sheet.PDF", []byte("%PDF-1.4"), ""},
		{"drawn.svg", svg(`<path d="M0 0h1"/><use href="#a"/>`), ""},
		{"script.svg", svg(`<script>alert(1)</script>`), "a drawing with a script in it"},
		{"event.svg", svg(`<path onload="alert(1)" d="M0 0"/>`), "a drawing with an event, onload in it"},
		{"link.svg", svg(`<a href="java` + "\n" + `script:alert(1)"><path d="M0 0"/></a>`), "a drawing with a link to elsewhere in it"},
		{"fetch.svg", svg(`<image href="https://example.org/x.png"/>`), "a drawing with a link to elsewhere in it"},
		{"foreign.svg", svg(`<foreignObject/>`), "a drawing with a foreignobject in it"},
		{"broken.svg", []byte(`<svg><path`), "a fault: it is no XML"},
		{"page.html", []byte("<p>"), "no supplier's sheet"},
		{"large.pdf", make([]byte, 40<<20), "a supplier's sheet of 40 MB; at most 20 MB are copied"},
		{"just.pdf", make([]byte, 20<<20), ""},
	} {
		name := "supplier-sheets/" + c.name
		l, err := Folder(fstest.MapFS{"lab.toml": {Data: []byte("[lab]\nname = \"Test\"\n")}, name: {Data: c.data}}, fstest.MapFS{})
		require.NoError(t, err)
		if c.says == "" {
			require.Empty(t, l.Faults, c.name)
			require.Equal(t, []string{name}, l.Lab.SheetFiles)
			continue
		}
		require.Len(t, l.Faults, 1, c.name)
		require.Contains(t, l.Faults[0].What, c.says, c.name)
		require.NotEmpty(t, l.Faults[0].Hint)
		require.Empty(t, l.Lab.SheetFiles)
	}
}
