package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rillkey/taxa/language"
	"rillkey/taxa/wording"
)

// All that the help of commands and flags says is listed among the sentences that a file
// of words may say, so that TestLanguagesAreRead and 'rillkey region words' hold it.
func TestWhatHelpSaysIsListed(t *testing.T) {
	wording.Use(nil) // whatever a test before it spoke
	a := newApp(world{stdout: &bytes.Buffer{}, stderr: &bytes.Buffer{}, env: os.Getenv, width: 80, height: 24})
	root := rootCommand(a)
	root.InitDefaultHelpCmd()
	texts := 0
	var look func(cmd *cobra.Command)
	look = func(cmd *cobra.Command) {
		if cmd.Name() == "help" { // said in words of its own once it is asked for
			return
		}
		for _, text := range append(wording.Pieces(cmd.Long), cmd.Short) {
			texts++
			if text != "" && !language.Known(text) {
				t.Errorf("%s: %q is not listed", cmd.CommandPath(), text)
			}
		}
		cmd.LocalFlags().VisitAll(func(f *pflag.Flag) {
			texts++
			if f.Name != "help" && !language.Known(f.Usage) {
				t.Errorf("%s --%s: %q is not listed", cmd.CommandPath(), f.Name, f.Usage)
			}
			switch name, _ := pflag.UnquoteUsage(f); name {
			case "int", "float", "string", "strings", "uint":
				t.Errorf("%s --%s: its help names no value of its own, so %q stands there", cmd.CommandPath(), f.Name, name)
			}
		})
		for _, sub := range cmd.Commands() {
			look(sub)
		}
	}
	look(root)
	if texts < 400 {
		t.Errorf("only %d texts were looked at", texts)
	}
}

// englishInHelp are words that no German text holds and most English ones do.
var englishInHelp = regexp.MustCompile(`(?i)\b(?:the|of|and|with|for|this|which|help for|flags|command|default)\b`)

// In a German region the help of every command is German, but for what is typed.
func TestHelpIsSaidInTheLanguageOfTheRegion(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	dir := t.TempDir()
	t.Chdir(dir)
	head := "[region]\nid = \"bach\"\ntitle = \"Bach\"\nlanguage = \"de\"\nsource = \"memory\"\ntaxa = [\"baetidae\"]\n"
	if err := os.WriteFile(filepath.Join(dir, "region.toml"), []byte(head), 0o600); err != nil {
		t.Fatal(err)
	}
	defer wording.Use(nil)
	var paths [][]string
	var list func(cmd *cobra.Command, path []string)
	list = func(cmd *cobra.Command, path []string) {
		paths = append(paths, path)
		for _, sub := range cmd.Commands() {
			if sub.Name() != "help" {
				list(sub, append(path[:len(path):len(path)], sub.Name()))
			}
		}
	}
	list(rootCommand(newApp(world{stdout: &bytes.Buffer{}, stderr: &bytes.Buffer{}, env: os.Getenv})), nil)
	typed := regexp.MustCompile(`'[^']*'|"[^"]*"|--?[a-z-]+|\[=true.false\]`)
	for _, path := range paths {
		var out bytes.Buffer
		status := run(append(path, "--help"),
			world{stdout: &out, stderr: &out, stdin: strings.NewReader(""), env: os.Getenv, width: 80, height: 24})
		if status != 0 {
			t.Errorf("%v: status %d", path, status)
		}
		for line := range strings.Lines(out.String()) {
			if strings.HasPrefix(line, "  rillkey ") || strings.HasPrefix(line, "  git ") || strings.HasPrefix(line, "  echo ") {
				continue // what is typed
			}
			if found := englishInHelp.FindString(typed.ReplaceAllString(line, "")); found != "" {
				t.Errorf("%v: %q in: %s", path, found, line)
			}
		}
	}
}
