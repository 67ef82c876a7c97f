package couplets

import (
	"errors"
	"slices"

	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// causes are the findings from which others follow: a misspelt state makes gaps
// and contradictions wherever its animals are missed. What follows is folded
// beneath its cause. All numbers are places in the report; a missing entry means
// that nothing is wrong.
type causes struct {
	vague   map[*Lead]int // leads whose states are not known
	astray  map[*Lead]int // leads whose goal is not known
	lacking []int         // by couplet: why not all that is meant to be beneath it is; -1 where it is
}

func newCauses(f *File) causes {
	c := causes{vague: map[*Lead]int{}, astray: map[*Lead]int{}}
	for _, l := range f.Leads() {
		if l.vague > 0 {
			c.vague[l] = l.vague - 1
		}
		if l.astray > 0 {
			c.astray[l] = l.astray - 1
		}
	}
	return c
}

// findLacking finds the couplets beneath which animals are missed because a lead
// there, or further down, goes nowhere known.
func (c *checker) findLacking() {
	c.causes.lacking = make([]int, len(c.file.Couplets))
	for i := range c.file.Couplets {
		c.causes.lacking[i] = c.file.Couplets[i].short - 1
	}
	for _, i := range slices.Backward(c.topdown) {
		leads := c.file.Couplets[i].Leads
		for j := range leads {
			if c.causes.lacking[i] < 0 {
				c.causes.lacking[i] = c.goalOf(&leads[j])
			}
		}
	}
}

// goalOf is why animals beneath a lead are missed, or -1.
func (c *checker) goalOf(l *Lead) int {
	if why, ok := c.causes.astray[l]; ok {
		return why
	}
	if next, ok := c.index[l.Next]; ok {
		return c.causes.lacking[next]
	}
	return -1
}

// whyGap is why a couplet may miss animals for no fault of its own, or -1.
func (c *checker) whyGap(couplet *Couplet) int {
	if why := c.causes.lacking[c.index[couplet.ID]]; why >= 0 {
		return why
	}
	for j := range couplet.Leads {
		if why := c.causes.whyVague(&couplet.Leads[j]); why >= 0 {
			return why
		}
	}
	return -1
}

// whyVague is why the states of the first of some leads that has such are not known, or -1.
func (c causes) whyVague(leads ...*Lead) int {
	for _, l := range leads {
		if why, vague := c.vague[l]; vague {
			return why
		}
	}
	return -1
}

// firstAstray is why the first lead in the file that goes nowhere known does so,
// or is not there at all; -1 where there is none.
func (c *checker) firstAstray() int {
	for i := range c.file.Couplets {
		if why := c.file.Couplets[i].short - 1; why >= 0 {
			return why
		}
		for j := range c.file.Couplets[i].Leads {
			if why, ok := c.causes.astray[&c.file.Couplets[i].Leads[j]]; ok {
				return why
			}
		}
	}
	return -1
}

// firstOf is the place in the report of the first finding of a rule, or -1.
func (c *checker) firstOf(rule string) int {
	return slices.IndexFunc(c.report.All(), func(f authored.Finding) bool { return f.Rule == rule })
}

// follows reports what may be wrong by itself, or only because of another
// finding, whose place in the report is why; -1 for none.
func (c *checker) follows(why int, p authored.Pos, rule, message, hint string) {
	if why < 0 {
		c.fail(p, rule, message, hint)
		return
	}
	c.report.Fold(why, authored.Finding{Pos: p, Rule: rule, Message: message, Hint: hint})
}

// The shares from which on a key is taken to be written for another catalog.
const (
	foreignShare = 0.5 // of the names it uses, or of its end points
	foreignNames = 3
)

// foreign reports in one finding that a key was written for other animals or
// other traits than those of the catalog, and whether it was.
func (c *checker) foreign() bool {
	ends, unknownEnds, first := c.names(func(l *Lead, see func(string, authored.Pos)) {
		for i, id := range l.Taxa {
			see(id, l.TaxaPos[i])
		}
	}, func(id string) bool { return c.catalog.Taxon(id) != nil })
	traits, unknownTraits, _ := c.names(func(l *Lead, see func(string, authored.Pos)) {
		for _, cond := range l.Conditions {
			see(cond.Trait, cond.Pos)
		}
	}, func(id string) bool { return c.catalog.Vocabulary().Trait(id) != nil })
	most := func(unknown, all int) bool {
		return unknown >= foreignNames && float64(unknown) > foreignShare*float64(all)
	}
	if unknownEnds == 0 || !most(unknownEnds, ends) && !most(unknownEnds+unknownTraits, ends+traits) {
		return false
	}
	c.report = authored.Report{}
	c.report.Add(first, otherCatalog,
		wording.Sprintf("this key was made for other animals: %d of the %d that it ends in are not in this catalog", unknownEnds,
			ends), wording.Text("use it together with its own animals"))
	return true
}

// ForOtherAnimals reports whether an error of reading a key says that it was made for
// other animals than those of the catalog, and so nothing else of it.
func ForOtherAnimals(err error) bool {
	var found authored.Findings
	return errors.As(err, &found) && len(found) == 1 && found[0].Rule == otherCatalog
}

const otherCatalog = "other-catalog"

// names counts the names that leads use, each once, and those that are not known,
// and gives the place of the first of these.
func (c *checker) names(of func(*Lead, func(string, authored.Pos)), known func(string) bool) (all, unknown int, first authored.Pos) {
	seen := map[string]bool{}
	for _, l := range c.file.Leads() {
		of(l, func(id string, at authored.Pos) {
			if seen[id] {
				return
			}
			seen[id] = true
			if all++; !known(id) {
				if unknown++; unknown == 1 {
					first = at
				}
			}
		})
	}
	return all, unknown, first
}
