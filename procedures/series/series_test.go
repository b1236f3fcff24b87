package series

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestOf(t *testing.T) {
	for want, names := range map[string][]string{
		"":                                  nil,
		"acid":                              {"acid"},
		"acid, base":                        {"acid", "base"},
		"bleach A, acid":                    {"bleach A, acid"},
		"bleach A, acid; bleach B":          {"bleach A, acid", "bleach B"},
		"bleach; sodium sulfite, anhydrous": {"bleach", "sodium sulfite, anhydrous"},
	} {
		require.Equal(t, want, Of(names))
	}
}
