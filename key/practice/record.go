package practice

import (
	"bytes"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// PersonRecord is all that one person met, as their file holds it.
type PersonRecord struct {
	Person   string // a first name, or a made-up one
	Made     []Made // files that were made of it, to be deleted with it
	Tests    []Test // in the order taken
	Meetings []Meeting
}

// Bounds of a record: a thousand sittings, and nobody sits at one animal for a day.
const (
	MostMeetings = 25_000
	mostSeconds  = 86_400
	mostName     = 40
	mostReadings = 100
	mostMade     = 100
)

// CheckName says what is wrong with a person's name; nil where nothing is.
func CheckName(name string) error {
	switch {
	case strings.TrimSpace(name) == "":
		return wording.Errorf("a name is needed, a first name or a made-up one")
	case len([]rune(name)) > mostName:
		return wording.Errorf("a name of more than %d letters is too long; a first name is enough", mostName)
	case plain.HasControl(name), name != strings.TrimSpace(name):
		return wording.Errorf("a name is letters on one line, without blanks around it")
	case FileStem(name) == "":
		return wording.Errorf("a name needs a letter or a digit, since a file is named by it")
	}
	return nil
}

// FileStem is a name as the beginning of a file's name: small letters, digits and
// hyphens.
func FileStem(name string) string {
	stem := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return '-'
	}, name)
	if stem = strings.Trim(stem, "-"); plain.IsDevice(stem) {
		stem += "-1"
	}
	return stem
}

// personTable is the part of a record's file that says whose it is.
func personTable(name string) string { return fmt.Sprintf("\n[person]\nname = %s\n", quoted(name)) }

// IsRecordOf reports whether a text, which may be cut off, is the record of the person with
// the name, as [PersonRecord.TOML] writes it.
func IsRecordOf(text []byte, name string) bool {
	return bytes.Contains(text, []byte(personTable(name)))
}

// TOML is the record as a file.
func (r *PersonRecord) TOML() []byte {
	var out bytes.Buffer
	fmt.Fprintf(&out, "# %s\n", wording.Text("What one person practised. It is theirs: it stays on this machine, and "+
		"'rillkey practice forget' deletes it."))
	out.WriteString(personTable(r.Person))
	for i, m := range r.Made {
		fmt.Fprintf(&out, "\n[made.%d]\nfile = %s\nsum = %s\n", i+1, quoted(m.Path), quoted(m.Sum))
	}
	for _, t := range r.Tests {
		fmt.Fprintf(&out, "\n[test.%d]\nkind = %s\nbegan = %s\nanimals = %d\n", t.Number, quoted(string(t.Kind)),
			moment(t.Began), t.Animals)
	}
	return r.AppendTOML(out.Bytes(), 0)
}

// AppendTOML is the text of the record where its first saved meetings, and all that is
// no meeting, are as in a text before. That text must not be used again.
func (r *PersonRecord) AppendTOML(before []byte, saved int) []byte {
	out := bytes.NewBuffer(before)
	for i := saved; i < len(r.Meetings); i++ {
		r.Meetings[i].write(out, i+1)
	}
	return out.Bytes()
}

func (m *Meeting) write(out *bytes.Buffer, n int) {
	var rows []string
	for _, r := range m.Readings {
		rows = append(rows, strings.Join([]string{r.Trait, r.Is, strings.Join(r.Fit, "+"), strings.Join(r.Given, "+"),
			strconv.FormatFloat(r.Blame, 'f', 2, 64)}, " "))
	}
	fmt.Fprintf(out, "\n[animal.%d]\nat = %s\nfrom = %s\nkind = %s\n", n, moment(m.Time), quoted(string(m.Source)), quoted(m.Kind))
	for _, f := range []struct {
		is           bool
		field, value string
	}{
		{m.Test != "", "in-test", strconv.Itoa(m.Number)}, {m.Begins, "begins", "true"}, {m.Drawn != "", "drawn", quoted(m.Drawn)},
		{m.Sight != "", "sight", quoted(m.Sight)},
		{m.Seconds > 0, "seconds", strconv.FormatFloat(min(m.Seconds, mostSeconds), 'f', 1, 64)},
		{m.Walked, "named", list(m.Named)}, {m.Group != "", "within", quoted(m.Group)}, {m.Alike, "alike", "true"},
		{m.Prompted, "prompted", "true"}, {len(rows) > 0, "read", list(rows)},
	} {
		if f.is {
			fmt.Fprintf(out, "%s = %s\n", f.field, f.value)
		}
	}
}

// moment is a time as it is written.
func moment(t time.Time) string { return quoted(t.UTC().Format(time.RFC3339)) }

// quoted is a text as a basic string of TOML: no text here has what TOML writes
// otherwise than Go, control characters aside, which the checks refuse.
func quoted(s string) string { return strconv.Quote(s) }

