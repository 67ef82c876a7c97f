package main

import (
	"flag"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"runtime/debug"
	"syscall"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// The tests start the program hundreds of times: each collects its garbage less
// often than it does for people, unless somebody says how often.
func TestMain(m *testing.M) {
	// Tests that were started in the background ignore Ctrl-C or the end of the
	// terminal, and so would what they start.
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGHUP} {
		if filepath.Base(os.Args[0]) != "rillkey" && signal.Ignored(s) {
			signal.Notify(make(chan os.Signal, 1), s)
		}
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
		os.Setenv("GOGC", "400") // for those that are started
	}
	// Most of these tests wait: for a screen, a browser, a program they started.
	if err := flag.Set("test.parallel", "6"); err != nil {
		panic(err)
	}
	testscript.Main(thenLeaving{m}, map[string]func(){
		"rillkey": func() {
			if os.Getenv(asResident) != "" {
				os.Exit(reside())
			}
			os.Exit(start(os.Args[1:]))
		},
	})
}

// thenLeaving ends the residents after the last test.
type thenLeaving struct{ *testing.M }

func (m thenLeaving) Run() int {
	defer residentsLeave()
	return m.M.Run()
}

// shortStories are told in short runs too: one animal, a visit, a grade, what is
// typed wrongly.
var shortStories = []string{"far", "look-again", "see", "lines", "visit", "badinput", "grade-doubts"}

// Each file of testdata/script is one story told to the whole program. The
// condition "ci" holds where .ci/run tells it.
func TestScripts(t *testing.T) {
	t.Parallel()
	dir, files := "testdata/script", []string(nil)
	if testing.Short() {
		dir = ""
		for _, story := range shortStories {
			files = append(files, "testdata/script/"+story+".txtar")
		}
	}
	testscript.Run(t, testscript.Params{
		Dir:   dir,
		Files: files,
		Condition: func(name string) (bool, error) {
			if name != "ci" {
				return false, fmt.Errorf("unknown condition %q", name)
			}
			return os.Getenv("RILLKEY_CI") == "1", nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"answers":  answers,
			"cut":      cut,
			"fill":     fill,
			"status":   status,
			"sentence": sentence,
			"without":  noneOfTheWords,
			"named":    named,
			"damage":   damage,
			"unshown":  unshown,
		},
	})
}
