package scoring

import (
	"math"
	"slices"
	"sort"
	"strconv"

	"rillkey/taxa"
)

// Scheme is one index: the kinds it counts, what each is worth, and the
// rating of the sum.
type Scheme struct {
	ID     string
	Title  string
	Form   string // name of the formula, such as "presence"
	Source string // the publication
	Status string // how far the figures were confirmed there, one of Statuses
	Note   string
	Groups []Group
	Kinds  []Kind
	Bands  []Band // lowest first

	decimals int            // of the index's value
	formula  formula        // with the weights that the file gives
	byTaxon  map[string]int // listed taxon to its kind
}

// Group is a set of kinds that tolerate about the same.
type Group struct {
	ID, Label string
}

// Kind is what counts once in a scheme, however many of its taxa were found.
type Kind struct {
	ID, Label string
	Group     string   // id of its group
	Taxa      []string // ids; what lies below them belongs to the kind as well
	Status    string   // how far its place in the group was confirmed
}

// Band is a range of values with its rating.
type Band struct {
	Rating   string
	from, to int64 // both inside, in steps of the last decimal
}

// Statuses are the words that say how far a figure was confirmed.
var Statuses = []string{"confirmed", "corroborated", "differs", "inferred", "memory", "common practice"}

// number turns steps of the last decimal into the value people read.
func (s *Scheme) number(steps int64) float64 {
	return float64(steps) / math.Pow10(s.decimals)
}

// text writes a value with the decimals of the scheme.
func (s *Scheme) text(steps int64) string {
	return strconv.FormatFloat(s.number(steps), 'f', s.decimals, 64)
}

// rating is the word for a value. The bands cover every value from 0 up.
func (s *Scheme) rating(steps int64) string {
	i := sort.Search(len(s.Bands), func(i int) bool { return s.Bands[i].to >= steps })
	return s.Bands[min(i, len(s.Bands)-1)].Rating
}

func (s *Scheme) group(id string) (Group, int) {
	i := slices.IndexFunc(s.Groups, func(g Group) bool { return g.ID == id })
	if i < 0 {
		return Group{}, i
	}
	return s.Groups[i], i
}

// place finds the kind a taxon belongs to: that of the nearest listed taxon
// at or above it, -1 if there is none. Where taxa below it are listed for
// other kinds, its kind is open and all that it may be are returned.
func (s *Scheme) place(cat *taxa.Catalog, taxon string) (kind int, open []int) {
	kind = -1
	if k, ok := s.byTaxon[taxon]; ok {
		kind = k
	} else {
		for _, up := range cat.Ancestors(taxon) {
			if k, ok := s.byTaxon[up.ID]; ok {
				kind = k
				break
			}
		}
	}
	for listed, k := range s.byTaxon {
		if k != kind && cat.IsUnder(listed, taxon) && !slices.Contains(open, k) {
			open = append(open, k)
		}
	}
	if len(open) > 0 && kind >= 0 {
		open = append(open, kind)
	}
	slices.Sort(open)
	return kind, open
}
