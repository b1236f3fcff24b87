package build_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"math"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/content"
	"wetside/procedures/unit"
)

// wholeKeys are the tables and lists that a figure is made from as a whole, by the end
// of their key. Every other key of an input leads to one value.
var wholeKeys = []struct {
	key  *regexp.Regexp
	made string
}{
	{regexp.MustCompile(`^step$`), "the parts of all steps but one"},
	{regexp.MustCompile(`^(cylinder|syringe)$`), "the tolerances of all pours"},
	{regexp.MustCompile(`^(step\[\d+\]|change\.[a-z0-9-]+)\.fills$`), "how many fills the list has"},
	{regexp.MustCompile(`\.temperature\.measured$`), "the difference of two temperatures"},
}

// ruledKeys are those whose value is no number of the figure, but decides by a rule of
// the program which number it is.
var ruledKeys = map[string]*regexp.Regexp{
	"a scale that was checked is doubted by one division": regexp.MustCompile(`^scale\.[^.]+\.checked$`),
}

// inputOf is an input of a figure as figures.json has it.
type inputOf struct {
	Name, ID, File, Key, Constant, Unit, Text string
	Line                                      int
	Value                                     float64
}

// sourceFile is a file of a binder or of the library, read without the program's own
// reader.
type sourceFile struct {
	lines  []string
	values map[string]any
}

// TestProvenance: every input of every figure is another figure, a constant, or a value
// that stands in a file at the very key and line that figures.json names; and the text
// that stands there says that value in that unit.
func TestProvenance(t *testing.T) {
	for name := range labs {
		t.Run(name, func(t *testing.T) {
			r := boundLab(t, name)
			var written bytes.Buffer
			require.NoError(t, build.Figures(&written, r.Binder, r.Loaded))
			var out struct {
				Figures []struct {
					ID, Kind string
					Inputs   []inputOf
				}
			}
			require.NoError(t, json.Unmarshal(written.Bytes(), &out))
			ids := map[string]bool{}
			for _, f := range out.Figures {
				ids[f.ID] = true
			}
			p := provenanceOf{src: labFS(t, name), ids: ids, files: map[string]sourceFile{}}
			placed := 0
			for _, f := range out.Figures {
				for _, in := range f.Inputs {
					if in.File != "" {
						placed++
					}
					if why := p.wrong(in, f.Kind == "text"); why != "" {
						t.Errorf("%s from %q at %s %s: %s", f.ID, in.Name, in.File, in.Key, why)
					}
				}
			}
			require.Greater(t, placed, 500)
		})
	}
}

type provenanceOf struct {
	src   fs.FS
	ids   map[string]bool
	files map[string]sourceFile
}

// wrong says what is wrong with where an input comes from, or nothing. An input of a
// figure in words has words alone, and no value.
func (p provenanceOf) wrong(in inputOf, words bool) string {
	switch {
	case in.ID != "" && in.File == "" && in.Constant == "":
		if !p.ids[in.ID] {
			return "there is no figure " + in.ID
		}
		return ""
	case in.Constant != "" && in.File == "" && in.ID == "":
		return ""
	case in.File == "" || in.Key == "" || in.ID != "" || in.Constant != "":
		return "it has no root, or more than one"
	}
	file, err := p.file(in.File)
	if err != nil {
		return err.Error()
	}
	path := partsOf(in.Key)
	value, ok := valueAt(file.values, path)
	if !ok {
		return "no such key"
	}
	last := path[len(path)-1]
	if in.Line < 1 || in.Line > len(file.lines) {
		return fmt.Sprintf("no line %d", in.Line)
	}
	said, single := textOf(value)
	line := file.lines[in.Line-1]
	if names := !strings.HasPrefix(last, "["); names && !strings.Contains(line, last) || !names && !strings.Contains(line, said) {
		return fmt.Sprintf("line %d does not hold it: %s", in.Line, line)
	}
	if !single {
		return wrongWhole(in, reflect.ValueOf(value))
	}
	for _, rule := range ruledKeys {
		if rule.MatchString(in.Key) {
			return ""
		}
	}
	// "30 s" stands behind "6 in"; of a solubility the temperature is the key itself.
	stands := said == in.Text || strings.HasSuffix(said, " "+in.Text) || dilutionText(said) == in.Text || in.Text == last
	if !stands {
		return fmt.Sprintf("%q stands there, and not %q", said, in.Text)
	}
	if in.Text == "" {
		return "it says nothing of what stands there"
	}
	if !words && !says(in.Text, in.Unit, in.Value) {
		return fmt.Sprintf("%q is not %v %s", in.Text, in.Value, in.Unit)
	}
	return ""
}

