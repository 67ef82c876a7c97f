package visit

import (
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// SortedWord is what somebody says of one sample.
type SortedWord struct {
	Sample   Taken
	State    Sorting // one that people can say
	Fraction float64 // the share that was sorted; 0 where nothing was said of that
}

// Contradicted reports whether a sample was said to be sorted that holds no animal: such a
// one is empty, or not yet sorted.
func (w SortedWord) Contradicted(t Tally) bool {
	return w.State == Sorted && t.Animals(w.Sample.Label) == 0
}

// GoesWithoutSaying reports whether the sample is so without a word: one without animals is
// not yet sorted before somebody speaks of it.
func (w SortedWord) GoesWithoutSaying(t Tally) bool {
	return w.State == NotSorted && w.Sample.Said == "" && t.Animals(w.Sample.Label) == 0
}

// Once is the sample as it stands once the word is saved, with what that changes in the
// file; false where the file says so already.
func (w SortedWord) Once() (s Taken, change Change, news bool) {
	change, news = w.Sample.SortedAs(w.State, w.Fraction)
	s = w.Sample
	s.Said, s.State = w.State, w.State
	if change.Fraction != nil {
		s.Fraction = w.Fraction
	}
	return s, change, news
}

// SortedAnswer is an answer to how far a sample is sorted.
type SortedAnswer string

// The answers.
const (
	AllSorted  SortedAnswer = "all"
	PartSorted SortedAnswer = "part" // of which the share is asked
	FoundEmpty SortedAnswer = "empty"
	NotYet     SortedAnswer = "not-yet"
)

// SortedAnswers are the answers that a sample with so many animals can have, and which of
// them it seems to be: with animals it is no empty one, without any it is not sorted.
func (t Taken) SortedAnswers(animals int) (possible []SortedAnswer, seems SortedAnswer) {
	switch {
	case animals == 0 && t.State == Empty:
		return []SortedAnswer{NotYet, FoundEmpty}, FoundEmpty
	case animals == 0:
		return []SortedAnswer{NotYet, FoundEmpty}, NotYet
	case t.Fraction > 0 && t.Fraction < 1:
		return []SortedAnswer{AllSorted, PartSorted, NotYet}, PartSorted
	}
	return []SortedAnswer{AllSorted, PartSorted, NotYet}, AllSorted
}

// Word is what an answer says of a sample, without the share of a part.
func (a SortedAnswer) Word(s Taken) SortedWord {
	switch a {
	case AllSorted:
		return SortedWord{s, Sorted, 1}
	case PartSorted:
		return SortedWord{s, Sorted, 0}
	case FoundEmpty:
		return SortedWord{s, Empty, 0}
	}
	return SortedWord{s, NotSorted, 0}
}

// SamplesMeant are the samples that people call so; a label that is no sample's may be a
// list of them with commas. It is an error if one is not there.
func (t Tally) SamplesMeant(labels []string) (out []Taken, err error) {
	for _, label := range labels {
		meant := []string{label}
		if _, ok := t.Sample(label); !ok {
			meant = plain.SplitList(label)
		}
		for _, one := range meant {
			s, err := t.NeedSample(one)
			if err != nil {
				return nil, err
			}
			out = append(out, s)
		}
	}
	return out, nil
}

// NeedSample is the sample that people call label; the error says which there are.
func (t Tally) NeedSample(label string) (Taken, error) {
	s, ok := t.Sample(label)
	if !ok {
		return s, wording.Errorf("there is no sample %q; there are %s", label, t.Labels())
	}
	return s, nil
}

// Labels are those of all samples, with commas.
func (t Tally) Labels() string {
	out := make([]string, len(t.Samples))
	for i, s := range t.Samples {
		out[i] = s.Label
	}
	return strings.Join(out, ", ")
}
