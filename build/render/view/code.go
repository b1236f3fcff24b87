package view

import (
	"fmt"
	"strings"

	"wetside/build/render/draw"
	"wetside/build/theme"
)

// Own is the card's own address, or empty where none is configured.
func (v *View) Own() string {
	if v.binder.Address == "" {
		return ""
	}
	return strings.TrimSuffix(v.binder.Address, "/") + "/" + EscapePath(v.Page.ID) + ".html"
}

// Square is the code of the card's own address, made once.
func (v *View) Square() *draw.Square {
	if !v.tried {
		v.tried, v.squared = true, draw.SquareOf(v.Own())
	}
	return v.squared
}

// CodeSide is the side of the code on a wall card in mm, or nothing where there
// is none.
func (v *View) CodeSide() float64 {
	if !v.HasCode() {
		return 0
	}
	return v.Square().Side(draw.CodeSide)
}

// HasCode tells whether the card prints the code of its own address: cards for
// the wall do where an address is configured.
func (v *View) HasCode() bool {
	return !v.Bound && v.Face.Medium == theme.Paper && strings.HasPrefix(v.Face.Folder, "wall/") && v.Square() != nil
}

// EscapePath escapes what would not stay in a path; ids keep their letters.
func EscapePath(s string) string {
	const keep = "-._~!$'()*+,;=:@/"
	var b strings.Builder
	for i := range len(s) {
		c := s[i]
		if c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.IndexByte(keep, c) >= 0 {
			b.WriteByte(c)
			continue
		}
		fmt.Fprintf(&b, "%%%02X", c)
	}
	return b.String()
}
