package theme

import (
	"bufio"
	"bytes"
	"fmt"
	"strconv"
	"strings"
)

// Widths are the advance widths of a font, in thousandths of the type size.
type Widths struct {
	ascii [128]int16
	rest  map[rune]int16
	wide  int16
}

func readWidths(b []byte) (Widths, error) {
	w := Widths{rest: map[rune]int16{}}
	for s, n := bufio.NewScanner(bytes.NewReader(b)), 1; s.Scan(); n++ {
		line := strings.TrimSpace(s.Text())
		if line == "" || line[0] == '#' {
			continue
		}
		code, width, ok := strings.Cut(line, " ")
		hex, coded := strings.CutPrefix(code, "U+")
		c, err := strconv.ParseUint(hex, 16, 32)
		v, err2 := strconv.ParseInt(width, 10, 16)
		if !ok || !coded || err != nil || err2 != nil {
			return w, fmt.Errorf("line %d: want a code point and a width", n)
		}
		if c < uint64(len(w.ascii)) {
			w.ascii[c] = int16(v)
		} else {
			w.rest[rune(c)] = int16(v)
		}
		w.wide = max(w.wide, int16(v))
	}
	if w.wide == 0 {
		return w, fmt.Errorf("no widths")
	}
	return w, nil
}

// Has tells whether the font has a letter.
func (w *Widths) Has(r rune) bool {
	if r < rune(len(w.ascii)) {
		return w.ascii[r] != 0
	}
	return w.rest[r] != 0
}

// Sum is the width of a text in thousandths of the size of type. A letter the font lacks
// counts as its widest, so the result is never too small.
func (w *Widths) Sum(s string) int {
	sum := 0
	for _, r := range s {
		v := int16(0)
		if r < rune(len(w.ascii)) {
			v = w.ascii[r]
		} else {
			v = w.rest[r]
		}
		if v == 0 {
			v = w.wide
		}
		sum += int(v)
	}
	return sum
}

// Scaled is a width in thousandths of the size of type at a size.
func Scaled(thousandths int, size float64) float64 { return float64(thousandths) * size / 1000 }

// Of is the width of a text set at that size, in its unit.
func (w *Widths) Of(s string, size float64) float64 { return Scaled(w.Sum(s), size) }
