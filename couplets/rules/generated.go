package rules

import (
	"slices"
	"strings"
	"unicode/utf8"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// asDrafted finds couplets that still say what a draft wrote: labels of states, one
// after the other. It is told once, at the first of them.
func asDrafted(f *finder) {
	var first *couplets.Couplet
	n := 0
	for i := range f.File.Couplets {
		if c := &f.File.Couplets[i]; f.generated(c) {
			if n++; first == nil {
				first = c
			}
		}
	}
	if first == nil {
		return
	}
	what := wording.Sprintf("couplet %s still has the words of the draft", first.ID)
	if n > 1 {
		what = wording.Sprintf("couplet %s and %d more still have the words of the draft", first.ID, n-1)
	}
	f.warn(first.AskPos, what, wording.Text("say in your own words what people see, and try it on live animals"))
}

// generated reports whether all of a couplet is in the words of a draft.
func (f *finder) generated(c *couplets.Couplet) bool {
	if len(c.Leads) == 0 || f.Catalog == nil {
		return false
	}
	var trait *taxa.Trait
	for i := range c.Leads {
		of := c.Leads[i].Conditions
		if len(of) != 1 || of[0].Trait != c.Leads[0].Conditions[0].Trait {
			return false
		}
		trait = f.Catalog.Vocabulary().Trait(of[0].Trait)
	}
	if trait == nil || c.Ask != DraftedAsk(trait) {
		return false
	}
	for i := range c.Leads {
		if c.Leads[i].Text != DraftedLead(trait, c.Leads[i].Conditions[0].States, StatesOfOthers(c, i)) {
			return false
		}
	}
	return true
}

// StatesOfOthers are the states of all leads of a couplet but one, each of which speaks
// of one trait.
func StatesOfOthers(c *couplets.Couplet, lead int) []string {
	var out []string
	for i := range c.Leads {
		if i != lead {
			out = append(out, c.Leads[i].Conditions[0].States...)
		}
	}
	return out
}

// DraftedAsk is what a draft writes for what a couplet asks, made of the
// name of its column or of its id.
func DraftedAsk(t *taxa.Trait) string {
	if name := strings.TrimSuffix(t.Question, "?"); plain.ID(name) == t.ID { // a column of a spreadsheet
		return plain.Capital(PlainWords(name))
	}
	return plain.Capital(PlainWords(strings.ReplaceAll(t.ID, "-", " ")))
}

// longest is the most characters of a drafted lead's text: two lines of 60
// columns, less what the break between words may cost.
const longest = 100

// DraftedLead is what a draft writes for a lead: the labels of its states, or,
// where they are too many to read, what it is not.
func DraftedLead(t *taxa.Trait, states, others []string) string {
	own, other := labels(t, states), labels(t, others)
	if len(own) == 0 {
		return ""
	}
	text := joined(own)
	if utf8.RuneCountInString(text) <= longest {
		return plain.Capital(text) + "."
	}
	if text = wording.Sprintf("other than these: %s", joined(other)); len(other) > 0 && utf8.RuneCountInString(text) <= longest {
		return plain.Capital(text) + "."
	}
	for n := len(own) - 1; n > 0; n-- {
		text = wording.Sprintf("%s; or one of %d more", strings.Join(own[:n], "; "), len(own)-n)
		if utf8.RuneCountInString(text) <= longest {
			return plain.Capital(text) + "."
		}
	}
	return plain.Capital(string([]rune(own[0])[:min(longest, utf8.RuneCountInString(own[0]))])) + "…"
}

// labels are the labels of some states, in the order of the vocabulary.
func labels(t *taxa.Trait, states []string) []string {
	named := map[string]bool{}
	for _, s := range states {
		named[s] = true
	}
	var out []string
	for _, s := range t.States {
		if named[s.ID] {
			out = append(out, s.Label)
		}
	}
	return out
}

// joined is labels as one phrase. Those of a spreadsheet all begin with the name
// of their column, which is said once.
func joined(words []string) string {
	words = slices.Clone(words)
	column, _, named := strings.Cut(words[0], ": ")
	if named = named && !slices.ContainsFunc(words, func(w string) bool { return !strings.HasPrefix(w, column+": ") }); named {
		for i := range words[1:] {
			words[i+1] = strings.TrimPrefix(words[i+1], column+": ")
		}
	}
	last := len(words) - 1
	switch {
	case last == 0:
		return words[0]
	case !named || strings.ContainsAny(strings.Join(words, ""), ",;"):
		return wording.Sprintf("%s; or %s", strings.Join(words[:last], "; "), words[last])
	}
	return wording.Sprintf("%s or %s", strings.Join(words[:last], ", "), words[last])
}
