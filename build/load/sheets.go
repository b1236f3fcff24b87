package load

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"
)

// sheets is the folder of the supplier's sheets, which are copied into the binder as they
// are.
const sheets = "supplier-sheets"

// mostSheet is the largest sheet that is copied: a binder is carried around on a stick.
const mostSheet = 20 << 20

// sheetKinds are the kinds of file that a browser shows and that do nothing by themselves.
var sheetKinds = []string{".pdf", ".png", ".jpg", ".jpeg", ".svg", ".txt"}

// supplierSheets lists the supplier's sheets that may be copied.
func (r *reader) supplierSheets() {
	for _, e := range r.folder(sheets) {
		name := sheets + "/" + e.Name()
		kind := strings.ToLower(path.Ext(e.Name()))
		switch {
		case strings.HasPrefix(e.Name(), ".") || r.backup(name):
			continue
		case e.IsDir():
			r.fault(name, "file", "a folder where a supplier's sheet is expected",
				"put each sheet straight into "+sheets+"/")
			continue
		case !known(sheetKinds, kind):
			r.fault(name, "file", "no supplier's sheet: "+sheets+"/ holds files that end in "+strings.Join(sheetKinds,
				", "), "print it to a .pdf file, or move it elsewhere")
			continue
		}
		info, err := fs.Stat(r.fsys, name)
		switch {
		case err != nil:
			r.unreadable(name, err)
			continue
		case !info.Mode().IsRegular():
			r.fault(name, "file", "no file but a pipe, a socket or a device", "put a file in its place")
			continue
		case info.Size() > mostSheet:
			r.fault(name, "file", fmt.Sprintf("a supplier's sheet of %d MB; at most %d MB are copied into a binder",
				info.Size()>>20, mostSheet>>20),
				"ask the supplier for a smaller file, or scan it anew in grey at 150 dots an inch")
			continue
		}
		if kind == ".svg" {
			if what := r.activeSVG(name); what != "" {
				r.fault(name, "file",
					"a drawing with "+what+" in it: a sheet that does something by itself is not copied into a binder",
					"print it to a .pdf file, and keep that")
				continue
			}
		}
		r.out.Lab.SheetFiles = append(r.out.Lab.SheetFiles, name)
	}
}

// activeSVG names what in a drawing could run or fetch something; empty: nothing.
func (r *reader) activeSVG(name string) string {
	b, err := fs.ReadFile(r.fsys, name)
	if err != nil {
		return "a fault: it cannot be read"
	}
	d := xml.NewDecoder(bytes.NewReader(b))
	d.Strict = false
	d.CharsetReader = func(_ string, in io.Reader) (io.Reader, error) { return in, nil }
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return ""
		}
		if err != nil {
			return "a fault: it is no XML"
		}
		switch t := token.(type) {
		case xml.Directive:
			if strings.Contains(strings.ToUpper(string(t)), "ENTITY") {
				return "an entity of its own"
			}
		case xml.StartElement:
			switch strings.ToLower(t.Name.Local) {
			case "script", "foreignobject", "iframe", "object", "embed", "handler", "set", "animate":
				return "a " + strings.ToLower(t.Name.Local)
			}
			for _, a := range t.Attr {
				key, value := strings.ToLower(a.Name.Local), strings.ToLower(strings.Join(strings.Fields(a.Value), ""))
				switch {
				case strings.HasPrefix(key, "on"):
					return "an event, " + key
				case (key == "href" || key == "src") && value != "" && !strings.HasPrefix(value, "#") &&
					!strings.HasPrefix(value, "data:image/png") && !strings.HasPrefix(value, "data:image/jpeg"):
					return "a link to elsewhere"
				case strings.Contains(value, "javascript:") || strings.Contains(value, "url(http"):
					return "a link to elsewhere"
				}
			}
		}
	}
}
