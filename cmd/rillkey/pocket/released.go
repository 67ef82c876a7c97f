//go:build released

package pocket

import (
	"context"
	_ "embed"
)

// .ci/release puts these two beside this file before it builds a release.
//
//go:embed page.wasm.gz
var packed []byte

//go:embed wasm_exec.js
var runner string

// Make gives the program for browsers that this release holds; dir is not used.
func Make(context.Context, string) (Program, error) { return Program{packed, runner}, nil }
