package build

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"

	"wetside/build/load"
	"wetside/build/render"
	"wetside/procedures"
	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/page"
)

// The shape of figures.json; DEVELOPERS.md describes it.
type (
	figuresFile struct {
		Day             string               `json:"day"`
		Lab             string               `json:"lab"`
		Figures         []figureJSON         `json:"figures"`
		Verdicts        []verdictJSON        `json:"verdicts"`
		Classifications []classificationJSON `json:"classifications"`
		Cards           []cardJSON           `json:"cards"`
	}
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
		Because      []becauseJSON `json:"because"`
	}
	becauseJSON struct {
		Class     string   `json:"class"`
		Substance []string `json:"substance"`
		Origin    string   `json:"origin"`
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

// Figures makes figures.json: every figure and verdict of a binder, ordered
// and stable, with the places its inputs were written at.
func Figures(b procedures.Binder, l *load.Loaded) ([]byte, error) {
	on := map[string][]string{}
	for _, p := range b.Pages {
		if p.Kind == "working" {
			continue
		}
		for _, f := range page.Figures(p) {
			id := f.ID
			if list := on[id]; len(list) == 0 || list[len(list)-1] != p.ID {
				on[id] = append(on[id], p.ID)
			}
		}
	}
	out := figuresFile{Day: b.Day, Lab: b.Lab, Figures: []figureJSON{}, Verdicts: []verdictJSON{}, Classifications: []classificationJSON{}, Cards: []cardJSON{}}
	for _, r := range b.Figures {
		out.Figures = append(out.Figures, figureOf(r, on[r.ID], l))
	}
	for _, v := range b.Verdicts {
		subject, _, _ := strings.Cut(v.ID, "/")
		id, _, _ := strings.Cut(subject, ".")
		var cards []string
		for _, p := range b.Pages {
			rests := slices.ContainsFunc(p.Verdicts, func(o figure.Verdict) bool { return o.ID == v.ID })
			if rests || (strings.HasSuffix(p.ID, "/"+id) || p.ID == strings.Replace(subject, ".", "/", 1)) && p.Kind != "working" {
				cards = append(cards, p.ID)
			}
		}
		out.Verdicts = append(out.Verdicts, verdictJSON{v.ID, v.Answer, none(v.Limits), none(v.Because), v.Source, none(cards)})
	}
	for _, c := range b.Classifications {
		out.Classifications = append(out.Classifications, classificationOf(c))
	}
	for _, p := range b.Pages {
		out.Cards = append(out.Cards, cardJSON{p.ID, p.Kind, p.Foot.Version, render.Digest(p), p.ID + ".html"})
	}
	var buf bytes.Buffer
	e := json.NewEncoder(&buf)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	err := e.Encode(out)
	return buf.Bytes(), err
}

func none[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

func figureOf(r *figure.Record, cards []string, l *load.Loaded) figureJSON {
	f := figureJSON{ID: r.ID, Kind: string(r.Kind), Name: r.Name, Unit: r.Unit, Shown: r.Shown, Source: r.Source, Origin: r.Origin.String(), Cards: none(cards), Why: r.Why, Inputs: []inputJSON{}}
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
	}
	for _, in := range r.Inputs {
		f.Inputs = append(f.Inputs, inputJSON{Symbol: in.Symbol, Name: in.Name, ID: in.ID, File: in.Where.File, Key: in.Where.Key,
			Line: l.Line(in.Where.File, in.Where.Key), Constant: in.Constant, Value: number(in.Value), Unit: in.Unit, Text: in.Text, Source: in.Source, Origin: in.Origin.String()})
	}
	return f
}

func classificationOf(c procedures.Classification) classificationJSON {
	out := classificationJSON{Subject: c.Subject, Strength: c.Strength, Form: "solution", Status: "unknown", Classes: []string{}, Statements: none(c.Known.Statements()), Supplemental: []string{}, Signal: c.Known.Signal(), Pictograms: none(c.Known.Pictograms()), Because: []becauseJSON{}}
	if c.Known.Status != hazard.Unknown {
		out.Status = "supplier"
	}
	for _, f := range c.Known.Classes {
		out.Classes = append(out.Classes, f.Class.Word)
		out.Because = append(out.Because, becauseJSON{f.Class.Word, f.Because, f.Origin.String()})
	}
	for _, f := range c.Known.Extra {
		out.Supplemental = append(out.Supplemental, f.Code)
	}
	return out
}
