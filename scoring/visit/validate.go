package visit

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// check collects the first thing that is wrong with a header or an event, so
// that the checks read as a list.
type check struct{ err error }

func (c *check) fail(format string, args ...any) {
	if c.err == nil {
		c.err = fmt.Errorf(wording.Text(format), args...)
	}
}

func (c *check) text(name, s string) { c.limited(name, s, maxText) }

func (c *check) limited(name, s string, max int) {
	switch {
	case !utf8.ValidString(s):
		c.fail("%s is not valid text (UTF-8): %s", name, plain.Quote(s))
	case plain.HasControl(s):
		c.fail("%s holds a control character, which could disturb a screen: %s; type it again on one line", name, plain.Quote(s))
	case utf8.RuneCountInString(s) > max:
		c.fail("%s is longer than %d characters; shorten it", name, max)
	}
}

func (c *check) needText(name, s string) {
	if strings.TrimSpace(s) == "" {
		c.fail("%s is missing", name)
	}
	c.text(name, s)
}

func (c *check) texts(name string, list []string) {
	if len(list) > MaxList {
		c.fail("%s has %d entries; at most %d are kept", name, len(list), MaxList)
		return
	}
	for _, s := range list {
		c.needText(wording.Sprintf("an entry of %s", name), s)
	}
}

func (c *check) id(name, s string) {
	if !plain.IsID(s) {
		c.fail("%s %s is not an id: lower-case letters, digits and hyphens only", name, plain.Quote(s))
	}
}

func (c *check) optionalID(name, s string) {
	if s != "" {
		c.id(name, s)
	}
}

// inRange refuses NaN too: no comparison with it holds.
func (c *check) inRange(name string, v, low, high float64, unit string) {
	if !(v >= low && v <= high) {
		c.fail("%s must be from %s to %s%s, not %v", name, number(low), number(high), unit, v)
	}
}

// measured takes 0 for what nobody measured.
func (c *check) measured(name string, v, low, high float64, unit string) {
	if v != 0 {
		c.inRange(name, v, low, high, unit)
	}
}

// time leaves the last year that a file can hold to what comes after the last
// event.
func (c *check) time(t time.Time) {
	if y := t.UTC().Year(); y < 1900 || y >= lastYear {
		c.fail("the time %s lies outside the years 1900 to %d", t.Format(time.RFC3339), lastYear-1)
	}
}

// lastYear is the last year that RFC 3339 can write.
const lastYear = 9999

func checkHeader(h Header) error {
	var c check
	c.id(wording.Text("visit id"), h.ID)
	c.needText("site", h.Site)
	c.date(h.Date)
	c.texts("people", h.People)
	c.optionalID("region", h.Region)
	c.texts("edition", h.Edition)
	c.optionalID("protocol", h.Protocol)
	c.time(h.Begun)
	c.spot(h.Spot)
	c.text("reference", h.Reference)
	c.texts("joined", h.Joined)
	for _, id := range h.Joined {
		c.id(wording.Text("joined visit"), id)
	}
	return c.err
}

func (c *check) date(s string) {
	t, err := time.Parse("2006-01-02", s)
	if err != nil || t.Year() < 1900 {
		c.fail("date %s does not exist; write year, month and day as in 2024-05-31", plain.Quote(s))
	}
}

// checkEvent judges an event by itself; what it refers to is judged by
// state.admit.
func checkEvent(e Event) error {
	var c check
	c.id(wording.Text("event id"), e.ID)
	c.time(e.Time)
	if y := e.Follows.UTC().Year(); !e.Follows.IsZero() && (y < 1900 || y > lastYear) {
		c.fail("the moment %s lies outside the years 1900 to %d", e.Follows.Format(time.RFC3339), lastYear)
	}
	c.text("who", e.Who)
	switch b := e.Body.(type) {
	case Sample:
		c.sample(b)
	case Identification:
		c.identification(b)
	case Amendment:
		c.amendment(b)
	case SecondLook:
		c.needText("who", e.Who)
		c.secondLook(b)
	case Finish:
		c.text("note", b.Note)
	case Settlement:
		c.settlement(b)
	case SameName:
		c.sameName(b)
	case SheetRows:
		c.sheetRows(b)
	case Conditions:
		c.conditions(b.Values)
	case Opaque:
		if e.raw == nil {
			c.fail("an event of the kind %s is not known to this program and cannot be recorded", plain.Quote(b.Word))
		}
	default:
		c.fail("an event of type %T cannot be recorded", e.Body)
	}
	return c.err
}

func (c *check) sample(s Sample) {
	c.label(s.Label)
	c.id("habitat", s.Habitat)
	c.measured("area", s.Area, minArea, MaxArea, wording.Text(" square metres"))
	c.measured("fraction", s.Fraction, minFraction, 1, "")
	if s.Said != "" && !slices.Contains(said, s.Said) {
		c.fail("a sample is said to be %s; it can be \"%s\", \"%s\" or \"%s\"", plain.Quote(string(s.Said)), NotSorted, Sorted, Empty)
	}
	checkFields(c, tables().sample, &s)
}

func checkFields[O any](c *check, list []field[O], o *O) {
	for _, f := range list {
		f.check(c, o)
	}
}

func (c *check) label(s string) {
	odd := strings.IndexFunc(s, func(r rune) bool {
		return !(r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r == '-' || r == '_' || r == '.')
	})
	if s == "" || len(s) > maxLabel || odd >= 0 {
		c.fail("sample %s is not a label: 1 to %d letters, digits, '-', '_' or '.'", plain.Quote(s), maxLabel)
	}
}

