package scoring

import (
	"rillkey/scoring/account"
	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
)

// evidence is what a scheme works an index out from.
type evidence struct {
	account  *account.Account
	counting scheme.Counting
	samples  []visit.Taken     // those that somebody has looked through at least in part: one not yet sorted is no empty net
	rows     []account.Counted // every record as the scheme counts it
}

func (s grader) evidence(a *account.Account) evidence {
	return evidence{a, s.Counting(), looked(a.Tally.Samples), a.Rows(s.Counting())}
}

// recorded is every record as it was counted, nothing multiplied up.
func (s grader) recorded(a *account.Account) []account.Counted {
	return a.Rows(scheme.Counting{Kinds: s.KindSet})
}

func looked(samples []visit.Taken) (out []visit.Taken) {
	for _, s := range samples {
		if s.State != visit.NotSorted {
			out = append(out, s)
		}
	}
	return out
}

// distributions are those of the rows, in their order.
func (e evidence) distributions(rows []account.Counted) []chance.KindDistribution {
	out := make([]chance.KindDistribution, len(rows))
	for i, b := range rows {
		out[i] = chance.KindDistribution{Count: b.Animals, Outcomes: e.account.Outcomes(e.counting, b.BoundRecord)}
	}
	return out
}
