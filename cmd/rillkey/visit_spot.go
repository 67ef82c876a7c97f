package main

import (
	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/units"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// spot reads where the site is on the map; nil when nobody says.
func spotAt(at, within string) (*visit.Spot, error) {
	if at == "" {
		if within != "" {
			return nil, misused("--within belongs to a place; give it with --at, as 44.12,-72.98")
		}
		return nil, nil
	}
	s := &visit.Spot{}
	var err error
	if s.Latitude, s.Longitude, err = placeTyped(at); err != nil {
		return nil, misused("--at: %w", err)
	}
	return s, readOptional("within", within, units.Metres, &s.Uncertainty)
}

// placeTyped are the latitude and longitude that somebody typed.
func placeTyped(s string) (latitude, longitude float64, err error) {
	latitude, longitude, ok := units.Coordinates(s)
	if !ok {
		err = wording.Errorf("%s is no place; give latitude and longitude in decimal degrees, as 44.12,-72.98", plain.Quote(s))
	}
	return latitude, longitude, err
}

// isPlace says what is wrong with a place that was typed.
func isPlace(s string) error {
	_, _, err := placeTyped(s)
	return err
}

// askObscured asks, where a place was entered and people are asked anyway, whether
// others may have it exactly.
func (c *console) askObscured(f *beginFlags, given func(string) bool) error {
	if f.position == "" || given("at") || given("obscured") || given("site") {
		return nil
	}
	answers, err := c.ask(ask.Field{Key: "obscured", Title: wording.Text("Keep the exact place from others?"), Confirm: true,
		Help: wording.Text("Yes where a species there is sensitive: others then get it to a tenth of a degree, without its name.")})
	if err != nil {
		return err
	}
	f.obscured = answers.Yes("obscured")
	return nil
}
