package question

import (
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

// Whatever way somebody came to a name, by answers, own words, ticks and second looks, the
// path that is printed comes to the same name, class and probability when it is said again.
func TestThePathComesToTheSame(t *testing.T) {
	t.Parallel()
	m := keytest.Model(t)
	r := rand.New(rand.NewPCG(14, 6))
	signs := map[string]int{}
	for range keytest.Times(16, 6) {
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		person := stroller{NewTalk(q, Destination{}, nil), m.Key().Ends()[r.IntN(len(m.Key().Ends()))], r}
		if person.walk(); !person.Ended() {
			continue
		}
		again, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		written := strings.Join(q.Path(), ",")
		for _, answer := range key.PathAnswers(written) {
			if err := again.Say(answer); err != nil {
				t.Fatalf("%s: %v", written, err)
			}
		}
		a, b := again.Verdict(), q.Verdict()
		if a.Level != b.Level || a.Taxon != b.Taxon || a.Class != b.Class || math.Abs(a.Confidence()-b.Confidence()) > 1e-9 {
			t.Errorf("%s: %s %s %s %v, said again %s %s %s %v", written,
				b.Level, b.Taxon, b.Class, b.Confidence(), a.Level, a.Taxon, a.Class, a.Confidence())
		}
		for _, sign := range []string{"said:", "/", "?", "stop"} {
			signs[sign] += strings.Count(written, sign)
		}
	}
	for _, sign := range []string{"said:", "/", "?", "stop"} {
		if signs[sign] == 0 {
			t.Errorf("no path has %s", sign)
		}
	}
}

// stroller answers of an animal what it shows, or what comes to mind.
type stroller struct {
	*Talk
	animal *taxa.Taxon
	*rand.Rand
}

func (s stroller) walk() {
	for range 60 {
		if s.Ended() {
			if s.IntN(3) > 0 || !CanLookAgain(s.Inquiry()) {
				return
			}
			s.Reopen()
		}
		now := s.Now()
		switch n := s.IntN(10); {
		case now.Confirm && s.s.ticking:
			for i, o := range now.Options {
				if s.shows(s.s.heard[i].Seen) && n < 7 {
					s.Answer(o.Answer)
				}
			}
			s.Confirm()
		case now.Confirm:
			s.Confirm()
		case now.Words && n < 2:
			s.say()
		case n < 5 && s.s.stage == asking:
			s.Answer(key.Unsure)
		case n == 5 && s.s.stage == asking:
			s.Answer(again)
		case n == 6 && s.s.stage == asking && len(s.Inquiry().Given()) > 3:
			s.Answer(back)
		case len(now.Options) == 0:
			s.Answer(back)
		default:
			s.Answer(now.Options[s.IntN(len(now.Options))].Answer)
		}
	}
}

// shows reports whether the animal shows one of these.
func (s stroller) shows(seen taxa.Seen) bool {
	return slices.ContainsFunc(s.animal.States(seen.Trait.ID), func(w taxa.Weight) bool { return slices.Contains(seen.States, w.State) })
}

// say says something that the animal shows in everyday words.
func (s stroller) say() {
	traits := s.Inquiry().Model().Key().Catalog().Vocabulary().Traits()
	trait := traits[s.IntN(len(traits))]
	for _, state := range trait.States {
		if words := state.Words; len(words) > 0 && s.shows(taxa.Seen{Trait: trait, States: []string{state.ID}}) {
			s.Hear(words[s.IntN(len(words))])
			return
		}
	}
}

// What somebody picks from a list, by number, letter or button, was asked; what they say in
// own words was not, though of several meanings they pick one. Screen, lines and page agree.
func TestWhatIsPickedWasAskedAndOwnWordsWereNot(t *testing.T) {
	for _, row := range []struct{ what, keys, lines, presses, path string }{
		{"a mark by its number", "1 enter", "1\nq\n", "1", `tails=3`},
		{"own words", "s n a i l enter enter", "snail\n\nq\n", "say:snail note", "said:shell=coil"},
		{"one of several meanings of own words", "r o u n d enter b enter", "round\nb\n\nq\n", "say:round b note", "said:flat=round"},
		{"a mark ticked on a list", "enter ? ? a enter", "?\n?\na\n\nq\n", "< ? ? a note", `1\? [a-z-]+\? [a-z-]+=\w+( stop)?`},
		{"own words beside one", "enter ? ? a enter w s n a i l enter enter", "?\n?\na\n\nsnail\n\nq\n", "< ? ? a note say:snail note",
			`1\? [a-z-]+\? [a-z-]+=\w+ said:shell=coil( stop)?`},
	} {
		inquiry := func() *key.Inquiry {
			q := embeddedInquiry(t)
			q.LeaveLength() // else it is asked for between
			return q
		}
		screen, lines, page := inquiry(), inquiry(), inquiry()
		press(opened(t, screen, 80, 24), row.keys)
		if _, _, err := typed(lines, row.lines, 80); err != nil {
			t.Fatal(err)
		}
		talk := NewTalk(page, Destination{}, nil)
		for _, pressed := range strings.Fields(row.presses) {
			if words, own := strings.CutPrefix(pressed, "say:"); own {
				talk.Hear(words)
			} else if pressed == "note" {
				talk.Confirm()
			} else {
				talk.Answer(pressed)
			}
		}
		for face, q := range map[string]*key.Inquiry{"screen": screen, "lines": lines, "page": page} {
			if !regexp.MustCompile("^"+row.path+"$").MatchString(path(q)) || path(q) != path(screen) {
				t.Errorf("%s, by the %s: %q, not %q as by the screen, nor like %s", row.what, face, path(q), path(screen), row.path)
			}
		}
	}
}
