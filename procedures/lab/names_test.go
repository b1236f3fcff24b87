package lab_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/build/load"
)

// TestOneLine: a name that somebody wrote over three lines, or with spaces around it, is
// one line on every card.
func TestOneLine(t *testing.T) {
	loaded, err := load.Folder(fstest.MapFS{
		"lab.toml":           {Data: []byte("[lab]\nname = \"\"\"\nThe school,\nthe cellar,\n  door 12 \"\"\"\n[tank.one]\nname = \" the  tank\"\nfill = \"1 L\"\ntakes = { 135 = 1 }\n[control]\nwritten = \"KH1 \"\n")},
		"solutions/dev.toml": {Data: []byte("name = \"developer \"\nper = \"1 L\"\n")},
	}, fstest.MapFS{})
	require.NoError(t, err)
	require.Empty(t, loaded.Faults)
	l := loaded.Lab
	require.Equal(t, "The school, the cellar, door 12", l.Place.Lab.Name)
	require.Equal(t, "the tank", l.Place.Tanks["one"].Name)
	require.Equal(t, "KH1", l.Place.Control.Written)
	require.Equal(t, "developer", l.Solutions[0].Name)
}
