package main

import (
	"crypto/rand"
	"io"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rillkey/scoring/visit"
	"rillkey/scoring/visit/visittest"
	"rillkey/taxa"
)

// BenchmarkBars runs the commands that go through all records of a visit on the
// largest visits there are: each must take two seconds at most on two cores.
func BenchmarkBars(b *testing.B) {
	catalog, err := taxa.Embedded()
	if err != nil {
		b.Fatal(err)
	}
	var ids []string
	for _, t := range catalog.Taxa() {
		ids = append(ids, t.ID)
	}
	for name, v := range map[string]*visit.Visit{
		"5000 records":                     visittest.Mixed("riffle-three", ids, 5000),
		"200 set aside, 184 possibilities": visittest.SetAside("riffle-three", ids, 200, 184),
	} {
		file := filepath.Join(b.TempDir(), "v.visit.toml")
		if err := v.WriteNew(file, 0o644); err != nil {
			b.Fatal(err)
		}
		for _, command := range []string{"recheck", "print labels", "print report"} {
			b.Run(name+", "+command, func(b *testing.B) {
				for b.Loop() {
					var complaints strings.Builder
					w := world{in: strings.NewReader(""), out: io.Discard, err: &complaints, now: time.Now, random: rand.Reader,
						env: func(string) string { return "" }, width: 80, height: 24}
					if status := run(append(strings.Fields(command), "--visit", file), w); status != statusDone {
						b.Fatal(status, complaints.String())
					}
				}
				b.ReportMetric(b.Elapsed().Seconds()/float64(b.N), "s/command")
			})
		}
	}
}
