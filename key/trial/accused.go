package trial

import "rillkey/key"

// What people are told of answers that may be misread (packages question and
// show): just after an answer, if that one is more likely misread than not and
// many more kinds are possible than before; at the end, of the one most suspect, if
// it is more likely misread than not.
const (
	likelyMisread = 0.5
	muchMore      = 1.25
)

// accuser follows what people are told of their answers.
type accuser struct {
	q        *key.Inquiry
	possible int
}

func accusing(q *key.Inquiry) accuser { return accuser{q, len(q.Possible())} }

// last is the last answer, if it was just called misread; else nil.
func (a *accuser) last() *key.Given {
	before := a.possible
	a.possible = len(a.q.Possible())
	if float64(a.possible) <= muchMore*float64(before) {
		return nil
	}
	given := a.q.Given()
	if all := a.q.Suspects(); len(all) > 0 && all[0].Given == len(given)-1 && all[0].Probability > likelyMisread {
		return &given[len(given)-1]
	}
	return nil
}

// atTheEnd is the answer that is called misread when all is said, or nil.
func (a *accuser) atTheEnd() *key.Given {
	if all := a.q.Suspects(); len(all) > 0 && all[0].Probability > likelyMisread {
		return &a.q.Given()[all[0].Given]
	}
	return nil
}
