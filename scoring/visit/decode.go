package visit

import (
	"errors"
	"maps"
	"slices"
	"sort"
	"strings"
	"time"

	"github.com/BurntSushi/toml"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// fields reads the values of one block strictly: the first value of a wrong
// kind is kept as the error. A value that was read is taken out, so that what
// nobody reads is left.
type fields struct {
	values map[string]any
	err    error
}

func decodeHeader(text []byte) (Header, error) {
	f, err := parseBlock(text, "visit")
	if err != nil {
		return Header{}, err
	}
	if v := f.count("format"); f.err == nil && v != fileFormat {
		return Header{}, wording.Errorf("the file has format %d, but this program reads format %d", v, fileFormat)
	}
	h := headerOf(f)
	if f.err == nil {
		f.err = checkHeader(h)
	}
	h.unread = linesOf(verbatim(text), f.unread())
	return h, f.err
}

func headerOf(f *fields) Header {
	return Header{
		ID:           f.str("id"),
		Site:         f.str("site"),
		Date:         f.str("date"),
		People:       f.strs("people"),
		Region:       f.str("region"),
		Edition:      f.strs("edition"),
		Protocol:     f.str("protocol"),
		CautionsRead: f.flag("cautions_read"),
		Begun:        f.time("begun"),
		Spot:         f.spot(),
		Obscured:     f.flag("obscured"),
		Reference:    f.str("reference"),
		Joined:       f.strs("joined"),
	}
}

// errKind marks an event of a kind that this program does not know.
type errKind string

func (k errKind) Error() string {
	return wording.Sprintf("its kind %s is not known to this program", plain.Quote(string(k)))
}

// decodeEvent also returns the names of the fields that nothing reads. With an
// error, the event has what could be read for all kinds and is Opaque.
func decodeEvent(text []byte) (Event, []string, error) {
	e, f, err := decodeUnchecked(text)
	if f == nil {
		return e, nil, err
	}
	defer f.done()
	if err != nil {
		return e, nil, err
	}
	if f.err == nil {
		f.err = checkEvent(e)
	}
	if f.err != nil {
		e.Body = Opaque{Word: e.Kind()}
	}
	return e, f.unread(), f.err
}

// decodeUnchecked reads an event whatever it says. The fields are nil if it is no block, and
// have an error if a value is of a wrong kind; what nobody reads is left in them.
func decodeUnchecked(text []byte) (Event, *fields, error) {
	f, err := parseBlock(text, "event")
	if err != nil {
		return Event{}, nil, err
	}
	e := Event{ID: f.str("id"), Time: f.time("time"), Who: f.str("who")}
	if _, ok := f.values["after"]; ok {
		e.Follows = f.time("after").UTC()
	}
	switch kind := f.str("kind"); kind {
	case kindSample:
		e.Body = f.sample()
	case kindIdentification:
		e.Body = f.identification()
	case kindAmendment:
		e.Body = f.amendment()
	case kindSecondLook:
		e.Body = f.secondLook()
	case kindFinish:
		e.Body = Finish{Note: f.str("note")}
	case kindSettlement:
		e.Body = Settlement{Entry: f.str("of"), Holds: f.str("holds"), Overruled: f.strs("over")}
	case kindSameName:
		e.Body = SameName{What: f.str("what"), Name: f.str("name"), Spelling: f.str("as"), Differ: f.flag("differ")}
	case kindSheetRows:
		e.Body = f.sheetRows()
	case kindConditions:
		e.Body = Conditions{f.conditions()}
	default:
		e.Body = Opaque{Word: kind}
		return e, f, errKind(kind)
	}
	return e, f, nil
}

// identified tells whether an event has what it takes to keep it in its order.
func (e Event) identified() bool {
	opaque, ok := e.Body.(Opaque)
	e.Body = Finish{}
	return ok && plain.IsID(opaque.Word) && checkEvent(e) == nil
}

func parseBlock(text []byte, name string) (*fields, error) {
	if len(text) > MaxBlock {
		return nil, wording.Errorf("it is larger than %d kB", MaxBlock>>10)
	}
	head := headerLine
	if name == "event" {
		head = eventLine
	}
	if values, ok := quick(text, head); ok {
		return newFields(values), nil
	}
	return parseTOML(text, name)
}

func parseTOML(text []byte, name string) (*fields, error) {
	if !flat(text) {
		return nil, wording.NewError("it is nested or spread over lines as no visit file is")
	}
	var doc map[string]any
	if err := toml.Unmarshal(text, &doc); err != nil {
		var pe toml.ParseError
		if errors.As(err, &pe) && pe.Position.Line > 0 {
			return nil, wording.Errorf("line %d of it is not TOML", pe.Position.Line)
		}
		return nil, wording.NewError("it is not TOML")
	}
	values, ok := doc[name].(map[string]any)
	if rows, isRows := doc[name].([]map[string]any); isRows && len(rows) == 1 {
		values, ok = rows[0], true
	}
	if !ok || len(doc) != 1 {
		return nil, wording.Errorf("it does not hold exactly one %s", name)
	}
	return newFields(values), nil
}

// newFields leaves out the checksum line, which was read before.
func newFields(values map[string]any) *fields {
	delete(values, "check")
	return &fields{values: values}
}

// done gives the map away for another block; nothing reads the fields after it.
func (f *fields) done() {
	clear(f.values)
	values16.Put(f.values)
}

func (f *fields) sample() Sample {
	s := Sample{Label: f.str("label")}
	readFields(f, tables().sample, &s)
	return s
}

func (f *fields) identification() Identification {
	d := Identification{Path: f.strs("path"), Possible: f.strs("possible"), Also: f.chances("also")}
	readFields(f, tables().record, &d)
	return d
}

func readFields[O any](f *fields, list []field[O], o *O) {
	for _, field := range list {
		field.take(f, o)
	}
}

func (f *fields) amendment() Amendment {
	a := Amendment{Entry: f.str("of"), Reason: f.str("reason"), Withdrawn: f.flag("withdrawn")}
	for _, field := range tables().change {
		field.take(f, &a.Change)
	}
	return a
}

func (f *fields) secondLook() SecondLook {
	return SecondLook{
		Entry:      f.str("of"),
		Taxon:      f.str("taxon"),
		Rank:       f.str("rank"),
		Count:      f.count("count"),
		Confidence: f.num("confidence"),
		Path:       f.strs("path"),
		Undecided:  f.flag("undecided"),
		Note:       f.str("note"),
	}
}

func (f *fields) spot() *Spot {
	_, north := f.values["latitude"]
	_, east := f.values["longitude"]
	if !north && !east {
		return nil
	}
	s := Spot{f.num("latitude"), f.num("longitude"), f.num("uncertainty_m")}
	if north != east && f.err == nil {
		f.err = wording.NewError("latitude and longitude go together; one of them is missing")
	}
	return &s
}

// value gives the value under key if it is a T; absent is the zero T.
func value[T any](f *fields, key, want string) T {
	raw, given := f.values[key]
	if !given {
		var zero T
		return zero
	}
	delete(f.values, key)
	v, ok := raw.(T)
	if !ok && f.err == nil {
		f.err = wording.Errorf("%s must be %s", key, wording.Text(want))
	}
	return v
}

func (f *fields) str(key string) string    { return value[string](f, key, wording.Mark("text in quotes")) }
func (f *fields) state(key string) Sorting { return Sorting(f.str(key)) }
func (f *fields) flag(key string) bool     { return value[bool](f, key, wording.Mark("true or false")) }

func (f *fields) count(key string) int {
	n := value[int64](f, key, wording.Mark("a whole number"))
	if int64(int(n)) != n {
		return -1 // out of range on a 32-bit machine; refused like any other
	}
	return int(n)
}

func (f *fields) num(key string) float64 {
	if n, ok := f.values[key].(int64); ok {
		delete(f.values, key)
		return float64(n)
	}
	return value[float64](f, key, wording.Mark("a number"))
}

func (f *fields) time(key string) time.Time {
	t := value[time.Time](f, key, wording.Mark("a time such as 2024-05-31T14:05:00Z"))
	// The decoder marks a time without an offset by the name of its zone.
	if strings.HasSuffix(t.Location().String(), "-local") && f.err == nil {
		f.err = wording.Errorf("%s lacks its offset, as the Z in 2024-05-31T14:05:00Z", key)
	}
	return t
}

func (f *fields) strs(key string) []string {
	list := value[[]any](f, key, wording.Mark("a list of texts"))
	var out []string
	for _, v := range list {
		s, ok := v.(string)
		if !ok && f.err == nil {
			f.err = wording.Errorf("%s must hold texts in quotes", key)
		}
		out = append(out, s)
	}
	return out
}

func (f *fields) chances(key string) []Chance {
	var out []Chance
	table := value[map[string]any](f, key, wording.Mark("a table of probabilities"))
	for _, taxon := range slices.Sorted(maps.Keys(table)) {
		p, ok := table[taxon].(float64)
		if n, whole := table[taxon].(int64); whole {
			p, ok = float64(n), true
		}
		if !ok && f.err == nil {
			f.err = wording.Errorf("%s must hold numbers", key)
		}
		out = append(out, Chance{taxon, p})
	}
	sortChances(out)
	return out
}

// sortChances puts the likeliest first, and equals in the order of their ids.
func sortChances(also []Chance) {
	sort.Slice(also, func(i, j int) bool {
		if also[i].Probability != also[j].Probability {
			return also[i].Probability > also[j].Probability
		}
		return also[i].Taxon < also[j].Taxon
	})
}

func (f *fields) unread() []string {
	var out []string
	for key := range f.values {
		out = append(out, key)
	}
	slices.Sort(out)
	return out
}
