package house

import (
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// declared are the names that Go files declare, fields and methods included, by the
// package's name and under "" all of them.
func declared(all []source) map[string]map[string]bool {
	out := map[string]map[string]bool{"": {}}
	for _, s := range all {
		pkg := packageOf(s.text)
		if out[pkg] == nil {
			out[pkg] = map[string]bool{}
		}
		for _, line := range strings.Split(s.text, "\n") {
			for _, name := range names(line) {
				out[pkg][name], out[""][name] = true, true
			}
		}
	}
	return out
}

func packageOf(text string) string {
	_, rest, _ := strings.Cut("\n"+text, "\npackage ")
	name, _, _ := strings.Cut(rest, "\n")
	return strings.TrimSpace(name)
}

// names are those that a line may declare: of a function, a type, a constant, a
// variable, or of fields, which stand one tab in.
func names(line string) []string {
	if m := function.FindStringSubmatch(line); m != nil {
		return []string{m[2]}
	}
	for _, word := range []string{"type ", "const ", "var ", "\t"} {
		rest, found := strings.CutPrefix(line, word)
		if !found {
			continue
		}
		var out []string
		for _, name := range strings.Split(rest, ",") {
			name, more, _ := strings.Cut(strings.TrimSpace(name), " ")
			if name, _, _ = strings.Cut(name, "("); identifier.MatchString(name) {
				out = append(out, name)
			}
			if more != "" {
				break
			}
		}
		return out
	}
	return nil
}

var (
	identifier = regexp.MustCompile(`^\w+$`)
	code       = regexp.MustCompile("`([^`\n]+)`")
	aTest      = regexp.MustCompile(`^(?:Test|Fuzz|Benchmark)[A-Z]\w*$`)
	aFile      = regexp.MustCompile(`^[\w./-]+\.(?:go|txtar|cjs|py|js|sql)$`)
	aPlace     = regexp.MustCompile(`^(?:taxa|couplets|key|scoring|cmd|testdata|\.ci)/[\w./-]*$`)
	aPart      = regexp.MustCompile(`^(?:RandomLooks|[\w-]+\.(?:toml|txt|csv|json))$`)
	aScript    = regexp.MustCompile(`^script/([\w-]+)$`)
	ofPackage  = regexp.MustCompile(`^([a-z]+)((?:\.[A-Za-z]\w*)+)$`)
	ofType     = regexp.MustCompile(`^([A-Z]\w*)\.(\w+)$`)
	camelCase  = regexp.MustCompile(`^(?:[a-z]+[A-Z]|[A-Z][a-z])\w*$`)
)

// standard are names of Go's own packages, and of what is outside the program.
var standard = map[string]bool{"http.CrossOriginProtection": true, "SameSite": true, "occurrenceID": true,
	"verbatimIdentification": true, "nameCommand": true}

func TestWhatDEVELOPERSNamesIsThere(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	all := read(t)
	known := declared(all)
	looked := 0
	for i, line := range strings.Split(string(text), "\n") {
		if strings.HasPrefix(line, "    ") { // an example
			continue
		}
		for _, m := range code.FindAllStringSubmatch(line, -1) {
			said, _, _ := strings.Cut(m[1], "(")
			there, meant := isThere(said, all, known)
			if meant {
				looked++
			}
			if meant && !there && !standard[said] {
				t.Errorf("DEVELOPERS.md:%d: `%s` is not there", i+1, m[1])
			}
		}
	}
	if looked < 250 {
		t.Errorf("only %d names were looked up", looked)
	}
}

// Every folder with a package stands in DEVELOPERS.md's list of the house.
func TestTheHouseListsEveryRoom(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, house, _ := strings.Cut(string(text), "\n## The house\n")
	house, _, _ = strings.Cut(house, "\n## ")
	told := map[string]bool{}
	for _, f := range read(t) {
		room := path.Base(path.Dir(f.path))
		if told[room] || room == "." {
			continue
		}
		told[room] = true
		if !regexp.MustCompile(`(?m)^ +(cmd/)?` + regexp.QuoteMeta(room) + `/ `).MatchString(house) {
			t.Errorf("%s is not in DEVELOPERS.md's list of the house", path.Dir(f.path))
		}
	}
}

// isThere reports whether a name or file is there; false, false for what is neither.
func isThere(said string, all []source, known map[string]map[string]bool) (there, meant bool) {
	switch {
	case aTest.MatchString(said):
		return known[""][said], true
	case strings.HasPrefix(said, "GROUP_"), strings.HasSuffix(said, "….go"):
		return false, false
	case aPart.MatchString(said): // of a test's name, or of a region's files
		return false, false
	case aFile.MatchString(said):
		return anyFile(said, all), true
	case aPlace.MatchString(said):
		return anyFile(said, nil), true
	case aScript.MatchString(said):
		_, err := os.Stat(filepath.Join(root, "cmd/rillkey/testdata", said+".txtar"))
		return err == nil, true
	case ofPackage.MatchString(said):
		m := ofPackage.FindStringSubmatch(said)
		in := known[m[1]]
		if in == nil { // a variable or an unexported type
			in = known[""]
		}
		for _, name := range strings.Split(m[2][1:], ".") {
			if !in[name] {
				return false, true
			}
		}
		return true, true
	case ofType.MatchString(said):
		m := ofType.FindStringSubmatch(said)
		for pkg, in := range known {
			if pkg != "" && in[m[1]] && in[m[2]] {
				return true, true
			}
		}
		return false, true
	case camelCase.MatchString(said):
		return known[""][said], true
	}
	return false, false
}

// folders are those in which files are looked for that are no Go.
var folders = []string{"", "cmd/rillkey", "cmd/rillkey/testdata/script", "cmd/rillkey/pocket", "scoring/export", ".ci/tools"}

// anyFile reports whether a file of that path, or of that end of a path, is there.
func anyFile(name string, all []source) bool {
	if path.Ext(name) != ".go" {
		return slices.ContainsFunc(folders, func(dir string) bool {
			_, err := os.Stat(filepath.Join(root, dir, name))
			return err == nil
		})
	}
	for _, s := range all {
		if s.path == name || strings.HasSuffix(s.path, "/"+name) {
			return true
		}
	}
	return false
}
