package trial

import (
	"cmp"
	"math"
	"slices"

	"rillkey/key"
	"rillkey/taxa"
)

// Results is what a trial came to. All shares are 0 to 1.
type Results struct {
	Method    Method   `json:"method"`
	Specimens int      `json:"specimens"` // animals that the key leads to; the counts are of these alone
	Family    Accuracy `json:"family"`    // named to an end point of the key, or to a set of them that it cannot part
	Order     Accuracy `json:"order"`     // named to order or below, right in the order
	Class     Accuracy `json:"class"`     // given a tolerance class
	// Claimed is the mean probability of the names to an end point; it is to be held
	// against how many of them are right.
	Claimed float64 `json:"claimed"`
	// Accused is how many animals had a true answer called more likely misread than
	// not.
	Accused int `json:"accused"`
	// NeverNamed are the end points that met at least enoughMet people and were
	// rightly named by none.
	NeverNamed []string `json:"never_named"`
	// Strangers are the animals that the key does not lead to.
	Strangers Strangers `json:"strangers"`
	// Declined is how many were set aside without name or class.
	Declined      int     `json:"declined"`
	MeanQuestions float64 `json:"mean_questions"`
	P95Questions  int     `json:"p95_questions"`
	// Calibration is the probability of the likeliest end point against how often
	// it was right, in ten bins; ECE is the mean distance of the two, weighted by
	// the specimens in each bin (expected calibration error).
	Calibration []Bin   `json:"calibration"`
	ECE         float64 `json:"expected_calibration_error"`
	// OneHarmful counts the walks with exactly one harmful answer, one that
	// speaks against the animal's own kind; right are those where the answer most
	// suspect was that one.
	OneHarmful Accuracy `json:"one_harmful"`
	// Losses are the questions at which animals were lost, that were named wrong
	// or not to their end point: the first harmful answer of each.
	Losses []QuestionLoss `json:"losses"`
	// Confused are the end points named wrongly for one another; of a set that was
	// named wrongly, one of it.
	Confused []Pair `json:"confused"`
	// Unsettled are the end points between which it was left open most often: the
	// likeliest and the one after, in walks that did not reach an end point.
	Unsettled []Pair `json:"unsettled"`
}

// Strangers counts what became of animals that the key does not lead to.
type Strangers struct {
	Animals       int `json:"animals"`
	WrongEnd      int `json:"wrong_end"`      // named to an end point, or a set of them
	Twin          int `json:"named_for_twin"` // of these to one of their class that hardly anything parts from them without a lens
	WrongGroup    int `json:"wrong_group"`    // named to a group that does not hold it
	RightGroup    int `json:"right_group"`    // named to a group that does
	WrongClass    int `json:"wrong_class"`    // given a class of the indices that it does not have
	Chimeras      int `json:"chimeras"`       // of the animals those that no catalog holds
	WrongChimeras int `json:"wrong_chimeras"` // of these named to an end point
	// Named are those named to an end point: A is what they were, empty for what no
	// catalog holds, and B what they were named.
	Named []Pair `json:"named"`
}

// enoughMet is how many animals of a kind say something of whether it is ever named.
const enoughMet = 5

// Accuracy is how often something was given, and how often rightly.
type Accuracy struct {
	Given int `json:"given"`
	Right int `json:"right"`
}

// Share is the share of those given that were right, 0 to 1; 0 when none was.
func (c Accuracy) Share() float64 {
	if c.Given == 0 {
		return 0
	}
	return float64(c.Right) / float64(c.Given)
}

func (c *Accuracy) add(right bool) {
	c.Given++
	if right {
		c.Right++
	}
}

// Bin is the walks whose probability lies from Lowest up to Lowest + 0.1.
type Bin struct {
	Lowest  float64 `json:"from"`
	Walks   int     `json:"walks"`
	Claimed float64 `json:"claimed"` // mean probability
	Right   float64 `json:"right"`   // share that was right
}

// QuestionLoss is a question with the animals lost at it.
type QuestionLoss struct {
	Question string `json:"question"`
	Animals  int    `json:"animals"`
}

// Pair is two end points, and the animals it concerns. Of those confused, A is
// what they were and B what they were named; of those unsettled, A comes first
// in the alphabet.
type Pair struct {
	A       string `json:"a"`
	B       string `json:"b"`
	Animals int    `json:"animals"`
}

const bins = 10

func (s *Setup) report(outcomes []outcome) *Results {
	r := &Results{Method: s.Method, Calibration: make([]Bin, bins)}
	r.strangers(s, outcomes)
	outcomes = slices.DeleteFunc(outcomes, func(o outcome) bool { return o.stranger })
	if r.Specimens = len(outcomes); r.Specimens == 0 {
		return r
	}
	losses, pairs, open := map[string]int{}, map[[2]string]int{}, map[[2]string]int{}
	questions := make([]int, 0, len(outcomes))
	for _, o := range outcomes {
		r.tally(s.Key, o)
		r.calibrate(o)
		questions = append(questions, o.questions)
		r.MeanQuestions += float64(o.questions) / float64(len(outcomes))
		if !o.right && o.named != o.kind.ID && o.first != "" {
			losses[o.first]++
		}
		if o.end && !o.right {
			pairs[[2]string{o.kind.ID, o.instead}]++
		}
		if !o.end && o.rival != "" {
			open[[2]string{min(o.likeliest, o.rival), max(o.likeliest, o.rival)}]++
		}
	}
	slices.Sort(questions)
	r.NeverNamed = neverNamed(outcomes)
	r.P95Questions = questions[(len(questions)*95+99)/100-1]
	r.finish()
	r.Losses = sortedLosses(losses)
	r.Confused, r.Unsettled = sortedPairs(pairs), sortedPairs(open)
	return r
}

