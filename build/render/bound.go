package render

import (
	"fmt"
	"html/template"
	"strings"

	"wetside/build/theme"
	"wetside/procedures/page"
)

// boundLeaf is a sheet of the binder as its template sees it.
type boundLeaf struct {
	Nth  int
	Body template.HTML
}

// HasKind tells whether a line stands above the title. In the binder the running head says
// of what kind a card is, and the line is for warnings.
func (v *view) HasKind() bool {
	return !v.Bound || v.Controlled() && !v.Follows() && (v.Page.Foot.Approved == "" || v.Page.Foot.Overdue != "")
}

// HazardWord is what stands first of hazards: the signal word, or that there is none.
func (v *view) HazardWord(b page.Hazards) string {
	switch {
	case b.Status == "unknown":
		return strings.TrimSpace(b.Signal + " Hazards not looked up")
	case b.Status == "not classified":
		return strings.TrimSpace(b.Signal + " Not classified")
	}
	return b.Signal
}

// HazardMark parts the signal word, and what the pictograms are called, from what follows.
func (v *view) HazardMark(b page.Hazards) string {
	switch {
	case v.HazardWord(b) == "" && len(b.Pictograms) == 0:
		return ""
	case len(b.Statements) > 0 || v.Page.Kind == "chemical" && len(b.Classes) > 0:
		return ":"
	}
	return "."
}

// LeftOutWords say what is not bound in.
func (v *view) LeftOutWords() string { return leftOut }

// margin is how running heads and page numbers are set.
const margin = "font:7.5pt Card,sans-serif"

// binderStyle gives every sheet of the binder a page of its own name, with its running head.
func (s *site) binderStyle(face theme.Face) (File, error) {
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
	for i, l := range s.leaves {
		begin(fmt.Sprintf("b-%d", i))
		fmt.Fprintf(&b, "@top-left{content:%s;%s}}\n.l-%d{page:b-%d}\n", cssString(l.head), margin, i, i)
	}
	out, err := s.shrink("text/css", []byte(b.String()))
	if err != nil {
		return File{}, fmt.Errorf("running heads: %w", err)
	}
	return hashed("binder.css", out), nil
}
