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

// Each file of testdata/script is one story told to the whole program.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
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
