// Package theme opens a theme: faces as data, templates, symbols, stylesheet,
// script and fonts, laid over each other in layers.
package theme

import (
	"errors"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"

	"wetside/procedures/page"
)

// Theme is an opened theme.
type Theme struct {
	Faces  []Face
	Groups []Group
	// Symbols holds the drawings by name, without their outer element.
	Symbols map[string]Symbol
	// Style is the stylesheet, with the rules that faces.toml asks for.
	Style []byte
	// Script is the one small script.
	Script []byte
	// Fonts are the files of the face for paper, in order of name.
	Fonts []Asset
	// Text and Strong measure the two weights of the face for paper.
	Text, Strong Widths

	templates *template.Template
}

// Asset is a file that is copied.
type Asset struct {
	Name  string
	Bytes []byte
}

// Symbol is a drawing: its view box and what is in it.
type Symbol struct {
	ViewBox string
	Body    string
}

// Group is a group of pages: the first folder of their ids.
type Group struct {
	ID   string `toml:"id"`
	Word string `toml:"word"`
	Sub  string `toml:"sub"`
}

// Face is one way to show a page.
type Face struct {
	Name     string      `toml:"name"`
	Medium   string      `toml:"medium"`
	Template string      `toml:"template"`
	Folder   string      `toml:"folder"`
	Size     []float64   `toml:"size"`
	Larger   [][]float64 `toml:"larger"`
	Margin   []float64   `toml:"margin"`
	// Sheet: drawn on whole sheets of the printer's paper.
	Sheet bool `toml:"sheet"`
	// Ruler is how much room beside a ruler of agitation is not the ruler's, in mm.
	Ruler   float64   `toml:"ruler"`
	Parts   []string  `toml:"parts"`
	Aside   []string  `toml:"aside"`
	Columns int       `toml:"columns"`
	Leave   []string  `toml:"leave"`
	Brief   []string  `toml:"brief"`
	Type    TypeSizes `toml:"type"`
	// Scale are the steps in which type and gaps may shrink so that a card stays
	// on one sheet; beyond the last it keeps its size and takes another sheet.
	Scale []float64 `toml:"scale"`
	// Without names kinds of block left out on one kind of page only.
	Without map[string][]string `toml:"without"`
}

// TypeSizes are the sizes of type on a face, in points.
type TypeSizes struct {
	Title  float64 `toml:"title"`
	Key    float64 `toml:"key"`
	Figure float64 `toml:"figure"`
	Word   float64 `toml:"word"`
	Text   float64 `toml:"text"`
	Reason float64 `toml:"reason"`
	Small  float64 `toml:"small"`
	Foot   float64 `toml:"foot"`
}

// The media a face is for: the site, paper that is flowed, paper that is drawn.
const (
	Site  = "site"
	Paper = "paper"
	Drawn = "drawn"
)

var (
	partNames = []string{"key", "before", "do", "tables", "today", "never", "why", "record", "foot"}
	needed    = []string{"before", "never", "foot"}
	media     = []string{Site, Paper, Drawn}
)

// Open lays the layers over each other, the same path in a later layer wins,
// and opens the theme that results. The error holds every fault found.
func Open(layers ...fs.FS) (*Theme, error) {
	files, faults := gather(layers)
	t := &Theme{Symbols: map[string]Symbol{}}
	faults = append(faults, t.readFaces(files)...)
	faults = append(faults, t.parse(files)...)
	faults = append(faults, t.readRest(files)...)
	if len(faults) > 0 {
		return nil, errors.Join(faults...)
	}
	return t, nil
}

// Face returns the face of that name.
func (t *Theme) Face(name string) (Face, bool) {
	i := slices.IndexFunc(t.Faces, func(f Face) bool { return f.Name == name })
	if i < 0 {
		return Face{}, false
	}
	return t.Faces[i], true
}

// Execute writes a template with its data.
func (t *Theme) Execute(w io.Writer, name string, data any) error {
	return t.templates.ExecuteTemplate(w, name, data)
}

// Leaves tells whether the face leaves out a kind of block on a kind of page.
func (f Face) Leaves(block, kind string) bool {
	return slices.Contains(f.Leave, block) || slices.Contains(f.Without[kind], block)
}

type files struct {
	names []string // in order
	bytes map[string][]byte
}

