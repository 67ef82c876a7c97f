package language_test

import (
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/taxa/language"
	"rillkey/taxa/wording"
)

var update = flag.Bool("update", false, "write the list of sentences anew")

// roots are the folders whose sentences people meet.
var roots = []string{"../../cmd", "../../scoring", "../../key", "../../taxa", "../../couplets"}

// lookUp says which arguments of a function are looked up; of others of the same name
// that have no text there nothing is taken.
var lookUp = map[string][]int{
	"wording.Text": {0}, "wording.Mark": {0}, "wording.Sprintf": {0}, "wording.Fprintf": {1},
	"wording.Errorf": {0}, "wording.NewError": {0},
	".text": {2}, ".item": {0, 1}, ".detail": {0}, ".add": {1}, ".plainly": {0}, ".Say": {2}, "Say": {2}, "misused": {0},
	"Mark":   {0},
	"headed": {0, 1, 2, 3, 4, 5, 6},
	".tell":  {2}, "drop": {1}, ".fail": {0}, ".fault": {0},
}

// TestSentencesAreListed holds sentences.txt to the source: what a file of words may
// say, and what it lacks, is told by that list. "go test ./taxa/language -update"
// writes it.
func TestSentencesAreListed(t *testing.T) {
	want := strings.Join(quoted(collected(t)), "\n") + "\n"
	if *update {
		if err := os.WriteFile("sentences.txt", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, err := os.ReadFile("sentences.txt")
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Error("the program says other sentences than sentences.txt lists; write it anew: go test ./taxa/language -update")
	}
}

// Every language's file can be read, and says what the program says.
func TestLanguagesAreRead(t *testing.T) {
	for _, name := range language.Names() {
		c, err := language.BuiltIn(name)
		if err != nil {
			t.Fatal(err)
		}
		for said := range c.Say {
			if !language.Known(said) {
				t.Errorf("%s says %q, which the program does not", name, said)
			}
		}
	}
}

// What is inside the program is taken to be sound there. It is held here to all that a
// region's own words are held to: the values of sentences, the forms of words beside a
// number, sentences that the program says.
func TestWhatIsBuiltInIsSoundAsARegionsOwn(t *testing.T) {
	files, err := filepath.Glob("*.toml")
	if err != nil || len(files) != len(language.Names()) {
		t.Fatal(files, err)
	}
	others, err := filepath.Glob("elsewhere/*.toml")
	if err != nil || len(others) == 0 {
		t.Fatal(others, err)
	}
	for _, file := range append(files, others...) {
		tag := strings.TrimSuffix(filepath.Base(file), ".toml")
		if tag == "en" {
			tag = ""
		}
		if _, err := language.OfRegion(tag, language.AtStreams, os.DirFS("."), file, file); err != nil {
			t.Error(err)
		}
	}
}

func quoted(list []string) (out []string) {
	for _, s := range list {
		out = append(out, strconv.Quote(s))
	}
	return out
}

func collected(t *testing.T) []string {
	found := map[string]bool{}
	for _, root := range roots {
		err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return err
			case strings.HasSuffix(path, ".html") && slices.Contains([]string{"paper", "pocket"}, filepath.Base(filepath.Dir(path))):
				source, err := os.ReadFile(path)
				for _, s := range wording.TemplateSentences(string(source)) {
					found[s] = true
				}
				return err
			case strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go"):
				return collect(path, found)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, s := range tables() {
		found[s] = true
	}
	delete(found, "")
	out := make([]string, 0, len(found))
	for s := range found {
		out = append(out, s)
	}
	slices.Sort(out)
	return out
}

func collect(path string, found map[string]bool) error {
	file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
	if err != nil {
		return err
	}
	named := constants(file)
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.KeyValueExpr:
			help(n, named, found)
		case *ast.CompositeLit:
			described(n, found)
		}
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		if len(call.Args) >= 3 && strings.Contains(path, "/cmd/") && flagged[methodOf(call)] {
			add(resolved(call.Args[len(call.Args)-1], named), found)
		}
		name := calledName(call.Fun)
		switch name {
		case "plain.Count", "plain.Plural", "plain.CountOf", "wording.Agree":
			forms(call.Args[1:], found)
		}
		if name == "wording.MarkLong" {
			if s, ok := literal(call.Args[0]); ok {
				for _, piece := range wording.Pieces(s) {
					found[piece] = true
				}
			}
		}
		_, method, _ := strings.Cut(name, ".")
		for _, i := range append(lookUp[name], lookUp["."+method]...) {
			if i < len(call.Args) {
				add(call.Args[i], found)
			}
		}
		return true
	})
	return nil
}

// flagged are the methods that give a command a flag; the last argument is its help.
var flagged = map[string]bool{
	"BoolVar": true, "StringVar": true, "IntVar": true, "Float64Var": true, "Uint64Var": true, "Var": true,
	"StringArrayVar": true, "StringSliceVar": true,
}

