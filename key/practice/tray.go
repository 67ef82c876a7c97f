package practice

import (
	"io/fs"
	"math/rand/v2"
	"slices"
	"strconv"
	"time"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Cup is one real specimen of a trainer's reference tray.
type Cup struct {
	Number int
	Kind   string // id of the kind of the course that the trainer named it
	Note   string // for when it was named: what to see on this one
}

// mostCups is how many cups a tray holds at most.
const mostCups = 500

// ReadTray reads a trainer's file of cups, whose messages call it shown:
//
//	[cup.4]
//	taxon = "perlidae"
//	note  = "the left tail is broken"
//
// Names are those of the catalog, by any name or id. The error is of type
// [authored.Findings] where the file could be read at all.
func ReadTray(fsys fs.FS, name, shown string, c *Course) ([]Cup, error) {
	data, err := authored.Read(fsys, name, shown)
	if err != nil {
		return nil, err
	}
	return ParseTray(shown, data, c)
}

// ParseTray reads the text of a trainer's file; see [ReadTray].
func ParseTray(shown string, data []byte, c *Course) ([]Cup, error) {
	var report authored.Report
	var cups []Cup
	if top := authored.Parse(shown, data, &report); top != nil {
		rows := top.Subs("cup")
		if len(rows) < 2 || len(rows) > mostCups {
			top.Fail("cup", "cups", wording.Sprintf("a tray has 2 to %d cups, each a table [cup.1], [cup.2] and so on", mostCups),
				wording.Text("add or leave out cups"))
			rows = rows[:min(len(rows), mostCups)]
		}
		for _, row := range rows {
			cups = append(cups, readCup(row, c))
		}
		top.Done()
	}
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	sorting.Stable(cups, func(a, b Cup) int { return a.Number - b.Number })
	return cups, nil
}

func readCup(row authored.Section, c *Course) Cup {
	cup := Cup{Note: plain.OneLine(row.Str("note"))}
	n, err := strconv.Atoi(row.ID)
	if err != nil || n < 1 || n > 9999 || strconv.Itoa(n) != row.ID {
		row.FailAt(row.Here(), "bad-number", wording.Sprintf("%s is no number of a cup", plain.Quote(row.ID)),
			wording.Text("number cups from 1 to 9999, as in [cup.4]"))
	}
	cup.Number = n
	name := row.NeedStr("taxon")
	if kind := c.Called(name); kind != nil {
		cup.Kind = kind.ID
	} else if name != "" {
		row.Fail("taxon", "unknown-kind", wording.Sprintf("%s is no kind that this key ends in", plain.Quote(name)),
			wording.Text("it is called as the key calls it, or by any other of its names; look for it as in 'rillkey taxa stonefly'"))
	}
	row.Done()
	return cup
}

// NextCup is the cup to look at next: of the kinds in the tray the one that is expected
// to take most error from this person's tallies, never the cup before; cups that were
// looked at least come first among those of a kind.
func NextCup(cups []Cup, l *Learner, at time.Time, r *rand.Rand, before Cup) Cup {
	gains := l.gains(at)
	best, most := cups[0], -1.0
	for _, cup := range cups {
		if cup.Number == before.Number {
			continue
		}
		g := gains[l.course.kindPlace[cup.Kind]] + 1e-9
		if l.justMet(l.course.kindPlace[cup.Kind], min(rememberLast, len(cups)-1)) {
			g *= heldBack
		}
		if len(l.calls) > 0 && l.calls[0] == l.course.kindPlace[cup.Kind] {
			g += 1
		}
		g *= 1 + 0.1*r.Float64()
		if g > most {
			best, most = cup, g
		}
	}
	if len(l.calls) > 0 && !slices.ContainsFunc(cups, func(c Cup) bool { return l.course.kindPlace[c.Kind] == l.calls[0] }) {
		l.calls = nil
	} else if len(l.calls) > 0 && l.calls[0] == l.course.kindPlace[best.Kind] {
		l.calls = l.calls[1:]
	}
	return best
}

// ShownOf is what a real animal of a kind is taken to have shown where something was said
// of it: what was said, where the kind ever shows that, else what it shows most often.
// Nobody noted the animal's own states, so that only what no animal of the kind shows
// counts as misread.
func ShownOf(given []key.Given, t *taxa.Taxon) map[string]string {
	out := map[string]string{}
	for _, g := range given {
		for _, said := range asked(g) {
			shown := t.States(said.Trait)
			if shown == nil || out[said.Trait] != "" {
				continue
			}
			usual := taxa.Usual(shown)
			for _, w := range shown {
				if slices.Contains(said.States, w.State) {
					usual = w.State
				}
			}
			out[said.Trait] = usual
		}
	}
	return out
}

// asked are the conditions of what was said, and of the other answers to the question,
// since what those ask for was looked at too.
func asked(g key.Given) []couplets.Condition {
	out := slices.Clone(g.Says)
	if len(out) == 0 || g.Question.Couplet == nil {
		return out
	}
	for _, l := range g.Question.Couplet.Leads {
		out = append(out, l.Conditions...)
	}
	return out
}
