package lab

import "fmt"

// papers checks what the cards are to be printed on.
func (c *checker) papers(p Place) {
	if p.Print.Papers != nil && len(p.Print.Papers) == 0 {
		c.add(p.At("print.papers"), "missing", "no paper is named", "name one of "+list(Papers)+", or leave papers out: then processes and boards are on A4, mixing cards on A5")
	}
	first := map[string]int{}
	for i, name := range p.Print.Papers {
		at := p.At(fmt.Sprintf("print.papers[%d]", i))
		if !contains(Papers, name) {
			c.add(at, "word", fmt.Sprintf("%q is not a paper", name), Near(name, Papers, "the papers are "+list(Papers)+"; a size of its own is a face of the house's style"))
			continue
		}
		if n, twice := first[name]; twice {
			c.add(at, "id", fmt.Sprintf("the paper %q stands here already (number %d)", name, n+1), "name each paper once")
			continue
		}
		first[name] = i
	}
}
