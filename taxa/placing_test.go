package taxa_test

import (
	"slices"
	"strings"
	"testing"

	"rillkey/taxa"
)

// understood is what a saying is taken for: what is noted, and what is offered or told.
func understood(t *testing.T, said string) (noted string, unclear []taxa.Unclear) {
	t.Helper()
	seen, unclear, err := vocabulary(t).Understand(said)
	if err != nil {
		t.Fatal(err)
	}
	return told(seen), unclear
}

// What is said of one part is no finding of another.
func TestWhatIsSaidOfAnotherPartIsAsked(t *testing.T) {
	for _, row := range []struct {
		said, never string // a trait that must not be noted
	}{
		{"hooks on its feet", "hooks"},
		{"long legs with hooks", "hooks"},
		{"two hooks on every leg", "hooks"},
		{"two hooks at the end of each leg", "hooks"},
		{"hooks", "hooks"}, // where is not said
		{"white threads of fungus", "gill-form"},
		{"white threads on its legs", "gill-form"},
		{"a tuft on its head", "gill-form"},
		{"a bushy tuft at the tail", "gill-form"},
		{"spines along the sides", "hair"},
		{"spines on its legs", "hair"},
		{"hairs on the tails", "hair"},
		{"a fringe of hairs on its legs", "hair"},
		{"two dark dots on its back", "eyes"},
		{"a row of holes along its belly", "neck"},
		{"horns on its tail", "head"},
		{"a fan on its tail", "mouth"},
		{"no hooks on its feet", "hooks"},
		{"little plates on its legs", "gill-form"},
		{"smaller than the snail beside it", "shell"},
		{"green as a pea", "outline"},
		{"little hooks on all of its legs", "leg-length"},
		{"a coiled snail", "case-shape"},
		{"a dark line down the back", "wings"},
		{"one stubby leg under the head", "leg-length"},
		{"squashed flat from the sides", "outline"},
		{"plates on the back", "plates"},
		{"eyes on stalks", "move"},
		{"like a tiny lobster", "legs"},
	} {
		noted, unclear := understood(t, row.said)
		if strings.Contains("; "+noted, "; "+row.never+"=") {
			t.Errorf("%q: notes %s", row.said, noted)
		}
		if noted == "" && len(unclear) == 0 {
			t.Errorf("%q: nothing is offered or told", row.said)
		}
	}
}

// In its own place it is noted, however the place is said.
func TestWhatIsSaidInItsPlaceIsNoted(t *testing.T) {
	for _, row := range []struct{ said, want string }{
		{"two hooks at the tail end", "hooks=two"},
		{"hooks on its bottom", "hooks=two"},
		{"no hooks", "hooks=none"},
		{"white threads where the legs join", "gills=chest; gill-form=threads"},
		{"bushy tufts in the armpits", "gill-form=tufts; gills=chest"},
		{"spines on its back", "hair=spiny"},
		{"hairs all over", "hair=hairy"},
		{"six legs and two hooks at the back", "legs=6; hooks=two"},
	} {
		if noted, unclear := understood(t, row.said); noted != row.want || len(unclear) > 0 {
			t.Errorf("%q: notes %q, unclear %+v; want %q", row.said, noted, unclear, row.want)
		}
	}
}

// No word is dropped in silence that means nothing here, however short it is.
func TestEachUnknownWordIsTold(t *testing.T) {
	for _, row := range []struct {
		said  string
		words []string
	}{
		{"six legs and flurble", []string{"flurble"}},
		{"six flurble legs", []string{"flurble"}},
		{"six legs with zz", []string{"zz"}},
		{"zz six legs", []string{"zz"}},
		{"six legs, pincers and wibble quux jib", []string{"wibble quux jib"}},
		{"three tails and stubby", []string{"stubby"}},
		{"I saw that it has six legs in my tray", nil},
		{"found under a stone and it had six legs", nil},
	} {
		_, unclear := understood(t, row.said)
		var told []string
		for _, u := range unclear {
			told = append(told, u.Words)
		}
		if !slices.Equal(told, row.words) {
			t.Errorf("%q: tells %q, want %q", row.said, told, row.words)
		}
	}
}

// Words that hyphens join stay whole.
func TestWordsWithHyphensStayWhole(t *testing.T) {
	for _, row := range []struct{ said, noted, told string }{
		{"three-cornered horns", "", "three-cornered horns"},
		{"stone-case", "case-stuff=stones", ""},
		{"rolled-up", "posture=curled", ""},
		{"saddle-case", "case-shape=dome", ""},
		{"six-legged", "legs=6", ""},
		{"dark-headed", "head-colour=dark", ""},
		{"a flibber-tailed thing", "", "flibber-tailed"},
		{"three-cornered case", "case-shape=three", ""},
		{"feelers flat and three-cornered", "antennae=ears", ""},
		{"feelers flat and flibber-tailed", "antennae=ears", "flibber-tailed"},
		{"a case that is wide-mouthed", "", "wide-mouthed"},
		{"snail-case", "case-shape=snail", ""},
	} {
		noted, unclear := understood(t, row.said)
		if noted != row.noted || row.told == "" != (len(unclear) == 0) ||
			row.told != "" && !slices.ContainsFunc(unclear, func(u taxa.Unclear) bool { return strings.Contains(u.Words, row.told) }) {
			t.Errorf("%q: notes %q, unclear %+v", row.said, noted, unclear)
		}
	}
}
