package series

import (
	"slices"

	"rillkey/scoring/scheme"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Baseline is what a site holds at one time of year, by its earlier visits with the
// same effort, and what of it the newest visit did not find.
type Baseline struct {
	Earlier         int           `json:"earlier"`          // visits that say what is usual
	Expected        float64       `json:"expected"`         // of the kinds that half or more held, how many a further visit would find
	Found           int           `json:"found"`            // and how many the newest found
	Missing         []MissingKind `json:"missing"`          // those it did not find, the most usual first
	OtherConditions []string      `json:"unlike,omitempty"` // in what the newest visit met other water or weather than most before
}

// MissingKind is a kind that was not found.
type MissingKind struct {
	Kind string `json:"kind"` // label
	Held int    `json:"held"` // earlier visits that held it
}

// usual is nil for fewer than fewestBefore earlier visits. A kind held by h of n
// visits is expected in the next with a chance of (h + 1/2)/(n + 1), the mean of a
// Beta distribution after Jeffreys's prior (Gelman and others, Bayesian Data
// Analysis, from memory). Expected against found, for the kinds that are more
// likely there than not, is how RIVPACS compares (Wright and others 2000, from
// memory); here the site is its own reference.
func usual(all []observed, rows []Row, s *scheme.Scheme) *Baseline {
	all = atTheTimeOfTheLast(all)
	if len(all) <= fewestBefore || s == nil {
		return nil
	}
	held := make([]int, len(s.Kinds))
	u := &Baseline{Earlier: len(all) - 1, Missing: []MissingKind{}}
	for _, o := range all[:u.Earlier] {
		for _, k := range rows[o.row].Kinds {
			held[k]++
		}
	}
	u.OtherConditions = unlikeUsual(all, 1, rows)
	now := rows[all[u.Earlier].row].Kinds
	for k, h := range held {
		if 2*h < u.Earlier || h == 0 {
			continue
		}
		u.Expected += (float64(h) + 0.5) / (float64(u.Earlier) + 1)
		if slices.Contains(now, uint16(k)) {
			u.Found++
		} else {
			u.Missing = append(u.Missing, MissingKind{s.Kinds[k].Label, h})
		}
	}
	slices.SortStableFunc(u.Missing, func(a, b MissingKind) int { return b.Held - a.Held })
	return u
}

// words is one sentence.
func (u *Baseline) words() string {
	if u.Expected == 0 {
		return wording.Sprintf("No kind was held by at least half of %d earlier visits at this time of year.", u.Earlier)
	}
	said := wording.Sprintf("Of the kinds that at least half of %d earlier visits at this time of year held, %.1f were to be "+
		"expected and %s found", u.Earlier, u.Expected, plain.CountOf(u.Found, "was", "were"))
	if len(u.Missing) == 0 {
		return said + "."
	}
	var names []string
	for _, m := range u.Missing[:min(len(u.Missing), mostNamed)] {
		names = append(names, wording.Sprintf("%s (held by %d)", m.Kind, m.Held))
	}
	if more := len(u.Missing) - mostNamed; more > 0 {
		names = append(names, wording.Sprintf("%d more", more))
	}
	return wording.Sprintf("%s; not %s.", said, plain.And(names))
}

// mostNamed bounds the missing kinds that a sentence names.
const mostNamed = 5
