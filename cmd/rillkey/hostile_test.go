//go:build unix

package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rillkey/taxa/plain"
)

// hostile are names of files and other words that somebody may type, paste, or
// send in a folder.
var hostile = []string{
	"\x1b[2J\x1b]0;t\x07.visit.toml",
	"a\nrillkey: Saved\r.visit.toml",
	"\u009b31m\u0085.visit.toml",
	"\u202egpj.\u2066\u200e.visit.toml",
	"\xff\xfe\xc3.visit.toml",
	"-rf --help.visit.toml",
	"'; touch x; '\"$(touch x)`touch x`.visit.toml",
	"%s%n%[1]d%!.visit.toml",
	strings.Repeat("\u0301y\x1b", 33_000),
}

// Every command is given hostile words: as a file that is there and as one that
// is not, by itself and for each of its flags. No control character comes out,
// nothing panics, hangs, or says it all again. Without RILLKEY_HOSTILE each command
// gets one of the words in turn, in one of the places in turn.
func TestHostileNamesOfFilesAndWords(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	whole := os.Getenv("RILLKEY_HOSTILE") != ""
	t.Setenv("PATH", t.TempDir()) // no browser is opened
	dir := t.TempDir()
	runIn(t, "demo", "--plain", "--keep", dir)
	visits, _ := filepath.Glob(filepath.Join(dir, "*.visit.toml"))
	sound, err := os.ReadFile(visits[0])
	if err != nil {
		t.Fatal(err)
	}
	h := &hostility{T: t, dir: dir, sound: sound, table: filepath.Join(dir, "animals.csv")}
	if err := os.WriteFile(h.table, []byte("taxon,legs\nbeetle,6\nsnail,0\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	t.Chdir(dir)
	turn := 0
	for _, cmd := range leaves(rootCommand(newApp(world{}))) {
		if turn++; testing.Short() && turn%4 != 0 {
			continue
		}
		places := wordsOf(cmd)
		for i, place := range places {
			for j, word := range hostile {
				if whole || i == turn%len(places) && j == turn%len(hostile) {
					h.try(cmd, place, word, whole)
				}
			}
		}
	}
	t.Logf("%d runs", h.runs)
	if least := 40; !testing.Short() && h.runs < least {
		t.Errorf("only %d runs", h.runs)
	}
}

// leaves are the commands that do something.
func leaves(cmd *cobra.Command) (out []*cobra.Command) {
	for _, sub := range cmd.Commands() {
		out = append(out, leaves(sub)...)
	}
	if !cmd.HasSubCommands() && cmd.Name() != "table" { // which serves until it is told to end
		out = append(out, cmd)
	}
	return out
}

// wordsOf are where a command takes words: "" for its arguments, or the name of a
// flag.
func wordsOf(cmd *cobra.Command) []string {
	out := []string{""}
	add := func(f *pflag.Flag) {
		if f.Value.Type() != "bool" {
			out = append(out, f.Name)
		}
	}
	cmd.InheritedFlags().VisitAll(add)
	cmd.LocalFlags().VisitAll(add)
	return out
}

type hostility struct {
	*testing.T
	dir   string
	table string // a small table of animals
	sound []byte // a visit's file
	runs  int
}

// try runs the command in a folder in which the word names a file, if it can, and
// in one in which it does not; in both with the path and with the word alone if all
// is to be tried.
func (h *hostility) try(cmd *cobra.Command, place, word string, all bool) {
	for _, there := range []bool{true, false} {
		dir := filepath.Join(h.dir, fmt.Sprint(h.runs, there))
		if err := errors.Join(os.MkdirAll(dir, 0o777), os.Chdir(dir)); err != nil {
			h.Fatal(err)
		}
		file := filepath.Join(dir, word)
		if there && os.WriteFile(file, h.sound, 0o666) != nil {
			continue
		}
		visit := filepath.Join(dir, "sound.visit.toml")
		if err := os.WriteFile(visit, h.sound, 0o666); err != nil {
			h.Fatal(err)
		}
		args := strings.Fields(cmd.CommandPath())[1:]
		switch cmd.Name() { // no word makes these quicker or slower
		case "draft":
			if place != "csv" && place != "region" && place != "keep" {
				args = append(args, "--csv", h.table)
			}
		case "trial":
			args = append(args, "--specimens", "3")
		}
		switch place {
		case "":
			args = append(args, "--visit", visit, "--", file, visit)
		case "visit":
			args = append(args, "--visit", file)
		default:
			args = append(args, "--visit", visit, "--"+place, file)
		}
		if all || there {
			h.run(args, len(word))
		}
		if all || !there {
			args[len(args)-1] = word // by itself, no path
			h.run(args, len(word))
		}
	}
}

func (h *hostility) run(args []string, long int) {
	h.runs++
	shown := fmt.Sprintf("%.300q", args)
	w, out := offline("")
	var errs strings.Builder
	w.stderr = &errs
	done := make(chan string, 1)
	go func() {
		defer func() {
			if p := recover(); p != nil {
				done <- fmt.Sprintf("%v\n%s", p, debug.Stack())
			}
		}()
		run(args, w)
		done <- ""
	}()
	select {
	case panicked := <-done:
		if panicked != "" {
			h.Errorf("%s: %s", shown, panicked)
		}
	case <-time.After(2 * time.Minute):
		h.Fatalf("%s hangs", shown)
	}
	for name, text := range map[string]string{"standard output": out.String(), "standard error": errs.String()} {
		if strings.ContainsFunc(text, func(r rune) bool { return r != '\n' && plain.IsControl(r) }) || !utf8.ValidString(text) {
			h.Errorf("%s: %s holds a control character: %.300q", shown, name, text)
		}
	}
	if long > 10_000 && errs.Len() > 10_000 {
		h.Errorf("%s: %d bytes of messages: %.200q", shown, errs.Len(), errs.String())
	}
}
