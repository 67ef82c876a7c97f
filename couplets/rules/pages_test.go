package rules_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/couplets/rules"
	"rillkey/taxa"
	"rillkey/taxa/authored"
)

const head = "[key]\nid = \"example\"\ntitle = \"An example\"\nsource = \"invented\"\n"

// regions are what the examples of the rules that need a region are checked
// with: the same region must warn of the one and not of the other key.
var regions = map[string][2]string{"never-reached": {"stonefly", "beetle"}}

// withoutExample are the rules whose example would fill pages; they have tests
// of their own.
var withoutExample = map[string]bool{"too-many-couplets": true, "and-more": true, "other-catalog": true}

func catalog(t testing.TB) *taxa.Catalog {
	t.Helper()
	c, err := taxa.Load(os.DirFS("testdata/catalog"), "")
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// examine finds everything in a key: errors and warnings.
func examine(t testing.TB, text string, c *taxa.Catalog, region ...string) authored.Findings {
	t.Helper()
	if !strings.Contains(text, "[key]") {
		text += head
	}
	f, s, err := couplets.Examine(fstest.MapFS{"k": {Data: []byte(text)}}, "k", "k", c)
	found, ok := err.(authored.Findings)
	if err != nil && !ok {
		t.Fatal(err)
	}
	if f == nil {
		return found
	}
	subject := &rules.Input{File: f, Sound: s, Catalog: c}
	for _, r := range region {
		subject.Region = append(subject.Region, taxa.Resident{Taxon: r, Pos: authored.Pos{File: "k", Line: 1, Col: 1}})
	}
	return append(found, rules.Warnings(subject)...)
}

// Each page's failing example breaks the rule at the place it names, and its
// passing example breaks neither this rule nor any that is an error.
func TestEveryPageProvesItsRule(t *testing.T) {
	c := catalog(t)
	for _, p := range rules.Pages() {
		t.Run(p.Rule, func(t *testing.T) {
			if p.Kind != "error" && p.Kind != "warning" || p.Brief == "" || p.Text == "" {
				t.Fatalf("incomplete: %+v", p)
			}
			if withoutExample[p.Rule] || p.Fails == "" && strings.HasPrefix(p.Brief, "In ") {
				return
			}
			want := fmt.Sprintf("k:%s: %s: ", p.FailsAt, p.Rule)
			found := examine(t, p.Fails, c, regions[p.Rule][0])
			hit := false
			for _, f := range found {
				hit = hit || strings.HasPrefix(f.Error(), want)
			}
			if !hit {
				t.Errorf("the failing example gives\n%v\nand not\n%s…", found, want)
			}
			for _, f := range examine(t, p.Passes, c, regions[p.Rule][1]) {
				if page, _ := rules.Explain(f.Rule); f.Rule == p.Rule || page.Kind != "warning" {
					t.Errorf("the passing example gives %v", f)
				}
			}
		})
	}
}

var reported = regexp.MustCompile(`(?:fail|follows|Fail|FailAt|Add|warn)\([^"\n]*?(?:"[a-z_]+", )?"([a-z]+(?:-[a-z]+)*)",` +
	`\s+(?:fmt\.|wording\.|plain\.|strings\.|"[^"\n]* |[a-z]+[,+ ])`)

// Every rule that the reading and checking of keys can report has its page.
func TestEveryRuleHasItsPage(t *testing.T) {
	names := map[string]bool{}
	var files []string
	for _, pattern := range []string{"..", "../../taxa", "../../taxa/authored", "../../taxa/language", "../../key/draft",
		"../../key/learned", "../../key/practice", "../../key/trial/described", "../../scoring/scheme", "../../scoring/condition",
		"../../cmd/rillkey/paper", "../../cmd/rillkey/publish"} {
		some, err := filepath.Glob(pattern + "/*.go")
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, some...)
	}
	for _, file := range append(files, "../../cmd/rillkey/region_check.go") {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range reported.FindAllStringSubmatch(string(src), -1) {
			names[m[1]] = true
		}
	}
	if len(names) < 80 {
		t.Fatalf("only %d rules found in the sources: the pattern no longer fits", len(names))
	}
	for name := range names {
		if _, ok := rules.Explain(name); !ok {
			t.Errorf("no page explains %q", name)
		}
	}
}
