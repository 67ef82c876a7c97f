package scheme

import (
	"slices"

	"rillkey/scoring/visit"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Protocol is the sampling effort that a grade asks for, and how the samples
// make one grade.
type Protocol struct {
	ID      string
	Title   string
	Source  string
	Status  string // one of Statuses
	Note    string
	Schemes []string // ids; the first is the main one
	Further []string // ids of further schemes, told beside the grade, of all samples together
	Watch   string   // id of the share that is judged over years beside the main index; empty for none
	Combine Combine
	Needs   []Need

	mark func() string
}

// Combine is how several samples make one index.
type Combine string

// The ways to combine samples.
const (
	Pooled Combine = "pooled" // all animals of all samples together
	Best   Combine = "best"   // each sample by itself; the highest value counts
)

// AnyHabitat in a Need stands for whatever habitat.
const AnyHabitat = "any"

// Need is a number of samples from one habitat.
type Need struct {
	Habitat string
	Samples int
	Area    float64 // square metres of each sample at least; 0 when not prescribed
}

func (r *Rulebook) addProtocol(top *authored.Table) {
	top.NeedHead("protocol")
	top.Need("need")
	head := top.Sub("protocol")
	if head == nil {
		return
	}
	p := &Protocol{
		ID: needID(head), Title: head.NeedStr("title"), Source: head.NeedStr("source"),
		Status: readStatus(head, ""), Note: head.Str("note"), Combine: Combine(head.NeedStr("combine")),
	}
	if known, _ := r.Protocol(p.ID); known != nil {
		head.Fail("id", "doubled-id", wording.Sprintf("another file has a protocol %s", plain.Quote(p.ID)),
			wording.Text("give one of the two another id, or take one of the files away"))
	}
	if p.Combine != "" && p.Combine != Pooled && p.Combine != Best {
		head.Fail("combine", "unknown-combine", wording.Sprintf("samples cannot be combined as %s", plain.Quote(string(p.Combine))),
			wording.Text(`it is "pooled" or "best"`))
	}
	head.Need("schemes")
	if p.Schemes = r.readSchemeIDs(head, "schemes"); head.Has("schemes") && len(p.Schemes) == 0 {
		head.Fail("schemes", "empty", wording.Text("the protocol names no scheme"),
			wording.Text("name the scheme that grades its visits"))
	}
	p.Further = r.readSchemeIDs(head, "beside")
	p.Watch = r.readWatch(head)
	head.Done()
	p.readNeeds(top)
	top.Done()
	r.protocols = append(r.protocols, p)
}

func (r *Rulebook) readSchemeIDs(head *authored.Table, key string) []string {
	ids := head.Strs(key)
	for i, id := range ids {
		if r.Scheme(id) == nil {
			head.FailAt(head.Elem(key, i), "unknown-scheme", wording.Sprintf("there is no scheme %s", plain.Quote(id)), plain.Nearest(id,
				r.schemeIDs()))
		}
	}
	return ids
}

// readWatch reads the scheme watched over years, which must be a share: that is
// what samples of other sizes have in common.
func (r *Rulebook) readWatch(head *authored.Table) string {
	id := head.Str("watch")
	switch s := r.Scheme(id); {
	case id == "":
	case s == nil:
		head.Fail("watch", "unknown-scheme", wording.Sprintf("there is no scheme %s", plain.Quote(id)), plain.Nearest(id, r.schemeIDs()))
	case !s.isShare():
		head.Fail("watch", "no-share", wording.Sprintf("%s is no share of the animals", plain.Quote(id)),
			wording.Text(`name a scheme of the form "percent"`))
	}
	return id
}

func (p *Protocol) readNeeds(top *authored.Table) {
	for _, row := range needRows(top, "need") {
		if meant := habitatMeant(row.ID); meant != "" {
			row.FailAt(row.Here(), "unknown-habitat", wording.Sprintf("there is no habitat %s", plain.Quote(row.ID)),
				wording.Sprintf("did you mean %s? One of your own is called by words that are not nearly those of another",
					plain.Quote(meant)))
		}
		row.Need("samples")
		n, ok := row.Int("samples")
		if ok && (n < 1 || n > 1000) {
			row.Fail("samples", "bad-figure", wording.Text("samples must be from 1 to 1000"),
				wording.Text("write how many are taken there, or delete this table"))
		}
		area, _ := row.Num("area_m2")
		if area < 0 || area > visit.MaxArea {
			row.Fail("area_m2", "bad-figure", wording.Sprintf("an area must be from 0 to %d square metres", visit.MaxArea),
				wording.Text("write the area of one sample in square metres, as 0.1"))
		}
		row.Str("area_source")
		row.Done()
		p.Needs = append(p.Needs, Need{row.ID, int(n), area})
	}
}

// habitats are those that the protocol needs samples of, as its file names them.
func (p *Protocol) habitats() (out []string) {
	for _, n := range p.Needs {
		if n.Habitat != AnyHabitat && !slices.Contains(out, n.Habitat) {
			out = append(out, n.Habitat)
		}
	}
	return out
}
