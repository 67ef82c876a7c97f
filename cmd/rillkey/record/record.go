// Package record makes the entry of a visit's file from what an inquiry came to:
// the one place where the key's answer becomes the visit's event.
package record

import (
	"rillkey/key"
	"rillkey/scoring/visit"
)

// FromInquiry is the identification of so many animals of a sample, with all that the file
// keeps of how they were named. length is theirs in mm, 0 where it was not measured.
func FromInquiry(q *key.Inquiry, sample string, count int, length float64) visit.Identification {
	k := q.Kept()
	body := visit.Identification{
		Sample: sample, Taxon: k.Taxon, Rank: k.Rank, Count: count, Confidence: k.Probability,
		Path: k.Path, Possible: k.Possible, Undecided: k.Taxon == "", Length: length,
		FitsHalf: k.FitsHalf, FitsTwice: k.FitsTwice,
	}
	for _, o := range k.Others {
		body.Also = append(body.Also, visit.Chance{Taxon: o.Taxon, Probability: o.Probability})
	}
	return body
}
