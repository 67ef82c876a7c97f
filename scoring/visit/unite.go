package visit

import (
	"slices"

	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Blocks is the text of events, as they stand in a visit's file.
func Blocks(events []Event) []byte {
	var out []byte
	for _, e := range events {
		out = append(out, encodeEvent(e)...)
	}
	return out
}

// ParseBlocks reads the text of at most so many events that somebody handed in who
// need not be trusted: every block must be whole and sound, or none is taken. They
// keep their ids and times; what a newer program wrote is kept as it is.
func ParseBlocks(text []byte, most int) ([]Event, error) {
	chunks, more := split(text, most)
	if more {
		return nil, wording.Errorf("there are more than %d entries", most)
	}
	var out []Event
	for i, c := range chunks {
		var notes notices
		if !c.isRow || !c.intact || len(c.text) > MaxBlock {
			return nil, wording.Errorf("entry %d is not whole", i+1)
		}
		e, ok := readEvent(c, &notes)
		if !ok {
			return nil, wording.Errorf("entry %d: %s", i+1, notes.list[0].Text)
		}
		if err := checkEvent(e); err != nil {
			return nil, wording.Errorf("entry %d: %w", i+1, err)
		}
		e.Line = 0
		out = append(out, e)
	}
	return out, nil
}

// errTakenID means that two entries that say different things have one id.
var errTakenID = wording.NewError("an entry with this id says something else")

// Unite adds events that have ids to a visit in memory, each once, however often and
// in whatever order they come, and gives the number of those that were new. Nothing
// is refused for not fitting the visit: as in [Unite], an animal that somebody
// counted is kept even where the visit was finished meanwhile. Of two that say
// different things under one id the first is kept.
func (v *Visit) Unite(events []Event) (added int) {
	known := make(map[string]bool, len(v.Events))
	for _, e := range v.Events {
		known[e.ID] = true
	}
	for _, e := range events {
		if known[e.ID] || v.blocks >= MaxEvents {
			continue
		}
		known[e.ID] = true
		if added == 0 {
			v.Events = slices.Clone(v.Events) // others may read the old ones
		}
		v.Events = append(v.Events, e)
		v.blocks++
		v.sound += len(v.block(e))
		added++
	}
	if added > 0 {
		sorting.Stable(v.Events, compareEvents)
	}
	return added
}

// inOrder is the visit with its events in the order of time.
func (v *Visit) inOrder() *Visit {
	if slices.IsSortedFunc(v.Events, compareEvents) {
		return v
	}
	sorted := *v
	sorted.Events = slices.Clone(v.Events)
	sorting.Stable(sorted.Events, compareEvents)
	return &sorted
}

// refusal says of one event why it is not taken.
func refusal(e Event, why error) error {
	return wording.Errorf("entry %s: %w", plain.Printable(e.ID), why)
}
