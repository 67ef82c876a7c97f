package visit

import "rillkey/taxa/wording"

// Spilled is what stays in memory of a visit whose entries lie elsewhere for a while: all
// but those and the records of its tally, which come back with them and are not replayed.
type Spilled struct {
	visit     Visit
	entries   []spilledEntry
	tally     Tally
	records   []spilledRecord
	withdrawn []spilledRecord // those withdrawn
	recorded  bool            // there was a list of records, if an empty one
}

// spilledEntry is what the text of an entry does not tell.
type spilledEntry struct {
	line   int32
	byHand bool
	raw    bool
}

// spilledRecord is a record by the places of what it consists of in the text.
type spilledRecord struct {
	entry   int32        // where it was first named
	block   int32        // the block that holds it as it stands: that entry's, or one behind all entries
	history *spilledPast // nil where nothing was said of it since
}

type spilledPast struct {
	amended []int32 // entries
	looks   []spilledLook
}

type spilledLook struct {
	entry   int32
	settled bool
}

// Spill gives the entries of a visit and the records of its tally as a text, to be kept
// elsewhere, and what [Spilled.Visit] makes the visit of again.
func Spill(v *Visit) (*Spilled, []byte) {
	s := &Spilled{visit: *v, tally: v.Tally(), entries: make([]spilledEntry, len(v.Events))}
	s.visit.Events, s.visit.replayed = nil, replayed{}
	var text []byte
	at := make(map[string]int32, len(v.Events))
	for i, e := range v.Events {
		at[e.ID] = int32(i)
		s.entries[i] = spilledEntry{int32(e.Line), e.byHand, e.raw != nil}
		text = append(text, encodeEvent(e)...)
	}
	blocks := int32(len(v.Events))
	spill := func(list []Record) (out []spilledRecord) {
		for _, r := range list {
			one := spilledRecord{entry: at[r.ID], block: at[r.ID]}
			first := v.Events[one.entry].Body.(Identification)
			if len(r.Amended) > 0 || r.Sample != first.Sample {
				one.block = blocks
				blocks++
				text = append(text, encodeEvent(Event{ID: r.ID, Time: r.Time, Who: r.Who, Body: r.Identification})...)
			}
			if len(r.Amended)+len(r.Looks) > 0 {
				one.history = &spilledPast{}
			}
			for _, id := range r.Amended {
				one.history.amended = append(one.history.amended, at[id])
			}
			for _, l := range r.Looks {
				one.history.looks = append(one.history.looks, spilledLook{at[l.ID], l.Settled})
			}
			out = append(out, one)
		}
		return out
	}
	s.recorded = s.tally.Records != nil
	s.records, s.withdrawn = spill(s.tally.Records), spill(s.tally.Withdrawn)
	s.tally.Records, s.tally.Withdrawn = nil, nil
	return s, text
}

// Visit is the visit again, with its tally. It is an error if the text is not the one that
// [Spill] gave.
func (s *Spilled) Visit(text []byte) (*Visit, error) {
	chunks, _ := split(text, len(text))
	blocks := make([]Event, len(chunks))
	for i, c := range chunks {
		e, err := s.block(i, c)
		if err != nil {
			return nil, err
		}
		blocks[i] = e
	}
	if len(blocks) < len(s.entries) {
		return nil, errSpilled
	}
	v, tally := s.visit, s.tally
	v.Events = blocks[:len(s.entries):len(s.entries)]
	var err error
	if tally.Records, err = s.back(s.records, blocks); err != nil {
		return nil, err
	}
	if tally.Withdrawn, err = s.back(s.withdrawn, blocks); err != nil {
		return nil, err
	}
	if s.recorded && tally.Records == nil {
		tally.Records = []Record{}
	}
	v.replayed = replayed{v.asReplayed(), tally}
	return &v, nil
}

// block reads a block as it was, whether or not it would be taken as an entry now: what
// amendments made of a record may be none.
func (s *Spilled) block(i int, c chunk) (Event, error) {
	if !c.intact {
		return Event{}, errSpilled
	}
	if i < len(s.entries) && s.entries[i].raw {
		e, _, _ := decodeEvent(c.text) // what is wrong with it was told when it was read first
		e.Line, e.byHand, e.raw = int(s.entries[i].line), s.entries[i].byHand, verbatim(c.text)
		return e, nil
	}
	e, f, err := decodeUnchecked(c.text)
	if err != nil || f.err != nil {
		return Event{}, errSpilled
	}
	f.done()
	if i < len(s.entries) {
		e.Line, e.byHand = int(s.entries[i].line), s.entries[i].byHand
	}
	return e, nil
}

// back are the records again.
func (s *Spilled) back(list []spilledRecord, blocks []Event) ([]Record, error) {
	var out []Record
	if len(list) > 0 {
		out = make([]Record, 0, len(list))
	}
	for _, one := range list {
		if int(one.block) >= len(blocks) {
			return nil, errSpilled
		}
		e := blocks[one.entry]
		id, ok := blocks[one.block].Body.(Identification)
		if !ok {
			return nil, errSpilled
		}
		r := Record{ID: e.ID, Time: e.Time, Who: e.Who, Identification: id}
		if one.history != nil {
			if err := one.history.addTo(&r, blocks); err != nil {
				return nil, err
			}
		}
		out = append(out, r)
	}
	return out, nil
}

func (p *spilledPast) addTo(r *Record, blocks []Event) error {
	for _, i := range p.amended {
		r.Amended = append(r.Amended, blocks[i].ID)
	}
	for _, l := range p.looks {
		e := blocks[l.entry]
		look, ok := e.Body.(SecondLook)
		if !ok {
			return errSpilled
		}
		r.Looks = append(r.Looks, LookedAgain{ID: e.ID, Time: e.Time, Who: e.Who, SecondLook: look, Settled: l.settled})
	}
	return nil
}

var errSpilled = wording.NewError("the entries that were put aside are no longer as they were")
