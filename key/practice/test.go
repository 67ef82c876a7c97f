package practice

import (
	"strconv"
	"time"

	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// TestKind is how animals are named in a test; empty outside one. Knowing animals on
// sight and keying them are two things, and what came of them is never added up.
type TestKind string

// The kinds of test.
const (
	OnSight TestKind = "sight" // by name at once, without the key
	WithKey TestKind = "key"   // by the questions of the key alone
	// EitherWay is a test of an older record, in which each animal could be named in
	// either way.
	EitherWay TestKind = "either"
)

// Test is one test as a record holds it. Nothing is told of the animals in it: only,
// once it is finished, how many were named rightly.
type Test struct {
	Number  int // from 1, in the order taken
	Kind    TestKind
	Began   time.Time
	Animals int // that it has, 1 or more
}

// Tested is what came of a test.
type Tested struct {
	Test
	Met int
	// Right are the animals named to their kind, AsGroup those named rightly as far as
	// a group that holds it; both 0 unless the test is finished.
	Right, AsGroup int
}

// Finished reports whether all animals of the test were met.
func (t Tested) Finished() bool { return t.Met >= t.Animals }

// Tested is what came of each test, in the order taken.
func (r *PersonRecord) Tested() []Tested {
	out := make([]Tested, len(r.Tests))
	at := map[int]int{}
	for i, t := range r.Tests {
		out[i].Test, at[t.Number] = t, i
	}
	for i := range r.Meetings {
		m := &r.Meetings[i]
		n, ok := at[m.Number]
		if m.Test == "" || !ok {
			continue
		}
		t := &out[n]
		t.Met++
		switch {
		case m.Right() && m.Group == "":
			t.Right++
		case m.Right():
			t.AsGroup++
		}
	}
	for i := range out {
		if !out[i].Finished() {
			out[i].Right, out[i].AsGroup = 0, 0
		}
	}
	return out
}

// BeginTest adds a test to the record, which is numbered after those before it.
func (r *PersonRecord) BeginTest(kind TestKind, animals int, at time.Time) Test {
	t := Test{Number: 1, Kind: kind, Began: at, Animals: animals}
	for _, before := range r.Tests {
		t.Number = max(t.Number, before.Number+1)
	}
	r.Tests = append(r.Tests, t)
	return t
}

// readTest reads the table of a test.
func readTest(row authored.Section) Test {
	n, err := strconv.Atoi(row.ID)
	t := Test{Number: n, Kind: TestKind(row.NeedStr("kind")), Began: readMoment(row, "began")}
	if err != nil || n < 1 || strconv.Itoa(n) != row.ID {
		row.FailAt(row.Here(), "bad-number", wording.Text("tests are numbered from 1"), wording.Text("number them as in [test.2]"))
	}
	if t.Kind != OnSight && t.Kind != WithKey && t.Kind != EitherWay {
		row.Fail("kind", "bad-test", wording.Text("a test is on sight or with the key"), wording.Text(`write "sight" or "key"`))
	}
	row.Need("animals")
	animals, _ := row.Int("animals")
	if t.Animals = int(animals); animals < 1 || animals > MostMeetings {
		row.Fail("animals", "bad-count", wording.Sprintf("a test has 1 to %d animals", MostMeetings), wording.Text("correct the number"))
	}
	row.Done()
	return t
}

// gather makes tests of the animals of older records, which only said that they were of
// some test: those less than an hour apart are one.
func (r *PersonRecord) gather(unnumbered []int) {
	var last time.Time
	for _, i := range unnumbered {
		m := &r.Meetings[i]
		if n := len(r.Tests); last.IsZero() || m.Time.Sub(last) > pause {
			r.BeginTest(EitherWay, 1, m.Time)
		} else {
			r.Tests[n-1].Animals++
		}
		last = m.Time
		m.Test, m.Number = EitherWay, r.Tests[len(r.Tests)-1].Number
	}
}
