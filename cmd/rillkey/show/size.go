package show

import (
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// LengthCheck is a length held against that of mature animals.
type LengthCheck struct {
	Length  float64    `json:"length_mm"`
	Mature  [2]float64 `json:"mature_mm"`
	Fits    bool       `json:"fits"`
	Remark  string     `json:"remark"`
	TooLong bool       `json:"too_long"`
}

// widest is how many times the shortest the longest of grown animals are at most, for a length
// between them to tell something: nearly all fit 3 to 300 mm.
const widest = 10

// size compares a length with the mature lengths of all that is possible, nil where that tells
// nothing. Young animals are smaller, so only one that is too long speaks against the name.
func size(catalog *taxa.Catalog, possible []string, length float64) *LengthCheck {
	all := matureRange(catalog, possible)
	if length <= 0 || !all.Known() {
		return nil
	}
	s := &LengthCheck{Length: length, Mature: [2]float64{all.Min, all.Max}, Fits: true}
	switch {
	case length > all.Max:
		s.Fits, s.TooLong = false, true
		s.Remark = wording.Sprintf("%s is longer than grown ones get (%s): look again, the name may be wrong",
			LengthWords(length), LengthRange(all))
	case length < all.Min:
		s.Remark = wording.Sprintf("%s is short of a grown one (%s): it may be young, which makes small parts harder to see",
			LengthWords(length), LengthRange(all))
	case all.Max > widest*all.Min:
		return nil
	default:
		s.Remark = wording.Sprintf("%s fits a grown one (%s)", LengthWords(length), LengthRange(all))
	}
	return s
}

func matureRange(catalog *taxa.Catalog, possible []string) taxa.Range {
	var all taxa.Range
	for _, id := range possible {
		r := catalog.Taxon(id).Length
		if !r.Known() {
			return taxa.Range{}
		}
		if !all.Known() || r.Min < all.Min {
			all.Min = r.Min
		}
		all.Max = max(all.Max, r.Max)
	}
	return all
}
