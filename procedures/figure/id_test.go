package figure_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
)

// TestID: an id is put together and taken apart by the same grammar, that of DEVELOPERS.md.
func TestID(t *testing.T) {
	for _, row := range []struct {
		want, subject, what string
		variants, beside    []string
	}{
		{want: "0301/dies", subject: "0301", what: "dies"},
		{want: "fixer.film/draw@600ml", subject: "fixer.film", what: "draw", variants: []string{"600ml"}},
		{want: "film-developer.stock/weigh.sulfite-rest@1000ml", subject: "film-developer.stock", what: "weigh.sulfite-rest", variants: []string{"1000ml"}},
		{want: "film-negative/at.develop@film-400,20.0c", subject: "film-negative", what: "at.develop", variants: []string{"film-400", "20.0c"}},
		{want: "shelf/stands@fixer.film,place=1,unused", subject: "shelf", what: "stands", variants: []string{"fixer.film", "place=1", "unused"}},
		{want: "order/citric-acid.anhydrous,missing", subject: "order", what: "citric-acid.anhydrous", beside: []string{"missing"}},
		{want: "notation/blend.20,10,30", subject: "notation", what: "blend.20", beside: []string{"10", "30"}},
	} {
		got := figure.ID(row.subject, row.what, row.variants...)
		if len(row.beside) > 0 {
			got = figure.Beside(got, row.beside...)
		}
		require.Equal(t, row.want, got)
		subject, what, variants, beside := parts(got)
		require.Equal(t, row.subject, subject)
		require.Equal(t, row.what, what)
		require.Equal(t, row.variants, variants)
		require.Equal(t, row.beside, beside)
	}
	require.Equal(t, "fixer.film/draw@600ml,error", figure.Beside(figure.ID("fixer.film", "draw", "600ml"), "error"))
}

// TestAmbiguousID: a part that holds a letter by which ids are parted reads as another
// part. None of ours may; build's TestIDsAreSound holds that on whole binders.
func TestAmbiguousID(t *testing.T) {
	for _, row := range []struct {
		subject, what string
		variants      []string
	}{
		{"fixer/film", "draw", nil}, {"fixer", "draw@film", nil}, {"fixer", "draw,film", nil}, {"fixer", "draw", []string{"five,120"}},
	} {
		subject, what, variants, _ := parts(figure.ID(row.subject, row.what, row.variants...))
		same := subject == row.subject && what == row.what && strings.Join(variants, " ") == strings.Join(row.variants, " ")
		require.False(t, same, "%v", row)
	}
}

// parts takes an id apart as a reader does: the first '/', then the first '@', then each
// ','. What stands beside a figure with variants reads as one more of them.
func parts(id string) (subject, what string, variants, beside []string) {
	subject, rest, _ := strings.Cut(id, "/")
	if what, list, ok := strings.Cut(rest, "@"); ok {
		return subject, what, strings.Split(list, ","), nil
	}
	words := strings.Split(rest, ",")
	if len(words) > 1 {
		beside = words[1:]
	}
	return subject, words[0], nil, beside
}
