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

	"wetside/procedures/near"
	"wetside/procedures/page"
)

// Theme is an opened theme.
type Theme struct {
	Faces []Face
	// Spacing are the numbers by which cards are set on paper.
	Spacing *Spacing
	// Symbols holds the drawings by name, without their outer element.
	Symbols map[string]Symbol
	// Style is the stylesheet, with the rules that faces.toml asks for.
	Style []byte
	// Script is the one small script.
	Script []byte
	// Fonts are the files of the face for paper, in order of name.
	Fonts []Asset
	// Licences are the texts that must go with the fonts wherever they go.
	Licences []Asset
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
	// ScaleOf are other steps for one page, by its id, such as larger ones.
	ScaleOf map[string][]float64 `toml:"scale_of"`
	// Without names kinds of block left out on one kind of page only.
	Without map[string][]string `toml:"without"`
	// Omit names kinds of page that are not bound: they are printed from their own pages.
	Omit []string `toml:"omit"`
	// Family names kinds of page whose cards say some of it alike: that stands once on each
	// sheet, above them.
	Family []string `toml:"family"`
	// Spare names parts that are left to the binder on one kind of page, where its work
	// is shown without them. No face may spare a part that says what to be careful of.
	Spare map[string][]string `toml:"spare"`
	// Bare names kinds of block whose rows take one line: what to take and how
	// long, without reasons. Cautions stay.
	Bare []string `toml:"bare"`
	// Floor is the least size of type, in points, in which words of safety may
	// stand on the face, whatever the scale.
	Floor float64 `toml:"floor"`
	// Check is the length in mm of the rule that shows whether the print is to size.
	Check float64 `toml:"check"`
	Room  Room    `toml:"room"`
	// Spacing is that of the theme.
	Spacing *Spacing `toml:"-"`
}

