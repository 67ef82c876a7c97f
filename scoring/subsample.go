package scoring

import (
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// scalingRemarks say, of all samples that were sorted in part at once, whether their
// animals are multiplied up to the whole.
func (s grader) scalingRemarks(samples []visit.Taken) []string {
	var parts []string
	for _, taken := range samples {
		if taken.Fraction > 0 && taken.Fraction < 1 {
			parts = append(parts, wording.Sprintf("a share of %.3g of sample %s", taken.Fraction, taken.Label))
		}
	}
	switch {
	case len(parts) == 0:
		return nil
	case s.Scaled:
		return []string{wording.Sprintf("Not all was sorted: only %s. The counts are divided by that here, so they are estimates.",
			plain.And(parts))}
	}
	return []string{wording.Sprintf("Not all was sorted: only %s. This index takes the animals as counted, and kinds in the rest "+
		"are missing.", plain.And(parts))}
}
