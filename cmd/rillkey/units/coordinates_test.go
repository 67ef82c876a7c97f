package units_test

import (
	"testing"

	"rillkey/cmd/rillkey/units"
)

// A place is read as people on either side of a decimal comma write it, and what may mean
// two places is none.
func TestCoordinates(t *testing.T) {
	for _, row := range []struct {
		why, typed          string
		latitude, longitude float64
		ok                  bool
	}{
		{"as a map gives it", "44.12,-72.98", 44.12, -72.98, true},
		{"with a blank", "44.12, -72.98", 44.12, -72.98, true},
		{"a blank alone", "44.12 -72.98", 44.12, -72.98, true},
		{"a semicolon", "44.12; -72.98", 44.12, -72.98, true},
		{"decimal commas and a blank", "44,12 -72,98", 44.12, -72.98, true},
		{"decimal commas alone", "44,12,-72,98", 44.12, -72.98, true},
		{"whole degrees", "44,-72", 44, -72, true},
		{"the poles and the date line", "-90,180", -90, 180, true},
		{"three commas that part nothing", "44,12,-72", 0, 0, false},
		{"beyond the pole", "90.1,0", 0, 0, false},
		{"beyond the date line", "0,180.5", 0, 0, false},
		{"one number", "44.12", 0, 0, false},
		{"three numbers", "44.12 -72.98 300", 0, 0, false},
		{"words", "north,west", 0, 0, false},
		{"no number", "NaN,NaN", 0, 0, false},
		{"nothing", "", 0, 0, false},
	} {
		latitude, longitude, ok := units.Coordinates(row.typed)
		if latitude != row.latitude || longitude != row.longitude || ok != row.ok {
			t.Errorf("%s: %q is %v, %v, %v, not %v, %v, %v", row.why, row.typed, latitude, longitude, ok,
				row.latitude, row.longitude, row.ok)
		}
	}
}
