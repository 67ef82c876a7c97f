package show

import (
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/key"
)

// DoubtJSON is an answer that may have been misread.
type DoubtJSON struct {
	Answer  string  `json:"answer"` // as in the path: "4a", "tails=2"
	Trait   string  `json:"trait"`  // several with commas
	Seen    string  `json:"seen"`
	Misread float64 `json:"misread"` // probability that it is wrong, given all answers
}

// Of the answers that may have been misread only so many are named, and none
// below this probability.
const (
	mostDoubts  = 3
	doubtsAbove = 0.01
	worthAWord  = 0.5 // in words for people only the first, if it is more likely wrong than right
)

func doubts(q *key.Inquiry) []DoubtJSON {
	out := []DoubtJSON{}
	vocabulary, given := q.Model().Key().Catalog().Vocabulary(), q.Given()
	for _, s := range q.Suspects() {
		if len(out) == mostDoubts || s.Probability < doubtsAbove || s.Again {
			break
		}
		says := given[s.Given].Says
		out = append(out, DoubtJSON{s.Answer, traitIDs(says), findings(vocabulary, says, TraitStates), round(s.Probability)})
	}
	return out
}

func traitIDs(says []couplets.Condition) string {
	var ids []string
	for _, c := range says {
		if !slices.Contains(ids, c.Trait) {
			ids = append(ids, c.Trait)
		}
	}
	return strings.Join(ids, ", ")
}
