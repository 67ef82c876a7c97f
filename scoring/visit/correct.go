package visit

import "slices"

// headerFields are what an amendment of the visit itself can change in its header.
func headerFields() []field[Header] {
	return []field[Header]{
		newField("site", asText, func(h *Header) *string { return &h.Site }, func(ch *Change) **string { return &ch.Site }),
		newField("date", asText, func(h *Header) *string { return &h.Date }, func(ch *Change) **string { return &ch.Date }),
		newField("protocol", asText, func(h *Header) *string { return &h.Protocol }, func(ch *Change) **string { return &ch.Protocol }),
		newField("reference", asText, func(h *Header) *string { return &h.Reference }, func(ch *Change) **string { return &ch.Reference }),
		{
			changeField: changeField{
				given: func(ch *Change) bool { return ch.People != nil },
				put: func(w *writer, ch *Change) {
					if ch.People != nil {
						w.strs("people", *ch.People)
					}
				},
				take: func(f *fields, ch *Change) {
					if people := f.strs("people"); len(people) > 0 {
						ch.People = &people
					}
				},
				drop: func(ch *Change) { ch.People = nil },
				differs: func(a, b *Change) bool {
					return a.People != nil && b.People != nil && !slices.Equal(*a.People, *b.People)
				},
			},
			apply: func(ch *Change, h *Header) {
				if ch.People != nil {
					h.People = *ch.People
				}
			},
		},
		{
			changeField: changeField{
				given:   func(ch *Change) bool { return ch.Spot != nil },
				put:     func(w *writer, ch *Change) { w.spot(ch.Spot) },
				take:    func(f *fields, ch *Change) { ch.Spot = f.spot() },
				drop:    func(ch *Change) { ch.Spot = nil },
				differs: func(a, b *Change) bool { return a.Spot != nil && b.Spot != nil && *a.Spot != *b.Spot },
			},
			apply: func(ch *Change, h *Header) {
				if ch.Spot != nil {
					h.Spot = ch.Spot
				}
			},
		},
	}
}

func (ch *Change) touchesHeader() bool { return touches(ch, tables().header) }

// Written is the header as it stands in the file; [Visit.Header] is that with the
// corrections made since.
func (v *Visit) Written() Header {
	if v.asWritten == nil {
		return v.Header
	}
	h := *v.asWritten
	h.Obscured = v.Header.Obscured
	return h
}

// Recast is a visit of the same file with another header, as it is written, and
// other events, whose corrections of the header are applied.
func (v *Visit) Recast(written Header, events []Event) *Visit {
	out := *v
	out.Header, out.Events, out.asWritten, out.replayed = written, events, nil, replayed{}
	out.correct()
	return &out
}

// Placed is the visit with another name and spot of its site, in place of all that its
// header and entries say of them. Its tally, which says nothing of either, is kept.
func (v *Visit) Placed(site string, spot *Spot) *Visit {
	tally, out := v.Tally(), *v
	if v.asWritten != nil {
		written := *v.asWritten
		written.Site, written.Spot = site, spot
		out.asWritten = &written
	}
	out.Header.Site, out.Header.Spot = site, spot
	out.Events = slices.Clone(v.Events)
	for i, e := range out.Events {
		switch b := e.Body.(type) {
		case Amendment:
			if b.Change.Site != nil {
				b.Change.Site = &site
			}
			if b.Change.Spot != nil {
				b.Change.Spot = spot
			}
			out.Events[i].Body = b
		case SameName:
			if b.What == NameSite {
				b.Name, b.Spelling = site, site
			}
			out.Events[i].Body = b
		}
	}
	out.replayed = replayed{out.asReplayed(), tally}
	return &out
}

// Withhold gives the visit with its place obscured as by [Visit.Obscure], and with its tally,
// which says of that only so much.
func Withhold(v *Visit) *Visit {
	tally, out := v.Tally(), *v
	out.Obscure()
	out.Header.Obscured, tally.Obscured = true, true
	out.replayed = replayed{out.asReplayed(), tally}
	return &out
}

// correct applies to the header what amendments say of it.
func (v *Visit) correct() {
	corrected := slices.ContainsFunc(v.Events, func(e Event) bool {
		a, ok := e.Body.(Amendment)
		return ok && a.Change.touchesHeader()
	})
	if !corrected {
		return
	}
	r, written := v.replay(), v.Header
	v.Header, v.asWritten = r.head, &written
	keep(v, r)
}

// header judges the values of an amendment of a header.
func (c *check) header(ch Change) {
	if !ch.touchesHeader() {
		return
	}
	h := Header{ID: "any", Site: "any", Date: "2000-01-01"}
	for _, f := range tables().header {
		f.apply(&ch, &h)
	}
	c.needText("site", h.Site)
	c.date(h.Date)
	c.texts("people", h.People)
	c.optionalID("protocol", h.Protocol)
	c.spot(h.Spot)
	c.text("reference", h.Reference)
}
