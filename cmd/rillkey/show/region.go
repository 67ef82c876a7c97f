package show

import (
	"fmt"
	"io"
	"strings"

	"rillkey/scoring"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// RegionJSON is what a region says of itself and brings.
type RegionJSON struct {
	ID          string   `json:"id"`
	Title       string   `json:"title"`
	Version     string   `json:"version"`
	Authors     []string `json:"authors"`
	Licence     string   `json:"licence"`
	Language    string   `json:"language"`
	Source      string   `json:"source"`
	Place       string   `json:"place"` // a folder, a file, or "built in"
	Key         string   `json:"key"`   // its id, or the title of one's own
	Couplets    int      `json:"couplets,omitempty"`
	Animals     int      `json:"animals"`
	Protocols   []string `json:"protocols"`
	Schemes     []string `json:"schemes"`
	Fingerprint string   `json:"fingerprint"`
}

// NewRegion tells what a region's file says.
func NewRegion(r *taxa.Region) *RegionJSON {
	return &RegionJSON{ID: r.ID, Title: r.Title, Version: r.Version, Authors: append([]string{}, r.Authors...), Licence: r.Licence,
		Language: r.Language, Source: r.Source, Key: r.Key, Animals: len(r.Taxa),
		Protocols: append([]string{}, r.Protocols...), Schemes: []string{}}
}

// Rules notes the schemes that the region's protocols grade by.
func (r *RegionJSON) Rules(rules *scoring.Rules) {
	have := map[string]bool{}
	for _, id := range r.Protocols {
		p, err := rules.Protocol(id)
		if err != nil {
			continue
		}
		for _, s := range p.Schemes {
			if !have[s] {
				have[s] = true
				r.Schemes = append(r.Schemes, s)
			}
		}
	}
}

// Regions writes what regions are, one after the other.
func Regions(w io.Writer, width int, all []*RegionJSON) error {
	p := newPage(w, width)
	for i, r := range all {
		if i > 0 {
			p.text(0, 0, "")
		}
		p.text(0, 2, "%s: %s", plain.Printable(r.ID), plain.Printable(r.Title))
		key := r.Key
		if r.Couplets > 0 {
			key = fmt.Sprintf("%s, %s", r.Key, plain.Count(r.Couplets, "couplet"))
		}
		for _, row := range []struct{ name, value string }{
			{wording.Text("Where"), wording.Text(r.Place)},
			{wording.Text("Version"), strings.TrimSpace(r.Version + "  " + r.Fingerprint)},
			{wording.Text("Authors"), strings.Join(r.Authors, ", ")},
			{wording.Text("Licence"), r.Licence},
			{wording.Text("Language"), r.Language},
			{wording.Text("Source"), wording.Text(r.Source)},
			{wording.Text("Key"), key},
			{wording.Text("Taxa"), fmt.Sprint(r.Animals)},
			{wording.Text("Protocols"), strings.Join(r.Protocols, ", ")},
			{wording.Text("Schemes"), strings.Join(r.Schemes, ", ")},
		} {
			if row.value != "" {
				p.item(row.name, "%s", plain.Printable(row.value))
			}
		}
	}
	return p.err
}

// Packed is a region that was made one file of.
type Packed struct {
	File        string   `json:"file"`
	Files       []string `json:"files"`
	Fingerprint string   `json:"fingerprint"`
}
