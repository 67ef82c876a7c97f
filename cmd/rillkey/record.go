package main

import (
	"math"
	"strings"

	"github.com/spf13/pflag"

	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/units"
	"rillkey/key"
	"rillkey/scoring/visit"
)

// recordFlags are what is kept of a creature beside its name.
type recordFlags struct {
	sample, count, cell, who, note string
}

func (r *recordFlags) register(flags *pflag.FlagSet) {
	flags.StringVar(&r.sample, "sample", "", "the `SAMPLE` it came from (else the latest)")
	flags.StringVar(&r.count, "count", "1", "how many there are that look the same, `N`")
	flags.StringVar(&r.cell, "cell", "", "where in the tray they lie, `CELL`")
	flags.StringVar(&r.who, "who", "", "`NAME` of the person who looked")
	flags.StringVar(&r.note, "note", "", "anything worth keeping, `TEXT`")
}

// used reports whether something was said that only a visit can keep.
func (r *recordFlags) used() bool {
	return r.sample != "" || r.count != "1" || r.cell != "" || r.who != "" || r.note != ""
}

// identification is the event that keeps what an inquiry has come to.
func (r *recordFlags) identification(q *key.Inquiry, length float64) (visit.Identification, error) {
	var n int
	if err := readFlag("count", r.count, units.Count, &n); err != nil {
		return visit.Identification{}, err
	}
	v := q.Verdict()
	body := visit.Identification{
		Sample: r.sample, Taxon: v.Taxon, Count: n, Cell: r.cell,
		Confidence: places(v.Probability), Path: v.Path, Also: chances(q, v.Taxon),
		Undecided: v.Taxon == "", Length: length, Note: r.note,
	}
	if t := q.Model().Key().Catalog().Taxon(v.Taxon); t != nil {
		body.Rank = t.Rank
	}
	likely := q.Likely(kept)
	if len(likely) > 1 && len(likely) <= mostKept {
		for _, l := range likely {
			body.Possible = append(body.Possible, l.Taxon)
		}
	}
	return body, nil
}

// What a record keeps of the other possibilities.
const (
	kept      = 0.99  // the probability that those kept as possible hold together
	keptAbove = 0.005 // the least probability kept
)

// chances are the end points outside the name with their probability, the
// likeliest first. With the name's own confidence they sum to at most 1.
func chances(q *key.Inquiry, name string) []visit.Chance {
	catalog := q.Model().Key().Catalog()
	var out []visit.Chance
	for _, s := range q.Likely(1) {
		if s.Probability < keptAbove || len(out) == mostKept {
			break
		}
		if name == "" || !catalog.IsUnder(s.Taxon, name) {
			out = append(out, visit.Chance{Taxon: s.Taxon, Probability: places(s.Probability)})
		}
	}
	return out
}

// places is a probability cut to four decimals, so that no sum grows.
func places(p float64) float64 { return math.Floor(p*1e4) / 1e4 }

// mostKept is how many possibilities a record keeps; more say no more than the
// path does.
const mostKept = 40

// addRecord appends a record to the visit and says where it is. Without a sample
// the latest one is meant.
func (vf *visitFolder) addRecord(path string, r recordFlags, body visit.Identification) (*show.Saved, error) {
	v, err := visit.Read(path)
	if err != nil {
		return nil, err
	}
	if body.Sample == "" {
		samples := v.Tally().Samples
		if len(samples) == 0 {
			return nil, noSample(path)
		}
		body.Sample = samples[len(samples)-1].Label
	}
	saved, err := vf.save(path, strings.TrimSpace(r.who), body)
	if err != nil {
		return nil, err
	}
	return &show.Saved{Visit: v.Header.ID, File: path, Event: saved.Event.ID}, nil
}
