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
const mostShared = 15

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

// prepositions say of what they name only how it lies to something else.
var prepositions = strings.Fields("about above across after against along amid among around as at before behind below beneath " +
	"beside besides between beyond by concerning despite during except for from in inside into like near of off on onto out " +
	"outside over past per since than through throughout till to toward towards under underneath unlike until up upon via " +
	"with within without")

// A function, a method, a type, or a variable of a package is called for what it is, which a
// preposition alone does not say.
func TestNoNameIsABarePreposition(t *testing.T) {
	looked := 0
	for _, s := range read(t) {
		f, err := parser.ParseFile(token.NewFileSet(), s.path, s.text, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range declarations(f) {
			if looked++; slices.Contains(prepositions, strings.ToLower(name)) {
				t.Errorf("%s: %s is a preposition and names nothing", s.path, name)
			}
		}
	}
	if looked < 5000 {
		t.Errorf("only %d names were looked at", looked)
	}
}

// pairs are prepositions that an exported field may be called by: what was so before a change and what
// is so after it, which no noun tells as shortly.
var pairs = []string{"Before", "After"}

// A field is called for what it holds: a span has a lowest and a highest, an
// amendment the entry that it is about. Formats on disk go by tags and tables, not by these.
func TestNoFieldIsABarePreposition(t *testing.T) {
	looked := 0
	for _, s := range read(t) {
		if strings.HasSuffix(s.path, "_test.go") { // which have fields for keys of files
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), s.path, s.text, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			structure, is := n.(*ast.StructType)
			if !is {
				return true
			}
			for _, field := range structure.Fields.List {
				for _, name := range field.Names {
					if looked++; slices.Contains(prepositions, strings.ToLower(name.Name)) && !slices.Contains(pairs, name.Name) {
						t.Errorf("%s: the field %s is a preposition and says nothing of what it holds", s.path, name.Name)
					}
				}
			}
			return true
		})
	}
	if looked < 4000 {
		t.Errorf("only %d fields were looked at", looked)
	}
}

// declarations are all names that a file declares outside of functions, with methods and
// without fields.
func declarations(f *ast.File) (out []string) {
	for _, d := range f.Decls {
		if d, is := d.(*ast.FuncDecl); is {
			out = append(out, d.Name.Name)
			continue
		}
		for _, spec := range d.(*ast.GenDecl).Specs {
			switch spec := spec.(type) {
			case *ast.TypeSpec:
				out = append(out, spec.Name.Name)
			case *ast.ValueSpec:
				for _, name := range spec.Names {
					out = append(out, name.Name)
				}
			}
		}
	}
	return out
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
