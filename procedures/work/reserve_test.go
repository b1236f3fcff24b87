package work_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/work"
)

// reserveAt finds what the fixer of a process in the binder reserve.txtar takes up, with one text replaced.
func reserveAt(t *testing.T, process string, replace ...string) *work.Reserve {
	t.Helper()
	for _, s := range archived(t, "reserve.txtar", replace...).Process(process).Steps {
		if s.Decl.ID == "fix" {
			return s.Reserve
		}
	}
	t.Fatalf("%s has no fixer", process)
	return nil
}

// TestReserve: of which fixers it is asked how much acid they take up, and what the answer is.
func TestReserve(t *testing.T) {
	got := reserveAt(t, "negative")
	require.Equal(t, "45", got.Rolls.Shown)
	require.Equal(t, "stop.stock", got.Stop.Ref())
	require.Nil(t, reserveAt(t, "rinsed"), "water between takes the acid away")
	require.NotNil(t, reserveAt(t, "rinsed", "fills = [5]", "fills = [5]\noptional = true"), "nobody can count on that water")
	require.Nil(t, reserveAt(t, "prints"), "the carrying board tells it")

	plain := reserveAt(t, "plain")
	require.True(t, plain.None)
	require.Nil(t, plain.Rolls)
	shop := reserveAt(t, "shop")
	require.Equal(t, "how much sulfite it holds nobody has written", shop.Why)
	require.NotNil(t, reserveAt(t, "shop", `ph = "7.4"`, `ph = "6"`), "exactly at the limit it is near neutral")
	require.Nil(t, reserveAt(t, "shop", `ph = "7.4"`, `ph = "5.9"`), "an acid fixer stays acid")
	require.Nil(t, reserveAt(t, "shop", `ph = "7.4"`, ""), "nobody knows whether it is near neutral")

	// As many mol of citric acid as take up the sulfite make the fixer an acid one.
	require.Nil(t, reserveAt(t, "negative", "amount = \"100 g\"", "amount = \"100 g\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"12 g\""))
	require.Nil(t, reserveAt(t, "negative", "citric-acid.anhydrous", "sodium-carbonate.anhydrous"), "that stop bath brings no acid")
	unsaid := reserveAt(t, "negative", "add = \"citric-acid.anhydrous\"", "add = \"potassium-alum\"")
	require.True(t, strings.HasPrefix(unsaid.Why, "the pH of stop"), unsaid.Why)

	board := archived(t, "reserve.txtar").Carrying
	require.Len(t, board, 1)
	require.Equal(t, "45", board[0].Prints[0].Neutral.Shown)
}
