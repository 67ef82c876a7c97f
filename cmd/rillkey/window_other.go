//go:build !windows

package main

import "os"

// environment is that of the process.
func environment() func(name string) string { return os.Getenv }

// keepWindow keeps none: here a program has its window from whoever started it.
func keepWindow() {}
