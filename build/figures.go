package build

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"wetside/build/load"
	"wetside/procedures"
	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/page"
)

// The entries of figures.json; DEVELOPERS.md describes them.
type (
	figureJSON struct {
		ID      string      `json:"id"`
		Kind    string      `json:"kind"`
		Name    string      `json:"name"`
		Value   any         `json:"value"`
		Unit    string      `json:"unit"`
		Low     *number     `json:"low,omitempty"`
		High    *number     `json:"high,omitempty"`
		Shown   string      `json:"shown"`
		Round   *roundJSON  `json:"round,omitempty"`
		Formula string      `json:"formula,omitempty"`
		Inputs  []inputJSON `json:"inputs"`
		Source  string      `json:"source"`
		Origin  string      `json:"origin"`
		Cards   []string    `json:"cards"`
		Why     string      `json:"why,omitempty"`
	}
	roundJSON struct {
		Rule   string `json:"rule"`
		Step   string `json:"step,omitempty"`
		Device string `json:"device,omitempty"`
	}
	inputJSON struct {
		Symbol   string `json:"symbol,omitempty"`
		Name     string `json:"name,omitempty"`
		ID       string `json:"id,omitempty"`
		File     string `json:"file,omitempty"`
		Key      string `json:"key,omitempty"`
		Line     int    `json:"line,omitempty"`
		Constant string `json:"constant,omitempty"`
		Value    number `json:"value"`
		Unit     string `json:"unit,omitempty"`
		Text     string `json:"text,omitempty"`
		Source   string `json:"source,omitempty"`
		Origin   string `json:"origin"`
	}
	verdictJSON struct {
		ID      string   `json:"id"`
		Answer  string   `json:"answer"`
		Limits  []string `json:"limits"`
		Because []string `json:"because"`
		Source  string   `json:"source"`
		Cards   []string `json:"cards"`
	}
	classificationJSON struct {
		Subject      string        `json:"subject"`
		Strength     string        `json:"strength"`
		Form         string        `json:"form"`
		Status       string        `json:"status"`
		Classes      []string      `json:"classes"`
		Statements   []string      `json:"statements"`
		Supplemental []string      `json:"supplemental"`
		Signal       string        `json:"signal"`
		Pictograms   []string      `json:"pictograms"`
		Layers       []layerJSON   `json:"layers"`
		Because      []becauseJSON `json:"because"`
		Near         []becauseJSON `json:"near"`
		Remarks      []string      `json:"remarks"`
	}
	layerJSON struct {
		Who     string   `json:"who"`
		Classes []string `json:"classes"`
	}
	// becauseJSON is one content, or a pH, that brings a class.
	becauseJSON struct {
		Class     string  `json:"class"`
		Substance string  `json:"substance"`
		Percent   *number `json:"percent"`
		Low       *number `json:"low"`
		High      *number `json:"high"`
		Limit     string  `json:"limit"`
		Table     string  `json:"table"`
		Origin    string  `json:"origin"`
	}
	cardJSON struct {
		ID          string `json:"id"`
		Kind        string `json:"kind"`
		Version     string `json:"version"`
		Fingerprint string `json:"fingerprint"`
		URL         string `json:"url"`
	}
)

// number prints twelve significant digits, so that the last bits of a machine
// never show.
type number float64

func (n number) MarshalJSON() ([]byte, error) {
	if math.IsNaN(float64(n)) || math.IsInf(float64(n), 0) {
		return []byte("null"), nil
	}
	v, err := strconv.ParseFloat(strconv.FormatFloat(float64(n), 'g', 12, 64), 64)
	if err != nil {
		return nil, err
	}
	return []byte(strconv.FormatFloat(v, 'f', -1, 64)), nil
}

