package page

// Hazards is what is known of the dangers of what this page is about.
type Hazards struct {
	Only
	// Status is "unknown", "every ingredient’s", "worked out", "as it comes" or "not classified".
	Status     string
	Signal     string
	Pictograms []string // "GHS07"
	Classes    []Text
	Statements []Text
	Note       Text
}

// Block implements Block.
func (Hazards) Block() string { return "hazards" }

// Sifted implements Block.
func (h Hazards) Sifted(s *Sieve) Block { return h.sifted(s) }

func (h Hazards) sifted(s *Sieve) Hazards {
	h.Classes, h.Statements, h.Note = s.texts(h.Classes), s.texts(h.Statements), s.text(h.Note)
	return h
}

// Empty implements Block: what is unknown is said.
func (h Hazards) Empty() bool {
	return h.Status == "" && h.Signal == "" && len(h.Statements) == 0 && len(h.Classes) == 0 && len(h.Note) == 0
}
