package scoring

import (
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// scalingRemarks say of samples that were sorted in part whether their animals
// are multiplied up to the whole.
func (s grader) scalingRemarks(samples []visit.Taken) (remarks []string) {
	for _, taken := range samples {
		if taken.Fraction <= 0 || taken.Fraction >= 1 {
			continue
		}
		if s.Scaled {
			remarks = append(remarks, wording.Sprintf(
				"Of sample %s a share of %.3g was sorted; its counts are divided by that here, so they are estimates.",
				taken.Label, taken.Fraction))
		} else {
			remarks = append(remarks, wording.Sprintf(
				"Of sample %s a share of %.3g was sorted; this index takes its animals as counted, and kinds in the rest "+
					"are missing.", taken.Label, taken.Fraction))
		}
	}
	return remarks
}