func gather(layers []fs.FS) (files, []error) {
	fl := files{bytes: map[string][]byte{}}
	var faults []error
	for i, layer := range layers {
		err := fs.WalkDir(layer, ".", func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			b, err := fs.ReadFile(layer, name)
			if err != nil {
				return err
			}
			if _, ok := fl.bytes[name]; !ok {
				if i > 0 && path.Ext(name) == ".html" {
					faults = append(faults, fmt.Errorf("%s: the theme has no template of that name, did you mean %s?", name, nearest(name, fl.names)))
				}
				fl.names = append(fl.names, name)
			}
			fl.bytes[name] = b
			return nil
		})
		if err != nil {
			faults = append(faults, fmt.Errorf("reading the theme: %w", err))
		}
	}
	slices.Sort(fl.names)
	return fl, faults
}

func (t *Theme) readFaces(fl files) []error {
	const name = "faces.toml"
	var doc struct {
		Group []Group `toml:"group"`
		Face  []Face  `toml:"face"`
	}
	md, err := toml.Decode(string(fl.bytes[name]), &doc)
	if err != nil {
		return []error{fmt.Errorf("%s: %w", name, err)}
	}
	var faults []error
	fault := func(format string, args ...any) {
		faults = append(faults, fmt.Errorf(name+": "+format, args...))
	}
	for _, k := range md.Undecoded() {
		fault("%s is not a key of a face", k)
	}
	t.Groups, t.Faces = doc.Group, doc.Face
	if len(t.Faces) == 0 {
		fault("there is no face")
	}
	kinds := kindNames()
	for _, f := range t.Faces {
		for _, part := range needed {
			if !slices.Contains(f.Parts, part) {
				fault("face %s leaves out %s, which no face may", f.Name, part)
			}
		}
		for _, part := range slices.Concat(f.Parts, f.Aside) {
			if !slices.Contains(partNames, part) {
				fault("face %s: %s is not a part of a page", f.Name, part)
			}
		}
		var without []string
		for _, kind := range slices.Sorted(maps.Keys(f.Without)) {
			without = append(without, f.Without[kind]...)
		}
		for _, kind := range slices.Concat(f.Leave, f.Brief, without) {
			if !slices.Contains(kinds, kind) {
				fault("face %s: %s is not a kind of block", f.Name, kind)
			}
		}
		left := slices.Concat(f.Leave, without)
		if slices.Contains(left, page.Cautions{}.Block()) || slices.Contains(left, page.HolesList{}.Block()) {
			fault("face %s leaves out cautions or holes, which no face may", f.Name)
		}
		if !slices.Contains(media, f.Medium) {
			fault("face %s: the medium is one of %s", f.Name, strings.Join(media, ", "))
		}
		if f.Medium != Site && len(f.Size) != 2 {
			fault("face %s: size is width and height in mm", f.Name)
		}
		if f.Medium == Paper && len(f.Margin) != 4 {
			fault("face %s: margin is four numbers in mm", f.Name)
		}
		if f.Template != "" && fl.bytes[f.Template] == nil {
			fault("face %s: there is no %s", f.Name, f.Template)
		}
	}
	return faults
}

func kindNames() []string {
	var names []string
	for _, b := range page.Blocks() {
		names = append(names, b.Block())
	}
	return names
}

func (t *Theme) parse(fl files) []error {
	var faults []error
	t.templates = template.New("").Option("missingkey=error")
	for _, name := range fl.names {
		if path.Ext(name) != ".html" {
			continue
		}
		if _, err := t.templates.New(name).Parse(string(fl.bytes[name])); err != nil {
			faults = append(faults, err)
		}
	}
	for _, kind := range kindNames() {
		if name := "blocks/" + kind + ".html"; fl.bytes[name] == nil {
			faults = append(faults, fmt.Errorf("%s: there is no template for this kind of block", name))
		}
	}
	if len(faults) > 0 {
		return faults
	}
	// Escaping happens when a template first runs: run each once, on nothing,
	// so that a fault comes now and later runs only read.
	for _, name := range fl.names {
		if path.Ext(name) != ".html" {
			continue
		}
		var escape *template.Error
		if err := t.templates.ExecuteTemplate(io.Discard, name, nil); errors.As(err, &escape) {
			faults = append(faults, err)
		}
	}
	return faults
}

func (t *Theme) readRest(fl files) []error {
	var faults []error
	for _, name := range fl.names {
		b := fl.bytes[name]
		switch {
		case path.Dir(name) == "symbols" && path.Ext(name) == ".svg":
			s, err := readSymbol(string(b))
			if err != nil {
				faults = append(faults, fmt.Errorf("%s: %w", name, err))
			}
			t.Symbols[strings.TrimSuffix(path.Base(name), ".svg")] = s
		case path.Ext(name) == ".woff2":
			t.Fonts = append(t.Fonts, Asset{path.Base(name), b})
		}
	}
	t.Script = fl.bytes["script/ground.js"]
	t.Style = append(slices.Clone(fl.bytes["style.css"]), faceRules(t.Faces)...)
	var err error
	if t.Text, err = readWidths(fl.bytes["fonts/card-text.widths"]); err != nil {
		faults = append(faults, fmt.Errorf("fonts/card-text.widths: %w", err))
	}
	if t.Strong, err = readWidths(fl.bytes["fonts/card-strong.widths"]); err != nil {
		faults = append(faults, fmt.Errorf("fonts/card-strong.widths: %w", err))
	}
	return faults
}