func (r *Results) tally(k *key.Key, o outcome) {
	if o.end {
		r.Family.add(o.right)
		r.Claimed += o.claimed
	}
	if o.accused {
		r.Accused++
	}
	if o.named != "" {
		r.Order.add(orderOf(k, o.named) == orderOf(k, o.kind.ID) || k.Catalog().IsUnder(o.kind.ID, o.named))
	}
	if o.class != "" {
		r.Class.add(o.class == o.kind.Class)
	}
	if o.named == "" && o.class == "" && !o.end {
		r.Declined++
	}
	if o.harmful == 1 {
		r.OneHarmful.add(o.blamed)
	}
}

// strangers counts those among the outcomes.
func (r *Results) strangers(s *Setup, outcomes []outcome) {
	named := map[[2]string]int{}
	for _, o := range outcomes {
		if !o.stranger {
			continue
		}
		before := r.Strangers.WrongEnd
		if r.Strangers.add(s.Key, o); r.Strangers.WrongEnd > before {
			is := ""
			if o.kind != nil {
				is = o.kind.ID
			}
			named[[2]string{is, o.instead}]++
		}
	}
	r.Strangers.Named = sortedPairs(named)
	r.Strangers.Twin = s.twins(r.Strangers.Named)
}

func (s *Strangers) add(k *key.Key, o outcome) {
	s.Animals++
	if o.kind == nil {
		s.Chimeras++
	}
	holds := o.kind != nil && o.named != "" && k.Catalog().IsUnder(o.kind.ID, o.named)
	switch {
	case o.end && !holds:
		s.WrongEnd++
		if o.kind == nil {
			s.WrongChimeras++
		}
	case o.named == "":
	case holds:
		s.RightGroup++
	default:
		s.WrongGroup++
	}
	if o.class != "" && o.class != taxa.NotScored && (o.kind == nil || o.class != o.kind.Class) {
		s.WrongClass++
	}
}

// neverNamed are the end points, in the order of the alphabet, of which enough
// animals were met and none was rightly named.
func neverNamed(outcomes []outcome) []string {
	met, named := map[string]int{}, map[string]bool{}
	for _, o := range outcomes {
		met[o.kind.ID]++
		named[o.kind.ID] = named[o.kind.ID] || o.right
	}
	var out []string
	for id, n := range met {
		if n >= enoughMet && !named[id] {
			out = append(out, id)
		}
	}
	slices.Sort(out)
	return out
}

// orderOf is the order of a taxon, or what stands highest above it below class
// rank where it belongs to none; else the taxon itself.
func orderOf(k *key.Key, id string) string {
	top := id
	for _, up := range k.Catalog().Ancestors(id) {
		if slices.Index(taxa.Ranks, up.Rank) >= slices.Index(taxa.Ranks, "order") {
			top = up.ID
		}
	}
	return top
}

func (r *Results) calibrate(o outcome) {
	if o.likeliest == "" {
		return
	}
	b := &r.Calibration[min(bins-1, int(o.likely*bins))]
	b.Walks++
	b.Claimed += o.likely
	if o.likeliest == o.kind.ID {
		b.Right++
	}
}

func (r *Results) finish() {
	if r.Family.Given > 0 {
		r.Claimed /= float64(r.Family.Given)
	}
	all := 0
	for i := range r.Calibration {
		b := &r.Calibration[i]
		b.Lowest = float64(i) / bins
		if b.Walks == 0 {
			continue
		}
		all += b.Walks
		r.ECE += math.Abs(b.Claimed - b.Right)
		b.Claimed /= float64(b.Walks)
		b.Right /= float64(b.Walks)
	}
	if all > 0 {
		r.ECE /= float64(all)
	}
}

func sortedLosses(of map[string]int) []QuestionLoss {
	var out []QuestionLoss
	for id, n := range of {
		out = append(out, QuestionLoss{id, n})
	}
	slices.SortFunc(out, func(a, b QuestionLoss) int {
		return cmp.Or(cmp.Compare(b.Animals, a.Animals), cmp.Compare(a.Question, b.Question))
	})
	return out
}

func sortedPairs(of map[[2]string]int) []Pair {
	var out []Pair
	for p, n := range of {
		out = append(out, Pair{p[0], p[1], n})
	}
	slices.SortFunc(out, func(a, b Pair) int {
		return cmp.Or(cmp.Compare(b.Animals, a.Animals), cmp.Compare(a.A, b.A), cmp.Compare(a.B, b.B))
	})
	return out
}
