package visit

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

// fiftyRecords is a file as an afternoon leaves it: three samples and fifty
// records.
func fiftyRecords(t testing.TB) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "fifty.visit.toml")
	random := someRandom()
	if _, err := Create(path, Header{Site: "Otter Run", Date: "2024-05-31", People: []string{"Ada"}, Begun: noon}, random); err != nil {
		t.Fatal(err)
	}
	at := noon
	put := func(b Body) {
		at = at.Add(time.Minute)
		if _, err := unsynced.append(path, at, "Ada", b, random); err != nil {
			t.Fatal(err)
		}
	}
	for _, label := range []string{"1", "2", "3"} {
		put(Sample{Label: label, Habitat: "riffle", Area: 0.37, Effort: "one minute of kicking"})
	}
	for i := range 50 {
		put(record(i))
	}
	return path
}

func record(i int) Identification {
	return Identification{
		Sample: string(rune('1' + i%3)), Taxon: "perlidae", Rank: "family", Count: 1 + i%7, Cell: "B3",
		Confidence: 0.93, Path: []string{"1b", "4a", "7b", "12a"}, Length: 14.5,
	}
}

// BenchmarkAppend appends one record to a visit of fifty and, turn by turn,
// writes and syncs the same bytes at the end of a plain file. It prints the
// ratio, which is to stay under 3.
func BenchmarkAppend(b *testing.B) {
	path := fiftyRecords(b)
	start, _ := os.ReadFile(path)
	block := encodeEvent(Event{ID: "abcdefgh", Time: noon, Who: "Ada", Body: record(1)})
	plain, err := os.OpenFile(filepath.Join(b.TempDir(), "plain"), os.O_CREATE|os.O_WRONLY|os.O_APPEND, 0o644)
	if err != nil {
		b.Fatal(err)
	}
	defer plain.Close()
	if _, err := plain.Write(start); err != nil {
		b.Fatal(err)
	}
	random := someRandom()
	var appending, writing time.Duration
	for b.Loop() {
		begun := time.Now()
		if _, err := Append(path, noon.Add(24*time.Hour), "Ada", record(1), random); err != nil {
			b.Fatal(err)
		}
		appending += time.Since(begun)
		begun = time.Now()
		if _, err := plain.Write(block); err != nil {
			b.Fatal(err)
		}
		if err := plain.Sync(); err != nil {
			b.Fatal(err)
		}
		writing += time.Since(begun)
		// Both are cut back, or the one would have more to sync than the other.
		for _, name := range []string{path, plain.Name()} {
			if err := os.Truncate(name, int64(len(start))); err != nil {
				b.Fatal(err)
			}
		}
	}
	b.ReportMetric(float64(writing.Microseconds())/float64(b.N), "µs/write+sync")
	b.ReportMetric(float64(appending.Microseconds())/float64(b.N), "µs/append")
	b.ReportMetric(float64(appending)/float64(writing), "ratio")
}

func BenchmarkParse(b *testing.B) {
	data, err := os.ReadFile(fiftyRecords(b))
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := Parse("v", data); err != nil {
			b.Fatal(err)
		}
	}
}
