package scoring

import (
	"fmt"
	"math"

	"rillkey/scoring/visit"
)

// scaled gives the tally as the scheme counts it: where it says so, the animals
// of a sample sorted in part are multiplied up to the whole and rounded half up
// to whole animals, of which one at least was there. What was or was not
// multiplied is always said.
func (s *Scheme) scaled(t visit.Tally) (out visit.Tally, remarks []string) {
	out = t
	parts := map[string]float64{}
	for _, taken := range t.Samples {
		if taken.Fraction <= 0 || taken.Fraction >= 1 {
			continue
		}
		parts[taken.Label] = taken.Fraction
		if s.Scaled {
			remarks = append(remarks, fmt.Sprintf("Of sample %s a share of %.3g was sorted; its counts are divided by that here, so they are estimates.", taken.Label, taken.Fraction))
		} else {
			remarks = append(remarks, fmt.Sprintf("Of sample %s a share of %.3g was sorted; this index takes its animals as counted, and kinds in the rest are missing.", taken.Label, taken.Fraction))
		}
	}
	if !s.Scaled || len(parts) == 0 {
		return t, remarks
	}
	out.Records = make([]visit.Record, len(t.Records))
	for i, rec := range t.Records {
		if f := parts[rec.Sample]; f > 0 {
			rec.Count = int(min(math.Floor(float64(rec.Count)/f+0.5), mostScaled))
		}
		out.Records[i] = rec
	}
	return out, remarks
}

// mostScaled bounds the animals of one record after scaling, so that no sum of
// them overflows.
const mostScaled = 1 << 30
