package question

import (
	"cmp"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// otherwise is how probable it must be that the animal is none of the key's for
// that to be said.
const otherwise = 0.05

// few is how many kinds are still named one by one.
const few = 6

// state is where an inquiry stands, as far as words are made of it.
type state struct {
	catalog     *taxa.Catalog
	question    *key.Question
	verdict     key.Verdict
	likely      []key.Candidate
	suspects    []key.Suspect
	nothingFits bool
	checked     key.CheckedName
	supposed    *taxa.Taxon // what is checked, or nil
}

func stateOf(q *key.Inquiry) state {
	s := state{
		catalog: q.Model().Key().Catalog(), question: q.Question(), verdict: q.Verdict(),
		likely: q.Possible(), suspects: q.Suspects(),
	}
	s.nothingFits, s.checked = s.verdict.Lacking > 0, q.Checked()
	s.supposed = s.catalog.Taxon(s.checked.Taxon)
	return s
}

// open reports whether nothing is settled.
func (s *state) open() bool {
	if s.supposed != nil {
		return s.checked.Outcome == key.CheckOpen
	}
	return !s.verdict.Named()
}

// suspicious is how probably misread an answer must be for people to be asked
// about it unprompted: more likely wrong than right.
const suspicious = 0.5

// worthALook is how probably misread an answer must be to be looked at again where
// no kind shows all that was said.
const worthALook = 0.2

// unsound reports whether what the answers came to had better not stand: nothing
// is settled, or a name is confirmed or refuted by answers that no kind shows,
// and an answer is suspect.
func (s *state) unsound() bool {
	if len(s.suspects) == 0 || !s.open() && !(s.supposed != nil && s.nothingFits) {
		return false
	}
	first := s.suspects[0]
	return !first.Again && (first.Probability >= suspicious || s.nothingFits && first.Probability >= worthALook)
}

// why says why this question is asked, where it is not simply the next of the
// key.
func (s *state) why() string {
	switch {
	case s.supposed != nil:
		return wording.Sprintf("Is it %s? So far: %s.", show.BothNames(s.supposed), show.Likely(s.checked.Probability))
	case s.question == nil || s.question.Phase == key.Keyed:
		return ""
	case s.question.Phase == key.Confirming:
		return wording.Sprintf("One more look, to be surer. %s", s.most())
	case s.verdict.LikeliestProbability < 0.5:
		return wording.Text("Asked now because it tells most about what is left.")
	}
	return wording.Sprintf("Asked now because it tells most about what is left. %s", s.most())
}

// most is the likeliest kind.
func (s *state) most() string {
	return wording.Sprintf("Most likely so far: %s, %s.", s.name(s.verdict.Likeliest),
		show.Sure(s.verdict.Told(s.verdict.LikeliestProbability)))
}

func (s *state) name(id string) string { return plain.OneLine(s.catalog.Taxon(id).Name()) }

// kinds is a number of kinds in words.
func kinds(n int) string {
	if n == 1 {
		return wording.Text("1 kind")
	}
	return wording.Sprintf("%d kinds", n)
}

// possible says how many kinds are left, or after an answer that made them more are
// possible again, and which when they are few.
func (s *state) possible(again bool) string {
	count := kinds(len(s.likely))
	other := ""
	if s.verdict.OutsideKey >= otherwise || len(s.likely) == 1 && s.question != nil && s.supposed == nil {
		other = wording.Text(", or one that is not in this key")
	}
	if len(s.likely) > few && again {
		return wording.Sprintf("Possible now: %s%s.", count, other)
	}
	if len(s.likely) > few {
		return wording.Sprintf("Still possible: %s%s.", count, other)
	}
	names := make([]string, len(s.likely))
	for i, l := range s.likely {
		names[i] = s.name(l.Taxon)
	}
	if again {
		return wording.Sprintf("Possible now, %s: %s%s.", count, strings.Join(names, ", "), other)
	}
	return wording.Sprintf("Still possible, %s: %s%s.", count, strings.Join(names, ", "), other)
}

// stopping says what stopping now would come to.
func (s *state) stopping() string {
	switch {
	case s.supposed != nil && s.checked.Outcome == key.CheckOpen:
		return wording.Text("it stays open whether it is that.")
	case s.checked.Outcome == key.CheckConfirmed:
		return wording.Text("it is that.")
	case s.supposed != nil:
		return wording.Text("it is not that.")
	case s.verdict.Level == key.ToSet:
		return wording.Sprintf("it is named %s, which this key cannot tell apart.", plain.OneLine(show.Either(s.catalog, s.verdict.Set)))
	case s.verdict.Level == key.NotInKey:
		return wording.Sprintf("it is none of the kinds in this key; it looks most like %s.",
			s.name(cmp.Or(s.verdict.Enclosing, s.verdict.Likeliest)))
	case s.verdict.Taxon != "":
		return wording.Sprintf("it is named %s.", plain.OneLine(show.BothNames(s.catalog.Taxon(s.verdict.Taxon))))
	case s.verdict.Class == taxa.NotScored:
		return wording.Sprintf("it gets no name, but it does not count in the grade, %s.",
			show.Sure(s.verdict.Told(s.verdict.ClassProbability)))
	case s.verdict.Class != "":
		return wording.Sprintf("it gets no name, but it is a %s kind, %s.", show.ClassWord(s.verdict.Class),
			show.Sure(s.verdict.Told(s.verdict.ClassProbability)))
	}
	return wording.Text("it gets no name yet and is set aside for a second look.")
}

// named reports whether stopping now gives a name, or says that it is or is not what was supposed.
func (s *state) named() bool {
	if s.supposed != nil {
		return s.checked.Outcome != key.CheckOpen
	}
	return s.verdict.Level == key.ToSet || s.verdict.Level == key.NotInKey || s.verdict.Taxon != ""
}

// stopped reports whether stopping now comes to something.
func (s *state) stopped() bool { return !s.open() || s.verdict.Class != "" && s.supposed == nil }
