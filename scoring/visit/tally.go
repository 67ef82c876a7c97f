package visit

import (
	"slices"
	"time"

	"rillkey/scoring/visit/internal/replays"
)

// Tally is a visit as it stands after every amendment, in the order in which
// things were first recorded.
type Tally struct {
	Samples   []Taken     // without withdrawn ones
	Records   []Record    // without withdrawn ones
	Withdrawn []Record    // withdrawn by themselves or with their sample
	Answered  []SheetRows // rows of the field sheet that were gone through, one entry a sample
	Finished  bool
	Noted     []Noted  // of stream and day, without withdrawn ones
	Obscured  bool     // the place is not given to others exactly
	Finishes  []string // ids of the finishes that stand
	Notices   []Notice // events that refer to what is not there
}

// Taken is a sample that was taken.
type Taken struct {
	ID   string // id of the event
	Time time.Time
	Who  string
	Sample
	State   Sorting  // how far it is sorted
	Amended []string // ids of the amendments it went through
}

// Record is an identification with its corrections applied. Its Sample is the
// label in the case in which the sample was recorded.
type Record struct {
	ID   string // id of the event
	Time time.Time
	Who  string
	Identification
	Amended []string      // ids of the amendments it went through
	Looks   []LookedAgain // second looks, which change nothing by themselves
}

// LookedAgain is one second look at a Record.
type LookedAgain struct {
	ID   string
	Time time.Time
	Who  string
	SecondLook
	Settled bool // which name counts was said for certain after it
}

// Sample returns the sample that people call label, in whatever case, and
// whether there is one.
func (t Tally) Sample(label string) (Taken, bool) {
	for _, s := range t.Samples {
		if sampleKey(s.Label) == sampleKey(label) {
			return s, true
		}
	}
	return Taken{}, false
}

// OnceFinished is the tally as it will be when the visit is finished, if nothing else is said
// before: how far samples are sorted that nobody spoke of is then settled.
func (t Tally) OnceFinished() Tally {
	t.Finished, t.Samples = true, slices.Clone(t.Samples)
	for i, s := range t.Samples {
		t.Samples[i].State = s.Sample.state(t.Animals(s.Label), true)
	}
	return t
}

// Apply gives the record as an amendment of it leaves it, and whether it stays in the tally.
func (r Record) Apply(a Amendment) (Record, bool) {
	a.Change.applyToRecord(&r.Identification)
	return r, !a.Withdrawn && r.Count > 0
}

// SampleMeant is the label of the sample that is meant where somebody names some, or none:
// the first of those named that there is, else the latest; empty without any sample.
func (t Tally) SampleMeant(named ...string) string {
	for _, label := range named {
		if s, ok := t.Sample(label); ok {
			return s.Label
		}
	}
	if len(t.Samples) == 0 {
		return ""
	}
	return t.Samples[len(t.Samples)-1].Label
}

// Record returns the record with the given event id, and whether there is one.
func (t Tally) Record(id string) (Record, bool) {
	for _, r := range t.Records {
		if r.ID == id {
			return r, true
		}
	}
	return Record{}, false
}

// Animals is how many animals the records of a sample hold, those set aside too.
func (t Tally) Animals(sample string) (n int) {
	for _, r := range t.Records {
		if sampleKey(r.Sample) == sampleKey(sample) {
			n += r.Count
		}
	}
	return n
}

// AllAnimals is how many animals all records hold.
func (t Tally) AllAnimals() (n int) {
	for _, r := range t.Records {
		n += r.Count
	}
	return n
}

// AnimalsByTaxon is how many animals some visits hold of each taxon, by the ids that they
// were recorded with; those without a name are under the empty id.
func AnimalsByTaxon(visits []*Visit) map[string]int {
	out := map[string]int{}
	for _, v := range visits {
		for _, r := range v.Tally().Records {
			out[r.Taxon] += r.Count
		}
	}
	return out
}

// Unsorted are the samples that nobody has gone through to the end.
func (t Tally) Unsorted() (out []Taken) {
	for _, s := range t.Samples {
		if !s.State.Done() {
			out = append(out, s)
		}
	}
	return out
}

// Obscured tells whether the place of the visit, its name among it, is not given
// to others exactly: its header says so, and no entry since says otherwise, or
// [Visit.Obscure] does.
func (v *Visit) Obscured() bool {
	hidden := v.Header.Obscured || v.elsewhere
	for _, e := range v.Events {
		if a, ok := e.Body.(Amendment); ok && a.Change.Obscured != nil {
			return v.Tally().Obscured
		}
	}
	return hidden
}

