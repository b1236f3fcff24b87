package source

import (
	"fmt"
	"io"
	"strings"
	"unicode"

	"github.com/rivo/uniseg"
)

// window is the most runes of a source line that are echoed.
const window = 160

// mostShown is how many faults are written; the rest are counted.
const mostShown = 100

// WriteText writes every fault with the line it stands on, carets under the
// place and the hint, then one line that counts them. Without faults it writes
// nothing.
func (f Faults) WriteText(w io.Writer) error {
	if len(f) == 0 {
		return nil
	}
	var b strings.Builder
	for i, one := range f {
		if left := len(f) - i; i == mostShown && left > 1 { // nobody reads further
			fmt.Fprintf(&b, "and %d more: mend these first, and look again\n", left)
			break
		}
		b.WriteString(one.String() + "\n")
		writeEcho(&b, one)
		if one.Hint != "" {
			b.WriteString("   hint: " + visible(one.Hint) + "\n")
		}
	}
	var counts []string
	if n := f.Errors(); n > 0 {
		counts = append(counts, counted(n, "fault"))
	}
	if n := f.Warnings(); n > 0 {
		counts = append(counts, counted(n, "warning"))
	}
	b.WriteString(strings.Join(counts, ", ") + "\n")
	_, err := io.WriteString(w, b.String())
	return err
}

func counted(n int, word string) string {
	if n != 1 {
		word += "s"
	}
	return fmt.Sprintf("%d %s", n, word)
}

// writeEcho writes the source line and the carets below it.
func writeEcho(b *strings.Builder, f Fault) {
	if f.Span.Start.Line == 0 || strings.TrimSpace(f.Line) == "" {
		return
	}
	line := []rune(visible(f.Line))
	from := min(max(f.Span.Start.Column-1, 0), len(line))
	to := len(line)
	if f.Span.End.Line == f.Span.Start.Line {
		to = min(max(f.Span.End.Column-1, from), len(line))
	}
	line, from, to = excerpt(line, from, to)
	before := uniseg.StringWidth(string(line[:from]))
	carets := max(uniseg.StringWidth(string(line[from:to])), 1)
	number := fmt.Sprintf("%5d", f.Span.Start.Line)
	fmt.Fprintf(b, "%s | %s\n", number, string(line))
	fmt.Fprintf(b, "%*s | %s%s\n", len(number), "", strings.Repeat(" ", before), strings.Repeat("^", carets))
}

// excerpt cuts a long line down to a window around from..to and moves the two
// with it.
func excerpt(line []rune, from, to int) ([]rune, int, int) {
	if len(line) <= window {
		return line, from, to
	}
	const room = window - 2 // a mark at either end
	start := min(max(from-room/3, 0), len(line)-room)
	end := start + room
	cut := make([]rune, 0, window)
	shift := start
	if start > 0 {
		cut = append(cut, '…')
		shift--
	}
	cut = append(cut, line[start:end]...)
	to = min(to, end)
	if end < len(line) {
		cut = append(cut, '…')
	}
	return cut, from - shift, to - shift
}

// visible replaces, rune for rune, whatever could drive a terminal or turn the
// direction of the text, so that columns stay what they were.
func visible(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '\t':
			r = ' '
		case r < ' ':
			r = '␀' + r
		case r == 0x7f:
			r = '␡'
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r), r == '\u2028', r == '\u2029', r == '\ufeff':
			r = unicode.ReplacementChar
		}
		b.WriteRune(r)
	}
	return b.String()
}
