package paper

import (
	"fmt"
	"strings"

	"wetside/build/theme"
	"wetside/procedures/page"
)

// margin is how running heads and page numbers are set.
const margin = "font:7.5pt Card,sans-serif"

// Heads are the rules that give every sheet of the binder a page of its own name, with its
// running head.
func (s *Papers) Heads(face theme.Face, leaves []Leaf) string {
	var b strings.Builder
	begin := func(name string) {
		fmt.Fprintf(&b, "@page %s{%s", name, face.PageRule())
		if s.binder.Demonstration {
			fmt.Fprintf(&b, "@top-center{content:%s;%s}", cssString(page.Demonstration), margin)
		}
		fmt.Fprintf(&b, "@top-right{content:%s;%s}", cssString(s.binder.Lab), margin)
		fmt.Fprintf(&b, "@bottom-right{content:counter(page) \" / \" counter(pages);%s}", margin)
	}
	begin("b-contents")
	b.WriteString("}\n.leaf.contents{page:b-contents}\n")
	for i, l := range leaves {
		begin(fmt.Sprintf("b-%d", i))
		fmt.Fprintf(&b, "@top-left{content:%s;%s}}\n.l-%d{page:b-%d}\n", cssString(l.Head), margin, i, i)
	}
	return b.String()
}

// cssString writes a CSS string.
func cssString(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == '<':
			fmt.Fprintf(&b, "\\%x ", r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
