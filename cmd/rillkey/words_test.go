package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// privateWords were once said to people, who did not understand them.
var privateWords = []string{"part the key in two", "mend these first", "beneath it is none", "nothing reads a field", "part the cells by"}

// Nothing in the program says words that only its authors understand.
func TestNobodyIsToldPrivateWords(t *testing.T) {
	files := 0
	err := fs.WalkDir(os.DirFS("../.."), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return err
		}
		files++
		text, err := os.ReadFile(filepath.Join("../..", name))
		for _, words := range privateWords {
			if strings.Contains(string(text), words) {
				t.Errorf("%s says %q", name, words)
			}
		}
		return err
	})
	if err != nil || files < 100 {
		t.Fatal(files, err)
	}
}
