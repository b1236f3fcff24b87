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
	labels := map[string][]string{ // in the order of the files and of their empty places
		"rapid-fixer-concentrate": {`"1 L"`, `"1+4"`, `"1+9"`},
		"clearing-bag":            {`"500 g"`, `"3.8 L"`, `"3 L"`, `"1+4"`},
		"two-bottle-developer":    {`"500 mL"`, `"500 mL"`, `"5 L"`, `"3.5 L"`, `"500 mL"`, `"500 mL"`},
		"two-bottle-one-shot":     {`"500 mL"`, `"500 mL"`, `"48"`},
	}
	files := map[string][]string{"two-bottle-one-shot": {"products/one-shot-a.toml", "products/one-shot-b.toml", "solutions/one-shot.toml"}}
	says := map[string][2]string{"two-bottle-one-shot": {"product/one-shot-a.html", "it goes into"}}
	require.Len(t, labels, len(forms()), "a form without a label")
	for form, label := range labels {
		t.Run(form, func(t *testing.T) {
			inFolder(t, nil)
			status, out, err := wetside("start", "new", "--with", form)
			require.Zero(t, status, err)
			of := files[form]
			if of == nil {
				of = []string{"products/" + form + ".toml"}
			}
			page, word := filepath.Join("product", form+".html"), "makes"
			if own, ok := says[form]; ok {
				page, word = own[0], own[1]
			}
			status, _, err = wetside("proof", "new")
			require.Equal(t, 1, status)
			require.Equal(t, len(label), strings.Count(err, `: "" is `), err)
			filled := make([]string, len(of))
			at := 0
			for n, file := range of {
				require.Contains(t, out, filepath.FromSlash(file))
				text, e := os.ReadFile(filepath.Join("new", file))
				require.NoError(t, e)
				parts := strings.Split(string(text), `= ""`)
				filled[n] = parts[0]
				for _, part := range parts[1:] {
					filled[n] += "= " + label[at] + part
					at++
				}
			}
			require.Equal(t, len(label), at)
			// What is commented out may be filled in as well.
			more := strings.NewReplacer("# sheet", "sheet", "# yields", "yields", "# [hazards]", "[hazards]", "# classes", "classes", "# assessed", "assessed", "# contains", "contains", "# needs", "needs", "# wear", "wear", "# note", "note")
			for _, whole := range []func(string) string{func(s string) string { return s }, more.Replace} {
				for n, file := range of {
					require.NoError(t, os.WriteFile(filepath.Join("new", file), []byte(whole(filled[n])), 0o644))
				}
				status, _, err = wetside("bind", "new", "--out", "out", "--on", "2026-03-14")
				require.Zero(t, status, err)
				require.Empty(t, err)
				card, e := os.ReadFile(filepath.Join("out", page))
				require.NoError(t, e)
				require.Contains(t, string(card), word)
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
	require.NoError(t, os.MkdirAll("mine/solutions", 0o755))
	require.NoError(t, os.WriteFile("mine/solutions/one-shot.toml", []byte("name = \"mine\"\n"), 0o644))
	status, _, err = wetside("start", "mine", "--with", "two-bottle-one-shot")
	require.Equal(t, misused, status)
	require.Contains(t, err, "is there already")
	require.NoFileExists(t, "mine/products/one-shot-a.toml", "of several files, none is written over one that is there")
	status, _, err = wetside("start", "other", "--with", "clearing-bag")
	require.Equal(t, misused, status)
	require.Contains(t, err, "not empty")
	status, _, err = wetside("start", "mine", "--with", "clering-bag")
	require.Equal(t, misused, status)
	require.Contains(t, err, `did you mean "clearing-bag"?`)
	require.Contains(t, err, "two-bottle-developer")
}
