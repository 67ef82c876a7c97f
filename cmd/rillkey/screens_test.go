package main

import (
	"strings"
	"testing"

	"rillkey/cmd/rillkey/terminal"
)

// env is an environment of these variables, "NAME=value".
func env(set ...string) func(string) string {
	return func(name string) string {
		for _, s := range set {
			if n, value, _ := strings.Cut(s, "="); n == name {
				return value
			}
		}
		return ""
	}
}

func TestWhereScreensAreShown(t *testing.T) {
	for _, row := range []struct {
		why                 string
		terminal            bool
		plain, json, screen bool
		env                 string
	}{
		{"a terminal", true, false, false, true, "TERM=xterm"},
		{"a pipe", false, false, false, false, "TERM=xterm"},
		{"--plain", true, true, false, false, "TERM=xterm"},
		{"--json", true, false, true, false, "TERM=xterm"},
		{"a terminal that moves no cursor", true, false, false, false, "TERM=dumb"},
		{"a terminal without a name", true, false, false, false, "TERM="},
	} {
		a := &console{world: world{screen: row.terminal, errScreen: row.terminal, env: env(row.env)}, plain: row.plain, json: row.json}
		if got := a.onScreen(); got != row.screen {
			t.Errorf("%s: screens %v", row.why, got)
		}
	}
}

// Colours need a background that is known, and nobody who wants none: NO_COLOR
// counts with any value that is not empty (no-color.org).
func TestWhenColoursAreUsed(t *testing.T) {
	for _, row := range []struct {
		why   string
		plain bool
		env   []string
		want  terminal.Appearance
	}{
		{"a dark terminal", false, []string{"COLORFGBG=15;0"}, terminal.Appearance{Color: true, Dark: true}},
		{"a light terminal", false, []string{"COLORFGBG=0;15"}, terminal.Appearance{Color: true}},
		{"one that does not say", false, nil, terminal.Appearance{}},
		{"--plain", true, []string{"COLORFGBG=15;0"}, terminal.Appearance{Dark: true}},
		{"NO_COLOR=1", false, []string{"COLORFGBG=15;0", "NO_COLOR=1"}, terminal.Appearance{Dark: true}},
		{"NO_COLOR=0 is not empty", false, []string{"COLORFGBG=15;0", "NO_COLOR=0"}, terminal.Appearance{Dark: true}},
		{"NO_COLOR empty is as good as none", false, []string{"COLORFGBG=15;0", "NO_COLOR="}, terminal.Appearance{Color: true, Dark: true}},
	} {
		a := &console{world: world{env: env(row.env...)}, plain: row.plain}
		if got := a.look(); got != row.want {
			t.Errorf("%s: %+v, want %+v", row.why, got, row.want)
		}
	}
}
