package export

import (
	"encoding/json"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"rillkey/scoring/account"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
)

// column is one column of a CSV table: its place in the data dictionary, and
// how a cell is filled.
type column[T any] struct {
	name, kind  string // kind is a type of Table Schema
	description string
	required    bool
	cell        func(T) string
}

// one is an event with the visit it belongs to.
type one struct {
	v *visit.Visit
	e visit.Event
}

// moment writes a time with its offset, to the nanosecond.
func moment(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.RFC3339Nano)
}

func yes(b bool) string {
	if b {
		return "true"
	}
	return ""
}

// list writes texts as a JSON array; none is empty.
func list(texts []string) string {
	if len(texts) == 0 {
		return ""
	}
	return asJSON(texts)
}

func asJSON(v any) string {
	var b strings.Builder
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return "" // texts, numbers and maps of them cannot fail
	}
	return strings.TrimSuffix(b.String(), "\n")
}

func chances(also []visit.Chance) string {
	if len(also) == 0 {
		return ""
	}
	m := map[string]float64{}
	for _, a := range also {
		m[a.Taxon] = a.Probability
	}
	return asJSON(m)
}

func whole(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// visitColumns are the columns of visits.csv: one row is the header of one
// visit's file.
var visitColumns = []column[*visit.Visit]{
	{"visit", "string", "id of the visit", true, func(v *visit.Visit) string { return v.Written().ID }},
	{"site", "string", "the place, in the people's own words", true, func(v *visit.Visit) string { return v.Written().Site }},
	{"date", "date", "the day", true, func(v *visit.Visit) string { return v.Written().Date }},
	{"people", "array", "who took part", false, func(v *visit.Visit) string { return list(v.Written().People) }},
	{"region", "string", "id of the region it is in", false, func(v *visit.Visit) string { return v.Written().Region }},
	{"edition", "array", "version of the region, and fingerprints of its key, taxa and rules", false,
		func(v *visit.Visit) string { return list(v.Written().Edition) }},
	{"protocol", "string", "id of the protocol followed", false, func(v *visit.Visit) string { return v.Written().Protocol }},
	{"cautions_read", "boolean", "somebody confirmed having read the cautions", false,
		func(v *visit.Visit) string { return yes(v.Written().CautionsRead) }},
	{"begun", timeKind, "when the visit was begun", true, func(v *visit.Visit) string { return moment(v.Written().Begun) }},
	{"latitude", "number", "WGS 84 decimal degrees, north positive", false,
		func(v *visit.Visit) string { return spotCell(v.Written(), north) }},
	{"longitude", "number", "WGS 84 decimal degrees, east positive", false,
		func(v *visit.Visit) string { return spotCell(v.Written(), east) }},
	{"uncertainty_m", "number", "metres around the point", false, func(v *visit.Visit) string {
		return spotCell(v.Written(), func(s *visit.Spot) string { return float(s.Uncertainty) })
	}},
	{"obscured", "boolean", "the place is not given to others exactly", false,
		func(v *visit.Visit) string { return yes(v.Written().Obscured) }},
	{"reference", "string", "the site that the group compares with", false,
		func(v *visit.Visit) string { return v.Written().Reference }},
	{"joined", "array", "ids of visits that were one with this and merged into it", false,
		func(v *visit.Visit) string { return list(v.Written().Joined) }},
	{"unread", "string", "lines of the header that this program does not know", false,
		func(v *visit.Visit) string { return v.Written().Unread() }},
}

func spotCell(h visit.Header, cell func(*visit.Spot) string) string {
	if h.Spot == nil {
		return ""
	}
	return cell(h.Spot)
}

func north(s *visit.Spot) string { return plain.FormatFloat(s.Latitude) }
func east(s *visit.Spot) string  { return plain.FormatFloat(s.Longitude) }

// timeKind is a text in the schema, because the time of Table Schema knows no
// offsets.
const timeKind = "time"

// pick fills a cell from bodies of one kind and leaves it empty for others.
func pick[B visit.Body](cell func(B) string) func(one) string {
	return func(o one) string {
		if b, ok := o.e.Body.(B); ok {
			return cell(b)
		}
		return ""
	}
}

// either fills a cell from bodies of two kinds.
func either[A, B visit.Body](a func(A) string, b func(B) string) func(one) string {
	return func(o one) string { return pick(a)(o) + pick(b)(o) }
}

// eventColumns are the columns of events.csv: one row is one entry of a visit's
// file as it was made. Cells that a kind of entry has no use for are empty.
var eventColumns = slices.Concat([]column[one]{
	{"visit", "string", "id of the visit", true, func(o one) string { return o.v.Header.ID }},
	{"event", "string", "id of the entry, unique in the visit", true, func(o one) string { return o.e.ID }},
	{"kind", "string", "sample, identification, amendment, second-look, finish, settlement, same-name, sheet-rows or " +
		"conditions", true, func(o one) string { return o.e.Kind() }},
	{"time", timeKind, "when it was entered, by the clock of the computer", true, func(o one) string { return moment(o.e.Time) }},
	{"after", timeKind, "where the clock was behind the entry before: the moment after which this one comes", false,
		func(o one) string { return moment(o.e.Follows) }},
	{"who", "string", "who entered it", false, func(o one) string { return o.e.Who }},
	{"label", "string", "what a sample is called", false, pick(func(s visit.Sample) string { return s.Label })},
	{"habitat", "string", "id of the habitat of a sample", false, pick(func(s visit.Sample) string { return s.Habitat })},
	{"area_m2", "number", "square metres of stream bed that a sample covers", false,
		pick(func(s visit.Sample) string { return float(s.Area) })},
	{"effort", "string", "how a sample was taken", false, pick(func(s visit.Sample) string { return s.Effort })},
	{"fraction", "number", "share of a sample that is sorted, 0 to 1; empty where nobody said", false,
		pick(func(s visit.Sample) string { return float(s.Fraction) })},
	{"state", "string", "what was said of a sample: not yet sorted, sorted or empty; empty where nobody said", false,
		pick(func(s visit.Sample) string { return string(s.Said) })},
	{"sample", "string", "label of the sample that the animals, or the rows of a sheet, are of", false,
		either(func(d visit.Identification) string { return d.Sample }, func(s visit.SheetRows) string { return s.Sample })},
	{"taxon", "string", "id of the taxon named", false,
		either(func(d visit.Identification) string { return d.Taxon }, func(s visit.SecondLook) string { return s.Taxon })},
	{"rank", "string", "rank that the name was given at", false,
		either(func(d visit.Identification) string { return d.Rank }, func(s visit.SecondLook) string { return s.Rank })},
	{"count", "integer", "animals", false,
		either(func(d visit.Identification) string { return whole(d.Count) }, func(s visit.SecondLook) string { return whole(s.Count) })},
	{"cell", "string", "where in the tray they lay", false, pick(func(d visit.Identification) string { return d.Cell })},
	{"confidence", "number", "0 to 1: probability that the name is right, as it was given; empty where nobody said", false,
		either(func(d visit.Identification) string { return float(d.Confidence) },
			func(s visit.SecondLook) string { return float(s.Confidence) })},
	{"path", "array", "what was answered, as a path; said: stands before own words, / before a second look", false,
		either(func(d visit.Identification) string { return list(d.Path) }, func(s visit.SecondLook) string { return list(s.Path) })},
	{"possible", "array", "ids of taxa that could not be excluded", false,
		pick(func(d visit.Identification) string { return list(d.Possible) })},
	{"also", "object", "other taxa with their probability", false, pick(func(d visit.Identification) string { return chances(d.Also) })},
	{"undecided", "boolean", "set aside for a second look", false,
		either(func(d visit.Identification) string { return yes(d.Undecided) },
			func(s visit.SecondLook) string { return yes(s.Undecided) })},
	{"fits_half", "number", "how many times as likely the answers are from people who misread half as often", false,
		pick(func(d visit.Identification) string { return float(d.FitsHalf) })},
	{"fits_twice", "number", "how many times as likely the answers are from people who misread twice as often", false,
		pick(func(d visit.Identification) string { return float(d.FitsTwice) })},
	{"length_mm", "number", "body length in millimetres", false, pick(func(d visit.Identification) string { return float(d.Length) })},
	{"expert", "string", "who determined a specimen elsewhere", false, pick(func(d visit.Identification) string { return d.Expert })},
	{"expert_on", "date", "the day of that", false, pick(func(d visit.Identification) string { return d.ExpertOn })},
}, textColumns(func(t visit.RecordText) func(one) string {
	return pick(func(d visit.Identification) string { return *t.Text(&d) })
}), []column[one]{
	{"of", "string", "id of the entry that this one is about", false, aboutCell},
	{"reason", "string", "why an entry was amended", false, pick(func(a visit.Amendment) string { return a.Reason })},
	{"withdrawn", "boolean", "the amended entry is taken out", false, pick(func(a visit.Amendment) string { return yes(a.Withdrawn) })},
	{"change", "object", "new values of the amended entry by column", false,
		pick(func(a visit.Amendment) string { return changeJSON(a.Change) })},
	{"holds", "string", "id of the amendment that a settlement upholds", false, pick(func(s visit.Settlement) string { return s.Holds })},
	{"over", "array", "ids of the amendments that give way to it", false,
		pick(func(s visit.Settlement) string { return list(s.Overruled) })},
	{"what", "string", "what a name is of: person, site or sample", false, pick(func(s visit.SameName) string { return s.What })},
	{"name", "string", "a way to write a name", false, pick(func(s visit.SameName) string { return s.Name })},
	{"as", "string", "the way to write it that holds", false, pick(func(s visit.SameName) string { return s.Spelling })},
	{"differ", "boolean", "the two names do not mean the same", false, pick(func(s visit.SameName) string { return yes(s.Differ) })},
	{"rows", "array", "ids of the kinds whose rows of the field sheet were gone through: nothing was written there but what " +
		"was entered", false, pick(func(s visit.SheetRows) string { return list(s.Rows) })},
	{"below", "boolean", "so was what is written below the rows", false, pick(func(s visit.SheetRows) string { return yes(s.WrittenIn) })},
	{"conditions", "object", "what was noted of stream and day: weather, water, bed, work; each by its name, with its unit",
		false, pick(func(c visit.Conditions) string { return asJSON(c.Values) })},
	{"note", "string", "free words", false, noteCell},
	{"unread", "string", "the whole entry as it stands in its file, where it holds what this program does not know", false,
		func(o one) string { return o.e.Block() }},
})

func aboutCell(o one) string {
	switch b := o.e.Body.(type) {
	case visit.Amendment:
		return b.Entry
	case visit.SecondLook:
		return b.Entry
	case visit.Settlement:
		return b.Entry
	}
	return ""
}

func noteCell(o one) string {
	switch b := o.e.Body.(type) {
	case visit.Identification:
		return b.Note
	case visit.SecondLook:
		return b.Note
	case visit.Finish:
		return b.Note
	}
	return ""
}

func changeJSON(ch visit.Change) string {
	if ch == (visit.Change{}) {
		return ""
	}
	return asJSON(ch)
}

// found is a record as it stands after all amendments, with all that describes
// it.
type found struct {
	v    *visit.Visit
	rec  *account.BoundRecord
	kind string // of the main scheme of the visit's protocol
}

func (f found) named(cell func(*taxa.Taxon) string) string {
	if f.rec.Known == nil {
		return ""
	}
	return cell(f.rec.Known)
}

// recordColumns are the columns of records.csv, for reading and counting: one
// row is one record as it stands, with its visit, sample and taxon beside it.
var recordColumns = slices.Concat([]column[found]{
	{"visit", "string", "id of the visit", true, func(f found) string { return f.v.Header.ID }},
	{"record", "string", "id of the record, unique in the visit", true, func(f found) string { return f.rec.ID }},
	{"site", "string", "the place, in the people's own words", true, func(f found) string { return f.v.Header.Site }},
	{"date", "date", "the day", true, func(f found) string { return f.v.Header.Date }},
	{"protocol", "string", "id of the protocol followed", false, func(f found) string { return f.v.Header.Protocol }},
	{"sample", "string", "what the sample is called", true, func(f found) string { return f.rec.SampleTaken.Label }},
	{"habitat", "string", "id of the habitat", true, func(f found) string { return f.rec.SampleTaken.Habitat }},
	{"area_m2", "number", "square metres of stream bed that the sample covers", false,
		func(f found) string { return float(f.rec.SampleTaken.Area) }},
	{"taxon", "string", "id of the taxon named; empty where undecided", false, func(f found) string { return f.rec.Taxon }},
	{"scientific", "string", "its scientific name", false,
		func(f found) string { return f.named(func(t *taxa.Taxon) string { return t.Scientific }) }},
	{"common", "string", "its plain name", false, func(f found) string { return f.named((*taxa.Taxon).Name) }},
	{"rank", "string", "its rank", false, func(f found) string { return f.named(func(t *taxa.Taxon) string { return t.Rank }) }},
	{"class", "string", "its tolerance class; empty where no single class holds", false,
		func(f found) string { return f.named(func(t *taxa.Taxon) string { return string(t.Class) }) }},
	{"kind", "string", "id of the kind it counts as in the main index; empty where it does not count", false,
		func(f found) string { return f.kind }},
	{"count", "integer", "animals", true, func(f found) string { return whole(f.rec.Count) }},
	{"undecided", "boolean", "set aside for a second look", false, func(f found) string { return yes(f.rec.Undecided) }},
	{"confidence", "number", "0 to 1: probability that the name is right, as it was given; empty where nobody said", false,
		func(f found) string { return float(f.rec.Confidence) }},
	{"length_mm", "number", "body length in millimetres", false, func(f found) string { return float(f.rec.Length) }},
	{"second_looks", "integer", "how often it was named a second time", false, func(f found) string { return whole(len(f.rec.Looks)) }},
	{"amended", "boolean", "it was corrected", false, func(f found) string { return yes(len(f.rec.Amended) > 0) }},
	{"expert", "string", "who determined a specimen of it elsewhere", false, func(f found) string { return f.rec.Expert }},
	{"expert_on", "date", "the day of that", false, func(f found) string { return f.rec.ExpertOn }},
}, textColumns(func(t visit.RecordText) func(found) string {
	return func(f found) string { return *t.Text(&f.rec.Identification) }
}), []column[found]{
	{"who", "string", "who named it", false, func(f found) string { return f.v.Person(f.rec.Who) }},
	{"time", timeKind, "when it was entered", true, func(f found) string { return moment(f.rec.Time) }},
	{"note", "string", "free words", false, func(f found) string { return f.rec.Note }},
})

// textColumns are the columns of the texts of a record.
func textColumns[T any](cell func(visit.RecordText) func(T) string) (out []column[T]) {
	for _, t := range visit.RecordTexts() {
		out = append(out, column[T]{t.Key, "string", t.Description, false, cell(t)})
	}
	return out
}

// founds are the records of a visit as they stand.
func (k Knowledge) founds(v *visit.Visit) (out []found) {
	k = k.forVisit(v)
	a := k.Rules.Account(v)
	for i := range a.Records {
		out = append(out, found{v: v, rec: &a.Records[i]})
	}
	main := k.scheme(v)
	if main == nil {
		return out
	}
	for i, b := range a.Rows(main.Counting()) {
		if b.Why == "" {
			out[i].kind = main.Kinds[b.Kind].ID
		}
	}
	return out
}

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
