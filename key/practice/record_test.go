package practice_test

import (
	"bytes"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/key/learned"
	"rillkey/key/practice"
)

func TestARecordComesBackAsItWasWritten(t *testing.T) {
	s := newSchool(t)
	r := rand.New(rand.NewPCG(1, 1))
	rec := practice.PersonRecord{Person: "Robin \"the heron\""}
	rec.BeginTest(practice.OnSight, 5, firstDay)
	rec.BeginTest(practice.WithKey, 500, firstDay)
	for range 50 {
		m := anyhow(s, s.course.Kinds()[0].ID, s.course.Draw(s.course.Kinds()[3].ID, r).Shows, firstDay, r)
		m.Seconds = max(0, m.Seconds)
		keep := m.Readings[:0]
		for _, one := range m.Readings {
			if len(one.Given) > 0 {
				keep = append(keep, one)
			}
		}
		m.Readings = keep
		rec.Meetings = append(rec.Meetings, m)
	}
	text := rec.TOML()
	if cut := text[:len(text)/2]; !practice.IsRecordOf(cut, rec.Person) || practice.IsRecordOf(cut, "Robin") {
		t.Error("whose record it is cannot be told when it is cut off")
	}
	back, err := practice.ParseRecord("robin", text)
	if err != nil {
		t.Fatal(err)
	}
	if again := back.TOML(); !bytes.Equal(again, text) {
		t.Errorf("written again it is another text:\n%s\n\n%s", text, again)
	}
	if a, b := rec.Learner(s.course).Error(firstDay), back.Learner(s.course).Error(firstDay); a-b > 0.01 || b-a > 0.01 {
		t.Errorf("an error of %.3f became %.3f", a, b)
	}
}

// animal is the beginning of a record that is sound as far as it goes.
const animal = "[person]\nname = \"a\"\n[animal.1]\nat = \"2031-04-05T09:00:00Z\"\n"

func TestRecordsThatCannotBeRead(t *testing.T) {
	for _, one := range []struct{ name, text, want string }{
		{"no person", "", "person"},
		{"an empty name", "[person]\nname = \"\"", "name"},
		{"a key nobody knows", "[person]\nname = \"a\"\nage = 9", "t.toml:3:1"},
		{"a time that is none", "[person]\nname = \"a\"\n[animal.1]\nat = \"noon\"\nfrom = \"drawing\"\nkind = \"x\"",
			"t.toml:4:6: bad-time"},
		{"a source that is none", animal + "from = \"dream\"\nkind = \"perlidae\"", "t.toml:5:8: bad-source"},
		{"a test that nobody began", animal + "from = \"drawing\"\nkind = \"x\"\nin-test = 2", "t.toml:7:11: unknown-test"},
		{"a test of no kind", animal + "from = \"drawing\"\nkind = \"x\"\n[test.1]\nbegan = \"2031-04-05T09:00:00Z\"\n" +
			"kind = \"a\"\nanimals = 3",
			"bad-test"},
		{"a reading without its answer",
			animal + "from = \"drawing\"\nkind = \"perlidae\"\nread = [\"tails 2\"]", "t.toml:7:9: bad-reading"},
		{"a time before the first animal", animal + "from = \"drawing\"\nkind = \"x\"\nseconds = -1",
			"bad-seconds"},
	} {
		_, err := practice.ReadRecord(fstest.MapFS{"t.toml": {Data: []byte(one.text)}}, "t.toml", "t.toml")
		if err == nil || !strings.Contains(err.Error(), one.want) {
			t.Errorf("%s: %v, want %q", one.name, err, one.want)
		}
	}
}

func TestNoFileOfAPersonHasTheNameOfADevice(t *testing.T) {
	if stem := practice.FileStem("Con"); stem != "con-1" {
		t.Errorf("%q", stem)
	}
}

func TestNamesOfPeople(t *testing.T) {
	for name, good := range map[string]bool{"Robin": true, "Łucja": true, "小川": true, "the heron": true,
		"": false, " ": false, "...": false,
		"a\nb": false, strings.Repeat("x", 41): false, " Robin": false} {
		if err := practice.CheckName(name); (err == nil) != good {
			t.Errorf("%q: %v", name, err)
		}
	}
}

func FuzzParseRecord(f *testing.F) {
	f.Add([]byte(animal + "from = \"drawing\"\nkind = \"perlidae\"\nnamed = []\nread = [\"tails 2 2 3 1.00\"]"))
	s := newSchool(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := practice.ParseRecord("f", data)
		if err != nil {
			return
		}
		back, err := practice.ParseRecord("f", r.TOML())
		if err != nil {
			t.Fatalf("what was written cannot be read: %v", err)
		}
		back.Learner(s.course).Next(firstDay, rand.New(rand.NewPCG(1, 1)))
	})
}

// Only what holds the rates that were made of a record may go with it.
func TestStateOfWhatWasMade(t *testing.T) {
	s := newSchool(t)
	rates := (&learned.Counts{}).TOML(s.v)
	made := practice.NewMade("/a/robin.rates.toml", rates)
	for _, row := range []struct {
		why   string
		text  []byte
		state practice.MadeState
	}{
		{"as it was made", rates, practice.AsMade},
		{"a line more", append(bytes.Clone(rates), "# mine\n"...), practice.ChangedMade},
		{"somebody's diary", []byte("dear diary"), practice.NotRates},
		{"nothing", nil, practice.NotRates},
	} {
		if got := made.State(row.text); got != row.state {
			t.Errorf("%s: %v", row.why, got)
		}
	}
}
