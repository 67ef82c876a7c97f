package visit

import (
	"io"
	"time"

	"rillkey/taxa/wording"
)

// Begin begins a visit without a file, for a program that keeps it elsewhere (see
// [Visit.Encode]). Its id is drawn from random.
func Begin(h Header, random io.Reader) (*Visit, error) {
	_, block, err := begun(h, random)
	if err != nil {
		return nil, err
	}
	return Parse("", block)
}

// Add adds an event to a visit in memory and returns it with the id drawn for it
// from random. It is refused where [Append] would refuse it; the visit is then
// as it was. Nothing is written.
func (v *Visit) Add(at time.Time, who string, body Body, random io.Reader) (Event, error) {
	e := Event{ID: "new", Time: at.Round(0), Who: who, Body: tidy(body)}
	if err := checkEvent(e); err != nil {
		return Event{}, wording.Errorf("not noted: %w", err)
	}
	e, block, err := v.ready(e, random)
	if err != nil {
		return Event{}, wording.Errorf("not noted: %w", err)
	}
	v.Events = append(v.Events, e)
	v.blocks++
	v.sound += len(block)
	return e, nil
}
