package main

import (
	"strings"

	"github.com/spf13/pflag"

	"rillkey/cmd/rillkey/record"
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
	if err := readFlag("count", r.count, units.Animals, &n); err != nil {
		return visit.Identification{}, err
	}
	body := record.FromInquiry(q, r.sample, n, length)
	body.Cell, body.Note = r.cell, r.note
	return body, nil
}

// addRecord appends a record to the visit and says where it is. Without a sample
// the latest one is meant.
func (vf *visitFolder) addRecord(path string, r recordFlags, body visit.Identification) (*show.SavedJSON, error) {
	v, err := visit.Read(path)
	if err != nil {
		return nil, err
	}
	if body.Sample == "" {
		if body.Sample = v.Tally().SampleMeant(); body.Sample == "" {
			return nil, vf.noSample(path)
		}
	}
	saved, err := vf.save(path, strings.TrimSpace(r.who), body)
	if err != nil {
		return nil, err
	}
	return &show.SavedJSON{Visit: v.Header.ID, File: path, Event: saved.Event.ID}, nil
}
