package visit

import (
	"cmp"
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"time"

	"rillkey/taxa/authored"
)

// ErrOtherVisit means that two files are of different visits.
var ErrOtherVisit = errors.New("they are different visits")

// Clash is what two files of one visit say that people must decide: amendments
// of one event, made apart, that contradict each other, or samples that were
// recorded apart under one label.
type Clash struct {
	What  string   // ClashAmendments or ClashSamples
	Of    string   // id of the amended event, or the label
	Sides []Event  // two or more, in the order of the merged visit
	Files []string // for each side, the first file that holds it
}

// The kinds of Clash.
const (
	ClashAmendments = "amendments"
	ClashSamples    = "samples"
)

// ids are all ids under which a visit is known.
func (h Header) ids() []string { return append([]string{h.ID}, h.Joined...) }

// SameVisit tells whether two files are of one visit: copies of one file, or
// joined before.
func SameVisit(a, b Header) bool {
	return slices.ContainsFunc(a.ids(), func(id string) bool { return slices.Contains(b.ids(), id) })
}

// Merge unites files of one visit by the ids of their events, each once, in
// the order of time and then id. The order in which the files are given, how
// they are grouped and how often they are merged makes no difference. Files
// that [SameVisit] does not know as one are refused with ErrOtherVisit unless
// join is set; the earliest of them then gives its header.
//
// Nothing is decided here: both sides of every Clash are in the result, and
// Conclude enters what people decide. Remarks on the files are passed on.
func Merge(visits []*Visit, join bool) (*Visit, []Clash, error) {
	if len(visits) == 0 {
		return nil, nil, errors.New("there is no file to merge")
	}
	m := &Visit{File: visits[0].File}
	var err error
	if m.Header, err = mergeHeaders(visits, join); err != nil {
		return nil, nil, err
	}
	in := map[string][]bool{} // which files hold an event
	at := map[string]int{}
	for i, v := range visits {
		m.Notices = append(m.Notices, v.Notices...)
		for _, e := range v.Events {
			if in[e.ID] == nil {
				in[e.ID] = make([]bool, len(visits))
				at[e.ID] = len(m.Events)
				m.Events = append(m.Events, e)
			} else if err := sameOrSound(&m.Events[at[e.ID]], e, visits, in[e.ID], i); err != nil {
				return nil, nil, err
			}
			in[e.ID][i] = true
		}
	}
	slices.SortFunc(m.Events, compareEvents)
	for i := range m.Events {
		m.Events[i].Line = 0
	}
	p := provenance{visits, in}
	clashes := append(m.amendmentClashes(p), m.sampleClashes(p)...)
	return m, clashes, nil
}

func compareEvents(a, b Event) int {
	return cmp.Or(a.moment().Compare(b.moment()), cmp.Compare(a.ID, b.ID))
}

// moment is when an event stands in the order of the visit.
func (e Event) moment() time.Time {
	if e.After.IsZero() || e.Time.After(e.After) {
		return e.Time
	}
	return e.After.Add(1)
}

// behind is the moment of the last event where t does not come after it, else
// the zero time.
func (v *Visit) behind(t time.Time) time.Time {
	var last time.Time
	for _, e := range v.Events {
		if m := e.moment(); m.After(last) {
			last = m
		}
	}
	if t.After(last) {
		return time.Time{}
	}
	return last.UTC()
}

// sameOrSound keeps of two events with one id the one that nobody changed by
// hand.
func sameOrSound(kept *Event, e Event, visits []*Visit, holds []bool, i int) error {
	switch {
	case sameContent(*kept, e):
		kept.byHand = kept.byHand && e.byHand
	case kept.byHand && !e.byHand:
		*kept = e
	case kept.byHand == e.byHand:
		return fmt.Errorf("event %s says one thing in %s and another in %s:%d; undo the change by hand in one of them, then merge again", e.ID, authored.Printable(visits[slices.Index(holds, true)].File), authored.Printable(visits[i].File), e.Line)
	}
	return nil
}

func mergeHeaders(visits []*Visit, join bool) (Header, error) {
	base := visits[0].Header
	ids := base.ids()
	rest := slices.Clone(visits[1:])
	for len(rest) > 0 {
		i := slices.IndexFunc(rest, func(v *Visit) bool {
			return join || slices.ContainsFunc(v.Header.ids(), func(id string) bool { return slices.Contains(ids, id) })
		})
		if i < 0 {
			o := rest[0]
			return Header{}, fmt.Errorf("%s holds the visit %s to %s on %s, %s the visit %s to %s on %s: %w", authored.Printable(visits[0].File), visits[0].Header.ID, authored.Printable(visits[0].Header.Site), visits[0].Header.Date, authored.Printable(o.File), o.Header.ID, authored.Printable(o.Header.Site), o.Header.Date, ErrOtherVisit)
		}
		ids = append(ids, rest[i].Header.ids()...)
		rest = slices.Delete(rest, i, i+1)
	}
	people := base.People
	alike := true
	for _, v := range visits[1:] {
		alike = alike && slices.Equal(base.People, v.Header.People)
		people = append(people[:len(people):len(people)], v.Header.People...)
		if compareHeaders(v.Header, base) < 0 {
			own := base.People
			base, base.People = v.Header, own
		}
	}
	if !alike {
		base.People = unique(people)
	}
	base.Joined = slices.DeleteFunc(unique(ids), func(id string) bool { return id == base.ID })
	if len(base.Joined) == 0 {
		base.Joined = nil
	}
	return base, nil
}

// compareHeaders puts the earlier visit first. Headers of one visit differ only
// where they were changed by hand; then any order will do that does not depend
// on the order of the files, and one with a place on the map comes first.
func compareHeaders(a, b Header) int {
	a.People, b.People, a.Joined, b.Joined = nil, nil, nil, nil
	placed := func(h Header) int {
		if h.Spot != nil {
			return 0
		}
		return 1
	}
	return cmp.Or(a.Begun.Compare(b.Begun), cmp.Compare(a.ID, b.ID), cmp.Compare(placed(a), placed(b)), cmp.Compare(string(encodeHeader(a)), string(encodeHeader(b))))
}

func unique(list []string) []string {
	list = slices.Clone(list)
	slices.Sort(list)
	return slices.Compact(list)
}

// Conclude adds an event that follows from the visit as it is and from a
// decision, after all others. Its id and time come from the visit itself, so
// that the same decision on the same visit is the same event wherever it is
// made. The event is checked by itself.
func (v *Visit) Conclude(who string, body Body) error {
	e := Event{ID: "new", Who: who, Body: body, Time: v.Header.Begun}
	if last := v.behind(e.Time); !last.IsZero() {
		e.Time = last.Add(1).UTC()
	}
	if err := checkEvent(e); err != nil {
		return err
	}
	e.ID = idOf(append(encodeEvent(e), v.Header.ID...))
	v.Events = append(v.Events, e)
	return nil
}

func idOf(content []byte) string {
	sum := sha256.Sum256(content)
	id := sum[:idLength]
	for i, b := range id {
		id[i] = idLetters[b%32]
	}
	return string(id)
}
