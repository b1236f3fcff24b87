package paper

import (
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render/draw"
	"wetside/build/render/testdata/fixture"
	"wetside/build/theme"
)

// propertyOf is the property of the stylesheet that holds a number of the theme's spacing.
func propertyOf(table, name string) string {
	return "--" + strings.ReplaceAll(table+"-"+name, "_", "-")
}

// TestSpacingIsShared: the stylesheet names no property that nothing sets, and reads every number of
// the theme's spacing, so that none is changed in the estimate alone.
func TestSpacingIsShared(t *testing.T) {
	style := string(fixture.Theme(t).Style)
	set := map[string]bool{}
	for _, m := range regexp.MustCompile(`[{;\s](--[a-z0-9-]+):`).FindAllStringSubmatch(style, -1) {
		set[m[1]] = true
	}
	read := map[string]bool{}
	for _, m := range regexp.MustCompile(`var\((--[a-z0-9-]+)([,)])`).FindAllStringSubmatch(style, -1) {
		read[m[1]] = true
		require.True(t, set[m[1]] || m[2] == ",", "nothing sets %s", m[1])
	}
	tables := reflect.TypeFor[theme.Spacing]()
	for i := range tables.NumField() {
		table := tables.Field(i)
		name := table.Tag.Get("toml")
		for k := range table.Type.NumField() {
			own := table.Type.Field(k)
			switch property := propertyOf(name, own.Tag.Get("toml")); {
			case name == "room": // its properties go by their names alone
			case name == "rule":
				require.True(t, read["--"+own.Tag.Get("toml")], property)
			case own.Type.Kind() == reflect.Slice:
				require.True(t, read[property+"-0"], property)
			default:
				require.True(t, read[property], "the stylesheet does not read %s", property)
			}
		}
	}
	require.Equal(t, "2", draw.MM(2))
}
