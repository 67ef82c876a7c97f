package show_test

import (
	"bytes"
	"encoding/json"
	"io"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/authored"
)

func catalog(t *testing.T) *taxa.Catalog {
	t.Helper()
	c, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func rules(t *testing.T) *scoring.Rules {
	t.Helper()
	r, err := scoring.EmbeddedRules(catalog(t))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

var widths = []int{20, 40, 80, 200}

// fits draws something at every width: no line may be wider, and nothing in it
// may move a cursor.
func fits(t *testing.T, what string, draw func(w io.Writer, width int) error) {
	t.Helper()
	for _, width := range widths {
		var b bytes.Buffer
		if err := draw(&b, width); err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(b.String(), "\n") {
			if n := ansi.StringWidth(line); n > width {
				t.Errorf("%s at %d columns has a line of %d: %q", what, width, n, line)
			}
			if authored.HasControl(line) {
				t.Errorf("%s: control character in %q", what, line)
			}
		}
	}
}

func TestEveryTextFitsItsWidth(t *testing.T) {
	c := catalog(t)
	standings := rules(t).Standings
	for _, x := range c.Taxa() {
		r := key.Identification{Taxon: x.ID, Within: x.ID, Possible: []string{x.ID}, Class: x.Class, Confidence: 0.5, Path: []string{"1a", "2?"}}
		v := show.NewIdentified(c, r, 7)
		fits(t, x.ID, v.Text)
		fits(t, x.ID, func(w io.Writer, width int) error {
			return show.Matches(w, width, c, standings, c.Find(x.Scientific, 5))
		})
		fits(t, x.ID, func(w io.Writer, width int) error { return show.Entry(w, width, "1", 12, v) })
	}
	fits(t, "welcome", show.Welcome)
	fits(t, "cautions", show.CautionList)
	hostile := &visit.Visit{File: "x\x1b[2J", Header: visit.Header{Site: "\x1b]0;x\x07" + strings.Repeat("long ", 40), Date: "2026-05-16", People: []string{"a\u202eb"}}}
	fits(t, "tally", show.NewTally(c, hostile).Text)
	value := 3.5
	grade := &scoring.Grade{
		Visit:   scoring.Subject{Site: "\x1b[31mred"},
		Effort:  scoring.Effort{Taken: 1, Required: 3, Missing: []scoring.Missing{{Habitat: "riffle\x07", Samples: 2}}},
		Indices: []scoring.Index{{Title: "\x9bindex", Rating: "good", Value: &value}, {Title: "another", Withheld: true, Reason: strings.Repeat("x", 300)}},
	}
	fits(t, "grade", func(w io.Writer, width int) error { return show.Grade(w, width, grade, true) })
}

// What an undecided animal could still be is told with a feature that is its
// own, and the chances of all of them make one.
func TestPossibilitiesAreToldApart(t *testing.T) {
	c := catalog(t)
	possible := []string{"cambaridae", "gammaridae", "asellidae"}
	v := show.NewIdentified(c, key.Identification{Possible: possible, Confidence: 0.9}, 0)
	sum := 0.0
	for _, o := range v.Also {
		sum += *o.Probability
		if o.TellApart == "" || strings.Contains(o.TellApart, "nothing") {
			t.Errorf("%s is told apart by %q", o.Taxon, o.TellApart)
		}
	}
	if len(v.Also) != 3 || sum < 0.999 || sum > 1.001 {
		t.Errorf("%d possibilities with chances of %v", len(v.Also), sum)
	}
	if !v.Undecided() || v.Class != "open" {
		t.Errorf("undecided %v, class %s", v.Undecided(), v.Class)
	}
}

// Scripts must find lists where there are none, never null.
func TestJSONHasNoNullLists(t *testing.T) {
	var b bytes.Buffer
	if err := show.JSON(&b, show.NewIdentified(catalog(t), key.Identification{}, 0)); err != nil {
		t.Fatal(err)
	}
	var got map[string]any
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	for _, list := range []string{"common", "path", "also", "doubts", "possible"} {
		if _, ok := got[list].([]any); !ok {
			t.Errorf("%s is %v", list, got[list])
		}
	}
}

// The international inch is 25.4 mm exactly.
func TestLengths(t *testing.T) {
	for _, row := range []struct {
		mm   float64
		want string
	}{{25.4, "25.4 mm (1.0 in)"}, {12.7, "12.7 mm (0.50 in)"}, {4, "4 mm (0.16 in)"}, {100, "100 mm (3.9 in)"}} {
		if got := show.Millimetres(row.mm); got != row.want {
			t.Errorf("%v mm is %q, want %q", row.mm, got, row.want)
		}
	}
	// 0.37161216 m² are 4 square feet exactly.
	if got := show.Area(0.37161216); got != "0.37 m² (4.0 sq ft)" {
		t.Errorf("an area of 4 square feet is %q", got)
	}
}