// described adds what the columns of an exported table are about.
func described(list *ast.CompositeLit, found map[string]bool) {
	array, ok := list.Type.(*ast.ArrayType)
	if !ok {
		return
	}
	of, ok := array.Elt.(*ast.IndexExpr)
	if !ok || of.X.(*ast.Ident).Name != "column" {
		return
	}
	for _, e := range list.Elts {
		if c, ok := e.(*ast.CompositeLit); ok && len(c.Elts) > 2 {
			if about, ok := literal(c.Elts[2]); ok {
				found[about] = true
			}
		}
	}
}

// help adds what a field of a command says of it.
func help(field *ast.KeyValueExpr, named map[string]ast.Expr, found map[string]bool) {
	name, ok := field.Key.(*ast.Ident)
	if ok && name.Name == "Use" {
		if s, isText := literal(field.Value); isText {
			_, args, _ := strings.Cut(s, " ")
			found[args] = true
		}
	}
	if !ok || name.Name != "Short" && name.Name != "Long" {
		return
	}
	if s, ok := literal(resolved(field.Value, named)); ok {
		for _, piece := range wording.Pieces(s) {
			found[piece] = true
		}
	}
}

// constants are the texts that a file gives a name.
func constants(file *ast.File) map[string]ast.Expr {
	out := map[string]ast.Expr{}
	for _, d := range file.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.CONST {
			continue
		}
		for _, s := range g.Specs {
			if v := s.(*ast.ValueSpec); len(v.Values) == len(v.Names) {
				for i, n := range v.Names {
					out[n.Name] = v.Values[i]
				}
			}
		}
	}
	return out
}

func resolved(e ast.Expr, named map[string]ast.Expr) ast.Expr {
	if id, ok := e.(*ast.Ident); ok && named[id.Name] != nil {
		return named[id.Name]
	}
	return e
}

func methodOf(call *ast.CallExpr) string {
	if s, ok := call.Fun.(*ast.SelectorExpr); ok {
		return s.Sel.Name
	}
	return ""
}

func calledName(f ast.Expr) string {
	switch f := f.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		if x, ok := f.X.(*ast.Ident); ok {
			return x.Name + "." + f.Sel.Name
		}
		return "?." + f.Sel.Name
	}
	return ""
}

// forms adds the forms of a word: two as they are, one with an s for others.
func forms(args []ast.Expr, found map[string]bool) {
	one, ok := literal(args[0])
	if !ok {
		return
	}
	many := one + "s"
	if len(args) > 1 {
		if many, ok = literal(args[1]); !ok {
			return
		}
	}
	found[one+"|"+many] = true
}

func add(e ast.Expr, found map[string]bool) {
	if s, ok := literal(e); ok && strings.ContainsFunc(verbless(s), func(r rune) bool { return r >= 'A' }) {
		found[s] = true
	}
}

// verbless is a format without its verbs.
func verbless(s string) string {
	for _, v := range []string{"%s", "%d", "%q", "%v"} {
		s = strings.ReplaceAll(s, v, "")
	}
	return s
}

func literal(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		s, err := strconv.Unquote(e.Value)
		return s, err == nil && e.Kind == token.STRING
	case *ast.BinaryExpr:
		a, ok := literal(e.X)
		b, also := literal(e.Y)
		return a + b, ok && also
	}
	return "", false
}

// What the program says of no stream is what it says, and speaks of none: a region that
// has no words of its own needs none.
func TestARegionOfNoStreamSpeaksOfNone(t *testing.T) {
	german := regexp.MustCompile(`\b(?:Tier(?:e|en|s)?|Bach(?:s|tiere?)?|Wasser|Kiemen|Larven?|gekeschert)\b|Bäche`)
	for _, tag := range []string{"en", "de"} {
		c, err := language.OfRegion(tag, language.Elsewhere, fstest.MapFS{}, "words.toml", "words.toml")
		if err != nil {
			t.Fatal(err)
		}
		for said := range c.Say {
			if !language.Known(said) {
				t.Errorf("the %s words of no stream say %q, which the program does not", tag, said)
			}
			if ofNone := c.Text(said); tag == "de" && german.MatchString(ofNone) && !drawn.MatchString(ofNone) {
				t.Errorf("%q is said %q in a region of no stream", said, ofNone)
			}
		}
		for _, s := range language.OfStreams(c) {
			t.Errorf("%s: %q is said %q", tag, s, c.Text(s))
		}
	}
	if n := len(language.OfStreams(nil)); n < 300 {
		t.Errorf("only %d sentences speak of streams", n)
	}
}

// drawn are what drawings of animals show, which a region without them never names.
var drawn = regexp.MustCompile(`^(?:\pL+ )?(?:Kiemen|Larve .*|\pL+ Larve.*)$`)
