package visit

import (
	"slices"
	"strconv"
	"sync"
)

// field is one value of an O that an amendment can change: how the file writes and
// reads it, in the O and in a Change. A new one is a line in the tables below,
// beside its field in O and in Change.
type field[O any] struct {
	changeField
	put   func(*writer, *O) // leaves out what is empty
	take  func(*fields, *O)
	apply func(*Change, *O)
	check func(*check, *O)
}

// changeField is what a field is in a Change.
type changeField struct {
	given   func(*Change) bool
	put     func(*writer, *Change)
	take    func(*fields, *Change)
	drop    func(*Change)           // nil for what is dropped by parts
	differs func(a, b *Change) bool // both have it, with different values
}

// codec is how the file writes and reads a kind of value, and what every value of
// the kind is held to; bounds of single fields are in validate.go.
type codec[T any] struct {
	write func(T) string
	read  func(*fields, string) T
	check func(c *check, key string, v T)
}

func unchecked[T any](*check, string, T) {}

var (
	asText  = codec[string]{quote, (*fields).str, (*check).text}
	asNum   = codec[float64]{float, (*fields).num, unchecked[float64]}
	asCount = codec[int]{strconv.Itoa, (*fields).count, unchecked[int]}
	asFlag  = codec[bool]{strconv.FormatBool, (*fields).flag, unchecked[bool]}
	asState = codec[Sorting]{func(s Sorting) string { return quote(string(s)) }, (*fields).state, unchecked[Sorting]}
)

func newField[O any, T comparable](key string, c codec[T], of func(*O) *T, in func(*Change) **T) field[O] {
	at := func(ch *Change) *T { return *in(ch) }
	return field[O]{
		changeField: changeField{
			given: func(ch *Change) bool { return at(ch) != nil },
			put: func(w *writer, ch *Change) {
				if v := at(ch); v != nil {
					w.put(key, c.write(*v))
				}
			},
			take: func(f *fields, ch *Change) {
				if _, ok := f.values[key]; ok {
					v := c.read(f, key)
					*in(ch) = &v
				}
			},
			drop:    func(ch *Change) { *in(ch) = nil },
			differs: func(a, b *Change) bool { return at(a) != nil && at(b) != nil && *at(a) != *at(b) },
		},
		put: func(w *writer, o *O) {
			var zero T
			if v := *of(o); v != zero {
				w.put(key, c.write(v))
			}
		},
		take: func(f *fields, o *O) { *of(o) = c.read(f, key) },
		apply: func(ch *Change, o *O) {
			if v := at(ch); v != nil {
				*of(o) = *v
			}
		},
		check: func(ck *check, o *O) { c.check(ck, key, *of(o)) },
	}
}

// tables are the fields of everything that an amendment can change, in the order of the file. They
// are made when a file is read or written.
var tables = sync.OnceValue(func() *fieldTables {
	t := &fieldTables{
		sample: []field[Sample]{
			newField("habitat", asText, func(s *Sample) *string { return &s.Habitat },
				func(ch *Change) **string { return &ch.Habitat }),
			newField("area_m2", asNum, func(s *Sample) *float64 { return &s.Area },
				func(ch *Change) **float64 { return &ch.Area }),
			newField("effort", asText, func(s *Sample) *string { return &s.Effort },
				func(ch *Change) **string { return &ch.Effort }),
			newField("fraction", asNum, func(s *Sample) *float64 { return &s.Fraction },
				func(ch *Change) **float64 { return &ch.Fraction }),
			newField("state", asState, func(s *Sample) *Sorting { return &s.Said },
				func(ch *Change) **Sorting { return &ch.Said }),
		},
		recordHead: []field[Identification]{
			newField("sample", asText, func(d *Identification) *string { return &d.Sample },
				func(ch *Change) **string { return &ch.Sample }),
			newField("taxon", asText, func(d *Identification) *string { return &d.Taxon },
				func(ch *Change) **string { return &ch.Taxon }),
			newField("rank", asText, func(d *Identification) *string { return &d.Rank },
				func(ch *Change) **string { return &ch.Rank }),
			newField("count", asCount, func(d *Identification) *int { return &d.Count },
				func(ch *Change) **int { return &ch.Count }),
			newField("cell", asText, func(d *Identification) *string { return &d.Cell },
				func(ch *Change) **string { return &ch.Cell }),
			newField("confidence", asNum, func(d *Identification) *float64 { return &d.Confidence },
				func(ch *Change) **float64 { return &ch.Confidence }),
		},
		recordTail: append([]field[Identification]{
			newField("undecided", asFlag, func(d *Identification) *bool { return &d.Undecided },
				func(ch *Change) **bool { return &ch.Undecided }),
			newField("fits_half", asNum, func(d *Identification) *float64 { return &d.FitsHalf },
				func(ch *Change) **float64 { return &ch.FitsHalf }),
			newField("fits_twice", asNum, func(d *Identification) *float64 { return &d.FitsTwice },
				func(ch *Change) **float64 { return &ch.FitsTwice }),
			newField("length_mm", asNum, func(d *Identification) *float64 { return &d.Length },
				func(ch *Change) **float64 { return &ch.Length }),
			newField("note", asText, func(d *Identification) *string { return &d.Note },
				func(ch *Change) **string { return &ch.Note }),
			newField("expert", asText, func(d *Identification) *string { return &d.Expert },
				func(ch *Change) **string { return &ch.Expert }),
			newField("expert_on", asText, func(d *Identification) *string { return &d.ExpertOn },
				func(ch *Change) **string { return &ch.ExpertOn }),
		}, textFields()...),
		visit: []field[bool]{
			newField("obscured", asFlag, func(obscured *bool) *bool { return obscured },
				func(ch *Change) **bool { return &ch.Obscured }),
		},
		header: headerFields(),
	}
	t.record = slices.Concat(t.recordHead, t.recordTail)
	t.change = slices.Concat(inChange(t.sample), inChange(t.record), inChange(t.visit), inChange(t.header),
		[]changeField{moreChange, conditionChange})
	return t
})

