package main

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"rillkey": func() { os.Exit(start(os.Args[1:])) },
	})
}

// shortStories are told in short runs too: one animal, a visit, a grade, what is
// typed wrongly.
var shortStories = []string{"see", "lines", "check", "visit", "badinput", "grade-doubts"}

// Each file of testdata/script is one story told to the whole program.
func TestScripts(t *testing.T) {
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
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"answers":  answers,
			"cut":      cut,
			"fill":     fill,
			"status":   status,
			"sentence": sentence,
			"damage":   damage,
			"unshown":  unshown,
		},
	})
}
