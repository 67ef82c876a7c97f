//go:build !unix

package ttytest

import "os"

// signalGroup is never called: there are no pseudo-terminals.
func signalGroup(*os.Process, os.Signal) error { return nil }
