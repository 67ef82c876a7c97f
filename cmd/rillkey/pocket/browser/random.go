//go:build js

package main

import "syscall/js"

// random reads the browser's own source of randomness. Go's crypto/rand asks the same one,
// and holds much beside it that a page has no use for.
type random struct{}

// Read fills p.
func (random) Read(p []byte) (int, error) {
	const most = 65536 // bytes at once
	for from := 0; from < len(p); from += most {
		part := p[from:min(len(p), from+most)]
		drawn := js.Global().Get("Uint8Array").New(len(part))
		js.Global().Get("crypto").Call("getRandomValues", drawn)
		js.CopyBytesToGo(part, drawn)
	}
	return len(p), nil
}