// mostFit is how many times as likely answers may be from other people.
const mostFit = 1e9

func (c *check) identification(d Identification) {
	c.label(d.Sample)
	c.named(d.Taxon, d.Undecided)
	if d.Count < 1 || d.Count > MaxCount {
		c.fail("count must be from 1 to %s, not %d", number(MaxCount), d.Count)
	}
	c.limited("cell", d.Cell, 40)
	c.inRange("confidence", d.Confidence, 0, 1, "")
	c.texts("path", d.Path)
	c.taxa(d.Possible)
	c.chances(d.Also)
	c.inRange("fits_half", d.FitsHalf, 0, mostFit, "")
	c.inRange("fits_twice", d.FitsTwice, 0, mostFit, "")
	c.measured("length", d.Length, minLength, MaxLength, " mm")
	if d.ExpertOn != "" {
		c.date(d.ExpertOn)
	}
	checkFields(c, tables().record, &d)
}

// named asks for a taxon unless the animals were set aside.
func (c *check) named(taxon string, undecided bool) {
	if taxon == "" && !undecided {
		c.fail("taxon is missing; name one, or mark the record undecided")
	}
	c.optionalID("taxon", taxon)
}

func (c *check) taxa(ids []string) {
	c.texts("possible", ids)
	for _, id := range ids {
		c.id(wording.Text("possible taxon"), id)
	}
}

func (c *check) chances(also []Chance) {
	if len(also) > MaxList {
		c.fail("also has %d entries; at most %d are kept", len(also), MaxList)
		return
	}
	var seen []string
	for _, a := range also {
		c.id("taxon", a.Taxon)
		c.inRange("probability", a.Probability, 0, 1, "")
		if slices.Contains(seen, a.Taxon) {
			c.fail("also names %s twice", plain.Quote(a.Taxon))
		}
		seen = append(seen, a.Taxon)
	}
}

func (c *check) amendment(a Amendment) {
	c.id(wording.Text("amended event"), a.Entry)
	c.needText("reason", a.Reason)
	switch none := a.Change == (Change{}); {
	case none && !a.Withdrawn:
		c.fail("the amendment changes nothing; give a new value, or withdraw the record")
	case !none && a.Withdrawn:
		c.fail("an amendment either withdraws a record or changes it, not both")
	case a.Change.touchesVisit() && (a.Change.touchesSample() || a.Change.touchesRecord()):
		c.fail("site, day, people, protocol, place and reference belong to the visit, the other values to one of its entries: amend one " +
			"of them at a time")
	case a.Change.Conditions != nil && a.Change.minus(Change{Conditions: a.Change.Conditions}) != (Change{}):
		c.fail("weather, water and bed are noted apart from samples and animals: amend one of them at a time")
	case a.Change.touchesSample() && a.Change.touchesRecord():
		c.fail("habitat, area, effort, the fraction sorted and how far it is sorted belong to a sample, the other values to an " +
			"identification: amend one of them at a time")
	}
	if a.Change.Conditions != nil && c.err == nil {
		c.err = a.Change.Conditions.Check(true)
	}
	c.more(a.Change)
	c.header(a.Change)
	a.Change.More = nil // how many there then are depends on the record
	// The values are judged on stand-ins whose other fields are sound.
	s, d := Sample{Label: "1", Habitat: "any"}, Identification{Sample: "1", Taxon: "any", Count: 1}
	a.Change.applyToSample(&s)
	a.Change.applyToRecord(&d)
	if a.Change.Undecided == nil && d.Taxon == "" {
		d.Taxon = "any" // whether a name may be missing depends on the record
	}
	c.sample(s)
	c.identification(d)
}

func (c *check) more(ch Change) {
	switch {
	case ch.More == nil:
	case *ch.More == 0 || *ch.More < -MaxCount || *ch.More > MaxCount:
		c.fail("what is counted on must be from 1 to %s, or as much below 0 where it is taken back, not %d", number(MaxCount), *ch.More)
	case ch.Count != nil:
		c.fail("a record is counted on or counted again, not both at once")
	}
}

func (c *check) secondLook(s SecondLook) {
	c.id(wording.Text("event looked at"), s.Entry)
	c.named(s.Taxon, s.Undecided)
	c.text("rank", s.Rank)
	if s.Count < 0 || s.Count > MaxCount {
		c.fail("count must be from 1 to %s, not %d", number(MaxCount), s.Count)
	}
	c.inRange("confidence", s.Confidence, 0, 1, "")
	c.texts("path", s.Path)
	c.text("note", s.Note)
}

func (c *check) settlement(s Settlement) {
	c.id(wording.Text("amended event"), s.Entry)
	c.id(wording.Text("amendment that holds"), s.Holds)
	c.texts("over", s.Overruled)
	for _, id := range s.Overruled {
		c.id(wording.Text("amendment that gives way"), id)
	}
	if len(s.Overruled) == 0 || slices.Contains(s.Overruled, s.Holds) {
		c.fail("a settlement names one amendment that holds and others that give way")
	}
}

func (c *check) sameName(s SameName) {
	c.needText("name", s.Name)
	c.needText("as", s.Spelling)
	switch s.What {
	case NameSample:
		c.label(s.Name)
		c.label(s.Spelling)
	case NamePerson, NameSite:
	default:
		c.fail("what is %s, not person, site or sample", plain.Quote(s.What))
	}
}

// number writes a bound the way people read it: 1,000,000.
func number(v float64) string {
	if v != math.Trunc(v) {
		return fmt.Sprint(v)
	}
	s := fmt.Sprintf("%.0f", v)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