// Figures writes figures.json: every figure and verdict of a binder, ordered and
// stable, with the places its inputs were written at. It is written entry by entry, as
// it is far larger than all that it is made from.
func Figures(w io.Writer, b procedures.Binder, l *load.Loaded) error {
	on := map[string][]string{}
	for _, p := range b.Pages {
		for _, f := range page.Figures(p) {
			id := f.ID
			if list := on[id]; len(list) == 0 || list[len(list)-1] != p.ID {
				on[id] = append(on[id], p.ID)
			}
		}
	}
	cards := cardsOf(b.Pages)
	e := newEntries(w)
	e.field("day", b.Day)
	e.field("lab", b.Lab)
	e.list("figures", func(yield func(any)) {
		for _, r := range b.Figures {
			yield(figureOf(r, on[r.ID], l))
		}
	})
	e.list("verdicts", func(yield func(any)) {
		for _, v := range b.Verdicts {
			yield(verdictJSON{v.ID, v.Answer, none(v.Limits), none(v.Because), v.Source, none(cards(v))})
		}
	})
	e.list("classifications", func(yield func(any)) {
		for _, c := range b.Classifications {
			yield(classificationOf(c))
		}
	})
	e.list("cards", func(yield func(any)) {
		card := func(p page.Page) {
			yield(cardJSON{p.ID, p.Kind, p.Foot.Version, page.Digest(p), p.ID + ".html"})
		}
		// The lab's own notices come last.
		notices := slices.IndexFunc(b.Pages, func(p page.Page) bool { return p.Kind == "notice" })
		if notices < 0 {
			notices = len(b.Pages)
		}
		for _, p := range b.Pages[:notices] {
			card(p)
		}
		for _, w := range b.Workings {
			card(w.Page())
		}
		for _, p := range b.Pages[notices:] {
			card(p)
		}
	})
	return e.end()
}

// cardsOf finds the cards that a verdict is about.
func cardsOf(pages []page.Page) func(figure.Verdict) []string {
	byID, byName := map[string]int{}, map[string][]int{} // the name is what follows the last slash
	resting := map[string][]int{}                        // the cards that say that they rest on a verdict
	for i, p := range pages {
		for _, v := range p.Verdicts {
			resting[v.ID] = append(resting[v.ID], i)
		}
		byID[p.ID] = i
		if at := strings.LastIndexByte(p.ID, '/'); at >= 0 {
			byName[p.ID[at+1:]] = append(byName[p.ID[at+1:]], i)
		}
	}
	return func(v figure.Verdict) []string {
		subject, _, _ := strings.Cut(v.ID, "/")
		name, _, _ := strings.Cut(subject, ".")
		on := append(slices.Clone(byName[name]), resting[v.ID]...)
		if i, ok := byID[strings.Replace(subject, ".", "/", 1)]; ok {
			on = append(on, i)
		}
		slices.Sort(on)
		var out []string
		for _, i := range slices.Compact(on) {
			out = append(out, pages[i].ID)
		}
		return out
	}
}

// entries writes one JSON object, an entry of its lists at a time.
type entries struct {
	w     *bufio.Writer
	entry bytes.Buffer
	err   error
	begun bool
}

func newEntries(w io.Writer) *entries { return &entries{w: bufio.NewWriterSize(w, 1<<16)} }

// encode writes a value whose further lines are indented.
func (e *entries) encode(v any, indent string) {
	e.entry.Reset()
	enc := json.NewEncoder(&e.entry)
	enc.SetEscapeHTML(false)
	enc.SetIndent(indent, " ")
	e.err = errors.Join(e.err, enc.Encode(v))
	e.w.Write(bytes.TrimSuffix(e.entry.Bytes(), []byte("\n")))
}

func (e *entries) key(name string) {
	start := "{"
	if e.begun {
		start = ","
	}
	e.begun = true
	e.w.WriteString(start + "\n ")
	e.encode(name, "")
	e.w.WriteString(": ")
}

// field writes a field that is no list.
func (e *entries) field(name string, v any) {
	e.key(name)
	e.encode(v, " ")
}

// list writes a list, whose entries come from each.
func (e *entries) list(name string, each func(yield func(any))) {
	e.key(name)
	start := "["
	each(func(v any) {
		e.w.WriteString(start + "\n  ")
		e.encode(v, "  ")
		start = ","
	})
	if start == "[" {
		e.w.WriteString("[]")
		return
	}
	e.w.WriteString("\n ]")
}

