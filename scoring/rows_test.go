package scoring

import (
	"rillkey/scoring/account"
	"rillkey/scoring/visit"
)

// accountOf is the account of records without a visit.
func accountOf(r *Rules, records []visit.Record) *account.Account {
	return account.New(&visit.Visit{}, visit.Tally{Records: records}, r.catalog)
}

// graders are those of all schemes.
func graders(r *Rules) (all []grader) {
	for _, s := range r.Schemes() {
		all = append(all, grader{s})
	}
	return all
}

// rows are records as the scheme counts them.
func (s grader) rows(r *Rules, records []visit.Record) []account.Counted {
	return accountOf(r, records).Rows(s.Counting())
}
