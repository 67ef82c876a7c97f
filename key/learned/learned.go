// Package learned is what a group has learned about its own misreading: how
// often each trait was answered where the right name became known later, and how
// often wrongly.
//
// The rates that follow are Beta-binomial: the vocabulary's rate counts as much
// as [Strength] answers of the group's own, so that a few second looks move it
// little and many replace it. After w wrong of n answers the rate is
//
//	(Strength·m + w) / (Strength + n)
//
// the mean of the Beta distribution with the parameters Strength·m + w and
// Strength·(1−m) + n − w (Gelman and others, Bayesian Data Analysis, give the
// rule for the binomial with a conjugate prior).
//
// An answer counts as wrong when the right kind never shows what was answered.
// A misread that leads to the same answer, or to something the kind can show as
// well, is not noticed: the counts are a lower bound.
package learned

import (
	"bytes"
	"fmt"
	"io/fs"
	"slices"

	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/authored"
)

// Strength is how many answers the vocabulary's rate is worth (memory).
const Strength = 20

// mostLooked bounds the numbers in a file.
const mostLooked = 1_000_000

// TraitCount is how often a trait was answered, and how often wrongly.
type TraitCount struct{ Looked, Misread int }

// Counts is the counts of one group by trait. The zero Record is empty.
type Counts struct {
	counts map[string]TraitCount
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
	r := &Counts{counts: map[string]TraitCount{}}
	if top := authored.Parse(shown, data, &report); top != nil {
		for _, row := range top.Subs("trait") {
			r.read(row, v)
		}
		top.Done()
	}
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	return r, nil
}

func (r *Counts) read(row authored.Section, v *taxa.Vocabulary) {
	if problem, hint := v.Unknown(row.ID); problem != "" {
		row.FailAt(row.Here(), "unknown-trait", problem, hint)
	}
	row.Need("looked", "misread")
	looked, _ := row.Int("looked")
	misread, _ := row.Int("misread")
	if looked < 0 || looked > mostLooked {
		row.Fail("looked", "bad-count", fmt.Sprintf("a count must be from 0 to %d", mostLooked), "correct the number")
	}
	if misread < 0 || misread > looked {
		row.Fail("misread", "bad-count", "no more answers can be misread than were given, and no fewer than 0", "correct the number")
	}
	r.counts[row.ID] = TraitCount{int(looked), int(misread)}
	row.Done()
}

// TOML is the record as a file, the traits in the order of the vocabulary.
func (r *Counts) TOML(v *taxa.Vocabulary) []byte {
	var out bytes.Buffer
	out.WriteString("# How often each trait was answered where the right name became known later,\n# and how often wrongly.\n")
	for _, t := range v.Traits() {
		if c, ok := r.counts[t.ID]; ok {
			fmt.Fprintf(&out, "\n[trait.%s]\nlooked = %d\nmisread = %d\n", t.ID, c.Looked, c.Misread)
		}
	}
	return out.Bytes()
}

// Empty reports whether nothing was counted of any trait.
func (r *Counts) Empty() bool { return len(r.counts) == 0 }

// Count is what is known of a trait.
func (r *Counts) Count(trait string) TraitCount { return r.counts[trait] }

// Add is r with one more animal: what was said of it, and the taxon it proved to
// be. A trait unknown for the taxon is not counted.
func (r *Counts) Add(given []key.Given, right *taxa.Taxon) *Counts {
	out := &Counts{counts: map[string]TraitCount{}}
	for id, c := range r.counts {
		out.counts[id] = c
	}
	for trait, wrong := range judge(given, right) {
		c := out.counts[trait]
		if c.Looked >= mostLooked {
			continue
		}
		c.Looked++
		if wrong {
			c.Misread++
		}
		out.counts[trait] = c
	}
	return out
}

// AddPath is r with one more animal, whose answers are given as a path that the
// model's key can follow. It is an error if it cannot.
func (r *Counts) AddPath(m *key.Model, path []string, right *taxa.Taxon) (*Counts, error) {
	q, err := m.Inquire(key.DefaultOptions())
	for _, answer := range path {
		if err == nil {
			err = q.Say(answer)
		}
	}
	if err != nil {
		return nil, err
	}
	return r.Add(q.Given(), right), nil
}

// judge says of every trait that was answered whether any answer was wrong.
func judge(given []key.Given, right *taxa.Taxon) map[string]bool {
	out := map[string]bool{}
	for _, g := range given {
		for _, said := range g.Says {
			shown := right.States(said.Trait)
			if shown == nil {
				continue
			}
			fits := slices.ContainsFunc(shown, func(w taxa.Weight) bool { return slices.Contains(said.States, w.State) })
			out[said.Trait] = out[said.Trait] || !fits
		}
	}
	return out
}

// Rates are base with the group's own experience, none above 0.5.
func (r *Counts) Rates(base key.Rates) key.Rates {
	out := key.Rates{Misread: map[string]float64{}, Lost: base.Lost}
	for trait, m := range base.Misread {
		c := r.counts[trait]
		out.Misread[trait] = min(0.5, (Strength*m+float64(c.Misread))/float64(Strength+c.Looked))
	}
	return out
}
