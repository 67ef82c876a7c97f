package house

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path"
	"slices"
	"strings"
	"testing"
)

// mostShared is how many exported names stand in two packages or more, those of which
// Go's own packages have as many left out. It is lowered when one goes, never raised.
const mostShared = 23

// usual are names that Go's own packages share.
var usual = []string{"New", "Read", "Parse", "Load", "Open", "Run", "Options", "Embedded"}

// A name that two packages have means one thing or is Go's own: the number of others
// may only fall.
func TestFewNamesStandInTwoPackages(t *testing.T) {
	rooms := map[string]map[string]bool{}
	for _, s := range read(t) {
		if strings.HasSuffix(s.path, "_test.go") || strings.HasPrefix(s.path, ".ci/") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), s.path, s.text, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range topLevel(f) {
			if rooms[name] == nil {
				rooms[name] = map[string]bool{}
			}
			rooms[name][path.Dir(s.path)] = true
		}
	}
	var shared []string
	for _, name := range slices.Sorted(maps.Keys(rooms)) {
		if len(rooms[name]) > 1 && !slices.Contains(usual, name) {
			shared = append(shared, name)
		}
	}
	if len(shared) > mostShared {
		t.Errorf("%d exported names stand in two packages, %d may: %s", len(shared), mostShared, strings.Join(shared, ", "))
	}
	if len(shared) < mostShared-3 {
		t.Errorf("only %d exported names stand in two packages: lower mostShared", len(shared))
	}
}

// topLevel are the exported names that a file declares, methods and fields aside.
func topLevel(f *ast.File) (out []string) {
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil && d.Name.IsExported() {
				out = append(out, d.Name.Name)
			}
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch spec := spec.(type) {
				case *ast.TypeSpec:
					if spec.Name.IsExported() {
						out = append(out, spec.Name.Name)
					}
				case *ast.ValueSpec:
					for _, name := range spec.Names {
						if name.IsExported() {
							out = append(out, name.Name)
						}
					}
				}
			}
		}
	}
	return out
}