func readSymbol(s string) (Symbol, error) {
	s = strings.TrimSpace(s)
	rest, ok := strings.CutPrefix(s, `<svg viewBox="`)
	box, rest, ok2 := strings.Cut(rest, `">`)
	body, ok3 := strings.CutSuffix(rest, "</svg>")
	if !ok || !ok2 || !ok3 {
		return Symbol{}, errors.New(`a symbol is <svg viewBox="…">…</svg>`)
	}
	if strings.Contains(body, "<pattern") || strings.Contains(body, "<script") || strings.Contains(body, "style=") {
		return Symbol{}, errors.New("a symbol is made of plain shapes: no pattern, script or style attribute")
	}
	return Symbol{box, body}, nil
}

// faceRules writes the page sizes and type sizes of the faces as CSS.
func faceRules(faces []Face) string {
	var b strings.Builder
	for _, f := range faces {
		sizes := []struct {
			name string
			pt   float64
		}{
			{"title", f.Type.Title}, {"key", f.Type.Key}, {"figure", f.Type.Figure}, {"word", f.Type.Word},
			{"text", f.Type.Text}, {"reason", f.Type.Reason}, {"small", f.Type.Small}, {"foot", f.Type.Foot},
		}
		var vars strings.Builder
		for _, s := range sizes {
			if s.pt > 0 {
				fmt.Fprintf(&vars, "--t-%s:calc(%spt*var(--fit,1));", s.name, mm(s.pt))
			}
		}
		if f.Medium == Paper && len(f.Size) == 2 && len(f.Margin) == 4 {
			m := f.Margin
			fmt.Fprintf(&b, "@page %s{%s@bottom-center{content:counter(page) \" / \" counter(pages);font:6.5pt Card,sans-serif}}\n", f.Name, f.PageRule())
			fmt.Fprintf(&vars, "page:%s;--w:%smm;--h:%smm;--mt:%smm;--mr:%smm;--mb:%smm;--ml:%smm;", f.Name,
				mm(f.Size[0]-m[1]-m[3]), mm(f.Size[1]-m[0]-m[2]-.4), mm(m[0]), mm(m[1]), mm(m[2]), mm(m[3]))
		}
		for _, size := range append([][]float64{f.Size}, f.Larger...) {
			if f.Medium == Drawn && len(size) == 2 {
				over := .2 // whole points never below the label; a whole sheet is the printer's
				if f.Sheet {
					over = 0
				}
				fmt.Fprintf(&b, "@page %s{size:%smm %smm;margin:0}\n.%s{page:%s}\n", PageName(size),
					mm(size[0]+over), mm(size[1]+over), PageName(size), PageName(size))
			}
		}
		if vars.Len() > 0 {
			fmt.Fprintf(&b, ".face-%s{%s}\n", f.Name, strings.TrimSuffix(vars.String(), ";"))
		}
		for i, scale := range f.Scale {
			fmt.Fprintf(&b, ".face-%s.fit-%d{--fit:%s}\n", f.Name, i, mm(scale))
		}
	}
	return b.String()
}

// PageRule is the paper of a face, as CSS.
func (f Face) PageRule() string {
	m := f.Margin
	return fmt.Sprintf("size:%smm %smm;margin:%smm %smm %smm %smm;", mm(f.Size[0]), mm(f.Size[1]), mm(m[0]), mm(m[1]), mm(m[2]), mm(m[3]))
}

// PageName is the name of the page rule for a drawn size.
func PageName(size []float64) string {
	return "drawn-" + strings.ReplaceAll(mm(size[0])+"x"+mm(size[1]), ".", "_")
}

// Millimetres says a size of paper.
func Millimetres(size []float64) string { return mm(size[0]) + " × " + mm(size[1]) + " mm" }

func mm(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// nearest is the name that takes the fewest changes to become.
func nearest(name string, names []string) string {
	best, least := "", len(name)+1
	for _, n := range names {
		if path.Ext(n) != path.Ext(name) {
			continue
		}
		if d := changes(name, n); d < least {
			best, least = n, d
		}
	}
	return best
}

func changes(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			diagonal, row[j+1] = row[j+1], min(row[j]+1, row[j+1]+1, diagonal+cost)
		}
	}
	return row[len(b)]
}