// wrongWhole is wrong for an input that a whole table or list makes. Its text is
// nothing, how many entries the list has, or the entries themselves.
func wrongWhole(in inputOf, list reflect.Value) string {
	for _, whole := range wholeKeys {
		if !whole.key.MatchString(in.Key) {
			continue
		}
		if in.Text == "" || in.Text == strconv.Itoa(list.Len()) && in.Value == float64(list.Len()) {
			return ""
		}
		if list.Kind() != reflect.Slice {
			return fmt.Sprintf("a table, and not %q", in.Text)
		}
		var entries []string
		for i := range list.Len() {
			entries = append(entries, fmt.Sprint(list.Index(i)))
		}
		if in.Text != strings.Join(entries, ", ") {
			return fmt.Sprintf("%v stands there, and not %q", list, in.Text)
		}
		return ""
	}
	return "a whole table or list"
}

// file reads a file of the binder, else one of the library's.
func (p provenanceOf) file(name string) (sourceFile, error) {
	if f, ok := p.files[name]; ok {
		return f, nil
	}
	b, err := fs.ReadFile(p.src, name)
	if err != nil {
		if b, err = fs.ReadFile(content.FS, name); err != nil {
			return sourceFile{}, err
		}
	}
	f := sourceFile{lines: strings.Split(string(b), "\n")}
	if err := toml.Unmarshal(b, &f.values); err != nil {
		return sourceFile{}, err
	}
	p.files[name] = f
	return f, nil
}

var keyPart = regexp.MustCompile(`"[^"]*"|\[\d+\]|[^.\[\]"]+`)

// partsOf cuts a key into its names and its numbers in brackets.
func partsOf(key string) []string {
	parts := keyPart.FindAllString(key, -1)
	for i := range parts {
		parts[i] = strings.Trim(parts[i], `"`)
	}
	return parts
}

// valueAt is exactly what stands at a key, never what stands around it.
func valueAt(v any, path []string) (any, bool) {
	for _, part := range path {
		at := reflect.ValueOf(v)
		switch {
		case strings.HasPrefix(part, "[") && at.Kind() == reflect.Slice:
			i, err := strconv.Atoi(strings.Trim(part, "[]"))
			if err != nil || i >= at.Len() {
				return nil, false
			}
			v = at.Index(i).Interface()
		case at.Kind() == reflect.Map:
			item := at.MapIndex(reflect.ValueOf(part))
			if !item.IsValid() {
				return nil, false
			}
			v = item.Interface()
		default:
			return nil, false
		}
	}
	return v, true
}

// textOf is a single value as it is written.
func textOf(v any) (text string, single bool) {
	switch v := v.(type) {
	case string:
		return v, true
	case int64:
		return strconv.FormatInt(v, 10), true
	case time.Time:
		return v.Format(time.DateOnly), true
	}
	return "", false
}

// reading is what a text says as a quantity of one kind.
type reading func(text string) (float64, bool)

func quantity[T unit.Kind](text string) (float64, bool) {
	var q unit.Quantity[T]
	err := q.UnmarshalText([]byte(text))
	return float64(q.Value()), err == nil
}

