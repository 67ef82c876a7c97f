package scheme

import (
	"math"
	"sort"
	"strconv"

	"rillkey/scoring/chance"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Scheme is one index: the kinds it counts, what each is worth, and the
// rating of the value.
type Scheme struct {
	ID         string
	Title      string
	Form       string // name of the formula, such as "presence"
	Source     string // the publication
	Status     string // how far the figures were confirmed there, one of Statuses
	Note       string
	BandSource string   // where the bands are from, if from elsewhere
	Scaled     bool     // counts of a sample of which only a part was sorted are multiplied up to the whole
	KindsAt    string   // rank of which every taxon of the catalog is a kind; empty where kinds are listed
	Floor      Floor    // what a value must rest on for a word
	ReadWith   string   // id of the scheme whose rating must be the same for a word; empty where the scheme stands by itself
	NotCounted []string // taxa that the publication leaves out on purpose
	Regions    []string // ids of the regions whose animals it was made for; empty where the file does not say
	KindsFrom  string   // id of the scheme whose groups and kinds it shares; empty for its own
	*KindSet
	Bands []Band // lowest first; none where no rating is published

	file       int // turn in the order of the files
	mark       func() string
	decimals   int // of the index's value
	lowIsClean bool
	formula    formula                       // with the weights that the file gives
	accrual    func() (chance.Accrual, bool) // takenApart, once
	weight     map[string]int64              // by group, in steps; nil where it depends on the count
}

// Band is a range of values with its rating.
type Band struct {
	Rating          string
	ListedAs        string // the word in the publication, where it is another
	Status          string // how far its edges were confirmed
	Lowest, Highest int64  // both inside, in steps of the last decimal
}

// Zone is a band as people read its edges.
type Zone struct {
	Rating          string
	Lowest, Highest float64 // both inside; +Inf where there is no upper edge
}

// Zones are the scheme's bands by value, lowest first.
func (s *Scheme) Zones() []Zone {
	out := make([]Zone, len(s.Bands))
	for i, b := range s.Bands {
		out[i] = Zone{b.Rating, s.Number(b.Lowest), s.Number(b.Highest)}
		if b.Highest == math.MaxInt64 {
			out[i].Highest = math.Inf(1)
		}
	}
	return out
}

// LowIsClean tells that low values mean clean water, as with mean tolerances.
func (s *Scheme) LowIsClean() bool { return s.lowIsClean }

// Unrated is the rating of every value of a scheme without bands.
const Unrated = "not rated"

// Statuses are the words that say how far a figure was confirmed.
var Statuses = []string{"confirmed", "confirmed, weak source", "corroborated", "differs", "inferred", "memory", "common practice"}

// One is the value 1 in steps.
func (s *Scheme) One() int64 { return int64(math.Round(math.Pow10(s.decimals))) }

// Number turns steps of the last decimal into the value people read.
func (s *Scheme) Number(steps int64) float64 {
	return float64(steps) / math.Pow10(s.decimals)
}

// Text writes a value with the decimals of the scheme, as the language in use writes numbers.
func (s *Scheme) Text(steps int64) string {
	return wording.Decimal(strconv.FormatFloat(s.Number(steps), 'f', s.decimals, 64))
}

// Plain writes a value without decimals that it does not need.
func (s *Scheme) Plain(steps int64) string {
	return plain.FormatFloat(s.Number(steps))
}

// Band is the band of a value. The bands cover every value from 0 up.
func (s *Scheme) Band(steps int64) Band {
	if len(s.Bands) == 0 {
		return Band{Rating: Unrated}
	}
	i := sort.Search(len(s.Bands), func(i int) bool { return s.Bands[i].Highest >= steps })
	return s.Bands[min(i, len(s.Bands)-1)]
}

// Counting is how a scheme counts: its kinds, and whether the animals of a sample
// that was sorted in part are multiplied up to the whole.
type Counting struct {
	Kinds  *KindSet
	Scaled bool
}

// Counting is how the scheme counts.
func (s *Scheme) Counting() Counting { return Counting{Kinds: s.KindSet, Scaled: s.Scaled} }
