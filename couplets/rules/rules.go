// Package rules is what can be wrong with a key, or worth a second thought: one
// small file for each warning, one page for every rule. A rule never prints; it
// reports findings at their place.
//
// Begin with [Input], [CheckedKey] and [HelpPage].
package rules

import (
	"errors"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// Input is a key to be looked at.
type Input struct {
	File *couplets.File
	// Sound is the key once it has no errors, else nil: rules that follow paths
	// then have nothing to say.
	Sound   *couplets.Sound
	Catalog *taxa.Catalog
	// Region are the taxa that people will meet; empty when nobody said.
	Region []taxa.Resident
}

// warnings are the rules that this package looks for itself.
var warnings = []struct {
	name string
	find func(*finder)
}{
	{"mixed-features", mixedFeatures},
	{"only-negates", onlyNegates},
	{"size-contradiction", sizeContradiction},
	{"hard-word", hardWord},
	{"asked-again", askedAgain},
	{"lopsided", lopsided},
	{"never-reached", neverReached},
	{"long-text", longText},
	{"lens-pair", lensPair},
	{"needless-lens", needlessLens},
	{"shared-end", sharedEnd},
	{"same-goal", sameGoal},
	{"same-words", sameWords},
	{"second-end", secondEnd},
	{"as-drafted", asDrafted},
	{"no-commonness", noCommonness},
	{"part-alone", partAlone},
	{"leftover-remark", leftoverRemark},
}

// mostPerRule is how many findings of one rule are reported of one key.
const mostPerRule = 200

// Warnings are what is worth heeding in a key without making it wrong, sorted.
func Warnings(s *Input) authored.Findings {
	var all authored.Findings
	for _, rule := range warnings {
		f := &finder{Input: s, rule: rule.name}
		rule.find(f)
		all = append(all, f.report.Findings()...)
	}
	all.Sort()
	return all
}

// CheckedKey is all that was found in a key; counts are 0 where it has errors.
type CheckedKey struct {
	Couplets, Ends   int
	Errors, Warnings authored.Findings
}

// Check is what is wrong with a key, by the error of reading it ([couplets.Examine]), and
// what is worth heeding in it. Of one for other animals nothing else is told. An error that
// is no finding, as that of a file that is not there, is given back.
func Check(s *Input, reading error) (c CheckedKey, err error) {
	if reading != nil && !errors.As(reading, &c.Errors) {
		return c, reading
	}
	if s.File != nil && !couplets.ForOtherAnimals(reading) {
		c.Warnings = Warnings(s)
	}
	if s.Sound != nil {
		c.Couplets, c.Ends = len(s.Sound.Couplets), len(s.Sound.Ends)
	}
	return c, nil
}

// finder is one rule looking at one subject.
type finder struct {
	*Input
	rule   string
	report authored.Report
	kept   int
}

// full reports whether enough was found.
func (f *finder) full() bool { return f.kept >= mostPerRule }

func (f *finder) warn(p authored.Pos, message, hint string) {
	if f.full() {
		return
	}
	f.kept++
	if f.full() {
		hint += wording.Text("; there may be more of this kind")
	}
	f.report.Add(p, f.rule, message, hint)
}

// texts calls see with every text of the key that people read, and its place.
func (f *finder) texts(see func(text string, at authored.Pos)) {
	for i := range f.File.Couplets {
		c := &f.File.Couplets[i]
		see(c.Ask, c.AskPos)
		see(c.Wait, c.WaitPos)
		for j := range c.Leads {
			see(c.Leads[j].Text, c.Leads[j].TextPos)
		}
	}
}
