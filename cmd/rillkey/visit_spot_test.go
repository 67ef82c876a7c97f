package main

import "testing"

// A comma stands between latitude and longitude, or is a decimal sign in each.
func TestPlacesAsPeopleWriteThem(t *testing.T) {
	for _, at := range []string{"44.12,-72.98", "44.12, -72.98", "44.12 -72.98", " 44.12 ; -72.98 ", "44,12 -72,98", "44,12, -72,98",
		"44,12; -72,98", "44,12,-72,98", "+44.12,-72.98"} {
		if s, err := spotAt(at, ""); err != nil || s.Latitude != 44.12 || s.Longitude != -72.98 {
			t.Errorf("%q: %+v, %v", at, s, err)
		}
	}
	for _, at := range []string{"44", "44.12", "44,12,-72", "44,12,5 -72", "44.12 -72.98 3", "91,0", "0,181", "NaN,1", "Inf,1", "1,", ",1",
		",", "44,1,2,3,4", "north,west"} {
		if s, err := spotAt(at, ""); err == nil {
			t.Errorf("%q is taken for %+v", at, s)
		}
	}
	if s, err := spotAt("44,12", ""); err != nil || s.Latitude != 44 || s.Longitude != 12 {
		t.Errorf("%+v, %v", s, err)
	}
}
