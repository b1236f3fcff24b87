package lab

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestInSides: lengths that are multiplied are written with the sign × (ISO 80000-1, from memory); only
// the x between two numbers stands for it.
func TestInSides(t *testing.T) {
	for id, said := range map[string]string{"4x5": "4×5", "24x30": "24×30", "mat-6x9": "mat-6×9", "135-36": "135-36",
		"120": "120", "box-x5": "box-x5", "sheet-print": "sheet-print", "": ""} {
		require.Equal(t, said, InSides(id), id)
	}
}