// end closes the object and says what went wrong, if anything did.
func (e *entries) end() error {
	e.w.WriteString("\n}\n")
	return errors.Join(e.err, e.w.Flush())
}

func none[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

func figureOf(r *figure.Record, cards []string, l *load.Loaded) figureJSON {
	f := figureJSON{ID: r.ID, Kind: string(r.Kind), Name: r.Name, Unit: r.Unit, Shown: r.Shown, Source: r.Source,
		Origin: r.Origin.String(), Cards: none(cards), Why: r.Why, Inputs: []inputJSON{}}
	switch {
	case r.Refused():
	case r.Date != "":
		f.Value = r.Date
	case r.Kind == figure.KindSeries:
		list := make([]number, len(r.Series))
		for i, x := range r.Series {
			list[i] = number(x)
		}
		f.Value = list
	case r.Kind == figure.KindText:
		f.Value = r.Shown
	default:
		f.Value = number(r.Counted(r.Value))
	}
	if r.HasLow && !r.Refused() {
		low, high := number(r.Counted(r.Low)), number(r.Counted(r.High))
		f.Low, f.High = &low, &high
	}
	if r.Round.Rule != "" {
		f.Round = &roundJSON{r.Round.Rule, r.Round.Step, r.Round.Device}
	}
	if r.Formula != nil {
		f.Formula = r.Formula.Result + " = " + r.Formula.Text
	} else if r.Method != nil {
		f.Formula = r.Method.Text()
	}
	for _, in := range r.Inputs {
		f.Inputs = append(f.Inputs, inputJSON{Symbol: in.Symbol, Name: in.Name, ID: in.ID, File: in.Where.File,
			Key:  in.Where.Key,
			Line: l.Line(in.Where.File, in.Where.Key), Constant: in.Constant, Value: number(in.Value), Unit: in.Unit,
			Text: in.Text, Source: in.Source, Origin: in.Origin.String()})
	}
	return f
}

func classificationOf(c procedures.Classification) classificationJSON {
	k := c.Known
	out := classificationJSON{Subject: c.Subject, Strength: c.Strength, Form: c.Form, Status: k.Status.String(),
		Classes: []string{}, Statements: none(k.Statements()),
		Supplemental: []string{}, Signal: k.Signal(), Pictograms: none(k.Pictograms()), Layers: []layerJSON{},
		Because: []becauseJSON{}, Near: []becauseJSON{}, Remarks: none(k.Remarks)}
	for _, f := range k.Classes {
		out.Classes = append(out.Classes, f.Class.Word)
		out.Because = append(out.Because, becauseOf(f.Class.Word, f)...)
	}
	for _, f := range k.Extra {
		out.Supplemental = append(out.Supplemental, f.Code)
		out.Because = append(out.Because, becauseOf(f.Code, f)...)
	}
	for _, l := range k.Layers {
		layer := layerJSON{Who: l.Who, Classes: []string{}}
		for _, f := range l.Classes {
			layer.Classes = append(layer.Classes, f.Class.Word)
		}
		out.Layers = append(out.Layers, layer)
	}
	for _, n := range k.Near {
		for _, by := range n.By {
			out.Near = append(out.Near, bringingOf(by, n.Class, n.Table, ""))
		}
	}
	return out
}

func becauseOf(word string, f hazard.Found) []becauseJSON {
	var out []becauseJSON
	for i, name := range f.Because {
		if i < len(f.By) {
			out = append(out, bringingOf(f.By[i], word, f.Table, f.Who[i].String()))
			continue
		}
		out = append(out, becauseJSON{Class: word, Substance: name, Table: f.Table, Origin: f.Who[i].String()})
	}
	return out
}

func bringingOf(b hazard.Bringing, class, table, origin string) becauseJSON {
	of := func(v float64) *number { n := number(v); return &n }
	out := becauseJSON{Class: class, Substance: b.Name, Limit: b.Limit, Table: table, Origin: origin,
		Percent: of(b.Content.Value)}
	if b.Low != nil {
		out.Low, out.High = of(b.Low.Value), of(b.High.Value)
	}
	return out
}
