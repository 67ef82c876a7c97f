package visit

import "math"

// Spot is where a visit was on the map: WGS 84 decimal degrees.
type Spot struct {
	Latitude    float64 `json:"latitude"`                // -90 to 90, north positive
	Longitude   float64 `json:"longitude"`               // -180 to 180, east positive
	Uncertainty float64 `json:"uncertainty_m,omitempty"` // metres around the point; 0 when not stated
}

// maxUncertainty bounds a Spot's Uncertainty, in metres: half the way round the
// earth.
const maxUncertainty = 20_037_509

func (c *check) spot(s *Spot) {
	if s == nil {
		return
	}
	c.inRange("latitude", s.Latitude, -90, 90, " degrees")
	c.inRange("longitude", s.Longitude, -180, 180, " degrees")
	c.inRange("uncertainty", s.Uncertainty, 0, maxUncertainty, " metres")
}

// obscuring is the grid, in degrees, to which an obscured place is rounded
// (common practice in sharing records of sensitive species).
const obscuring = 0.1

// metresPerDegree is the length of a degree along a meridian: the metre was
// made so that a quarter of one measures ten million.
const metresPerDegree = 10_000_000 / 90.0

// Blurred is an obscured place as it may be given to others: rounded to a tenth
// of a degree, with what that adds to the uncertainty.
func (s Spot) Blurred() Spot {
	half := obscuring / 2 * metresPerDegree
	aside := half * math.Cos(s.Latitude*math.Pi/180)
	s.Latitude = math.Round(s.Latitude*10) / 10
	s.Longitude = math.Round(s.Longitude*10) / 10
	s.Uncertainty = min(maxUncertainty, math.Ceil(s.Uncertainty+math.Hypot(half, aside)))
	return s
}
