package visit

import (
	"bytes"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// resealed is a block with the right checksum for what it says.
func resealed(text []byte) []byte {
	i := bytes.LastIndex(text, []byte(sealStart))
	if i < 0 {
		return text
	}
	return append(slices.Clone(text[:i]), sealLine(text[:i])+"\n"...)
}

// honest tells that what is vouched for is what the decoder takes whole.
func honest(t *testing.T, text []byte) bool {
	t.Helper()
	chunks, _ := split(text, 2)
	if len(chunks) != 1 || !chunks[0].isRow || !chunks[0].intact || len(chunks[0].text) > MaxBlock {
		return false
	}
	id, at, ok := vouched(string(chunks[0].text))
	if !ok {
		return false
	}
	e, unread, err := decodeEvent(chunks[0].text)
	if err != nil || len(unread) > 0 || e.ID != id || !e.Time.Equal(at) || !e.Follows.IsZero() {
		t.Errorf("it vouches for\n%s\nof which the decoder says %q %v, %v, %v", text, e.ID, e.Time, unread, err)
	}
	return true
}

const plainRecord = `[[event]]
id = "k3v9m2qa"
kind = "identification"
time = 2026-05-16T10:01:00Z
who = "Oona"
sample = "A1"
taxon = "perlidae"
rank = "family"
count = 7
cell = "B2"
confidence = 0.85
path = ["1a", "4b"]
possible = ["perlidae", "perlodidae"]
also = { "perlodidae" = 0.1, "chloroperlidae" = 0.05 }
check = "0000000000000000"
`

// Nothing is vouched for that the decoder refuses or reads otherwise, whatever is changed in a
// record.
func TestOnlyWhatTheDecoderTakesIsVouchedFor(t *testing.T) {
	if !honest(t, resealed([]byte(plainRecord))) {
		t.Fatal("a plain record is not vouched for")
	}
	random := rand.New(rand.NewPCG(4, 4))
	bits := []string{`"`, `\`, "é", "\x00", "0", "-1", "1.5", "count = 3\n", "[[event]]\n", "1000001", "perlidae", " ", "",
		"NaN", `""`, "{}", "[]", `{ "a" = 0.1 }`, "after = 2026-05-16T10:01:00Z\n"}
	vouchedFor := 0
	for range 20_000 {
		lines := strings.SplitAfter(plainRecord, "\n")
		for range 1 + random.IntN(3) {
			i := random.IntN(len(lines) - 2)
			switch random.IntN(5) {
			case 0:
				lines[i] = ""
			case 1:
				j := random.IntN(len(lines) - 2)
				lines[i], lines[j] = lines[j], lines[i]
			case 2:
				lines[i] += lines[i]
			default:
				at := random.IntN(len(lines[i]) + 1)
				upTo := min(len(lines[i]), at+random.IntN(3))
				lines[i] = lines[i][:at] + bits[random.IntN(len(bits))] + lines[i][upTo:]
			}
		}
		if honest(t, resealed([]byte(strings.Join(lines, "")))) {
			vouchedFor++
		}
	}
	if vouchedFor < 500 {
		t.Errorf("only %d of the changed records are vouched for", vouchedFor)
	}
}

func FuzzVouched(f *testing.F) {
	f.Add([]byte(plainRecord))
	f.Fuzz(func(t *testing.T, text []byte) { honest(t, resealed(text)) })
}

// Whatever parts of copies come in whatever order, they are what merging the files gives.
func TestPartsMakeTheMergedVisit(t *testing.T) {
	v, err := Parse("v", append(encodeHeader(Header{ID: "visit1", Site: "Brook", Date: "2026-05-16", Begun: noon}),
		"\n"+string(resealed([]byte(plainRecord)))...))
	if err != nil {
		t.Fatal(err)
	}
	random := rand.NewChaCha8([32]byte{1})
	for i, b := range []Body{Sample{Label: "A2", Habitat: "riffle"}, SecondLook{Entry: "k3v9m2qa", Taxon: "perlodidae"},
		Finish{Note: "é"}} {
		if _, err := v.Add(noon.AddDate(0, 0, i), "Teodor", b, random); err != nil {
			t.Fatal(err)
		}
	}
	p, err := PartsOf("v", v.Encode())
	if err != nil || len(p.Refused) > 0 || len(p.Events) != len(v.Events) {
		t.Fatalf("%+v, %v", p, err)
	}
	c := Copy{Head: p.Head.Text}
	for _, e := range p.Events {
		c.Events = append(c.Events, e.Text)
	}
	slices.Reverse(c.Events)
	got, err := Assemble("v", []Copy{c})
	want, _, _ := Unite([]*Visit{v}, false)
	if err != nil || !bytes.Equal(got.Encode(), want.Encode()) {
		t.Errorf("%v: it is\n%s\nnot\n%s", err, got.Encode(), want.Encode())
	}
}
