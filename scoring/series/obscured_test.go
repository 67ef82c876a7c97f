package series_test

import (
	"bytes"
	"path/filepath"
	"testing"
	"time"

	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// A place that one visit of a folder keeps back is kept back of each other visit to it
// there, under whatever case of its name; other sites are not.
func TestAPlaceIsObscuredByAVisitBeside(t *testing.T) {
	dir := t.TempDir()
	begin := func(name string, h visit.Header) *visit.Visit {
		h.Date, h.People, h.Protocol, h.CautionsRead = "2026-05-16", []string{"Ada"}, "riffle-three", true
		h.Begun = time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC)
		file := filepath.Join(dir, name+visit.Suffix)
		if _, err := visit.Create(file, h, bytes.NewReader(bytes.Repeat([]byte(name), 32))); err != nil {
			t.Fatal(err)
		}
		v, err := visit.Read(file)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	keeping := begin("a", visit.Header{Site: "Mill Brook", Obscured: true})
	same, other := begin("b", visit.Header{Site: "mill brook"}), begin("c", visit.Header{Site: "Tanyard Brook"})
	if series.FindObscured([]string{same.File}).FileFor(same) != "" {
		t.Error("by itself the visit keeps nothing back")
	}
	kept := series.FindObscured([]string{same.File, keeping.File, other.File})
	for site, file := range map[string]string{"MILL brook": keeping.File, "Tanyard Brook": "", "": ""} {
		if got := kept.FileOf(site); got != file {
			t.Errorf("%q is kept back by %q, not %q", site, got, file)
		}
	}
	for _, row := range []struct {
		v       *visit.Visit
		now, is bool
	}{{keeping, false, true}, {same, true, true}, {other, false, false}} {
		if now := series.ObscuredBeside([]string{row.v.File}).Obscure(row.v); now != row.now || row.v.Obscured() != row.is {
			t.Errorf("%s: obscured now %v, and %v", row.v.Header.Site, now, row.v.Obscured())
		}
	}
}

func TestDaysBeside(t *testing.T) {
	of := series.DaysBeside([]series.VisitFile{{ID: "x", ReferenceDay: "2026-05-01"}, {ID: "y"}})
	for id, want := range map[string]string{"x": "2026-05-01", "y": "", "z": ""} {
		if got := of(&visit.Visit{Header: visit.Header{ID: id}}); got != want {
			t.Errorf("%s beside %q", id, got)
		}
	}
}
