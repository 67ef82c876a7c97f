package series_test

import (
	"errors"
	"fmt"
	"testing"

	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// A visit is judged among those to its site and to all sites that somebody compares; among
// all where a site is given for all. What cannot be read and its own copy are left out.
func TestWhatIsComparedBesideAReference(t *testing.T) {
	at := func(id, site, reference string) *visit.Visit {
		return &visit.Visit{File: id, Header: visit.Header{ID: id, Site: site, Reference: reference}}
	}
	of := at("this", "Below the Works", "Upper Ford")
	files := map[string]*visit.Visit{"copy": at("this", "Below the Works", ""), "up": at("up", "upper  ford", ""),
		"pair": at("pair", "Mill Brook", "Otter Run"), "otter": at("otter", "Otter Run", ""), "far": at("far", "Tanyard Brook", "")}
	read := func(file string) (*visit.Visit, error) {
		if files[file] == nil {
			return nil, errors.New("damaged")
		}
		return files[file], nil
	}
	for _, row := range []struct {
		given, want string
		known       bool
	}{
		{"", "[this up pair otter]", false},
		{"tanyard brook", "[this up pair otter far]", true},
		{"Nowhere", "[this up pair otter far]", false},
	} {
		items, known := series.BesideReference(of, []string{"copy", "up", "broken", "pair", "otter", "far"}, row.given, read)
		var names []string
		for _, i := range items {
			names = append(names, i.Name)
		}
		if fmt.Sprint(names) != row.want || known != row.known {
			t.Errorf("%q: %v, %v, want %s", row.given, names, known, row.want)
		}
	}
}

// The place of a file has all rows of it, and none of another site.
func TestPlaceOfAFile(t *testing.T) {
	a, b := made("a", "Upper Ford", "2024-05-03", good...), made("b", "Upper Ford", "2025-05-03", good...)
	table := compareReference(t, "", a, made("c", "Mill Brook", "2024-05-03", good...), b)
	file := ""
	for _, r := range table.Rows {
		if r.Visit.ID == "b" {
			file = r.File
		}
	}
	place, rows := table.PlaceOf(file)
	if place == nil || place.Site != "Upper Ford" || len(rows) != 2 || rows[0].Visit.ID != "a" {
		t.Errorf("%+v %+v", place, rows)
	}
	if place, rows := table.PlaceOf("nowhere"); place != nil || rows != nil {
		t.Error(place, rows)
	}
}
