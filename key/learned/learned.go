// Package learned is what a group has learned about its own misreading: how
// often each trait was answered where the right name became known later, and how
// often wrongly.
//
// Only animals that chance chose for a second look teach rates. Those that somebody
// chose because their name was doubtful hold more misreads than others; they are
// counted apart and shown, and weigh nothing.
//
// A group misreads all traits some factor as often as the vocabulary says, and each
// trait some factor more or less than that; both factors are gamma-distributed about
// 1, so that after w misreads noticed where e were expected they are
//
//	(strength + w) / (strength + e)
//
// the mean for a Poisson count with its conjugate prior (Gelman and others,
// Bayesian Data Analysis, section 2.6, from memory); the strength is greater where
// fewer were noticed than expected. Few second looks teach the factor of the group,
// since all traits tell of it, and many those of the traits.
//
// No rate falls below that of the vocabulary: a group that is taken to be more careful
// is given bolder names, and after 100 second looks half as many wrong ones again
// (RandomLooks); one that is more careful than it is taken to be loses little.
//
// A misread is noticed when the right kind never shows what was answered. What is
// expected allows for those that fit all the same; that a part was lost is no
// misread.
package learned

import (
	"bytes"
	"fmt"
	"io/fs"
	"maps"
	"slices"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// How many misreads that were expected it takes for a factor above 1 to be half
// learned, and how many times as many for one below, since in few looks most traits
// happen not to be misread (common practice: doubt is cheaper than error).
const (
	groupStrength = 5.0
	traitStrength = 4.0
	slower        = 4.0
)

// mostLooked bounds the numbers in a file.
const mostLooked = 1_000_000

// TraitCount is how often a trait was answered, and how often wrongly.
type TraitCount struct {
	Looked, Misread int
	Expected        float64 // misreads that would have been noticed at the vocabulary's rates
	// Rate, where it is above 0, is the misread rate as whoever watched the reading itself
	// believes it, 0 to 1: practice knows which state was to be seen, in which order things
	// were learned, and what of it was another trait's fault.
	Rate float64
}

// Counts is the counts of one group by trait. The zero Counts is empty.
type Counts struct {
	drawn  map[string]TraitCount // of animals that chance chose
	chosen map[string]TraitCount // of others
}

// FromCounts are counts of traits that were made elsewhere, all of animals that nobody chose
// for being doubtful. The map is copied.
func FromCounts(counts map[string]TraitCount) *Counts {
	return &Counts{drawn: maps.Clone(counts), chosen: map[string]TraitCount{}}
}

// Read reads a group's file, whose messages call it shown. The error is of type
// [authored.Findings] where the file could be read at all. Traits that the
// vocabulary lacks are findings.
func Read(fsys fs.FS, name, shown string, v *taxa.Vocabulary) (*Counts, error) {
	data, err := authored.Read(fsys, name, shown)
	if err != nil {
		return nil, err
	}
	var report authored.Report
	r := &Counts{map[string]TraitCount{}, map[string]TraitCount{}}
	if top := authored.Parse(shown, data, &report); top != nil {
		for _, row := range top.Subs("trait") {
			readCount(r.drawn, row, v)
		}
		for _, row := range top.Subs("chosen") {
			readCount(r.chosen, row, v)
		}
		top.Done()
	}
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	return r, nil
}

func readCount(into map[string]TraitCount, row authored.Section, v *taxa.Vocabulary) {
	if problem, hint := v.Unknown(row.ID); problem != "" {
		row.FailAt(row.Here(), "unknown-trait", problem, hint)
	}
	row.Need("looked", "misread")
	looked, _ := row.Int("looked")
	misread, _ := row.Int("misread")
	if looked < 0 || looked > mostLooked {
		row.Fail("looked", "bad-count", wording.Sprintf("a count must be from 0 to %d", mostLooked), wording.Text("correct the number"))
	}
	if misread < 0 || misread > looked {
		row.Fail("misread", "bad-count", wording.Text("no more answers can be misread than were given, and no fewer than 0"),
			wording.Text("correct the number"))
	}
	c := TraitCount{Looked: int(looked), Misread: int(misread)}
	switch t := v.Trait(row.ID); {
	case row.Has("expected"):
		if c.Expected, _ = row.Num("expected"); !(c.Expected >= 0 && c.Expected <= mostLooked) {
			row.Fail("expected", "bad-count", wording.Sprintf("a number must be from 0 to %d", mostLooked),
				wording.Text("correct the number"))
		}
	case t != nil: // a file of before there was such a number
		c.Expected = float64(looked) * t.Misread
	}
	if row.Has("rate") {
		if c.Rate, _ = row.Num("rate"); !(c.Rate >= 0 && c.Rate <= 1) {
			row.Fail("rate", "bad-rate", wording.Text("a rate is from 0 to 1"), wording.Text("correct the number"))
		}
	}
	into[row.ID] = c
	row.Done()
}

// head begins the text of a file of counts: a comment on two lines.
var head = [2]string{
	wording.Mark("How often each trait was answered where the right name became known later,"),
	wording.Mark("and how often wrongly; of animals that chance chose [trait], and of others [chosen]."),
}

func comment(line, next string) string { return "# " + line + "\n# " + next + "\n" }

// IsCounts reports whether a text begins as that of [Counts.TOML] does.
func IsCounts(text []byte) bool {
	return bytes.HasPrefix(text, []byte(comment(head[0], head[1]))) ||
		bytes.HasPrefix(text, []byte(comment(wording.Text(head[0]), wording.Text(head[1]))))
}

// TOML is the counts as a file, the traits in the order of the vocabulary.
func (r *Counts) TOML(v *taxa.Vocabulary) []byte {
	var out bytes.Buffer
	out.WriteString(comment(wording.Text(head[0]), wording.Text(head[1])))
	for _, t := range v.Asked() {
		if c, ok := r.drawn[t.ID]; ok {
			fmt.Fprintf(&out, "\n[trait.%s]\nlooked = %d\nmisread = %d\nexpected = %.5f\n", t.ID, c.Looked, c.Misread, c.Expected)
			if c.Rate > 0 {
				fmt.Fprintf(&out, "rate = %.5f\n", c.Rate)
			}
		}
		if c, ok := r.chosen[t.ID]; ok {
			fmt.Fprintf(&out, "\n[chosen.%s]\nlooked = %d\nmisread = %d\nexpected = %.5f\n", t.ID, c.Looked, c.Misread, c.Expected)
		}
	}
	return out.Bytes()
}

// Empty reports whether nothing was counted of any trait.
func (r *Counts) Empty() bool { return len(r.drawn) == 0 && len(r.chosen) == 0 }

// Count is what is known of a trait by animals that chance chose.
func (r *Counts) Count(trait string) TraitCount { return r.drawn[trait] }

// Chosen is what is known of a trait by the other animals; no rate rests on it.
func (r *Counts) Chosen(trait string) TraitCount { return r.chosen[trait] }

// Add is r with one more animal: what was said of it, the taxon it proved to be, and
// whether chance chose it for a second look. A trait unknown for the taxon is not
// counted.
func (r *Counts) Add(given []key.Given, right *taxa.Taxon, v *taxa.Vocabulary, drawn bool) *Counts {
	out := &Counts{map[string]TraitCount{}, map[string]TraitCount{}}
	maps.Copy(out.drawn, r.drawn)
	maps.Copy(out.chosen, r.chosen)
	into := out.chosen
	if drawn {
		into = out.drawn
	}
	for trait, wrong := range judge(given, right, v) {
		c := into[trait]
		if c.Looked >= mostLooked {
			continue
		}
		c.Looked++
		if wrong {
			c.Misread++
		}
		into[trait] = c
	}
	for trait, expected := range expect(given, right, v) {
		c := into[trait]
		c.Expected = min(mostLooked, c.Expected+expected)
		into[trait] = c
	}
	return out
}

// AddPath is r with one more animal, whose answers are given as a path that the
// model's key can follow. It is an error if it cannot.
func (r *Counts) AddPath(m *key.Model, path []string, right *taxa.Taxon, drawn bool) (*Counts, error) {
	q, err := m.Inquire(key.DefaultOptions())
	for _, answer := range path {
		if err == nil {
			err = q.Say(answer)
		}
	}
	if err != nil {
		return nil, err
	}
	return r.Add(q.Given(), right, m.Key().Catalog().Vocabulary(), drawn), nil
}

// judge says of every trait that was answered whether any answer was wrong: no
// animal of that name shows it, whole or with a part lost.
func judge(given []key.Given, right *taxa.Taxon, v *taxa.Vocabulary) map[string]bool {
	out := map[string]bool{}
	for _, g := range given {
		for _, said := range g.Says {
			if shown := right.States(said.Trait); shown != nil {
				out[said.Trait] = out[said.Trait] || misfits(said, fit(v.Trait(said.Trait), shown))
			}
		}
	}
	return out
}

// misfits tells that a condition names none of the states.
func misfits(c couplets.Condition, states []string) bool {
	return !slices.ContainsFunc(c.States, func(s string) bool { return slices.Contains(states, s) })
}

// fit are the states that a kind shows, whole or with a part lost.
func fit(trait *taxa.Trait, shown []taxa.Weight) (states []string) {
	for _, w := range shown {
		states = append(states, w.State)
		if i := trait.State(w.State); i >= 0 {
			states = append(states, trait.States[i].LostAs...)
		}
	}
	return states
}

// Group is how many times as often as the vocabulary says the group misreads.
func (r *Counts) Group() float64 {
	noticed, expected := 0.0, 0.0
	for _, trait := range slices.Sorted(maps.Keys(r.drawn)) {
		c := r.drawn[trait]
		noticed += float64(c.Misread)
		expected += c.Expected
	}
	return factor(groupStrength, noticed, expected)
}

// factor is the mean of a gamma distribution about 1 after misreads were noticed
// where some were expected.
func factor(strength, noticed, expected float64) float64 {
	if noticed < expected {
		strength *= slower
	}
	return (strength + noticed) / (strength + expected)
}

// Rates are base with the group's own experience, none below base nor above 0.5.
func (r *Counts) Rates(base key.Rates) key.Rates {
	out := key.Rates{Misread: map[string]float64{}, Lost: base.Lost}
	group := r.Group()
	for trait, m := range base.Misread {
		c := r.drawn[trait]
		if own := factor(traitStrength, float64(c.Misread), group*c.Expected); c.Rate == 0 {
			out.Misread[trait] = min(0.5, m*max(1, group*own))
		} else {
			out.Misread[trait] = min(0.5, max(m, c.Rate))
		}
	}
	return out
}
