package main

import (
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// setUp are the two commands that a newcomer types first; .ci/run types them.
var setUp = []string{"go run ./cmd/rillkey", "go test ./..."}

// endsWith is the exit status of the README's commands that do not end with 0:
// one without an answer, one that asks and gets no input, one with too few
// samples.
var endsWith = map[string]int{
	"rillkey identify --answers 1a":    statusCannotSay,
	"rillkey identify":                 statusBadData,
	"rillkey practice --as Robin":      statusBadData,
	"rillkey practice test --as Robin": statusBadData,
	"rillkey grade":                    statusCannotSay,
	"rillkey grade --details --visit 2026-05-16-tanyard-brook.visit.toml": statusCannotSay,
	"rillkey grade --anyway": statusCannotSay,
	"rillkey grade --charts": statusCannotSay,
}

var shellBlock = regexp.MustCompile("(?s)```sh\n(.*?)```")

// Every command of the README runs as shown, in the order shown, in one folder.
func TestREADMECommandsRun(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	var commands []string
	for _, block := range shellBlock.FindAllStringSubmatch(string(text), -1) {
		commands = append(commands, strings.Split(strings.TrimSpace(block[1]), "\n")...)
	}
	if len(commands) < 10 || !slices.Equal(commands[:2], setUp) {
		t.Fatalf("the README does not open with %q: %q", setUp, commands)
	}
	dir := t.TempDir()
	for _, command := range commands[2:] {
		cmd := exec.Command("sh", "-c", command)
		cmd.Dir = dir
		out, _ := cmd.CombinedOutput()
		if got := cmd.ProcessState.ExitCode(); got != endsWith[command] {
			t.Errorf("%s ends with %d, not %d:\n%s", command, got, endsWith[command], out)
		}
	}
	for command := range endsWith {
		if !slices.Contains(commands, command) {
			t.Errorf("the README no longer shows %s", command)
		}
	}
}

var screenBlock = regexp.MustCompile("(?s)```\n(.*?)```")

// The screen that the README opens with is one of the program's: the golden
// screen of 80 columns. Blank cells beside dots are braille ones in the README,
// which a browser sets as wide as the dots.
func TestREADMEOpensWithARealScreen(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	golden, err := os.ReadFile("question/testdata/80x24.txt")
	if err != nil {
		t.Fatal(err)
	}
	shown := screenBlock.FindStringSubmatch(string(text))
	if shown == nil || strings.TrimSpace(strings.ReplaceAll(shown[1], "\u2800", " ")) != strings.TrimSpace(string(golden)) {
		t.Errorf("the README shows another screen than\n%s", golden)
	}
}
