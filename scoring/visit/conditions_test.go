package visit

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"rillkey/scoring/condition"
)

func noted(t *testing.T, set ...string) Conditions {
	t.Helper()
	out := condition.Values{}
	for _, s := range set {
		name, typed, _ := strings.Cut(s, "=")
		v, err := condition.Find(name).Parse(typed)
		if err != nil {
			t.Fatal(err)
		}
		out[condition.Find(name).ID] = v
	}
	return Conditions{out}
}

func told(vs condition.Values) string {
	var out []string
	vs.Each(func(f *condition.Parameter, v condition.Value) { out = append(out, f.ID+"="+f.Full(v)) })
	return strings.Join(out, "; ")
}

// No condition has a name that other values of an amendment have.
func TestConditionsHaveNamesOfTheirOwn(t *testing.T) {
	taken := []string{"id", "kind", "time", "after", "who", "check", "of", "reason", "withdrawn"}
	w := &writer{}
	for _, f := range tables().change {
		f.put(w, &Change{Habitat: ptr("a"), Area: ptr(1.0), Effort: ptr("a"), Fraction: ptr(1.0), Said: ptr(Sorted),
			Sample: ptr("1"), Taxon: ptr("a"), Rank: ptr("a"), Count: ptr(1), Cell: ptr("a"), Confidence: ptr(1.0),
			Undecided: ptr(true), FitsHalf: ptr(1.0), FitsTwice: ptr(1.0), Length: ptr(1.0), Note: ptr("a"),
			Obscured: ptr(true), Expert: ptr("a"), ExpertOn: ptr("a"), Kept: ptr("a"), Site: ptr("a"), Date: ptr("a"),
			Protocol: ptr("a"), People: &[]string{"a"}, Spot: &Spot{Uncertainty: 1}})
	}
	for line := range strings.Lines(w.b.String()) {
		key, _, _ := strings.Cut(line, " ")
		taken = append(taken, key)
	}
	for _, f := range condition.Parameters() {
		if slices.Contains(taken, f.Column) || slices.Contains(taken, f.WithColumn()) || !plainKey(f.Column) {
			t.Errorf("the column %s is taken, or no plain key", f.Column)
		}
	}
}

// Conditions are noted, corrected, taken back and withdrawn; nothing is overwritten
// in silence, and a laboratory may be later than the finish.
func TestConditionsAreNotedAndCorrected(t *testing.T) {
	path := begin(t)
	a := add(t, path)
	first := a.add(noted(t, "water-temperature=0 with a thermometer", "ph=7.2", "bed=mud 30, cobble 70", "sky=part cloud")).ID
	if _, err := Append(path, noon, "Bo", noted(t, "ph=7", "look=clear"), a.random); err == nil ||
		!strings.Contains(err.Error(), "pH is noted already: 7.2; it is corrected by: rillkey visit amend --set ph=7 --visit "+path) {
		t.Error(err)
	}
	a.add(Finish{})
	second := a.add(noted(t, "nitrate=3")).ID
	right := condition.Values{"ph": {Number: 7.4}, "sky": {None: true}}
	a.add(Amendment{Entry: first, Reason: "misread", Change: Change{Conditions: &right}})
	v := read(t, path)
	if got := told(v.Tally().Conditions()); got != "water-temperature=0 °C with a thermometer; ph=7.4; nitrate=3 mg/L NO3; "+
		"bed=cobble 70 %, mud 30 %" {
		t.Error(got)
	}
	again, err := Parse(path, v.Encode())
	if data, _ := os.ReadFile(path); err != nil || string(again.Encode()) != string(data) {
		t.Errorf("read and written again it is\n%s", again.Encode())
	}
	a.add(Amendment{Entry: second, Reason: "another stream", Withdrawn: true})
	if got := told(read(t, path).Tally().Conditions()); strings.Contains(got, "nitrate") {
		t.Error(got)
	}
	for why, body := range map[string]Body{
		"no entry of weather":   Amendment{Entry: "nosuch", Reason: "x", Change: Change{Conditions: &right}},
		"only that can change":  Amendment{Entry: first, Reason: "x", Change: Change{Count: ptr(3)}},
		"was withdrawn before":  Amendment{Entry: second, Reason: "x", Change: Change{Conditions: &right}},
		"one of them at a time": Amendment{Entry: first, Reason: "x", Change: Change{Conditions: &right, Count: ptr(3)}},
		"cannot be":             Conditions{condition.Values{"ph": {Number: 71}}},
		"no condition is noted": Conditions{},
		`no condition "moon"`:   Conditions{condition.Values{"moon": {Text: "full"}}},
		"the parts make 140 %": Conditions{
			condition.Values{"bed": {Parts: []condition.CategoryShare{{Word: "mud", Percent: 70}, {Word: "sand", Percent: 70}}}}},
		"holds a control character":    Conditions{condition.Values{"smell": {Text: "a\x1bb"}}},
		"it takes no instrument":       Conditions{condition.Values{"smell": {Text: "a", Instrument: "a nose"}}},
		"is not one of its words":      Conditions{condition.Values{"sky": {Text: "green"}}},
		"takes back what":              Conditions{condition.Values{"ph": {Number: 7, Instrument: strings.Repeat("x", 2001)}}},
		"Water level: nothing is said": Conditions{condition.Values{"level": {None: true}}},
	} {
		_, err := Append(path, noon, "", body, a.random)
		if why == "takes back what" {
			why = "longer than"
		}
		if err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("%v; want %q", err, why)
		}
	}
}

