package cards

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/page"
)

// TestOnce: a process that lacks two strengths of one bath names the bath once; a bath that is only
// unsure is another text.
func TestOnce(t *testing.T) {
	stock, unsure := page.Say(page.N("clearing powder")), page.Say(page.N("clearing powder"), page.W(" (ask)"))
	var list []page.Text
	for _, text := range []page.Text{stock, unsure, page.Say(page.N("clearing powder"))} {
		list = once(list, text)
	}
	require.Equal(t, []page.Text{stock, unsure}, list)
}