type fieldTables struct {
	sample []field[Sample]
	// The lists of an identification, which no amendment changes, stand between head and tail.
	recordHead, recordTail, record []field[Identification]
	visit                          []field[bool]
	header                         []field[Header]
	change                         []changeField
}

func inChange[O any](list []field[O]) (out []changeField) {
	for _, f := range list {
		out = append(out, f.changeField)
	}
	return out
}

func touches[O any](ch *Change, list []field[O]) bool {
	for _, f := range list {
		if f.given(ch) {
			return true
		}
	}
	return false
}

// moreChange is what is added to a count. Two of them never contradict each other.
var moreChange = changeField{
	given: func(ch *Change) bool { return ch.More != nil },
	put: func(w *writer, ch *Change) {
		if ch.More != nil {
			w.put("more", strconv.Itoa(*ch.More))
		}
	},
	take: func(f *fields, ch *Change) {
		if _, ok := f.values["more"]; ok {
			n := f.count("more")
			ch.More = &n
		}
	},
	drop:    func(ch *Change) { ch.More = nil },
	differs: func(a, b *Change) bool { return false },
}

// OnlySorting reports whether a change says nothing but how far a sample is sorted.
func (ch Change) OnlySorting() bool {
	said := ch.Said != nil
	ch.Said = nil
	return said && ch == Change{}
}

func (ch *Change) touchesSample() bool { return touches(ch, tables().sample) }
func (ch *Change) touchesRecord() bool { return touches(ch, tables().record) || ch.More != nil }
func (ch *Change) touchesVisit() bool  { return touches(ch, tables().visit) || ch.touchesHeader() }

func (ch *Change) applyToSample(s *Sample) {
	for _, f := range tables().sample {
		f.apply(ch, s)
	}
}

func (ch *Change) applyToRecord(d *Identification) {
	if ch.Taxon != nil {
		d.Undecided = false
	}
	if ch.Taxon != nil && *ch.Taxon != d.Taxon {
		d.Rank, d.Confidence, d.FitsHalf, d.FitsTwice = "", 0, 0, 0
		d.Path, d.Possible, d.Also = nil, nil, nil
		d.Expert, d.ExpertOn = "", ""
	}
	for _, f := range tables().record {
		f.apply(ch, d)
	}
	if ch.More != nil {
		d.Count += *ch.More
	}
}

// minus drops the fields that other touches.
func (ch Change) minus(other Change) Change {
	for _, f := range tables().change {
		if f.drop != nil && f.given(&other) {
			f.drop(&ch)
		}
	}
	return ch.minusConditions(other)
}

// contradicts tells whether both touch a field and want different values.
func (ch Change) contradicts(o Change) bool {
	for _, f := range tables().change {
		if f.differs(&ch, &o) {
			return true
		}
	}
	return false
}
