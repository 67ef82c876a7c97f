package visit_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"time"

	"rillkey/scoring/visit"
)

// A visit is begun, a sample is taken and animals of it are counted. What Append
// says is saved is on the disk.
func ExampleAppend() {
	dir, err := os.MkdirTemp("", "")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(dir)
	file := filepath.Join(dir, "brook.visit.toml")
	random := rand.NewChaCha8([32]byte{1})
	at := time.Date(2026, 5, 16, 10, 0, 0, 0, time.UTC)

	header := visit.Header{Site: "Tanyard Brook", Date: "2026-05-16", Protocol: "riffle-three", People: []string{"Oona"},
		CautionsRead: true, Begun: at}
	if _, err := visit.Create(file, header, random); err != nil {
		panic(err)
	}
	for _, body := range []visit.Body{
		visit.Sample{Label: "1", Habitat: "riffle"},
		visit.Identification{Sample: "1", Taxon: "cambaridae", Count: 2, Confidence: 0.98},
	} {
		at = at.Add(time.Minute)
		if _, err := visit.Append(file, at, "Oona", body, random); err != nil {
			panic(err)
		}
	}
	v, err := visit.Read(file)
	if err != nil {
		panic(err)
	}
	for _, record := range v.Tally().Records {
		fmt.Println(record.Count, record.Taxon, "in sample", record.Sample)
	}
	// Output:
	// 2 cambaridae in sample 1
}
