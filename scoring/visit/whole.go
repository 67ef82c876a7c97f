package visit

import (
	"io/fs"
	"slices"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Encode is the text of a file that holds the visit, as this package writes it.
func (v *Visit) Encode() []byte {
	out := encodeHeader(v.Written())
	for _, e := range v.Events {
		out = append(out, v.block(e)...)
	}
	return out
}

// Encoded is the text of a file with this header and no event.
func Encoded(h Header) []byte { return encodeHeader(h) }

// WriteNew writes the whole visit into a new file at path with the mode, less
// what the umask takes. It never overwrites a file, and the file appears whole
// and synced or not at all. What the package would not read back as it is is
// refused.
func (v *Visit) WriteNew(path string, mode fs.FileMode) error {
	data := v.Encode()
	again, err := Parse(path, data)
	if err != nil {
		return wording.Errorf("not written: %w", err)
	}
	for _, n := range again.Notices {
		if n.Trouble != Unknown { // what a newer program wrote is kept as it is
			return wording.Errorf("not written: %v", n)
		}
	}
	for i, e := range again.Events {
		if (e.raw == nil) != (v.Events[i].raw == nil) {
			return wording.Errorf("not written: event %s is unsound", plain.Printable(e.ID))
		}
	}
	if err := createWhole(path, mode, data); err != nil {
		return createError(path, err)
	}
	return nil
}

// Check says what is unsound about a header or an event by itself, in one
// sentence, or nil.
func (v *Visit) Check() error {
	if err := checkHeader(v.Header); err != nil {
		return err
	}
	for _, e := range v.Events {
		if err := checkEvent(e); err != nil {
			return wording.Errorf("event %s: %w", plain.Printable(e.ID), err)
		}
	}
	return nil
}

// recordedUnder is what was recorded under a label: ids of records and of rows gone through.
func recordedUnder(v *Visit, label string) (ids []string) {
	for _, r := range v.Tally().Records {
		if sampleKey(r.Sample) == sampleKey(label) {
			ids = append(ids, r.ID)
		}
	}
	for _, e := range v.Events {
		if rows, ok := e.Body.(SheetRows); ok && sampleKey(rows.Sample) == sampleKey(label) {
			ids = append(ids, e.ID)
		}
	}
	return ids
}

// SampleApart makes the second record of a label a sample of its own under
// another label: the animals that file recorded under the old label move to it, and
// so do the rows of the sheet that were gone through there. The events are added as
// Conclude does.
func (v *Visit) SampleApart(who string, second Event, from *Visit, others []*Visit, label string) error {
	s, ok := second.Body.(Sample)
	if !ok {
		return wording.Errorf("event %s is no sample", second.ID)
	}
	old := s.Label
	s.Label = label
	if err := v.Conclude(who, s); err != nil {
		return err
	}
	for _, id := range recordedUnder(from, old) {
		elsewhere := slices.ContainsFunc(others, func(o *Visit) bool {
			return slices.ContainsFunc(o.Events, func(e Event) bool { return e.ID == id })
		})
		if elsewhere {
			continue
		}
		move := Amendment{Entry: id, Reason: wording.Text("recorded apart under the same label"), Change: Change{Sample: &label}}
		if err := v.Conclude(who, move); err != nil {
			return err
		}
	}
	return v.Conclude(who, SameName{What: NameSample, Name: old, Spelling: old})
}
