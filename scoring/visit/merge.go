package visit

import (
	"cmp"
	"crypto/sha256"
	"slices"
	"strings"
	"time"

	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// ErrOtherVisit means that two files are of different visits.
var ErrOtherVisit = wording.NewError("they are different visits")

// Clash is what two files of one visit say that people must decide: amendments
// of one event, made apart, that contradict each other, or samples that were
// recorded apart under one label.
type Clash struct {
	What  string   // ClashAmendments or ClashSamples
	Entry string   // id of the amended event, or the label
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

// Unite unites files of one visit by the ids of their events, each once, in
// the order of time and then id. The order in which the files are given, how
// they are grouped and how often they are merged makes no difference. Files
// that [SameVisit] does not know as one are refused with ErrOtherVisit unless
// join is set; the earliest of them then gives its header.
//
// Nothing is decided here: both sides of every Clash are in the result, and
// Conclude enters what people decide. Remarks on the files are passed on.
func Unite(visits []*Visit, join bool) (*Visit, []Clash, error) {
	if len(visits) == 0 {
		return nil, nil, wording.NewError("there is no file to merge")
	}
	m := &Visit{File: visits[0].File}
	var err error
	if m.Header, err = mergeHeaders(visits, join); err != nil {
		return nil, nil, err
	}
	if _, torn := uniteUnread(headersOf(visits)); len(torn) > 0 {
		m.Notices = append(m.Notices, Notice{
			m.File, 1, Unknown, wording.Sprintf("the headers differ in the field %s, which this program does not know; "+
				"one of them is kept", plain.List(torn))})
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
	sorting.Stable(m.Events, compareEvents)
	for i := range m.Events {
		m.Events[i].Line = 0
	}
	m.correct()
	p := provenance{visits, in}
	clashes := append(amendmentClashes(m, p), sampleClashes(m, p)...)
	return m, clashes, m.stayObscured(visits)
}

// stayObscured keeps a place obscured that one of the files obscures, where an
// entry that took that back was about another of them.
func (v *Visit) stayObscured(visits []*Visit) error {
	hides := slices.IndexFunc(visits, (*Visit).Obscured)
	if hides < 0 || v.Obscured() {
		return nil
	}
	for _, e := range v.Events {
		a, ok := e.Body.(Amendment)
		if ok && a.Change.Obscured != nil && slices.Contains(visits[hides].Header.ids(), a.Entry) {
			return nil // the other file says it of this very visit
		}
	}
	yes := true
	return v.Conclude("", Amendment{Entry: v.Header.ID, Reason: wording.Text("another file of the visit says so"),
		Change: Change{Obscured: &yes}})
}

func headersOf(visits []*Visit) (out []Header) {
	for _, v := range visits {
		out = append(out, v.Written())
	}
	return out
}

func compareEvents(a, b Event) int {
	return cmp.Or(a.moment().Compare(b.moment()), cmp.Compare(a.ID, b.ID))
}

// moment is when an event stands in the order of the visit.
func (e Event) moment() time.Time {
	if e.Follows.IsZero() || e.Time.After(e.Follows) {
		return e.Time
	}
	return e.Follows.Add(1)
}

// momentAfter is the moment of the last event where t does not come after it, else
// the zero time.
func (v *Visit) momentAfter(t time.Time) time.Time {
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
		return wording.Errorf("event %s says one thing in %s and another in %s:%d; undo the change by hand in one of them, then "+
			"merge again", e.ID, plain.Printable(visits[slices.Index(holds, true)].File), plain.Printable(visits[i].File), e.Line)
	}
	return nil
}

func mergeHeaders(visits []*Visit, join bool) (Header, error) {
	base := visits[0].Written()
	ids := base.ids()
	rest := slices.Clone(visits[1:])
	for len(rest) > 0 {
		i := slices.IndexFunc(rest, func(v *Visit) bool {
			return join || slices.ContainsFunc(v.Written().ids(), func(id string) bool { return slices.Contains(ids, id) })
		})
		if i < 0 {
			o := rest[0]
			return Header{}, wording.Errorf("%s holds the visit %s to %s on %s, %s the visit %s to %s on %s: %w",
				plain.Printable(visits[0].File), visits[0].Header.ID, plain.Printable(visits[0].Header.Site),
				visits[0].Header.Date, plain.Printable(o.File), o.Header.ID, plain.Printable(o.Header.Site), o.Header.Date, ErrOtherVisit)
		}
		ids = append(ids, rest[i].Written().ids()...)
		rest = slices.Delete(rest, i, i+1)
	}
	people := base.People
	alike, obscured := true, base.Obscured
	for _, v := range visits[1:] {
		alike = alike && slices.Equal(base.People, v.Written().People)
		obscured = obscured || v.Written().Obscured
		people = append(people[:len(people):len(people)], v.Written().People...)
		if compareHeaders(v.Written(), base) < 0 {
			own := base.People
			base, base.People = v.Written(), own
		}
	}
	if !alike {
		base.People = unique(people)
	}
	base.Obscured = obscured
	base.Spot = closest(visits)
	base.unread, _ = uniteUnread(headersOf(visits))
	base.Joined = slices.DeleteFunc(unique(ids), func(id string) bool { return id == base.ID })
	if len(base.Joined) == 0 {
		base.Joined = nil
	}
	return base, nil
}

// compareHeaders puts the earlier visit first. Headers of one visit differ only
// where they were changed by hand; then any order will do that does not depend
// on the order of the files.
func compareHeaders(a, b Header) int {
	for _, h := range []*Header{&a, &b} { // what is united from all of them
		h.People, h.Joined, h.Spot, h.Obscured, h.unread = nil, nil, nil, false, nil
	}
	return cmp.Or(a.Begun.Compare(b.Begun), cmp.Compare(a.ID, b.ID), cmp.Compare(string(encodeHeader(a)), string(encodeHeader(b))))
}

// closest is of all places on the map the one that says best how near it is.
func closest(visits []*Visit) (best *Spot) {
	rank := func(s Spot) float64 {
		if s.Uncertainty == 0 {
			return maxUncertainty + 1 // nobody said
		}
		return s.Uncertainty
	}
	for _, v := range visits {
		s := v.Written().Spot
		if s != nil && (best == nil || cmp.Or(cmp.Compare(rank(*s), rank(*best)), cmp.Compare(s.Latitude, best.Latitude),
			cmp.Compare(s.Longitude, best.Longitude)) < 0) {
			best = s
		}
	}
	return best
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
	if last := v.momentAfter(e.Time); !last.IsZero() {
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

// HowToMerge is the command that unites the files of one visit, as it is typed.
func HowToMerge(first string, others ...string) string {
	to := strings.TrimSuffix(first, Suffix) + "-united" + Suffix
	return "rillkey visit merge " + plain.ShellFiles(append([]string{first}, others...)...) + " --to " + plain.ShellWord(to)
}
