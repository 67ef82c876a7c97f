package main

import (
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/taxa"
)

// checkName asks whether a creature is what a name says. Nothing is added to a
// visit: an animal that is looked at again has been counted already.
func checkName(a *app, m *key.Model, f identifyFlags, o key.Options, length float64) error {
	switch {
	case f.check == "":
		return misused("--list goes with --check, such as --check stonefly")
	case f.record.used():
		return misused("--check adds nothing to a visit, so --count, --sample, --cell, --who and --note have no meaning with it")
	}
	taxon, err := a.taxonNamed(m.Key().Catalog(), f.check)
	if err != nil {
		return err
	}
	if f.list {
		return listProof(a, m, taxon, o)
	}
	s := &session{app: a, flags: f, asked: asked{begin: func() (*key.Inquiry, error) {
		q, err := m.Check(taxon.ID, o)
		if err != nil {
			return nil, misused("--check: %w", err)
		}
		return q, nil
	}}}
	return s.run(length)
}

// listProof lists the features that settle a name.
func listProof(a *app, m *key.Model, taxon *taxa.Taxon, o key.Options) error {
	features, settled, err := m.Proof(taxon.ID, o)
	if err != nil {
		return misused("--check: %w", err)
	}
	p := show.NewProof(taxon, features, settled)
	if a.json {
		err = show.JSON(a.stdout, p)
	} else if err = a.drawAbove(m.Key().Catalog(), taxon); err == nil {
		err = p.Text(a.stdout, a.width)
	}
	if err == nil && !settled {
		return cannotSay
	}
	return err
}
