package phone

import (
	"bytes"
	"image"
	"image/png"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

var (
	kit = NewKit("north-america")
	day = time.Date(2026, 5, 16, 10, 0, 0, 0, time.UTC)
)

// phoneOf is a page with a clock that goes on by a second a press.
func phoneOf(seed byte) *Phone {
	at := day
	return New(kit, func() time.Time { at = at.Add(time.Second); return at }, rand.NewChaCha8([32]byte{seed}))
}

func begun(t *testing.T, seed byte) *Phone {
	t.Helper()
	p := phoneOf(seed)
	p.Do("begin", mill)
	if p.visit == nil || p.wrong {
		t.Fatal(p.said)
	}
	return p
}

var mill = FormValues{"site": "Mill Brook", "people": "Ada, Bo", "protocol": "riffle-three", "habitat": "riffle", "read": "yes"}

// count is how many animals of a taxon the visit holds, and in how many records.
func count(p *Phone, taxon string) (animals, records int) {
	for _, r := range p.tally.Records {
		if r.Taxon == taxon {
			animals, records = animals+r.Count, records+1
		}
	}
	return animals, records
}

// Only protocols that are followed in the region of the page can be chosen.
func TestAVisitIsBegunByAProtocolOfTheRegion(t *testing.T) {
	for key, want := range map[string][]string{
		"north-america":     {"riffle-best", "riffle-families", "riffle-three", "seven-samples"},
		"north-west-europe": {"all-habitats-three-minutes"},
	} {
		p := New(NewKit(key), func() time.Time { return day }, rand.NewChaCha8([32]byte{7}))
		var got []string
		for _, pr := range followedHere(p) {
			got = append(got, pr.ID)
		}
		if slices.Sort(got); !slices.Equal(got, want) {
			t.Errorf("%s: %v", key, got)
		}
		for _, other := range []string{"riffle-three", "all-habitats-three-minutes"} {
			offered := strings.Contains(p.HTML(), `value="`+other+`"`)
			f := maps.Clone(mill)
			f["protocol"] = other
			q := New(NewKit(key), func() time.Time { return day }, rand.NewChaCha8([32]byte{7}))
			q.Do("begin", f)
			if followed := slices.Contains(want, other); offered != followed || (q.visit != nil) != followed {
				t.Errorf("%s: %s is offered: %v, begun: %v", key, other, offered, q.visit != nil)
			}
		}
	}
}

func TestNoVisitBeginsBeforeTheCautionsWereRead(t *testing.T) {
	p := phoneOf(1)
	for _, do := range []string{"begin", "more:taxon-baetidae:1", "go:tally", "undo", "keep"} {
		p.Do(do, FormValues{"site": "Mill Brook"})
		if p.visit != nil || !strings.Contains(p.HTML(), "Begin a visit") {
			t.Errorf("%s went on without", do)
		}
	}
}

func TestAVisitSaysWhatItWasBegunWith(t *testing.T) {
	own := NewKit("north-america")
	own.Edition = []string{"version 7", "key 0123"}
	p := New(own, func() time.Time { return day }, rand.NewChaCha8([32]byte{1}))
	p.Do("begin", mill)
	v, err := visit.Parse("", p.File())
	if err != nil || v.Header.Region != "north-america" || !slices.Equal(v.Header.Edition, own.Edition) {
		t.Errorf("%v: %+v", err, v.Header)
	}
}

func TestThreePressesCountAKnownAnimal(t *testing.T) {
	p := begun(t, 1) // the first press
	p.Do("more:row-0:1", nil)
	if n := p.animals(""); n != 1 {
		t.Errorf("%d animals: %s", n, p.said)
	}
}

func TestPressesOfOneKindMakeOneRecord(t *testing.T) {
	p := begun(t, 1)
	for range 7 {
		p.Do("more:taxon-baetidae:1", nil)
	}
	p.Do("more:taxon-baetidae:5", nil)
	if n, records := count(p, "baetidae"); n != 12 || records != 1 {
		t.Errorf("%d animals in %d records", n, records)
	}
	p.Do("sample", FormValues{"habitat": "riffle"})
	p.Do("more:taxon-baetidae:1", nil)
	if n, records := count(p, "baetidae"); n != 13 || records != 2 {
		t.Errorf("with another sample: %d animals in %d records", n, records)
	}
}

// An entry is corrected by typing over it; what cannot be is refused in words, and
// nothing is changed.
func TestAnEntryIsCorrectedByTypingOverIt(t *testing.T) {
	p := begun(t, 1)
	p.Do("more:taxon-baetidae:5", nil)
	id := p.tally.Records[0].ID
	p.Do("entry:"+id, nil)
	for _, row := range []struct {
		why    string
		fields FormValues
		want   string // of the record: its taxon and count, or else of what is said
	}{
		{"nothing typed over", FormValues{"count": "5"}, "nothing was typed over"},
		{"no number", FormValues{"count": "many"}, "many"},
		{"no kind", FormValues{"count": "5", "taxon": "unicorn"}, "unicorn"},
		{"several kinds", FormValues{"count": "5", "taxon": "larva"}, "larva"},
	} {
		before := len(p.visit.Events)
		if p.Do("change:"+id, row.fields); !p.wrong || !strings.Contains(p.said, row.want) || len(p.visit.Events) != before {
			t.Errorf("%s: %q", row.why, p.said)
		}
	}
	p.Do("change:"+id, FormValues{"count": "3", "cell": " B2 ", "taxon": "golden stonefly"})
	r := p.tally.Records[0]
	if p.wrong || r.Taxon != "perlidae" || r.Rank != "family" || r.Count != 3 || r.Cell != "B2" || r.Confidence != 1 {
		t.Errorf("%+v: %s", r, p.said)
	}
	p.Do("change:gone", FormValues{"count": "1"})
	if !p.wrong || !strings.Contains(p.said, "out already") {
		t.Errorf("an entry that is not there: %q", p.said)
	}
}

// What was noted of stream and day is corrected as an entry is, by whoever may: typed over,
// or taken back. What cannot be is refused in words, and nothing is changed.
func TestAConditionIsCorrectedByTypingOverIt(t *testing.T) {
	p := begun(t, 1)
	if err := p.note(visit.Conditions{Values: condition.Values{"ph": {Number: 7.2, Instrument: "paper strips"}, "sky": {Text: "clear"},
		"photographs": {List: []string{"bank.jpg sha256:" + strings.Repeat("0a", 32)}}}}); err != nil {
		t.Fatal(err)
	}
	p.Do("go:tally", nil)
	if page := p.HTML(); !strings.Contains(page, "pH: 7.2 with paper strips") || strings.Contains(page, "condition:photographs") {
		t.Error(page)
	}
	p.Do("condition:ph", nil)
	if page := p.HTML(); !strings.Contains(page, `value="7.2 with paper strips"`) {
		t.Error(page)
	}
	for _, row := range []struct{ do, typed, want string }{
		{"noted:ph", "7.2 with paper strips", "nothing was typed over"},
		{"noted:ph", "71", "from 0 to 14"},
		{"noted:ph", "", "nothing is said"},
		{"noted:level", "high", "not noted"},
		{"condition:photographs", "", "on the laptop"},
	} {
		before := len(p.visit.Events)
		if p.Do(row.do, FormValues{"value": row.typed}); !p.wrong || !strings.Contains(p.said, row.want) || len(p.visit.Events) != before {
			t.Errorf("%s %q: %q", row.do, row.typed, p.said)
		}
	}
	p.Do("noted:ph", FormValues{"value": "7.6 with paper strips"})
	if got := p.tally.Conditions()["ph"]; p.wrong || got.Number != 7.6 || got.Instrument != "paper strips" || p.screen != tallying {
		t.Errorf("%+v: %s", got, p.said)
	}
	p.Do("condition:sky", nil)
	if page := p.HTML(); !strings.Contains(page, `<option value="clear" selected="selected">`) {
		t.Error(page)
	}
	p.Do("noted:sky:back", nil)
	if _, there := p.tally.Conditions()["sky"]; there || p.wrong {
		t.Errorf("the sky still stands: %s", p.said)
	}
	p.joined, p.who = &Joined{Name: "Bo"}, "Bo"
	if p.Do("condition:ph", nil); !p.wrong || strings.Contains(p.HTML(), "condition:ph") {
		t.Errorf("Bo may correct what somebody else noted: %s", p.said)
	}
}

// Each press is taken back by one, down to nothing and no further.
func TestTakingBackUndoesPressesOneByOne(t *testing.T) {
	p := begun(t, 1)
	var want []int
	for _, n := range []string{"1", "5", "1"} {
		before, _ := count(p, "baetidae")
		want = append(want, before)
		p.Do("more:taxon-baetidae:"+n, nil)
	}
	for len(want) > 0 {
		p.Do("undo", nil)
		if n, _ := count(p, "baetidae"); n != want[len(want)-1] {
			t.Fatalf("%d left, want %d: %s", n, want[len(want)-1], p.said)
		}
		want = want[:len(want)-1]
	}
	p.Do("undo", nil)
	if !strings.Contains(p.said, "nothing more") {
		t.Error(p.said)
	}
}

// Two phones that count the same kind apart never correct each other, and the
// union is the same whichever takes the other in, however often.
func TestTwoPhonesUnite(t *testing.T) {
	one := begun(t, 1)
	two := phoneOf(2)
	if err := two.TakeIn(one.File()); err != nil {
		t.Fatal(err)
	}
	for range 3 {
		one.Do("more:taxon-baetidae:1", nil)
		two.Do("more:taxon-baetidae:5", nil)
	}
	a, b := one.File(), two.File()
	for range 2 {
		if err := one.TakeIn(b); err != nil {
			t.Fatal(err)
		}
	}
	if err := two.TakeIn(a); err != nil {
		t.Fatal(err)
	}
	if string(one.File()) != string(two.File()) {
		t.Error("the two differ")
	}
	if n, records := count(one, "baetidae"); n != 18 || records != 2 {
		t.Errorf("%d animals in %d records", n, records)
	}
}

func TestAFileOfAnotherVisitIsRefused(t *testing.T) {
	one, other := begun(t, 1), begun(t, 2)
	before := string(one.File())
	if err := one.TakeIn(other.File()); err == nil || string(one.File()) != before {
		t.Error("it was taken in")
	}
	if err := one.TakeIn([]byte("<script>alert(1)</script>")); err == nil {
		t.Error("what is no visit was taken in")
	}
}

func TestAPageGoesOnWhereItWas(t *testing.T) {
	p := begun(t, 1)
	p.Do("more:taxon-baetidae:5", nil)
	p.Do("sample", FormValues{"habitat": "pool"})
	p.Do("who", FormValues{"who": "Bo"})
	again := phoneOf(3)
	if err := again.Open(p.File(), p.Keep()); err != nil {
		t.Fatal(err)
	}
	if again.who != "Bo" || again.sample != "2" || string(again.File()) != string(p.File()) {
		t.Errorf("by %q in sample %q", again.who, again.sample)
	}
	again.Do("pick:1", nil)
	again.Do("more:taxon-baetidae:1", nil)
	if n, records := count(again, "baetidae"); n != 6 || records != 2 {
		t.Errorf("%d animals in %d records", n, records)
	}
}

// Two windows of one browser begin with the same, and never correct each other.
func TestTwoWindowsCountTogether(t *testing.T) {
	p := begun(t, 1)
	p.Do("more:taxon-baetidae:5", nil)
	one, two := phoneOf(2), phoneOf(3)
	for _, w := range []*Phone{one, two} {
		if err := w.Open(p.File(), p.Keep()); err != nil {
			t.Fatal(err)
		}
		w.Do("more:taxon-baetidae:1", nil)
		w.Do("more:taxon-baetidae:1", nil)
	}
	if err := one.TakeIn(two.File()); err != nil {
		t.Fatal(err)
	}
	if n, _ := count(one, "baetidae"); n != 9 {
		t.Errorf("%d animals", n)
	}
}

// An animal is named by answers, and kept with them.
func TestNamingAnAnimal(t *testing.T) {
	p := begun(t, 1)
	p.Do("name", nil)
	p.Do("hear", FormValues{"words": "ten legs, pincers"})
	p.Do("confirm", nil)
	cannotTell := func() {
		for range 20 {
			if p.talk == nil || p.talk.Ended() {
				break
			}
			p.Do("answer:?", nil)
		}
	}
	cannotTell()
	p.Do("measure", FormValues{"length": "60"})
	cannotTell() // a length may bring another question
	p.Do("keep", FormValues{"count": "2", "cell": "B3"})
	if p.wrong || len(p.tally.Records) != 1 {
		t.Fatalf("%s; %d records", p.said, len(p.tally.Records))
	}
	r := p.tally.Records[0]
	if r.Count != 2 || r.Cell != "B3" || len(r.Path) == 0 || r.Length != 60 || r.Taxon == "" {
		t.Errorf("kept: %+v", r.Identification)
	}
}

// A length that was said among other words is kept as one that was measured, and is not
// asked for again.
func TestALengthSaidInWordsIsKept(t *testing.T) {
	p := begun(t, 1)
	p.Do("name", nil)
	p.Do("hear", FormValues{"words": "ten legs, pincers, 60 mm"})
	p.Do("confirm", nil)
	for range 20 {
		if p.talk == nil || p.talk.Ended() {
			break
		}
		p.Do("answer:?", nil)
	}
	if strings.Contains(p.HTML(), "How long is it") {
		t.Error("it asks for the length again")
	}
	p.Do("keep", FormValues{"count": "1"})
	if len(p.tally.Records) != 1 || p.tally.Records[0].Length != 60 {
		t.Errorf("%s; kept: %+v", p.said, p.tally.Records)
	}
}

// Whatever is pressed and typed, in any order, the page holds no markup but its
// own and the visit can be read back.
func TestAnyPressesKeepTheVisitWhole(t *testing.T) {
	hostile := FormValues{"site": "<img src=x onerror=alert(1)>", "people": `"><b>`, "words": "<script>", "find": "<i>mayfly</i>",
		"cell":  "\x1b[2J",
		"count": "3", "note": "a\u202eb", "read": "yes", "habitat": "riffle", "label": "", "length": "7", "protocol": "riffle-three"}
	random := rand.New(rand.NewPCG(1, 2))
	for range 3 {
		p := phoneOf(1)
		p.Do("begin", hostile)
		for range 120 {
			p.Do(anyPress(p, random), hostile)
			page := p.HTML()
			for _, bad := range []string{"<img", "<script", "<i>", "<b>\"", "\x1b", "\u202e"} {
				if strings.Contains(page, bad) {
					t.Fatalf("%q is on the page", bad)
				}
			}
		}
		if _, err := visit.Parse("", p.File()); err != nil {
			t.Fatal(err)
		}
	}
}

// anyPress is one of the buttons on the page.
func anyPress(p *Phone, random *rand.Rand) string {
	parts := strings.Split(p.HTML(), `name="do" value="`)
	if len(parts) < 2 {
		return "go:count"
	}
	do, _, _ := strings.Cut(parts[1+random.IntN(len(parts)-1)], `"`)
	return strings.ReplaceAll(do, "&lt;", "<")
}

func FuzzDo(f *testing.F) {
	for name := range acts() {
		f.Add(name+":1:1", "x")
	}
	f.Fuzz(func(t *testing.T, do, text string) {
		p := phoneOf(1)
		p.Do("begin", mill)
		fields := FormValues{}
		for _, name := range []string{"words", "length", "count", "cell", "note", "find", "who", "label", "habitat", "site",
			"date", "people", "protocol"} {
			fields[name] = text
		}
		for _, d := range []string{do, "name", do, "keep", do} {
			p.Do(d, fields)
		}
		if strings.Contains(p.HTML(), "<script") {
			t.Fatal("markup on the page")
		}
		if _, err := visit.Parse("", p.File()); err != nil {
			t.Fatal(err)
		}
	})
}

func TestANameHasItsStory(t *testing.T) {
	p := begun(t, 1)
	p.Do("name", nil)
	for _, a := range []string{"<", "a", "a", "a", "s"} {
		if p.screen == naming {
			p.Do("answer:"+a, nil)
		}
	}
	if page := p.HTML(); p.screen != named || !strings.Contains(page, "<summary") || !strings.Contains(page, "How it lives") {
		t.Errorf("screen %v: %s", p.screen, page)
	}
}

func TestASecondLookIsBlind(t *testing.T) {
	ada := begun(t, 1)
	ada.Do("name", nil)
	for range 40 { // no answer: the animal is set aside
		if ada.talk == nil || ada.talk.Ended() {
			break
		}
		ada.Do("answer:s", nil)
	}
	ada.Do("keep", FormValues{"count": "2", "cell": "C3"})
	bo := phoneOf(2)
	if err := bo.TakeIn(ada.File()); err != nil {
		t.Fatal(err)
	}
	bo.Do("who", FormValues{"who": "Ada"})
	bo.Do("go:board", nil)
	if strings.Contains(bo.HTML(), "Look again: ") {
		t.Error("whoever named the animals is to look again")
	}
	bo.Do("who", FormValues{"who": "Bo"})
	bo.Do("go:board", nil)
	page := bo.HTML()
	_, forBo, _ := strings.Cut(page, "For you")
	forBo, _, _ = strings.Cut(forBo, "</section>")
	if !strings.Contains(forBo, "Look again: sample 1, cell C3, 2 animals") {
		t.Fatalf("no second look: %s", page)
	}
	record := bo.tally.Records[0]
	bo.Do("look:"+record.ID, nil)
	for _, word := range []string{"by Ada", "set aside", "Could be"} {
		if strings.Contains(bo.HTML(), word) {
			t.Errorf("the second look is told %q", word)
		}
	}
	for range 40 {
		if bo.talk == nil || bo.talk.Ended() {
			break
		}
		bo.Do("answer:s", nil)
	}
	bo.Do("keep", FormValues{"count": "2"})
	if r := bo.tally.Records[0]; len(r.Looks) != 1 || r.Looks[0].Who != "Bo" {
		t.Errorf("%+v, %s", r, bo.said)
	}
}

func TestAnExpertsSlipSettlesAName(t *testing.T) {
	p := begun(t, 1)
	p.Do("more:taxon-ephemeroptera:2", nil)
	record := p.tally.Records[0].ID
	for _, f := range []FormValues{{"is": "no such thing", "expert": "Dr Wren"}, {"is": "Baetidae"},
		{"is": "Baetidae", "expert": "Dr Wren", "on": "2026-13-40"}} {
		if p.Do("slip:"+record, f); !p.wrong {
			t.Errorf("%v was taken", f)
		}
	}
	p.Do("entry:"+record, nil)
	if !strings.Contains(p.HTML(), "Code "+record) {
		t.Error("the page does not say which slip it is")
	}
	p.Do("slip:"+record, FormValues{"is": "Baetidae", "expert": "Dr Wren", "on": "2026-06-20", "kept": "county museum"})
	r := p.tally.Records[0]
	if r.Taxon != "baetidae" || r.Expert != "Dr Wren" || r.ExpertOn != "2026-06-20" || r.Kept != "county museum" || r.Confidence != 1 {
		t.Errorf("%s: %+v", p.said, r)
	}
}

// A photograph of the region stands beneath the name, with who took it; what is said
// of it cannot become markup.
func TestAPhotographStandsBeneathTheName(t *testing.T) {
	t.Parallel()
	var m writer
	m.photograph(&taxa.Taxon{})
	if m.String() != "" {
		t.Errorf("%s of an animal without one", m.String())
	}
	var picture bytes.Buffer
	if err := png.Encode(&picture, image.NewGray(image.Rect(0, 0, 60, 40))); err != nil {
		t.Fatal(err)
	}
	c, err := taxa.Load(fstest.MapFS{"fly.png": {Data: picture.Bytes()},
		"traits.toml": {Data: []byte("[trait.legs]\nquestion = \"Legs?\"\nlook = \"eye\"\nmisread = 0.1\nsource = \"invented\"\n" +
			"state.6 = { label = \"six\" }\nstate.0 = { label = \"none\" }\n")},
		"flies.toml": {Data: []byte("[taxon.fly]\nrank = \"order\"\nscientific = \"Fly\"\nphoto = \"fly.png\"\n" +
			"photo_by = \"Ada <b>Brook</b>\"\nsource = \"invented\"\ntraits = { legs = \"6\" }\n")}}, "mine")
	if err != nil {
		t.Fatal(err)
	}
	m.photograph(c.Taxon("fly"))
	if page := m.String(); !strings.Contains(page, `<img src="data:image/jpeg;base64,/9j/`) ||
		!strings.Contains(page, "Photograph: Ada &lt;b&gt;Brook&lt;/b&gt;") {
		t.Error(page)
	}
}

// A press that comes twice, or from a page that was gone back to, finds the animal
// named already: nothing is answered any more, and nothing breaks.
func TestAnAnswerAfterTheLastChangesNothing(t *testing.T) {
	p := begun(t, 7)
	p.Do("name", nil)
	for range 40 {
		if strings.Contains(p.HTML(), `value="keep"`) {
			break
		}
		p.Do("answer:?", nil)
	}
	p.Do("again", nil)
	p.Do("answer:<", nil)
	before := p.HTML()
	for _, late := range []string{"answer:s", "answer:a", "answer:?", "answer:<", "hear", "confirm"} {
		p.Do(late, FormValues{"words": "six legs"})
	}
	if got := p.HTML(); got != before {
		t.Errorf("late answers change the page from\n%s\nto\n%s", before, got)
	}
}

// A visit that was begun on the laptop may have no sample yet: the page says so and
// counts nothing.
func TestNothingIsCountedWithoutASample(t *testing.T) {
	v, err := visit.Begin(visit.Header{Site: "Mill Brook", Date: "2026-05-16", Protocol: "riffle-three", CautionsRead: true, Begun: day},
		rand.NewChaCha8([32]byte{4}))
	if err != nil {
		t.Fatal(err)
	}
	p := phoneOf(5)
	p.Follow(v, Joined{Name: "Ada"})
	if page := p.HTML(); strings.Contains(page, "sample ,") || !strings.Contains(page, "no sample yet") {
		t.Errorf("it says\n%s", page)
	}
	if p.Do("more:row-0:1", nil); !p.wrong || !strings.Contains(p.said, "under Samples") || p.animals("") != 0 {
		t.Errorf("it counts: %q", p.said)
	}
	p.Do("sample", FormValues{"habitat": "riffle"})
	if p.Do("more:row-0:1", nil); p.wrong || p.animals("") != 1 {
		t.Errorf("with a sample: %q", p.said)
	}
}

// A name that is written a little wrong is found, and what was looked for is gone once
// somebody turns to something else.
func TestAMisspeltKindIsFound(t *testing.T) {
	p := begun(t, 6)
	for typed, want := range map[string]string{"helgramite": "more:taxon-corydalus:1", "scudd": "more:taxon-amphipoda:1"} {
		if p.Do("find", FormValues{"find": typed}); !strings.Contains(p.HTML(), want) {
			t.Errorf("%s is not found: no button %s", typed, want)
		}
	}
	p.Do("find", FormValues{"find": "zzzz"})
	p.Do("go:tally", nil)
	if p.Do("go:count", nil); strings.Contains(p.HTML(), "No kind goes by that name") {
		t.Error("what was looked for before is still told")
	}
}

// Once the leader has finished the visit nothing is added, by no button; what was
// entered can be corrected, and opened again it goes on. A visit is never begun twice.
func TestAFinishedVisitTakesNothingMore(t *testing.T) {
	p := begun(t, 9)
	p.Do("more:row-0:1", nil)
	p.Do("begin", mill)
	if !p.wrong || len(p.tally.Samples) != 1 {
		t.Errorf("it begins again: %s", p.said)
	}
	if p.Do("finish", nil); p.tally.Finished || !strings.Contains(textOf(p.HTML()), "Nobody said how far these samples are sorted: 1.") {
		t.Errorf("finished, though nobody said how far its sample is sorted: %s", textOf(p.HTML()))
	}
	if p.Do("go:tally", nil); !strings.Contains(p.HTML(), `value="finish"`) {
		t.Error("it still asks")
	}
	p.Do("finish:yes", nil)
	animals := p.animals("")
	for _, do := range []string{"more:row-0:1", "more:row-3:5", "sample"} {
		if p.Do(do, FormValues{"habitat": "pool"}); !p.wrong {
			t.Errorf("%s after the end: %s", do, p.said)
		}
	}
	if p.animals("") != animals || len(p.tally.Samples) != 1 {
		t.Errorf("%d animals in %d samples", p.animals(""), len(p.tally.Samples))
	}
	p.Do("reopen", nil)
	if p.Do("more:row-0:1", nil); p.wrong || p.animals("") != animals+1 {
		t.Errorf("opened again: %s", p.said)
	}
}

func TestAForeignAnimalIsToldWhenItIsFirstCounted(t *testing.T) {
	p := begun(t, 9)
	p.Do("more:taxon-dreissenidae:1", nil)
	if !strings.Contains(p.HTML(), "tell the local authority") {
		t.Errorf("of a zebra mussel it says only %q", p.said)
	}
	p.Do("more:taxon-dreissenidae:1", nil)
	if strings.Contains(p.HTML(), "tell the local authority") {
		t.Error("it is told at every press")
	}
}
