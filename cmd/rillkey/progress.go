package main

import "rillkey/cmd/rillkey/terminal"

// progress shows on standard error how far long work is, if somebody watches
// there: what is counted and how many there are, or, with of = 0, what is done.
// Elsewhere it gives nil, which shows nothing.
func (a *app) progress(what string, of int) *terminal.Progress {
	t := a.env("TERM")
	if !a.errScreen || a.plain || a.json || t == "" || t == "dumb" {
		return nil
	}
	return terminal.StartProgress(a.err, a.width, what, of)
}
