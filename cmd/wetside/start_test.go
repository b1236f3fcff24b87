package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestForms: with what stands on a label, each form becomes a product with its card; until
// then every empty place is listed.
func TestForms(t *testing.T) {
	labels := map[string][]string{ // in the order of the empty places
		"rapid-fixer-concentrate": {`"1 L"`, `"1+4"`, `"1+9"`},
		"clearing-bag":            {`"500 g"`, `"3.8 L"`, `"3 L"`, `"1+4"`},
		"two-bottle-developer":    {`"500 mL"`, `"500 mL"`, `"5 L"`, `"3.5 L"`, `"500 mL"`, `"500 mL"`},
	}
	require.Len(t, labels, len(forms()), "a form without a label")
	for form, label := range labels {
		t.Run(form, func(t *testing.T) {
			inFolder(t, nil)
			status, out, err := wetside("start", "new", "--with", form)
			require.Zero(t, status, err)
			file := filepath.Join("new", "products", form+".toml")
			require.Contains(t, out, file)
			status, _, err = wetside("proof", "new")
			require.Equal(t, 1, status)
			require.Equal(t, len(label), strings.Count(err, `: "" is `), err)
			text, e := os.ReadFile(file)
			require.NoError(t, e)
			parts := strings.Split(string(text), `= ""`)
			require.Len(t, parts, len(label)+1)
			filled := parts[0]
			for i, words := range label {
				filled += "= " + words + parts[i+1]
			}
			// What is commented out may be filled in as well.
			for _, whole := range []string{filled, strings.NewReplacer("# sheet", "sheet", "# yields", "yields", "# [hazards]", "[hazards]", "# classes", "classes", "# assessed", "assessed").Replace(filled)} {
				require.NoError(t, os.WriteFile(file, []byte(whole), 0o644))
				status, _, err = wetside("bind", "new", "--out", "out", "--on", "2026-03-14")
				require.Zero(t, status, err)
				require.Empty(t, err)
				card, e := os.ReadFile(filepath.Join("out", "product", form+".html"))
				require.NoError(t, e)
				require.Contains(t, string(card), "makes")
			}
		})
	}
}

// TestStartWith: a form goes into a new folder or into a binder, and over nothing.
func TestStartWith(t *testing.T) {
	inFolder(t, map[string]string{"mine/lab.toml": "[lab]\nname = \"Mine\"\n", "other/note.txt": "x"})
	status, out, err := wetside("start", "mine", "--with", "clearing-bag")
	require.Zero(t, status, err)
	require.NotContains(t, out, "small binder")
	require.NoDirExists(t, "mine/solutions")
	status, _, err = wetside("start", "mine", "--with", "clearing-bag")
	require.Equal(t, misused, status)
	require.Contains(t, err, "is there already")
	status, _, err = wetside("start", "other", "--with", "clearing-bag")
	require.Equal(t, misused, status)
	require.Contains(t, err, "not empty")
	status, _, err = wetside("start", "mine", "--with", "clering-bag")
	require.Equal(t, misused, status)
	require.Contains(t, err, `did you mean "clearing-bag"?`)
	require.Contains(t, err, "two-bottle-developer")
}