// Room are the lengths of a flowed face in mm: the stylesheet and the estimate of
// the height both read them here. Zero: as in the theme's spacing.
type Room struct {
	Gap    float64 `toml:"gap"`    // between columns
	Pad    float64 `toml:"pad"`    // above and below a part
	Row    float64 `toml:"row"`    // above and below a step
	Sign   float64 `toml:"sign"`   // side of a safety sign
	Tick   float64 `toml:"tick"`   // side of a box to tick
	Head   float64 `toml:"head"`   // side of the plate in the head
	Plate  float64 `toml:"plate"`  // side of a bath's plate
	When   float64 `toml:"when"`   // width of the clock
	Long   float64 `toml:"long"`   // most width of how long
	Bath   float64 `toml:"bath"`   // above and below a bath
	Fill   float64 `toml:"fill"`   // how much larger a volume is than its line
	Word   float64 `toml:"word"`   // most width of the word beside a sign, in em
	Banner float64 `toml:"banner"` // below the banner
	Kind   float64 `toml:"kind"`   // below the line above the title
	Cell   float64 `toml:"cell"`   // between the columns of a table
	Table  float64 `toml:"table"`  // type of a table beside its text's, as a factor
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

// leastSide is the least side of what the margins leave of a paper, in mm.
const leastSide = 30.0

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
	var wrong []error
	t.Spacing, wrong = readSpacing(files.bytes[spacingFile])
	faults = append(faults, wrong...)
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

// Scales are the steps of type for a page, largest first.
func (f Face) Scales(id string) []float64 {
	if s, ok := f.ScaleOf[id]; ok {
		return s
	}
	return f.Scale
}

// Leaves tells whether the face leaves out a kind of block on a kind of page.
func (f Face) Leaves(block, kind string) bool {
	return slices.Contains(f.Leave, block) || slices.Contains(f.Without[kind], block)
}

// OnWall tells whether cards of the face hang on a wall: flowed paper with a folder of its own.
func (f Face) OnWall() bool { return f.Medium == Paper && f.Folder != "" && len(f.Margin) == 4 }

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
					hint := "its templates are listed in the standard theme"
					if meant := near.Word(name, fl.names); meant != "" {
						hint = "did you mean " + meant + "?"
					}
					faults = append(faults, fmt.Errorf("%s: the theme has no template of that name; %s", name, hint))
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
		Face []Face `toml:"face"`
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
	t.Faces = doc.Face
	if len(t.Faces) == 0 {
		fault("there is no face")
	}
	kinds := kindNames()
	for i := range t.Faces {
		t.Faces[i].Spacing = t.Spacing
	}
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
		for _, kind := range slices.Concat(f.Leave, f.Brief, f.Bare, without) {
			if !slices.Contains(kinds, kind) {
				fault("face %s: %s is not a kind of block", f.Name, kind)
			}
		}
		for _, kind := range slices.Sorted(maps.Keys(f.Spare)) {
			for _, part := range f.Spare[kind] {
				if !slices.Contains([]string{"tables", "why", "record"}, part) {
					fault("face %s: the part %s cannot be left to the binder", f.Name, part)
				}
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
		for _, size := range append([][]float64{f.Size}, f.Larger...) {
			if len(size) == 2 && (size[0] <= 0 || size[1] <= 0) {
				fault("face %s: a paper of %s × %s mm holds nothing", f.Name, mm(size[0]), mm(size[1]))
			}
		}
		if m := f.Margin; len(m) == 4 && len(f.Size) == 2 && f.Size[0] > 0 && f.Size[1] > 0 &&
			(f.Size[0]-m[1]-m[3] < leastSide || f.Size[1]-m[0]-m[2] < leastSide) {
			fault("face %s: the margins leave less than %s mm of the paper", f.Name, mm(leastSide))
		}
		// Words of safety stand in text, reason or small; none may shrink below the floor.
		for _, t := range []float64{f.Type.Text, f.Type.Reason, f.Type.Small, f.Type.Text * f.Spaced().Table} {
			for _, scale := range slices.Concat(append(slices.Collect(maps.Values(f.ScaleOf)), f.Scale)...) {
				if t*scale < f.Floor-1e-9 {
					fault("face %s: at scale %s type of %s pt falls below the floor of %s pt", f.Name, mm(scale),
						mm(t), mm(f.Floor))
				}
			}
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
		case path.Dir(name) == "fonts" && path.Ext(name) == ".txt":
			t.Licences = append(t.Licences, Asset{path.Base(name), b})
		}
	}
	t.Script = fl.bytes["script/ground.js"]
	t.Style = slices.Concat(fl.bytes["style.css"], []byte(t.Spacing.Rules()), []byte(FaceRules(t.Faces)))
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

// FaceRules writes the page sizes, type sizes and lengths of the faces as CSS.
func FaceRules(faces []Face) string {
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
		if f.Floor > 0 {
			fmt.Fprintf(&vars, "--t-floor:%spt;", mm(f.Floor))
		}
		// A card that goes on has a smaller head.
		fmt.Fprintf(&vars, "--t-follow-title:calc(%spt*var(--fit,1));--t-follow-key:calc(%spt*var(--fit,1));",
			mm(f.Type.Title*f.Spacing.Times.Follow), mm(f.Type.Key*f.Spacing.Times.Follow))
		for _, l := range roomLengths {
			switch n := *l.of(&f.Room); {
			case n > 0 && l.fit:
				fmt.Fprintf(&vars, "--%s:calc(%s%s*var(--fit,1));", l.name, mm(n), l.unit)
			case n > 0:
				fmt.Fprintf(&vars, "--%s:%s%s;", l.name, mm(n), l.unit)
			}
		}
		if f.Medium == Paper && len(f.Size) == 2 && len(f.Margin) == 4 {
			m := f.Margin
			fmt.Fprintf(&b,
				"@page %s{%s@bottom-center{content:counter(page) \" / \" counter(pages);font:6.5pt Card,sans-serif}}\n",
				f.Name, f.PageRule())
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
		if f.OnWall() {
			var tight strings.Builder
			room := f.Spaced()
			for _, l := range roomLengths {
				if l.tight {
					fmt.Fprintf(&tight, "--%s:calc(%s%s*var(--fit,1)*var(--times-tight));", l.name, mm(*l.of(&room)), l.unit)
				}
			}
			fmt.Fprintf(&b, ".sheet.tight.face-%s{%s}\n", f.Name, strings.TrimSuffix(tight.String(), ";"))
		}
		if vars.Len() > 0 {
			fmt.Fprintf(&b, ".face-%s{%s}\n", f.Name, strings.TrimSuffix(vars.String(), ";"))
		}
		for i, scale := range f.Scale {
			fmt.Fprintf(&b, ".face-%s.fit-%d{--fit:%s}\n", f.Name, i, mm(scale))
		}
		for _, id := range slices.Sorted(maps.Keys(f.ScaleOf)) {
			for i, scale := range f.ScaleOf[id] {
				fmt.Fprintf(&b, ".face-%s.of-%s.fit-%d{--fit:%s}\n", f.Name, strings.ReplaceAll(id, "/", "-"), i,
					mm(scale))
			}
		}
	}
	return b.String()
}

// PageRule is the paper of a face, as CSS.
func (f Face) PageRule() string {
	m := f.Margin
	return fmt.Sprintf("size:%smm %smm;margin:%smm %smm %smm %smm;", mm(f.Size[0]), mm(f.Size[1]), mm(m[0]), mm(m[1]),
		mm(m[2]), mm(m[3]))
}

// PageName is the name of the page rule for a drawn size.
func PageName(size []float64) string {
	return "drawn-" + strings.ReplaceAll(mm(size[0])+"x"+mm(size[1]), ".", "_")
}

// Millimetres says a size of paper.
func Millimetres(size []float64) string { return mm(size[0]) + " × " + mm(size[1]) + " mm" }

func mm(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
