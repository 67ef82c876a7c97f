//go:build unix

package main

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/BurntSushi/toml"
)

// largeRegion is a region with a drafted key of about so many couplets.
func largeRegion(b *testing.B, animals int) string {
	b.Helper()
	r := rand.New(rand.NewPCG(18, 5000))
	var sheet strings.Builder
	sheet.WriteString("animal")
	const traits = 40
	var ids []string
	for j := range traits {
		fmt.Fprintf(&sheet, ",trait %d", j)
	}
	for i := range animals {
		fmt.Fprintf(&sheet, "\nanimal %d", i)
		ids = append(ids, fmt.Sprintf("\"animal-%d\"", i))
		for range traits {
			fmt.Fprintf(&sheet, ",%c", 'a'+rune(r.IntN(3)))
		}
	}
	dir := b.TempDir()
	csv, home := filepath.Join(dir, "animals.csv"), filepath.Join(dir, "region")
	for _, err := range []error{os.WriteFile(csv, []byte(sheet.String()), 0o644), os.Mkdir(home, 0o755),
		os.WriteFile(filepath.Join(home, "region.toml"),
			[]byte("[region]\nid = \"large\"\nversion = \"1\"\nauthors = [\"nobody\"]\nlicence = \"none\"\n"+
				"language = \"en\"\ntitle = \"Large\"\nsource = \"invented\"\n"+
				"taxa = ["+strings.Join(ids, ",\n")+"]\n"), 0o644)} {
		if err != nil {
			b.Fatal(err)
		}
	}
	out, complaints, status := spoken("couplets", "draft", "--csv", csv, "--leads", "2", "--out", filepath.Join(home, "key.toml"),
		"--taxa-out", filepath.Join(home, "taxa"))
	if status != statusDone {
		b.Fatal(out, complaints)
	}
	return home
}

// processorTime is what this process has used of the processors.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var use syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &use); err != nil {
		b.Fatal(err)
	}
	return time.Duration(use.Utime.Nano() + use.Stime.Nano())
}

// BenchmarkRegionCheck checks a whole region of 5,000 couplets, and gives the processor
// time beside that of decoding the text of its files.
func BenchmarkRegionCheck(b *testing.B) {
	home := largeRegion(b, 5001)
	var texts [][]byte
	size := 0
	err := filepath.WalkDir(home, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(name)
		texts, size = append(texts, text), size+len(text)
		return err
	})
	if err != nil {
		b.Fatal(err)
	}
	var checking, decoding time.Duration
	couplets := 0
	for b.Loop() {
		began := processorTime(b)
		f, err := openRegion(home)
		if err != nil {
			b.Fatal(err)
		}
		report := checkRegion(f)
		if len(report.Errors) > 0 {
			b.Fatal(report.Errors[0])
		}
		couplets = report.Files[0].Couplets
		between := processorTime(b)
		for _, text := range texts {
			var values map[string]any
			if err := toml.Unmarshal(text, &values); err != nil {
				b.Fatal(err)
			}
		}
		checking, decoding = checking+between-began, decoding+processorTime(b)-between
	}
	b.ReportMetric(float64(checking)/float64(decoding), "times-unmarshal")
	b.ReportMetric(float64(couplets), "couplets")
	b.ReportMetric(float64(size)/1e6, "MB")
}
