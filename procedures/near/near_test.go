package near

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestWord: which word was meant, and that none was.
func TestWord(t *testing.T) {
	tests := []struct {
		word  string
		among []string
		want  string
	}{
		{"amuont", []string{"add", "amount", "lots"}, "amount"},
		{"keps", []string{"keeps", "kept"}, "keeps"},
		{"stp", []string{"step", "stop"}, "step"},
		{"fixer-fim", []string{"fixer.film", "fixer-film"}, "fixer-film"},
		{"Säure", []string{"saure", "Saeure"}, "Saeure"},
		{"ab", []string{"xy", "a", "abc"}, ""},
		{"abc", []string{"abd", "ab"}, "ab"},
		{"name", []string{"note", "same"}, "same"},
		{"name", []string{"nothing"}, ""},
		{"", []string{"a", ""}, ""},
		{"x", nil, ""},
		{"solution-28", []string{"solution-60", "solution-23"}, ""},
		{"potassium", []string{"potassium-bromide"}, "potassium-bromide"},
		{"pot", []string{"pot-ash"}, ""},
	}
	for _, tt := range tests {
		t.Run(tt.word, func(t *testing.T) {
			assert.Equal(t, tt.want, Word(tt.word, tt.among))
		})
	}
}

// TestSame: of two slips only Word is sure enough.
func TestSame(t *testing.T) {
	for word, want := range map[string][2]string{"rolls": {"rows", ""}, "keps": {"keeps", "keeps"}, "keeps": {"keeps", "keeps"}} {
		among := []string{"rows", "keeps"}
		assert.Equal(t, want, [2]string{Word(word, among), Same(word, among)}, word)
	}
}
