package main

import (
	"rillkey/scoring"
	"rillkey/scoring/account"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// opened is the visit meant with all that it is judged by.
type opened struct {
	catalog *taxa.Catalog
	rules   *scoring.Rules
	visit   *visit.Visit
	account *account.Account
}

// openVisit reads the visit meant, the taxa and the rules, each once.
func openVisit(a *app) (o opened, err error) {
	if o.visit, err = a.readVisit(); err != nil {
		return o, err
	}
	a.follow(o.visit)
	if o.catalog, o.rules, err = a.catalogAndRules(); err != nil {
		return o, err
	}
	o.account = o.rules.Account(o.visit)
	return o, nil
}
