package show_test

import (
	"bytes"
	"encoding/json"
	"io"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
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
			// A command is one line whatever the width, to be copied.
			if n := ansi.StringWidth(line); n > width && !strings.HasPrefix(strings.TrimSpace(line), "rillkey ") {
				t.Errorf("%s at %d columns has a line of %d: %q", what, width, n, line)
			}
			if plain.HasControl(line) {
				t.Errorf("%s: control character in %q", what, line)
			}
		}
	}
}

func TestEveryTextFitsItsWidth(t *testing.T) {
	c := catalog(t)
	standings := rules(t).Standings
	m := model(t)
	fits(t, "a name that is only like others", func(w io.Writer, width int) error {
		return show.LookAlikes(w, width, "winter", c.Find("winter"))
	})
	each := 1
	if testing.Short() {
		each = 5
	}
	for i, x := range c.Taxa() {
		if i%each > 0 {
			continue
		}
		fits(t, x.ID, func(w io.Writer, width int) error {
			return show.Matches(w, width, c, standings, c.Find(x.ID))
		})
	}
	for i, end := range m.Key().Ends() {
		if i%each > 0 {
			continue
		}
		for _, q := range []*key.Inquiry{said(t, m, end), checked(t, m, end)} {
			v := show.NewIdentified(q, 7)
			fits(t, end.ID, v.Text)
			fits(t, end.ID, func(w io.Writer, width int) error { return show.ListEntry(w, width, "1", 12, v) })
		}
		features, settled, err := m.Proof(end.ID, key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		fits(t, end.ID, show.NewProof(end, features, settled).Text)
		other := m.Key().Ends()[0]
		fits(t, end.ID, show.NewContrast(end, other, m.Compare(end.ID, other.ID)).Text)
	}
	fits(t, "a second look", func(w io.Writer, width int) error { return show.AnsweredAgain(w, width, "1a\x1b[2J", "1b", 0.7) })
	fits(t, "welcome", show.FirstSteps)
	fits(t, "cautions", func(w io.Writer, width int) error { return show.CautionList(w, width, c.RegionNamed("north-america")) })
	hostile := &visit.Visit{File: "x\x1b[2J",
		Header: visit.Header{Site: "\x1b]0;x\x07" + strings.Repeat("long ", 40), Date: "2026-05-16", People: []string{"a\u202eb"}}}
	fits(t, "tally", show.NewTally(c, hostile).Text)
	value := 3.5
	grade := &scoring.Grade{
		Visit:  scoring.Subject{Site: "\x1b[31mred"},
		Effort: scoring.Effort{Taken: 1, Required: 3, Missing: []scoring.MissingSamples{{Habitat: "riffle\x07", Samples: 2}}},
		Indices: []scoring.Index{{Title: "\x9bindex", Rating: "good", Value: &value},
			{Title: "another", Withheld: true, Reason: strings.Repeat("x", 300)}},
	}
	fits(t, "grade", func(w io.Writer, width int) error { return show.Grade(w, width, grade, true, "") })
}

func model(t *testing.T) *key.Model {
	t.Helper()
	c := catalog(t)
	sound, err := couplets.Load(couplets.Embedded(), couplets.DefaultName, couplets.DefaultName, c)
	if err != nil {
		t.Fatal(err)
	}
	m, err := key.Compile(sound, c).Model(key.FileRates(c.Vocabulary()))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func begin(t *testing.T) *key.Inquiry {
	t.Helper()
	q, err := model(t).Inquire(key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// said is an inquiry told a few features of an animal, one of them of another.
func said(t *testing.T, m *key.Model, end *taxa.Taxon) *key.Inquiry {
	t.Helper()
	q, err := m.Inquire(key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	tell(t, q, end, 6)
	return q
}

func checked(t *testing.T, m *key.Model, end *taxa.Taxon) *key.Inquiry {
	t.Helper()
	q, err := m.Check(end.ID, key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	tell(t, q, end, 12)
	return q
}

func tell(t *testing.T, q *key.Inquiry, end *taxa.Taxon, most int) {
	t.Helper()
	for _, trait := range q.Model().Key().Catalog().Vocabulary().Traits() {
		shown := end.States(trait.ID)
		if shown == nil || most == 0 {
			continue
		}
		state := shown[0].State
		if most == 3 {
			state = trait.States[len(trait.States)-1].ID
		}
		if err := q.Observe(trait.ID, state); err != nil {
			t.Fatal(err)
		}
		most--
	}
}

// What an undecided animal could still be is told with its chance, and with a
// feature that was not looked at yet.
func TestPossibilitiesAreToldApart(t *testing.T) {
	q, err := model(t).Inquire(key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []string{"legs=14", "forelegs=plain"} {
		if err := q.Say(s); err != nil {
			t.Fatal(err)
		}
	}
	v := show.NewIdentified(q, 0)
	sum := 0.0
	for _, o := range v.Also {
		sum += *o.Probability
		if o.TellApart == "" || strings.Contains(o.TellApart, "nothing") || strings.Contains(o.TellApart, "legs:") {
			t.Errorf("%s is told apart by %q", o.Taxon, o.TellApart)
		}
	}
	if len(v.Also) < 3 || sum < 0.5 || sum > 1.001 || v.Also[0].Taxon != v.Likeliest {
		t.Errorf("%d possibilities with chances of %v: %+v", len(v.Also), sum, v.Also)
	}
	if !v.Undecided() || v.Level == key.ToKind || v.Confidence != 0 {
		t.Errorf("level %s, confidence %v", v.Level, v.Confidence)
	}
}

// A probability is never shown alone, nor as certain when it is not.
func TestSureness(t *testing.T) {
	for _, row := range []struct{ got, want string }{
		{show.Sure(0.82), "fairly sure (0.82)"},
		{show.Sure(0.9), "sure (0.90)"},
		{show.Sure(0.9999), "very sure (over 0.99)"},
		{show.Sure(0.2), "not sure (0.20)"},
		{show.Misread(0.72), "probably misread (0.72)"},
		{show.Misread(0.001), "fits the rest"},
		{show.Likely(0.5), "open (0.50)"},
		{show.Likely(0.02), "no (0.02)"},
		{show.Likely(0.98), "almost certainly (0.98)"},
	} {
		if row.got != row.want {
			t.Errorf("%q, want %q", row.got, row.want)
		}
	}
}

// Scripts must find lists where there are none, never null.
func TestJSONHasNoNullLists(t *testing.T) {
	var b bytes.Buffer
	if err := show.JSON(&b, show.NewIdentified(begin(t), 0)); err != nil {
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
		if got := show.LengthWords(row.mm); got != row.want {
			t.Errorf("%v mm is %q, want %q", row.mm, got, row.want)
		}
	}
	// 0.37161216 m² are 4 square feet exactly.
	if got := show.Area(0.37161216); got != "0.37 m² (4.0 sq ft)" {
		t.Errorf("an area of 4 square feet is %q", got)
	}
}

// What was said twice is told once.
func TestWhatWasSaidAgainStandsOnce(t *testing.T) {
	v := catalog(t).Vocabulary()
	said := func(state string) key.Given {
		return key.Given{Answer: "tails=" + state, Question: key.Question{Trait: v.Trait("tails")},
			Says: []couplets.Condition{{Trait: "tails", States: []string{state}}}}
	}
	if got := show.AnswerList(v, []key.Given{said("2"), said("2"), said("3")}); got != "two tails; three tails" {
		t.Errorf("told: %q", got)
	}
}
