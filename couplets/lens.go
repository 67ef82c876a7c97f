package couplets

import (
	"fmt"

	"rillkey/taxa"
	"rillkey/taxa/authored"
)

// lensSets checks that people without a lens have a name to stop at.
func (c *checker) lensSets() {
	for _, set := range c.file.LensSets {
		for i, id := range set.Taxa {
			if id == set.Without || !c.catalog.IsUnder(id, set.Without) {
				c.fail(set.taxaAt[i], "bad-lens-set", fmt.Sprintf("%s does not belong to %s, where people without a lens would stop", authored.Quote(id), authored.Quote(set.Without)), "")
			}
		}
	}
}

// Warnings are what is worth heeding in a sound key without making it wrong:
// pairs of end points that nothing seen without a lens tells apart for certain
// and that no lens set names, and lens sets that need no lens.
func Warnings(s *Sound, catalog *taxa.Catalog) authored.Findings {
	var report authored.Report
	named := map[[2]string]bool{}
	for _, set := range s.LensSets {
		for i, a := range set.Taxa {
			for _, b := range set.Taxa[:i] {
				named[[2]string{a, b}], named[[2]string{b, a}] = true, true
				if toldByEye(catalog, a, b) {
					report.Add(set.taxaAt[i], "needless-lens", fmt.Sprintf("%s and %s can be told apart without a lens", authored.Quote(b), authored.Quote(a)), "take one of them out of the set")
				}
			}
		}
	}
	for i, a := range s.Ends {
		for _, b := range s.Ends[:i] {
			if !named[[2]string{a.ID, b.ID}] && !toldByEye(catalog, a.ID, b.ID) {
				report.Add(s.leadTo(a.ID), "lens-pair", fmt.Sprintf("without a lens nothing tells %s from %s for certain", authored.Quote(a.ID), authored.Quote(b.ID)), fmt.Sprintf("give them a trait that the eye tells apart, or add [lens.%s-%s]", b.ID, a.ID))
			}
		}
	}
	return report.Findings()
}

func toldByEye(catalog *taxa.Catalog, a, b string) bool {
	apart := catalog.TellApart(catalog.Taxon(a), catalog.Taxon(b))
	return len(apart) > 0 && apart[0].Look != taxa.Lens
}

// leadTo is where the first lead goes to an end point.
func (s *Sound) leadTo(end string) authored.Pos {
	for i := range s.Couplets {
		for _, l := range s.Couplets[i].Leads {
			if l.Taxon == end {
				return l.target
			}
		}
	}
	return s.startAt
}
