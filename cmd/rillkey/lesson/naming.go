package lesson

import (
	"slices"
	"strconv"
	"strings"

	"rillkey/key"
	"rillkey/key/practice"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Name takes a name that was typed for the animal.
func (l *Lesson) Name(typed string) {
	l.said = ""
	if l.stage != meeting || l.looking || l.helping {
		l.said = wording.Text("That is no answer here.")
		return
	}
	if typed = plain.OneLine(strings.TrimSpace(typed)); typed == key.Unsure {
		l.Do(key.Unsure)
		return
	}
	l.choices = nil
	found := l.catalog.Find(typed)
	kind := l.Course.Called(typed)
	switch {
	case kind != nil:
		l.named(typed, kind)
	case isFeature(l, typed, found):
		l.said = wording.Sprintf("%s says what is to be seen of an animal. Say its name, or %s.", plain.Quote(typed), l.elseway())
	case l.Test == practice.OnSight:
		l.nameInTest(typed, found)
	case isMember(found):
		l.said = wording.Sprintf("%s is not practised here by itself: it is one of \"%s\". Say another name, or %s.",
			plain.Capital(plain.OneLine(found.Name)), plain.OneLine(found.Taxon.Name()), l.elseway())
	case found.Taxon != nil:
		l.said = tooBroad(l, typed, found.Taxon, found)
	default:
		l.said = unknown(l, typed, found)
	}
}

// named takes what was typed as the name of one of these.
func (l *Lesson) named(typed string, of ...*taxa.Taxon) {
	l.meeting.Sight, l.meeting.Seconds, l.typed = of[0].ID, l.seconds(), typed
	for _, t := range of {
		if l.catalog.IsUnder(l.kind.ID, t.ID) && (t != l.kind || len(of) > 1) {
			l.meeting.Sight, l.meeting.Group = t.ID, t.ID // right, as far as it goes
		}
	}
	allowAlike(l, of...)
	l.finish()
}

// isMember reports whether a name is that of a family which a group only takes in among
// others, as Dolichopodidae of the other flies: it means none of the kinds of the group.
func isMember(found taxa.Lookup) bool {
	return found.Taxon != nil && found.Taxon.Rank == "group" && isFamily(found.Name) && slices.Contains(found.Taxon.Also, found.Name)
}

// isFeature reports whether what was typed names no animal but says what is to be seen of
// one, in every word that says anything: as "two long tails".
func isFeature(l *Lesson, typed string, found taxa.Lookup) bool {
	words := taxa.NameWords(typed)
	_, spelt := speltNearly(typed, found)
	if spelt || len(words) == 0 || len(known(typed, found)) > 0 ||
		len(words) > 1 && len(l.catalog.Find(words[len(words)-1]).Called()) > 0 { // as the beetle of "brown beetle"
		return false
	}
	seen, unclear, err := l.catalog.Vocabulary().Understand(typed)
	if err != nil {
		return false
	}
	var understood []string
	for _, s := range seen {
		understood = append(understood, folded(s.Words)...)
	}
	for _, u := range unclear {
		if u.Known {
			understood = append(understood, folded(u.Words)...)
		}
	}
	return len(understood) > 0 && !slices.ContainsFunc(folded(typed), func(w string) bool {
		return !slices.Contains(understood, w) && !slices.Contains(fillerWords, w)
	})
}

// folded are the words of a text.
func folded(text string) (out []string) {
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == '-' }) {
		out = append(out, plain.Fold(w))
	}
	return out
}

// fillerWords are words that say nothing by themselves.
var fillerWords = []string{"a", "an", "the", "it", "its", "has", "with", "and", "of", "on", "at", "in", "is", "no", "very"}

// choice is a name that can be taken by its number, where what was typed is not taken
// as it is.
type choice struct {
	short, typed string
	taxa         []*taxa.Taxon // none for a name that is in no list
}

// choose takes a name by its number; false where there is none.
func (l *Lesson) choose(sign string) bool {
	n, err := strconv.Atoi(sign)
	if err != nil || n < 1 || n > len(l.choices) {
		return false
	}
	c := l.choices[n-1]
	if len(c.taxa) == 0 {
		notPlayed(l, c.typed, nil)
	} else {
		l.named(c.typed, c.taxa...)
	}
	return true
}

// choiceKeys are the keys by which names are taken.
func (l *Lesson) choiceKeys() (out []Command) {
	for i, c := range l.choices {
		out = append(out, Command{strconv.Itoa(i + 1), c.short, wording.Text("take that as its name.")})
	}
	return out
}

// offer puts the name of a kind up to be taken, and is how it is said.
func (l *Lesson) offer(t *taxa.Taxon, name string) string {
	name = plain.OneLine(name)
	l.choices = append(l.choices, choice{name, name, []*taxa.Taxon{t}})
	if l.Buttons {
		return name
	}
	return wording.Sprintf("%s (%d)", name, len(l.choices))
}

// practised reports whether a taxon is a kind of the course.
func (l *Lesson) practised(id string) bool { return l.Course.Common(id) > 0 }

// How many names of kinds are listed, and offered by their numbers, at once.
const (
	mostNames  = 30
	mostOffers = 3
)

// unknown asks for another name where one means no animal: for a name of a kind that is
// like it, or of one within a group that is.
func unknown(l *Lesson, typed string, found taxa.Lookup) string {
	no := wording.Sprintf("No kind is called %s.", plain.Quote(typed))
	var names []string
	for _, m := range found.Similar {
		if l.practised(m.Taxon.ID) && len(names) < mostOffers {
			names = append(names, l.offer(m.Taxon, m.Taxon.Name()))
		}
	}
	if len(names) > 0 {
		return no + " " + wording.Sprintf("Do you mean %s?", strings.Join(names, wording.Text(", or ")))
	}
	for _, m := range found.Similar {
		if len(l.Course.KindsUnder(m.Taxon, found.Stage)) > 0 {
			return no + " " + tooBroad(l, m.Taxon.Name(), m.Taxon, found)
		}
	}
	return no + " " + wording.Sprintf("Say another name, or %s.", l.elseway())
}

// tooBroad asks for a closer name than the one of a group, and lists those that there
// are, by the alphabet: it says nothing of whether this one holds, nor which is likely.
func tooBroad(l *Lesson, name string, t *taxa.Taxon, found taxa.Lookup) string {
	below := l.Course.KindsUnder(t, found.Stage)
	if len(below) == 0 {
		below = l.Course.KindsUnder(t, "")
	}
	sorting.Stable(below, func(a, b *taxa.Taxon) int { return strings.Compare(a.Name(), b.Name()) })
	if !found.Exact {
		name = t.Name()
	}
	name = plain.Capital(plain.OneLine(name))
	var names []string
	for _, k := range below {
		names = append(names, plain.OneLine(k.Name()))
	}
	switch n := len(below); {
	case n == 0:
		return wording.Sprintf("%s is no kind that is practised here. Say another name, or %s.", name, l.elseway())
	case n == 1:
		return wording.Sprintf("Do you mean %s?", l.offer(below[0], below[0].Name()))
	case n > mostNames:
		names = append(names[:mostNames], wording.Sprintf("%d more", n-mostNames))
	}
	l.meeting.Prompted = true
	return wording.Sprintf("%s is several kinds here: %s. Say which, or %s.", name, strings.Join(names, "; "), l.elseway())
}
