// Package demo holds two invented visits and the eyes that look at their
// animals. It reads the script and answers the key's questions; what the
// answers come to, and the visit's file, are the program's own.
//
// Begin with [InventedVisit], [InventedSample] and [Catch].
package demo

import (
	"bytes"
	_ "embed"
	"fmt"
	"io"
	"maps"
	"slices"
	"time"

	"github.com/BurntSushi/toml"

	"rillkey/scoring/visit"
)

//go:embed demo.toml
var text []byte

// InventedVisit is one invented visit.
type InventedVisit struct {
	Title    string
	Site     string
	Begun    time.Time
	Protocol string
	People   []string
	Samples  []InventedSample
	Finds    []Catch
}

// InventedSample is one sample of it.
type InventedSample struct {
	Label   string
	Habitat string
	Area    float64 `toml:"area_m2"` // square metres
	Effort  string
}

// Catch is some animals of one kind out of one sample.
type Catch struct {
	Sample string
	Taxon  string // what they are; the people do not know it
	Count  int
	Cell   string
	Who    string
	Note   string
	Length float64  // millimetres, 0 when nobody measured
	Unsure []string // traits that nobody could make out
	// Misread is what is read wrongly at the first look, a state by trait.
	Misread map[string]string
}

// InventedVisits are the invented visits in the order of the script.
func InventedVisits() ([]InventedVisit, error) {
	var file struct {
		Visit map[string]struct {
			InventedVisit
			Sample map[string]InventedSample
			Find   map[string]Catch
		}
	}
	meta, err := toml.NewDecoder(bytes.NewReader(text)).Decode(&file)
	if err != nil {
		return nil, fmt.Errorf("the demo's script: %w", err)
	}
	if extra := meta.Undecoded(); len(extra) > 0 {
		return nil, fmt.Errorf("the demo's script: nothing reads %v", extra)
	}
	var out []InventedVisit
	for _, path := range meta.Keys() {
		if len(path) != 2 {
			continue
		}
		entry := file.Visit[path[1]]
		v := entry.InventedVisit
		for _, label := range slices.Sorted(maps.Keys(entry.Sample)) {
			s := entry.Sample[label]
			s.Label = label
			v.Samples = append(v.Samples, s)
		}
		for _, turn := range slices.Sorted(maps.Keys(entry.Find)) {
			v.Finds = append(v.Finds, entry.Find[turn])
		}
		out = append(out, v)
	}
	return out, nil
}

// How long people take over a sample, and over the animals of one kind.
const (
	TimePerSample = 10 * time.Minute
	TimePerKind   = 2 * time.Minute
)

// Date is the day of the visit.
func (v InventedVisit) Date() string { return v.Begun.Format(time.DateOnly) }

// Begin writes the visit with its samples, and no animals yet, to a new file, and gives the
// time that it then is.
func (v InventedVisit) Begin(path, region string, random io.Reader) (now time.Time, err error) {
	header := visit.Header{Site: v.Site, Date: v.Date(), People: v.People, Region: region, Protocol: v.Protocol,
		CautionsRead: true, Begun: v.Begun}
	if _, err := visit.Create(path, header, random); err != nil {
		return now, err
	}
	now = v.Begun
	for _, s := range v.Samples {
		now = now.Add(TimePerSample)
		body := visit.Sample{Label: s.Label, Habitat: s.Habitat, Area: s.Area, Effort: s.Effort}
		if _, err := visit.Append(path, now, v.People[0], body, random); err != nil {
			return now, err
		}
	}
	return now, nil
}
