package demo_test

import (
	"bytes"
	"path/filepath"
	"testing"

	"rillkey/cmd/rillkey/demo"
	"rillkey/scoring/visit"
)

// An invented visit is begun with its samples, ten minutes apart, and with no animal.
func TestAnInventedVisitBegins(t *testing.T) {
	all, err := demo.InventedVisits()
	if err != nil || len(all) < 2 {
		t.Fatal(len(all), err)
	}
	for i, v := range all {
		file := filepath.Join(t.TempDir(), "a"+visit.Suffix)
		now, err := v.Begin(file, "north-america", bytes.NewReader(bytes.Repeat([]byte("rillkey"), 64)))
		if err != nil {
			t.Fatal(err)
		}
		read, err := visit.Read(file)
		if err != nil {
			t.Fatal(err)
		}
		tally := read.Tally()
		if len(tally.Samples) != len(v.Samples) || len(tally.Records) > 0 || read.Header.Site != v.Site || read.Header.Date != v.Date() {
			t.Errorf("visit %d: %+v", i, tally)
		}
		if want := v.Begun.Add(demo.TimePerSample); len(v.Samples) > 0 && !tally.Samples[0].Time.Equal(want) {
			t.Errorf("visit %d: the first sample at %v", i, tally.Samples[0].Time)
		}
		if n := len(v.Samples); n > 0 && !tally.Samples[n-1].Time.Equal(now) {
			t.Errorf("visit %d: it is %v, the last sample at %v", i, now, tally.Samples[n-1].Time)
		}
	}
}
