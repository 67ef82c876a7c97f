// Package house holds tests of the source alone: which rooms know which, what a room
// shows first, and that what DEVELOPERS.md names is there.
package house

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
)

const root = "../../.."

// source is a file of the project, by its path with slashes.
type source struct {
	path string
	text string
}

// sources are all files of Go, in the order of their paths.
var sources = sync.OnceValues(func() (out []source, err error) {
	err = fs.WalkDir(os.DirFS(root), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == "node_modules" || d.Name() == ".git"):
			return fs.SkipDir
		case d.IsDir() || path.Ext(name) != ".go":
			return nil
		}
		text, err := os.ReadFile(filepath.Join(root, name))
		out = append(out, source{name, string(text)})
		return err
	})
	return out, err
})

func read(t *testing.T) []source {
	t.Helper()
	all, err := sources()
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 500 {
		t.Fatalf("only %d files", len(all))
	}
	return all
}

// mayKnow are the rooms that each room may import; cmd may import all.
var mayKnow = map[string][]string{
	"taxa":     {"taxa"},
	"couplets": {"taxa", "couplets"},
	"key":      {"taxa", "couplets", "key"},
	"scoring":  {"taxa", "scoring"},
}

// forTests are folders that only tests import.
var forTests = regexp.MustCompile(`test/|_test\.go$`)

func TestImportsRunOneWay(t *testing.T) {
	arrows := 0
	for _, s := range read(t) {
		room, _, _ := strings.Cut(s.path, "/")
		known := mayKnow[room]
		if known == nil || forTests.MatchString(s.path) {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), s.path, s.text, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range f.Imports {
			name, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				t.Fatal(err)
			}
			to, within := strings.CutPrefix(name, "rillkey/")
			if !within {
				continue
			}
			arrows++
			if to, _, _ = strings.Cut(to, "/"); !slices.Contains(known, to) {
				t.Errorf("%s imports %s; %s may know %v alone", s.path, name, room, known)
			}
		}
	}
	if arrows < 300 {
		t.Errorf("only %d imports were looked at", arrows)
	}
}

// worldly is what only cmd may use: the clock, the environment, flags, and the three
// streams of a program.
var worldly = regexp.MustCompile(`\b(?:time\.(?:Now|Since|Until)|os\.(?:Getenv|LookupEnv|Environ|Args|Stdin|Stdout|Stderr))\b|` +
	`\bfmt\.Print|"flag"|"github\.com/spf13/`)

func TestNothingBelowCmdPrintsOrReadsTheClock(t *testing.T) {
	for _, s := range read(t) {
		if strings.HasPrefix(s.path, "cmd/") || forTests.MatchString(s.path) {
			continue
		}
		for i, line := range strings.Split(s.text, "\n") {
			if code, _, _ := strings.Cut(line, "//"); worldly.MatchString(code) {
				t.Errorf("%s:%d: %s", s.path, i+1, strings.TrimSpace(line))
			}
		}
	}
}
