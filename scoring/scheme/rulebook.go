package scheme

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"path"
	"slices"
	"sort"
	"strings"
	"sync"

	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Rulebook is the schemes and protocols that grades are given by, for the taxa of
// one catalog.
type Rulebook struct {
	catalog   *taxa.Catalog
	known     map[string]string // ids, scientific and older names, as foldName has them, to the id
	lenient   Lenient
	schemes   []*Scheme
	protocols []*Protocol
}

// Lenient says what rules need not be refused for.
type Lenient struct {
	Unknown bool // a taxon that the catalog lacks: it never occurs
	Present bool // a name marked absent that the catalog has: its value holds
}

// Read reads every .toml file in the folders schemes and protocols of fsys, in the
// order of their names. Rules with anything wrong are refused; the error is of
// type [authored.Findings] where the files could be read at all. Messages put dir
// before the names of the files.
func Read(fsys fs.FS, dir string, cat *taxa.Catalog, lenient Lenient) (*Rulebook, error) {
	r := &Rulebook{catalog: cat, known: namesOf(cat), lenient: lenient}
	var report authored.Report
	var schemes []*authored.Table
	var marks []func() string
	if err := eachFile(fsys, dir, "schemes", &report, func(top *authored.Table, mark func() string) {
		schemes, marks = append(schemes, top), append(marks, mark)
	}); err != nil {
		return nil, err
	}
	r.addSchemes(schemes)
	for _, s := range r.schemes {
		s.mark = marks[s.file]
	}
	// A protocol that names a refused scheme would only repeat its findings.
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	if err := eachFile(fsys, dir, "protocols", &report, func(top *authored.Table, mark func() string) {
		before := len(r.protocols)
		r.addProtocol(top)
		for _, p := range r.protocols[before:] {
			p.mark = mark
		}
	}); err != nil {
		return nil, err
	}
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	return r, nil
}

// NewRulebook is a rulebook without schemes and protocols.
func NewRulebook(cat *taxa.Catalog) *Rulebook { return &Rulebook{catalog: cat, known: namesOf(cat)} }

// namesOf are the names under which a publication may list a taxon. Where two
// taxa share a name, as an older one, the first in the files has it.
func namesOf(cat *taxa.Catalog) map[string]string {
	known := map[string]string{}
	add := func(name, id string) {
		if name = foldName(name); known[name] == "" {
			known[name] = id
		}
	}
	for _, t := range cat.Taxa() {
		add(t.ID, t.ID)
		add(t.Scientific, t.ID)
	}
	for _, t := range cat.Taxa() {
		for _, older := range t.Synonyms {
			add(older, t.ID)
		}
	}
	return known
}

func foldName(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// Schemes are all schemes in the order of their files.
func (r *Rulebook) Schemes() []*Scheme { return r.schemes }

// Scheme is the scheme with the id, or nil.
func (r *Rulebook) Scheme(id string) *Scheme {
	i := slices.IndexFunc(r.schemes, func(s *Scheme) bool { return s.ID == id })
	if i < 0 {
		return nil
	}
	return r.schemes[i]
}

// Protocols are all protocols in the order of their files.
func (r *Rulebook) Protocols() []*Protocol { return r.protocols }

func (r *Rulebook) schemeIDs() (out []string) {
	for _, s := range r.schemes {
		out = append(out, s.ID)
	}
	return out
}

// Protocol is the protocol with the id; the error lists those there are.
func (r *Rulebook) Protocol(id string) (*Protocol, error) {
	var ids []string
	for _, p := range r.protocols {
		if p.ID == id {
			return p, nil
		}
		ids = append(ids, p.ID)
	}
	if id == "" {
		return nil, wording.Errorf("no protocol is named; choose one of %s", plain.List(ids))
	}
	return nil, wording.Errorf("there is no protocol %s; choose one of %s", plain.Quote(id), plain.List(ids))
}

// eachFile reads the files of a folder, each with the checksum of what it says.
func eachFile(fsys fs.FS, dir, folder string, report *authored.Report, add func(top *authored.Table, mark func() string)) error {
	names, err := fs.Glob(fsys, folder+"/*.toml")
	if err != nil {
		return err
	}
	if len(names) == 0 {
		return wording.Errorf("%s: this folder holds no .toml file", plain.Printable(path.Join(dir, folder)))
	}
	sort.Strings(names)
	for _, name := range names {
		top, err := authored.ReadTable(fsys, name, path.Join(dir, name), report)
		if err != nil {
			return err
		}
		if top != nil {
			text, err := fs.ReadFile(fsys, name)
			if err != nil {
				return err
			}
			add(top, sync.OnceValue(func() string {
				sum := sha256.Sum256(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")))
				return hex.EncodeToString(sum[:8])
			}))
		}
	}
	return nil
}

func needID(t *authored.Table) string {
	id := t.NeedStr("id")
	if id != "" && !plain.IsID(id) {
		t.Fail("id", "bad-id", wording.Sprintf("%s cannot be an id", plain.Quote(id)),
			wording.Text("use lower-case letters, digits and hyphens"))
	}
	return id
}

// readStatus wants one of Statuses; without one the inherited status holds.
func readStatus(t *authored.Table, inherited string) string {
	if inherited == "" {
		t.Need("status")
	}
	status := t.Str("status")
	if status == "" {
		return inherited
	}
	if !slices.Contains(Statuses, status) {
		t.Fail("status", "unknown-status", wording.Sprintf("there is no status %s", plain.Quote(status)), wording.Sprintf("it is one of %s",
			strings.Join(Statuses, "; ")))
	}
	return status
}
