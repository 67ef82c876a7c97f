package main

import (
	"strings"

	"github.com/spf13/pflag"

	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/scoring/visit"
)

// mostAnimals is the largest count of one record.
const mostAnimals = visit.MaxCount

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

// identification is the event that keeps the result of a walk.
func (r *recordFlags) identification(k *key.Key, result key.Identification, length float64) (visit.Identification, error) {
	n, err := wholeCount(r.count)
	if err != nil {
		return visit.Identification{}, misused("--count: %v", err)
	}
	body := visit.Identification{
		Sample: r.sample, Taxon: result.Taxon, Count: n, Cell: r.cell,
		Confidence: result.Confidence, Path: result.Path,
		Undecided: result.Taxon == "", Length: length, Note: r.note,
	}
	if t := k.Catalog().Taxon(result.Taxon); t != nil {
		body.Rank = t.Rank
	}
	if len(result.Possible) > 1 && len(result.Possible) <= mostKept {
		body.Possible = result.Possible
	}
	return body, nil
}

// mostKept is how many possibilities a record keeps; more say no more than the
// path does.
const mostKept = 40

// addRecord appends a record to the visit and says where it is. Without a sample
// the latest one is meant.
func (a *app) addRecord(r recordFlags, body visit.Identification) (*show.Saved, error) {
	path, err := a.visitPath(false)
	if err != nil {
		return nil, err
	}
	v, err := visit.Read(path)
	if err != nil {
		return nil, err
	}
	if body.Sample == "" {
		samples := v.Tally().Samples
		if len(samples) == 0 {
			return nil, misused("%s has no sample yet; add one with 'rillkey visit sample' first", path)
		}
		body.Sample = samples[len(samples)-1].Label
	}
	saved, err := a.save(path, strings.TrimSpace(r.who), body)
	if err != nil {
		return nil, err
	}
	return &show.Saved{Visit: v.Header.ID, File: path, Event: saved.Event.ID}, nil
}