// Two laptops note apart: all that does not contradict is kept, of one value noted
// twice the first holds and the other is told; contradicting corrections are a clash.
func TestConditionsNotedApart(t *testing.T) {
	a, b, _ := copies(t, nil, noted(t, "ph=7.2", "sky=clear"), noted(t, "ph=7.9", "look=muddy"))
	m := merged(t, a, b)
	sameFile(t, "order", m, merged(t, b, a))
	tally := m.Tally()
	if got := told(tally.Conditions()); !strings.Contains(got, "sky=clear") || !strings.Contains(got, "look=muddy") ||
		strings.Count(got, "ph=") != 1 {
		t.Error(got)
	}
	if len(tally.Notices) != 1 || !strings.Contains(tally.Notices[0].Text, "pH was noted before as") {
		t.Error(tally.Notices)
	}
	change := func(ph float64) Body {
		return Amendment{Reason: "misread", Change: Change{Conditions: &condition.Values{"ph": {Number: ph}}}}
	}
	for same, values := range map[bool][2]float64{true: {7.4, 7.4}, false: {7.4, 7.6}} {
		path := begin(t)
		one := add(t, path)
		of := one.add(noted(t, "ph=7.2", "sky=clear")).ID
		sides := make([]*Visit, 2)
		for i, ph := range values {
			data, _ := os.ReadFile(path)
			name := filepath.Join(t.TempDir(), "copy.toml")
			put(t, name, data)
			body := change(ph).(Amendment)
			body.Entry = of
			if _, err := Append(name, noon.AddDate(0, 0, 1+i), "Bo", body, one.random); err != nil {
				t.Fatal(err)
			}
			sides[i] = read(t, name)
		}
		both, clashes, err := Unite(sides, false)
		if err != nil || (len(clashes) == 0) != same {
			t.Fatalf("%v with %d clashes, %v", values, len(clashes), err)
		}
		if !same {
			settle(t, both, clashes[0], 0)
			if got := told(both.Tally().Conditions()); got != "sky=clear; ph=7.4" {
				t.Error(got)
			}
		}
	}
}

// One wrong bit in conditions costs nothing.
func TestConditionsAreSalvaged(t *testing.T) {
	path := begin(t)
	add(t, path).add(noted(t, "ph=7.2", "bed=cobble 60, sand 40"))
	data, _ := os.ReadFile(path)
	put(t, path, []byte(strings.Replace(string(data), "ph = 7.2", "ph = 7.3", 1)))
	s, err := Salvage(path, nil, Header{})
	if err != nil || told(s.Visit.Tally().Conditions()) != "ph=7.2; bed=cobble 60 %, sand 40 %" {
		t.Errorf("%v, %s", err, told(s.Visit.Tally().Conditions()))
	}
}

func TestNotedIn(t *testing.T) {
	tally := Tally{Noted: []Noted{{ID: "a", Values: condition.Values{"smell": {}}},
		{ID: "b", Values: condition.Values{"ph": {}, "smell": {}}}}}
	for field, id := range map[string]string{"smell": "a", "ph": "b", "bed": ""} {
		if got := tally.NotedIn(field); got != id {
			t.Errorf("%s: %q", field, got)
		}
	}
}