// readings are the ways to read a text in a unit of figures.json. A few values are
// counted in another unit than they are written in, as a volume for each roll where one
// roll is meant.
var readings = map[string][]reading{
	"g": {quantity[unit.Mass]}, "ml": {quantity[unit.Volume], quantity[unit.VolumePerRoll]},
	"°C": {quantity[unit.Temperature]}, "K": {quantity[unit.Kelvin]}, "cm²": {quantity[unit.Area]}, "mm": {quantity[unit.Length]},
	"s": {quantity[unit.Seconds]}, "g/L": {quantity[unit.Concentration]}, "g/ml": {quantity[unit.Density]},
	"%": {quantity[unit.Percent]}, "% w/w": {quantity[unit.WW]}, "% w/v": {quantity[unit.WV]},
	"g/m²": {quantity[unit.MassPerArea]}, "ml/m²": {quantity[unit.VolumePerArea]}, "ml/g": {quantity[unit.VolumePerMass]},
	"ml/roll": {quantity[unit.VolumePerRoll]}, "ml/sheet": {quantity[unit.VolumePerSheet]},
	"rolls": {quantity[unit.Rolls], count}, "rolls/L": {quantity[unit.RollsPerLitre]}, "m²/L": {quantity[unit.AreaPerLitre]},
	"L/min": {quantity[unit.Flow]}, "1/K": {quantity[unit.PerKelvin]}, "/stop": {quantity[unit.PerStop]},
	"g/100 g": {quantity[unit.Solubility]}, "/L": {quantity[unit.PerLitre], perLitre}, "uses": {quantity[unit.Uses]}, "kJ/mol": {quantity[unit.Heat]},
	"% per roll/L": {quantity[unit.PerRollLitre]}, "/kg": {perKilogram}, "days": {day},
	"": {quantity[unit.Factor], count, hours, wholePrice},
}

// says reports whether a text says a value in a unit.
func says(text, unitWord string, value float64) bool {
	near := func(x float64) bool { return math.Abs(x-value) <= 1e-9*math.Max(1, math.Abs(value)) }
	for _, read := range readings[unitWord] {
		if x, ok := read(text); ok && near(x) {
			return true
		}
	}
	var life unit.Life
	lives := life.UnmarshalText([]byte(text)) == nil
	switch {
	case unitWord == "" && lives: // as it is written, in days, in whole days or in months
		days := life.Span()
		return near(life.Number()) || near(days) || near(math.Floor(days)) || near(days*12/365.25)
	case unitWord == "days" && lives: // from one day of the calendar to another
		least, most := life.Days+28*life.Months, life.Days+31*life.Months
		return value == math.Trunc(value) && value >= float64(least) && value <= float64(most)
	case unitWord == "":
		for _, part := range dilutionParts(text) {
			if near(part) {
				return true
			}
		}
	}
	return false
}

var leadingCount = regexp.MustCompile(`^\d+`)

// count is the number at the beginning of "4", "24 rolls" and "6 in 30 s".
func count(text string) (float64, bool) {
	n, err := strconv.ParseFloat(leadingCount.FindString(text), 64)
	return n, err == nil
}

func hours(text string) (float64, bool) {
	s, ok := quantity[unit.Seconds](text)
	return s / 3600, ok
}

func day(text string) (float64, bool) {
	d, err := unit.ParseDate(text)
	return float64(d.Number()), err == nil
}

func wholePrice(text string) (float64, bool) {
	var p unit.Price
	err := p.UnmarshalText([]byte(text))
	x, ok := p.Whole()
	return float64(x), err == nil && ok
}

func perLitre(text string) (float64, bool) {
	var p unit.Price
	err := p.UnmarshalText([]byte(text))
	x, ok := p.PerL()
	return float64(x), err == nil && ok
}

func perKilogram(text string) (float64, bool) {
	var p unit.Price
	err := p.UnmarshalText([]byte(text))
	x, ok := p.PerKg()
	return float64(x), err == nil && ok
}

// dilutionParts are both parts of a dilution; none of another text.
func dilutionParts(text string) []float64 {
	var d unit.Dilution
	if d.UnmarshalText([]byte(text)) != nil {
		return nil
	}
	return []float64{d.Stock.Float(), d.Water.Float()}
}

// dilutionText is a dilution as the program writes it.
func dilutionText(text string) string {
	var d unit.Dilution
	if d.UnmarshalText([]byte(text)) != nil {
		return ""
	}
	return d.Text()
}
