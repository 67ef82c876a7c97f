package account

import (
	"slices"

	"rillkey/scoring/visit"
)

// UnknownTaxon stands for whatever taxon in a belief: the chance that the name is
// wrong and nothing says what it is instead.
const UnknownTaxon = ""

// Belief is what a record says its animals are: taxa with chances that sum to 1.
// All animals of a record were held to be alike, so all are what one of them is.
//
// A record that gives chances for other taxa leaves the rest to its name. One
// that gives only how sure its name is leaves the rest, in equal parts, to the
// taxa that it could not exclude and that are not its name more closely or more
// broadly; without any, to those that the catalog says the name is taken for;
// without any, to Unknown, which no index counts. One that states nothing, and
// one that is wholly sure, is taken at its word. Undecided animals may be, in
// equal parts, whatever was not excluded. Second looks are joined to it.
//
// Where the fauna is known, that is only what the record says by itself, and the
// belief is what it says together with all others of the visit.
func (a *Account) Belief(r *BoundRecord) []visit.Chance {
	if known, ok := a.beliefs[r]; ok {
		return known
	}
	var b []visit.Chance
	if j := a.together(); j != nil {
		b = j.chances(r.place)
	} else {
		b = a.belief(r.Record)
	}
	a.beliefs[r] = b
	return b
}

func (a *Account) belief(rec visit.Record) []visit.Chance {
	b := a.firstBelief(rec)
	for _, look := range rec.Looks {
		b = a.lookedAgain(b, look)
	}
	return b
}

func (a *Account) firstBelief(rec visit.Record) []visit.Chance {
	also, rest := shares(rec.Also)
	named := rec.Taxon != "" && !rec.Undecided
	switch {
	case named && (rec.Confidence >= 1 || rec.Confidence == 0 && len(also) == 0):
		return []visit.Chance{{Taxon: rec.Taxon, Probability: 1}}
	case named && len(also) > 0:
		return gather(append([]visit.Chance{{Taxon: rec.Taxon, Probability: rest}}, also...))
	case named:
		return spread([]visit.Chance{{Taxon: rec.Taxon, Probability: rec.Confidence}}, a.rivals(rec), 1-rec.Confidence)
	}
	return spread(also, namesWithout(rec.Possible, also), rest)
}

// shares are the chances given, without what they leave of 1. Some that sum to
// more than 1, as a file changed by hand may hold, are scaled down to 1.
func shares(given []visit.Chance) (also []visit.Chance, rest float64) {
	sum := 0.0
	for _, c := range given {
		if c.Probability > 0 {
			also = append(also, c)
			sum += c.Probability
		}
	}
	if sum <= 1 {
		return also, 1 - sum
	}
	for i := range also {
		also[i].Probability /= sum
	}
	return also, 0
}

// Overdrawn reports whether the chances of a record sum to more than 1, beyond the
// rounding of what is written.
func (r *BoundRecord) Overdrawn() bool {
	sum := 0.0
	for _, c := range r.Also {
		sum += c.Probability
	}
	return sum > 1.001
}

func (a *Account) rivals(rec visit.Record) []string {
	apart := func(id string) bool {
		return id != rec.Taxon && !a.catalog.IsUnder(id, rec.Taxon) && !a.catalog.IsUnder(rec.Taxon, id)
	}
	out := slices.DeleteFunc(slices.Clone(rec.Possible), func(id string) bool { return !apart(id) })
	for t := a.catalog.Taxon(rec.Taxon); t != nil && len(out) == 0; t = a.catalog.Taxon(t.Parent) {
		for _, m := range t.Mistaken {
			if apart(m.Taxon) {
				out = append(out, m.Taxon)
			}
		}
	}
	return out
}

func namesWithout(ids []string, also []visit.Chance) []string {
	return slices.DeleteFunc(slices.Clone(ids), func(id string) bool {
		return slices.ContainsFunc(also, func(c visit.Chance) bool { return c.Taxon == id })
	})
}

// spread adds the taxa with equal parts of what is left.
func spread(b []visit.Chance, taxa []string, left float64) []visit.Chance {
	if left <= 0 {
		return gather(b)
	}
	if len(taxa) == 0 {
		taxa = []string{UnknownTaxon}
	}
	for _, id := range taxa {
		b = append(b, visit.Chance{Taxon: id, Probability: left / float64(len(taxa))})
	}
	return gather(b)
}

// gather adds up what is named twice, in the order of first mention, and drops
// what cannot be.
func gather(b []visit.Chance) (out []visit.Chance) {
	for _, c := range b {
		if c.Probability <= 0 {
			continue
		}
		if i := indexOf(out, c.Taxon); i >= 0 {
			out[i].Probability += c.Probability
		} else {
			out = append(out, c)
		}
	}
	return out
}

func indexOf(b []visit.Chance, taxon string) int {
	return slices.IndexFunc(b, func(c visit.Chance) bool { return c.Taxon == taxon })
}

// lookedAgain joins a second, independent identification to a belief: each taxon
// is weighed by the chance that the second person would give the name she gave
// if it were that taxon, errors falling on all others alike (Bayes' rule). A
// closer and a broader name of one animal agree. A name that nobody had thought
// of before shares the belief by half. Whoever did not say how sure she was
// changes no chances, nor does a look after which it was settled which name counts.
func (a *Account) lookedAgain(b []visit.Chance, look visit.LookedAgain) []visit.Chance {
	if look.Settled || look.Undecided || look.Taxon == "" || look.Confidence <= 0 || len(b) == 0 {
		return b
	}
	sure, others := min(look.Confidence, 0.999), 0
	for _, c := range b {
		if !a.agree(c.Taxon, look.Taxon) {
			others++
		}
	}
	out := make([]visit.Chance, 0, len(b)+1)
	if others == len(b) {
		for _, c := range b {
			out = append(out, visit.Chance{Taxon: c.Taxon, Probability: c.Probability / 2})
		}
		return append(out, visit.Chance{Taxon: look.Taxon, Probability: 0.5})
	}
	sum := 0.0
	for _, c := range b {
		w := sure
		if !a.agree(c.Taxon, look.Taxon) {
			w = (1 - sure) / float64(others)
		}
		out = append(out, visit.Chance{Taxon: c.Taxon, Probability: c.Probability * w})
		sum += c.Probability * w
	}
	for i := range out {
		out[i].Probability /= sum
	}
	return out
}

// agree reports whether two names may both be right: they are one, or one is
// broader than the other.
func (a *Account) agree(one, other string) bool {
	return one == other || a.catalog.IsUnder(one, other) || a.catalog.IsUnder(other, one)
}
