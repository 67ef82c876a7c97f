package scoring

import (
	"rillkey/scoring/account"
	"rillkey/scoring/visit"
)

// accountOf is the account of records without a visit.
func accountOf(r *Rules, records []visit.Record) *account.Account {
	return account.New(&visit.Visit{}, visit.Tally{Records: records}, r.catalog)
}

// rows are records as the scheme counts them.
func (s *Scheme) rows(r *Rules, records []visit.Record) []account.Bound {
	return accountOf(r, records).In(s.Counting())
}
