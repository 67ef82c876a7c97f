package language_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// saysToPeople are the methods by which a finding is told, with how many arguments they
// have at least: the last two are what is wrong and what to do about it.
var saysToPeople = map[string]int{
	"Fail": 4, "FailAt": 4, "FollowsAt": 5, "Add": 4, "warn": 3, "follows": 5, "warnAt": 4, "failAt": 5, "mistake": 3,
}

// ownWords are what only programs and their authors meet.
var ownWords = []string{"visittest", "exporttest", "keytest", "learnertest", "ttytest", "streamtest", "/streams/", "/demo/", "wording/"}

// TestErrorsAndFindingsAreLookedUp wants every error and finding that is written in the
// source to be said in the language in use: such a sentence is then listed, and
// TestSentencesAreListed and TestLanguagesAreRead hold it.
func TestErrorsAndFindingsAreLookedUp(t *testing.T) {
	looked := 0
	for _, root := range roots {
		err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			for _, own := range ownWords {
				if strings.Contains(path, own) {
					return nil
				}
			}
			looked++
			return unlisted(t, path)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if looked < 400 {
		t.Errorf("only %d files were looked at", looked)
	}
}

func unlisted(t *testing.T, path string) error {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, path, nil, 0)
	if err != nil {
		return err
	}
	want := func(e ast.Expr) {
		if s, ok := literal(e); ok && isSentence(s) {
			t.Errorf("%s: %q is said in English alone: look it up with package wording", files.Position(e.Pos()), s)
		}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CompositeLit:
			if id, ok := n.Type.(*ast.Ident); ok && id.Name == "mistake" && len(n.Elts) == saysToPeople["mistake"] {
				want(n.Elts[1])
				want(n.Elts[2])
			}
		case *ast.CallExpr:
			name := calledName(n.Fun)
			_, method, _ := strings.Cut(name, ".")
			switch least, says := saysToPeople[method], saysToPeople[method] > 0; {
			case name == "fmt.Errorf", name == "errors.New":
				want(n.Args[0])
			case says && len(n.Args) >= least:
				for _, said := range n.Args[len(n.Args)-2:] {
					want(inner(said))
				}
			}
		}
		return true
	})
	return nil
}

// inner is the format of a text that is put together, or a part of one that is a literal.
func inner(e ast.Expr) ast.Expr {
	switch e := e.(type) {
	case *ast.CallExpr:
		if calledName(e.Fun) == "fmt.Sprintf" {
			return e.Args[0]
		}
	case *ast.BinaryExpr:
		if s, ok := literal(inner(e.X)); ok && isSentence(s) {
			return e.X
		}
		return inner(e.Y)
	}
	return e
}

// isSentence reports whether a text holds two words.
func isSentence(s string) bool {
	words := 0
	for _, w := range strings.Fields(verbless(s)) {
		if len(strings.Trim(w, ":;,.()")) > 1 && strings.ContainsFunc(w, func(r rune) bool { return r >= 'a' && r <= 'z' }) {
			words++
		}
	}
	return words > 1
}
