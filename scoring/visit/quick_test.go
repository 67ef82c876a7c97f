package visit

import (
	"maps"
	"math/rand"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"
)

// sameValues compares what two readers made of a block; times by how they are
// written, since equal ones may hold different zones in memory.
func sameValues(a, b map[string]any) bool {
	a, b = maps.Clone(a), maps.Clone(b)
	for _, m := range []map[string]any{a, b} {
		for k, v := range m {
			if t, ok := v.(time.Time); ok {
				m[k] = t.Format(time.RFC3339Nano)
			}
		}
	}
	return reflect.DeepEqual(a, b)
}

func checkQuick(t *testing.T, text []byte, head, name string) (taken bool) {
	t.Helper()
	values, ok := quick(text, head)
	if !ok {
		return false
	}
	delete(values, "check")
	f, err := parseTOML(text, name)
	if err != nil || !sameValues(values, f.values) {
		t.Errorf("the quick reader has %v, the decoder %v (%v), of\n%s", values, f, err, text)
	}
	return true
}

// What this package writes is read by the quick reader, and as the decoder reads
// it.
func TestQuickReaderReadsAsTheDecoder(t *testing.T) {
	path, _ := afternoon(t)
	data, _ := os.ReadFile(path)
	chunks, _ := split(data, MaxEvents)
	for i, c := range chunks {
		head, name := eventLine, "event"
		if i == 0 {
			head, name = headerLine, "visit"
		}
		if !checkQuick(t, c.text, head, name) {
			t.Errorf("not read quickly:\n%s", c.text)
		}
	}
}

// Blocks with single bytes changed are read the same by both, or left to the
// decoder.
func TestQuickReaderOnSpoiltBlocks(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	e := encodeEvent(Event{ID: "abc", Time: noon, Who: `A "b" \c`,
		Body: Identification{Sample: "1", Taxon: "perlidae", Count: 102, Confidence: 0.93, Path: []string{"1b", "4?"},
			Also: []Chance{{"perlodidae", 0.05}, {"nemouridae", 0.02}}, Undecided: true}})[1:]
	random := rand.New(rand.NewSource(8))
	const letters = "\"\\ =[]{},.\n0149aeTZ+-_x\r\t#\x00\xff"
	taken := 0
	for range 60_000 {
		text := []byte(string(e))
		for range 1 + random.Intn(2) {
			text[random.Intn(len(text))] = letters[random.Intn(len(letters))]
		}
		if checkQuick(t, text, eventLine, "event") {
			taken++
		}
	}
	if taken < 1000 {
		t.Errorf("only %d spoilt blocks were read quickly; the test says little", taken)
	}
}

func FuzzQuick(f *testing.F) {
	f.Add(string(encodeEvent(Event{ID: "b", Time: noon, Body: Sample{Label: "1", Habitat: "riffle", Area: 0.37}})[1:]))
	f.Add("[[event]]\na = [\"x\", \"y\"]\nb = { \"c\" = 0.5 }\n")
	f.Fuzz(func(t *testing.T, text string) {
		if !strings.Contains(text, "\"\"\"") {
			checkQuick(t, []byte(text), eventLine, "event")
		}
	})
}
