// Package content holds the data that comes with the program: the library of
// common chemicals, the rules, the demonstration darkroom and a small binder
// to start from.
package content

import "embed"

// FS holds demo/, library/, rules/ and starter/.
//
//go:embed all:demo all:library all:rules all:starter
var FS embed.FS