func list(all []string) string {
	out := make([]string, len(all))
	for i, s := range all {
		out[i] = quoted(s)
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// ReadRecord reads a person's file, whose messages call it shown. The error is of
// type [authored.Findings] where the file could be read at all. Taxa, traits and
// states need not be known: a record outlives an edition of the key.
func ReadRecord(fsys fs.FS, name, shown string) (*PersonRecord, error) {
	data, err := authored.Read(fsys, name, shown)
	if err != nil {
		return nil, err
	}
	return ParseRecord(shown, data)
}

// ParseRecord reads the text of a person's file; see [ReadRecord].
func ParseRecord(shown string, data []byte) (*PersonRecord, error) {
	var report authored.Report
	r := &PersonRecord{}
	if top := authored.Parse(shown, data, &report); top != nil {
		r.read(top)
	}
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	return r, nil
}

func (r *PersonRecord) read(top *authored.Table) {
	top.Need("person")
	if p := top.Sub("person"); p != nil {
		r.Person = p.NeedStr("name")
		if err := CheckName(r.Person); err != nil && p.Has("name") {
			p.Fail("name", "bad-name", err.Error(), wording.Text("correct the name"))
		}
		p.Done()
	}
	rows := top.Subs("animal")
	if len(rows) > MostMeetings {
		top.Fail("animal", "too-many", wording.Sprintf("a record holds at most %d animals", MostMeetings),
			wording.Text("begin a new one under another name"))
		rows = nil
	}
	for _, row := range top.Subs("made") {
		r.Made = append(r.Made, Made{row.NeedStr("file"), row.NeedStr("sum")})
		row.Done()
	}
	kinds := map[int]TestKind{}
	for _, row := range top.Subs("test") {
		t := readTest(row)
		r.Tests, kinds[t.Number] = append(r.Tests, t), t.Kind
	}
	var unnumbered []int
	for i, row := range rows {
		m, old := readMeeting(row, kinds)
		if r.Meetings = append(r.Meetings, m); old {
			unnumbered = append(unnumbered, i)
		}
	}
	r.gather(unnumbered)
	top.Done()
}

// readMeeting reads the table of an animal; old tells that it was of a test of which an
// older record says no more.
func readMeeting(row authored.Section, tests map[int]TestKind) (m Meeting, old bool) {
	m = Meeting{Time: readMoment(row, "at"), Kind: row.NeedStr("kind"), Source: SpecimenSource(row.NeedStr("from")),
		Sight: row.Str("sight"), Walked: row.Has("named"), Named: row.Strs("named"),
		Group: row.Str("within"), Begins: row.Bool("begins"), Drawn: row.Str("drawn"),
		Alike: row.Bool("alike"), Prompted: row.Bool("prompted")}
	refuse := func(is bool, key, rule, message, hint string) {
		if is {
			row.Fail(key, rule, message, hint)
		}
	}
	refuse(m.Source != "" && !slices.Contains(Sources, m.Source), "from", "bad-source",
		wording.Text("animals are met as a drawing, as words or in a tray"), wording.Text(`write "drawing", "words" or "tray"`))
	if row.Has("in-test") {
		n, _ := row.Int("in-test")
		m.Number, m.Test = int(n), tests[int(n)]
		refuse(m.Test == "", "in-test", "unknown-test", wording.Sprintf("there is no test %d here", n),
			wording.Text("write the table [test.N] of it, or leave this out"))
	}
	old = row.Bool("test")
	m.Seconds, _ = row.Num("seconds")
	refuse(!(m.Seconds >= 0 && m.Seconds <= mostSeconds), "seconds", "bad-seconds",
		wording.Sprintf("seconds must be from 0 to %d", mostSeconds), wording.Text("correct the number"))
	for _, id := range slices.Concat([]string{m.Kind, m.Sight, m.Group}, m.Named) {
		if id != "" && !plain.IsID(id) {
			row.FailAt(row.Here(), "bad-id", wording.Sprintf("%s is no id of a taxon", plain.Quote(id)),
				wording.Text("an id is lower case, digits and hyphens"))
		}
	}
	refuse(m.Drawn != "" && !plain.IsID(m.Drawn), "drawn", "bad-drawing", wording.Text("a drawing is known by lower case and digits"),
		wording.Text("leave it out"))
	readings := row.Strs("read")
	refuse(len(readings) > mostReadings, "read", "too-many", wording.Sprintf("an animal has at most %d readings", mostReadings),
		wording.Text("leave the rest out"))
	for i, text := range readings[:min(len(readings), mostReadings)] {
		if reading, ok := parseReading(text); ok {
			m.Readings = append(m.Readings, reading)
		} else {
			row.FailAt(row.Elem("read", i), "bad-reading", wording.Sprintf("%s is no reading", plain.Quote(text)),
				wording.Text(`write trait, state shown, states of the right answer, states of the one given, and the blame, `+
					`as in "tails 3 3 2+none 1.00"`))
		}
	}
	row.Done()
	return m, old
}

// readMoment reads a moment that must be there.
func readMoment(row authored.Section, key string) time.Time {
	at, err := time.Parse(time.RFC3339, row.NeedStr(key))
	if err != nil && row.Has(key) {
		row.Fail(key, "bad-time", wording.Text("a moment is a date and a time with its zone"),
			wording.Text(`write it as "2031-04-05T09:00:00Z"`))
	}
	return at
}

// parseReading reads "tails 3 3 2+none 1.00".
func parseReading(text string) (Reading, bool) {
	parts := strings.Split(text, " ")
	if len(parts) != 5 {
		return Reading{}, false
	}
	blame, err := strconv.ParseFloat(parts[4], 64)
	r := Reading{Trait: parts[0], Is: parts[1], Fit: strings.Split(parts[2], "+"), Given: strings.Split(parts[3], "+"), Blame: blame}
	noID := func(id string) bool { return !plain.IsID(id) }
	sound := err == nil && blame >= 0 && blame <= 1 && !slices.ContainsFunc(slices.Concat(parts[:2], r.Fit, r.Given), noID)
	return r, sound && slices.Contains(r.Fit, r.Is) && (blame > 0) == r.Wrong()
}

// Learner is what the record teaches of the person.
func (r *PersonRecord) Learner(c *Course) *Learner {
	l := c.NewLearner()
	for i := range r.Meetings {
		l.Take(r.Meetings[i])
	}
	return l
}
