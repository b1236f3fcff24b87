// Package content holds the data that comes with the program: the library of
// common chemicals, the rules, the demonstration darkroom, a small binder to start
// from, and forms to fill in for what is bought.
package content

import "embed"

// FS holds demo/, forms/, library/, rules/ and starter/.
//
//go:embed all:demo all:forms all:library all:rules all:starter
var FS embed.FS
