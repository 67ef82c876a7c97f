package condition_test

import (
	"testing"

	"rillkey/scoring/condition"
)

// What is noted is not asked for again; a section of which all is noted is gone.
func TestOpen(t *testing.T) {
	fields := condition.SpokenParameters()
	all := condition.Values(nil).Open()
	n := 0
	for _, s := range all {
		n += len(s.Parameters)
		for _, f := range s.Parameters {
			if f.Section != s.Title {
				t.Errorf("%s is of %s, not of %s", f.ID, f.Section, s.Title)
			}
		}
	}
	if n != len(fields) || len(all) < 2 {
		t.Fatalf("%d of %d fields in %d sections", n, len(fields), len(all))
	}
	noted := condition.Values{}
	for _, f := range all[0].Parameters {
		noted[f.ID] = condition.Value{}
	}
	noted[all[1].Parameters[0].ID] = condition.Value{}
	left := noted.Open()
	if len(left) != len(all)-1 || left[0].Title != all[1].Title || len(left[0].Parameters) != len(all[1].Parameters)-1 {
		t.Errorf("%+v is left of %+v", left, all)
	}
}

// A correction that names no instrument leaves the one that was noted.
func TestKeeping(t *testing.T) {
	noted := condition.Values{"ph": {Number: 7, Instrument: "paper strips"}, "smell": {Text: "none"}}
	for _, row := range []struct {
		why   string
		value condition.Value
		with  string
	}{
		{"the number alone", condition.Value{Number: 7.5}, "paper strips"},
		{"with another", condition.Value{Number: 7.5, Instrument: "a meter"}, "a meter"},
		{"taken back", condition.Value{None: true}, ""},
	} {
		values := condition.Values{"ph": row.value}
		if values.Keeping(noted); values["ph"].Instrument != row.with {
			t.Errorf("%s: with %q", row.why, values["ph"].Instrument)
		}
	}
}
