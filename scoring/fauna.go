package scoring

import (
	"fmt"
	"slices"
	"strings"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// mostUnheard is the share of the animals that a scheme may never have heard of
// and still have a word: common practice knows no figure, this one is ours.
const mostUnheard = 0.1

// strangers are the animals of a visit that a scheme, or the catalog, does not
// know.
type strangers struct {
	unheard, all int64     // animals of taxa that the scheme never heard of, of all that it might count
	left         []LeftOut // those left out for that
	unknown      []LeftOut // those whose names the catalog does not know
}

// strangers parts those left out who are known and do not count from those whom
// the scheme never heard of. Animals that no index scores are neither.
func (r *Rules) strangers(s grader, all sorted) (out strangers) {
	for _, f := range all.found {
		out.all += f.Count
	}
	for _, l := range all.left {
		if l.Why == scheme.WhyNotScored {
			continue
		}
		out.all += int64(l.Count)
		switch {
		case l.Why == scheme.WhyUnknownTaxon:
			out.unknown = append(out.unknown, l)
		case l.Why == scheme.WhyNotListed && r.unheard(s, l.Taxon):
			out.unheard += int64(l.Count)
			out.left = append(out.left, l)
		}
	}
	return out
}

// unheard tells that a taxon that the scheme does not list is not left out on
// purpose either. A set without a formal name, such as mayflies that lost their
// tails, is known where the taxon above it is.
func (r *Rules) unheard(s grader, taxon string) bool {
	if slices.ContainsFunc(s.NotCounted, func(up string) bool { return r.catalog.IsUnder(taxon, up) }) {
		return false
	}
	t := r.catalog.Taxon(taxon)
	for t != nil && t.Rank == taxa.Informal && t.Parent != "" {
		t = r.catalog.Taxon(t.Parent)
	}
	if t == nil || t.ID == taxon {
		return true
	}
	return s.Place(t.ID).Why == scheme.WhyNotListed
}

// foreign says why a scheme was made for other animals than these, or "".
func (r *Rules) foreign(s grader, x strangers, region string) string {
	if region != "" && len(s.Regions) > 0 && !slices.Contains(s.Regions, region) {
		return wording.Sprintf("the protocol's index was made for %s, and the visit is in %s", strings.Join(s.Regions, ", "), region)
	}
	lacking := 0
	for _, k := range s.Kinds {
		if !slices.ContainsFunc(k.Taxa, func(id string) bool { return r.catalog.Taxon(id) != nil }) {
			lacking++
		}
	}
	switch {
	case 2*lacking > len(s.Kinds):
		return wording.Sprintf("the protocol's index was made for another fauna: %d of its %d kinds are not in your animals",
			lacking, len(s.Kinds))
	case len(x.unknown) > 0:
		return wording.Sprintf("%s named with an id that the catalog does not know%s; grade the visit with the animals that it "+
			"was made with", areAnimals(x.unknown), which(x.unknown, scheme.WhyUnknownTaxon))
	case float64(x.unheard) > mostUnheard*float64(x.all):
		return wording.Sprintf("the protocol's index was made for another fauna: %d of %d animals are of kinds that it has "+
			"never heard of%s", x.unheard, x.all, which(x.left, scheme.WhyNotListed))
	}
	return ""
}

func areAnimals(left []LeftOut) string {
	n := 0
	for _, l := range left {
		n += l.Count
	}
	return fmt.Sprintf("%d %s", n, wording.Agree(n, "animal is", "animals are"))
}

// warning is what must be read before a grade, or "".
func (r *Rules) warning(s grader, of *account.Account) string {
	x := r.strangers(s, s.sort(s.recorded(of)))
	if said := r.foreign(s, x, of.Visit.Header.Region); said != "" || x.unheard == 0 {
		return said
	}
	return wording.Sprintf("the protocol's index has never heard of %d of %d animals and leaves them out%s", x.unheard, x.all,
		which(x.left, scheme.WhyNotListed))
}

// sentence is a reason by itself.
