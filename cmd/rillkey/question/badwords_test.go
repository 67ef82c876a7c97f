package question

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"

	"rillkey/key"
)

// What cannot be meant is told in a clear line wherever words can be typed, by line, on the
// screen and on a page; what was noted before, or waits to be, stays.
func TestBadWordsAtEveryPlace(t *testing.T) {
	bad := []string{"xyzzy zork", strings.Repeat("leggy ", 1666), strings.Repeat("x", 10000), "ten\x1b[31m legs",
		"ten\x00legs", "\xff\xfe", "six \u202elegs", "🦐🦐", "шесть ног", "!!! ...", "99999999 mm", "-3 mm", "0 mm"}
	for place, lines := range map[string][]string{"first": nil, "a question": {"a"}, "what strikes": {"a", "w"},
		"what waits": {"round", "a"}, "a list": {"?", "?", "a"}, "the length": {"six legs", "", "size"},
		"which again": {"a", "r"}, "once more": {"a", "r", "a"}} {
		inquiry := func() *key.Inquiry {
			q := embeddedInquiry(t)
			q.LeaveLength()
			return q
		}
		l := newLiner(inquiry(), Destination{}, nil, nil, new(bytes.Buffer), 80)
		l.offer()
		page := NewTalk(inquiry(), Destination{}, nil)
		for _, line := range lines {
			if line == "size" {
				l.size()
				page.s.size()
				continue
			}
			l.take(line)
			switch page.Answer(map[bool]string{true: line, false: back}[len(line) == 1]); {
			case line == "":
				page.Confirm()
			case len(line) > 1:
				page.Hear(line)
			}
		}
		m := shown(l.q, 80, 24)
		m.sitting = l.sitting
		for _, words := range bad {
			before := fmt.Sprint(path(l.q), l.heard, l.ticking)
			l.said = ""
			l.take(words)
			isTold(t, place+", by line", words, l.said)
			if now := fmt.Sprint(path(l.q), l.heard, l.ticking); now != before {
				t.Errorf("%s, by line: %.30q makes %s of %s", place, words, now, before)
			}
			if l.stage == striking {
				l.said = ""
				m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(words), Paste: true})
				press(m, "enter")
				isTold(t, place+", on the screen", words, m.said)
				press(m, "ctrl+u")
			}
			if page.Now().Words || page.Now().Confirm {
				pathBefore := path(page.Inquiry())
				page.Hear(words)
				isTold(t, place+", on a page", words, page.Now().Said)
				if path(page.Inquiry()) != pathBefore {
					t.Errorf("%s, on a page: %.30q makes %s of %s", place, words, path(page.Inquiry()), pathBefore)
				}
			}
		}
	}
}

func isTold(t *testing.T, place, words, said string) {
	t.Helper()
	if said == "" || len(said) > 300 || strings.ContainsFunc(said, unicode.IsControl) || strings.Contains(said, "\u202e") ||
		strings.Contains(said, "e+") {
		t.Errorf("%s: of %.30q it says %q", place, words, said)
	}
}

// Words said against themselves, and those of two minds, wait to be chosen from, beside what
// was ticked before.
func TestWordsAgainstThemselvesWait(t *testing.T) {
	q := embeddedInquiry(t)
	q.LeaveLength()
	l := newLiner(q, Destination{}, nil, nil, new(bytes.Buffer), 80)
	for _, line := range []string{"?", "?", "a"} {
		l.take(line)
	}
	l.take("no legs, six legs, zork")
	if len(q.Given()) != 3 || len(l.heard) != 2 || l.heard[0].taken || !strings.Contains(l.said, "Noted: ") ||
		!strings.Contains(l.said, `Not known here: "zork"`) {
		t.Errorf("%q waits with %+v after %q", l.said, l.heard, path(q))
	}
}
