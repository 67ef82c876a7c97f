package house

import (
	"path"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"
)

// The most that a line, a function and a type may hold.
const (
	mostColumns = 140 // characters, a tab being four
	mostLines   = 60  // of a function outside tests
	mostMethods = 40
)

var function = regexp.MustCompile(`^func (?:\((?:\w+ )?\*?(\w+)(?:\[[^\]]*\])?\) )?(\w+)`)

func TestLinesFunctionsAndTypesAreSmall(t *testing.T) {
	methods := map[string]int{}
	for _, s := range read(t) {
		forTest := strings.HasSuffix(s.path, "_test.go")
		begun, name := 0, ""
		for i, line := range strings.Split(s.text, "\n") {
			if n := utf8.RuneCountInString(line) + 3*strings.Count(line, "\t"); n > mostColumns {
				t.Errorf("%s:%d is %d columns wide", s.path, i+1, n)
			}
			if forTest {
				continue
			}
			if strings.HasPrefix(line, "func ") {
				m := function.FindStringSubmatch(line)
				begun, name = i, m[2]
				if m[1] != "" {
					methods[path.Dir(s.path)+"."+m[1]]++
				}
			}
			if line == "}" && name != "" {
				if n := i - begun + 1; n > mostLines {
					t.Errorf("%s:%d: %s has %d lines", s.path, begun+1, name, n)
				}
				name = ""
			}
		}
	}
	for of, n := range methods {
		if n > mostMethods {
			t.Errorf("%s has %d methods", of, n)
		}
	}
}

var (
	exportedType = regexp.MustCompile(`(?m)^type ([A-Z]\w*)`)
	beginWith    = regexp.MustCompile(`(?m)^// Begin with \[(\w+)\], \[(\w+)\] and \[(\w+)\]\.$`)
)

// What go doc shows of a package of three or more types begins with its main ones.
func TestPackagesNameTheirMainTypes(t *testing.T) {
	types, main := map[string]map[string]bool{}, map[string][]string{}
	for _, s := range read(t) {
		dir := path.Dir(s.path)
		if strings.HasSuffix(s.path, "_test.go") {
			continue
		}
		if types[dir] == nil {
			types[dir] = map[string]bool{}
		}
		for _, m := range exportedType.FindAllStringSubmatch(s.text, -1) {
			types[dir][m[1]] = true
		}
		if m := beginWith.FindStringSubmatch(s.text); m != nil {
			main[dir] = m[1:]
		}
	}
	for dir, all := range types {
		if len(all) > 2 && main[dir] == nil {
			t.Errorf("the comment of package %s does not say with which of its %d types to begin", dir, len(all))
		}
		for _, name := range main[dir] {
			if !all[name] {
				t.Errorf("the comment of package %s begins with %s, which is not there", dir, name)
			}
		}
	}
}
