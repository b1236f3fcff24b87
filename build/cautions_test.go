package build_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/lab"
)

// said are the words of which a step's caution must hold one, by the beginning
// of a class or the code of a statement that its substance carries.
var said = []struct {
	class string
	words []string
}{
	{"Eye Dam.", []string{"eyes"}}, {"Eye Dam.", []string{"goggles"}}, {"Eye Irrit.", []string{"goggles"}},
	{"Skin Corr.", []string{"burns"}}, {"Skin Corr.", []string{"goggles"}}, {"Skin Corr.", []string{"gloves"}},
	{"Skin Sens.", []string{"sensitiser"}}, {"Skin Sens.", []string{"gloves"}},
	{"Repr.", []string{"unborn"}}, {"Carc.", []string{"cancer"}},
	{"Ox. Sol.", []string{"fire"}}, {"STOT SE 3 (respiratory)", []string{"throat", "dust"}}, {"STOT RE 1", []string{"dust"}},
	{"Acute Tox. 4 (dermal)", []string{"skin"}}, {"EUH031", []string{"sulfur dioxide"}}, {"EUH032", []string{"acid"}},
}

// TestCautions: in the demonstration, what stands at a step is never weaker than
// what is known of the substance that it adds. What is added twice is said once;
// that nobody pregnant mixes it stands on every such card by itself.
func TestCautions(t *testing.T) {
	l := demonstration(t).Loaded.Lab
	checked := 0
	check := func(s *lab.Solution, add, caution string) {
		ing, bad := l.Resolve(add, s.At("step"))
		require.Empty(t, bad)
		if ing.Chemical == nil || ing.Chemical.Hazards == nil {
			return
		}
		for _, known := range append(append([]string{}, ing.Chemical.Hazards.Classes...), ing.Chemical.Hazards.Extra...) {
			for _, rule := range said {
				if !strings.HasPrefix(known, rule.class) {
					continue
				}
				checked++
				found := false
				for _, w := range rule.words {
					found = found || strings.Contains(strings.ToLower(caution), w)
				}
				require.True(t, found, "%s, %s is %s, and its caution says nothing of %s: %q", s.ID, add, known, strings.Join(rule.words, " or "), caution)
			}
		}
	}
	for _, s := range l.Solutions {
		words := map[string]string{}
		for _, step := range s.Steps {
			words[step.Add] += step.Caution
		}
		for _, step := range s.Steps {
			check(s, step.Add, words[step.Add])
		}
		if s.Dissolve != nil {
			check(s, s.Dissolve.Add, s.Dissolve.Caution)
		}
	}
	require.Greater(t, checked, 60)
}