// Finished tells whether a finish of the visit stands, as its tally does; where none was
// withdrawn, without one.
func (v *Visit) Finished() bool {
	finishes := map[string]bool{}
	for _, e := range v.Events {
		if _, ok := e.Body.(Finish); ok {
			finishes[e.ID] = true
		}
	}
	if len(finishes) == 0 {
		return false
	}
	for _, e := range v.Events {
		if a, ok := e.Body.(Amendment); ok && a.Withdrawn && finishes[a.Entry] {
			return v.Tally().Finished
		}
	}
	return true
}

// Obscure has the place of the visit count as obscured, whatever its entries say,
// because another visit to the site obscures it. Nothing of that is written.
func (v *Visit) Obscure() { v.elsewhere = true }

// Sites are all names that the entries of a visit have for its site.
func (v *Visit) Sites() []string {
	out := []string{v.Header.Site, v.Written().Site}
	for _, e := range v.Events {
		switch b := e.Body.(type) {
		case SameName:
			if b.What == NameSite && !b.Differ {
				out = append(out, b.Name, b.Spelling)
			}
		case Amendment:
			if b.Change.Site != nil {
				out = append(out, *b.Change.Site)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// Tally is the visit as it stands. Amendments and second looks are applied after
// all that they can refer to, in the order of time (see [Unite]), so that a tally
// does not hang on the order in which entries reached a file. The events are
// replayed once, however often a visit is asked, until it gains one; nothing in the
// tally is to be changed.
func (v *Visit) Tally() Tally {
	if v.replayed.source != v.asReplayed() {
		keep(v, v.replay())
	}
	return v.replayed.tally
}

// keep keeps the tally of a replay of the visit as it is now.
func keep(v *Visit, r *replay) {
	replays.Tallied.Add(1)
	v.replayed = replayed{v.asReplayed(), r.tally()}
	v.replayed.tally.Obscured = v.replayed.tally.Obscured || v.elsewhere
}

// replayed is a tally with what it was replayed from.
type replayed struct {
	source replayedFrom
	tally  Tally
}

// replayedFrom tells one state of a visit from another: a copy of it with other
// events, more events, another header.
type replayedFrom struct {
	header   *Header
	first    *Event // nil without any
	events   int
	id       string
	joined   int
	obscured bool
}

func (v *Visit) asReplayed() replayedFrom {
	from := replayedFrom{&v.Header, nil, len(v.Events), v.Header.ID, len(v.Header.Joined), v.Header.Obscured || v.elsewhere}
	if len(v.Events) > 0 {
		from.first = &v.Events[0]
	}
	return from
}

func (v *Visit) replay() *replay {
	v = v.inOrder()
	r := &replay{
		samples:   map[string]*Taken{},
		byID:      map[string]*Taken{},
		records:   map[string]*Record{},
		withdrawn: map[string]bool{},
		line:      map[string]int{},
		visit:     map[string]bool{},
		hidden:    v.Header.Obscured,
		head:      v.Written(),
		notes:     notices{file: v.File},
		names:     v.sampleNames(),
		yields:    v.settled(),
	}
	for _, id := range v.Header.ids() {
		r.visit[id] = true
	}
	for _, e := range v.Events {
		r.first(e)
	}
	for _, e := range v.Events {
		switch b := e.Body.(type) {
		case Amendment:
			r.amend(e, b)
		case SecondLook:
			r.look(e, b)
		}
	}
	return r
}

// replay is a tally in the making.
type replay struct {
	samples    map[string]*Taken // by label in lower case
	byID       map[string]*Taken
	records    map[string]*Record
	sampleList []*Taken
	recordList []*Record
	finishes   []string
	sheets     []rowsOf
	noted      []*Noted
	withdrawn  map[string]bool // ids withdrawn
	line       map[string]int
	visit      map[string]bool // ids of the visit
	hidden     bool            // the place is obscured
	head       Header          // with its corrections
	notes      notices
	names      names               // of samples
	yields     map[string][]Change // what an amendment gives way to
}

func (r *replay) sample(label string) *Taken { return r.samples[r.names.firstOf(sampleKey(label))] }

func (r *replay) first(e Event) {
	switch b := e.Body.(type) {
	case Sample:
		r.firstSample(e, b)
	case Identification:
		rec := &Record{ID: e.ID, Time: e.Time, Who: e.Who, Identification: b}
		r.records[e.ID] = rec
		r.recordList = append(r.recordList, rec)
	case Finish:
		r.finishes = append(r.finishes, e.ID)
	case SheetRows:
		r.sheets = append(r.sheets, rowsOf{e.ID, b})
	case Conditions:
		r.noted = append(r.noted, &Noted{ID: e.ID, Time: e.Time, Who: e.Who, Values: b.Values})
	}
	r.line[e.ID] = e.Line
}

func (r *replay) firstSample(e Event, s Sample) {
	key := r.names.firstOf(sampleKey(s.Label))
	if first, doubled := r.samples[key]; doubled {
		if key == sampleKey(s.Label) && key != sampleKey(first.Label) {
			first.Label = s.Label // the way to write it that holds
			return
		}
		if r.names.known(sampleKey(s.Label)) {
			return // people said that it is the same sample
		}
		r.notes.tell(e.Line, Misfit, "a sample %q was taken before; this one is not counted", s.Label)
		return
	}
	t := &Taken{ID: e.ID, Time: e.Time, Who: e.Who, Sample: s}
	r.samples[key], r.byID[e.ID] = t, t
	r.sampleList = append(r.sampleList, t)
}

func (r *replay) amend(e Event, a Amendment) {
	if a = r.giveWay(e.ID, a); a.Change == (Change{}) && !a.Withdrawn {
		return
	}
	if why := r.misfit(a); why != "" {
		r.notes.tell(e.Line, Misfit, "this amendment is not applied: %s", why)
		return
	}
	if a.Withdrawn {
		r.withdrawn[a.Entry] = true
	}
	for _, f := range tables().visit {
		f.apply(&a.Change, &r.hidden)
	}
	for _, f := range tables().header {
		f.apply(&a.Change, &r.head)
	}
	if t := r.byID[a.Entry]; t != nil {
		a.Change.applyToSample(&t.Sample)
		t.Amended = append(t.Amended, e.ID)
	}
	if s := r.rowsIn(a.Entry); s != nil && a.Change.Sample != nil {
		s.Sample = *a.Change.Sample
	}
	if n := r.notedIn(a.Entry); n != nil && a.Change.Conditions != nil {
		n.Values = n.Values.Updated(*a.Change.Conditions)
		n.Amended = append(n.Amended, e.ID)
	}
	if rec := r.records[a.Entry]; rec != nil {
		a.Change.applyToRecord(&rec.Identification)
		rec.Amended = append(rec.Amended, e.ID)
		if a.Change.Taxon != nil && a.Change.Confidence != nil && *a.Change.Confidence >= 1 {
			for i := range rec.Looks {
				rec.Looks[i].Settled = true
			}
		}
	}
}

func (r *replay) look(e Event, s SecondLook) {
	rec := r.records[s.Entry]
	if rec == nil {
		r.notes.tell(e.Line, Misfit, "this second look is not kept: there is no identification %s", s.Entry)
		return
	}
	rec.Looks = append(rec.Looks, LookedAgain{ID: e.ID, Time: e.Time, Who: e.Who, SecondLook: s})
}

func (r *replay) tally() Tally {
	t := Tally{Obscured: r.hidden}
	for _, id := range r.finishes {
		if !r.withdrawn[id] {
			t.Finished, t.Finishes = true, append(t.Finishes, id)
		}
	}
	animals := map[string]int{}
	t.Records = make([]Record, 0, len(r.recordList))
	for _, rec := range r.recordList {
		s := r.sample(rec.Sample)
		if s == nil {
			r.notes.tell(r.line[rec.ID], Misfit, "there is no sample %q; these animals are not counted: %s", rec.Sample, rec.Taxon)
			continue
		}
		rec.Sample = s.Label
		if r.withdrawn[rec.ID] || r.withdrawn[s.ID] || rec.Count <= 0 {
			t.Withdrawn = append(t.Withdrawn, *rec)
		} else {
			t.Records = append(t.Records, *rec)
			animals[s.ID] += rec.Count
		}
	}
	for _, s := range r.sampleList {
		if r.withdrawn[s.ID] {
			continue
		}
		n := animals[s.ID]
		if s.State = s.Sample.state(n, t.Finished); s.Said == Empty && n > 0 {
			r.notes.tell(r.line[s.ID], Misfit,
				"sample %q was said to be empty, but animals are recorded in it; it stays open until somebody says again how "+
					"far it is sorted", s.Label)
		}
		t.Samples = append(t.Samples, *s)
	}
	t.Answered = r.answered()
	t.Noted = r.notedOnce()
	t.Notices = r.notes.all()
	return t
}
