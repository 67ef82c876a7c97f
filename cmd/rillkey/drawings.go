package main

import (
	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/question"
	"rillkey/key"
)

// drawings gives the atlas of an inquiry's key, made once for all creatures of a
// sitting.
func (a *app) drawings(q *key.Inquiry) question.Drawings {
	k := q.Model().Key()
	return func() *figure.Atlas {
		if a.atlas == nil {
			a.atlas = figure.NewAtlas(k.Catalog(), k.Couplets())
		}
		return a.atlas
	}
}
