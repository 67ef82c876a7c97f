package lesson

import (
	"strings"
	"testing"

	"rillkey/key/practice"
)

// What to know a crane fly by began with the lobes that this one had not.
func TestWhatToKnowItByBeginsWithWhatItShows(t *testing.T) {
	for _, row := range []struct {
		kind, trait, state string
		first, other       string
	}{
		{"tipulidae", "hind", "plain", "Know it by: Plump and leathery",
			"Most of its kind: Lobes like short fingers at the end (on this one: "},
		{"brachycentridae", "case-shape", "tube", "Know it by: Two hard plates behind the head",
			"Most of its kind: A four-sided chimney"},
	} {
		o, _ := options(t, practice.DrawingSource)
		l := placed(o, row.kind)
		l.animal.Shows[row.trait] = row.state
		l.Name(row.kind)
		p := l.Now()
		first := p.Before[0].Words
		words := inLines(&p)
		if !strings.HasPrefix(first, row.first) || !strings.Contains(strings.ReplaceAll(words, "\n", " "), row.other) {
			t.Errorf("%s: %q\n%s", row.kind, first, words)
		}
	}
}

// A fly larva that had lost the lobes at its end was said to have lost plates.
func TestWhatWasLostIsCalledAsItIs(t *testing.T) {
	for _, row := range []struct{ hind, lost string }{
		{"lobes", "the lobes at its hind end"},
		{"tube", "what it carries at its hind end"},
		{"plates", "the plates at its hind end"},
	} {
		s := practice.Specimen{Hurt: true, Lost: "hind", Whole: map[string]string{"hind": row.hind}}
		if got := lostPart(&s); got != row.lost {
			t.Errorf("%s: %q", row.hind, got)
		}
	}
}
