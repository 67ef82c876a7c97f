package figure

import (
	"slices"
	"strings"
	"sync"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Atlas draws the taxa of a catalog and the leads of a key. It is not changed
// by drawing and may be shared.
type Atlas struct {
	catalog  *taxa.Catalog
	key      *couplets.Sound                 // nil with a catalog alone
	common   map[string]float64              // how common each end point is beside the others; nil if not known
	way      map[string][]couplets.Condition // what was answered on the one way to a couplet
	children map[string][]*taxa.Taxon
	members  map[string]func() []*taxa.Taxon // by whom a group is shown
	looks    map[string]look
	numbers  numbers
	drawn    gallery
}

// look is how a taxon is drawn, each part worked out when it is first wanted: a phone
// has no time at its start for those of all taxa.
type look struct {
	traits func() Traits
	plan   func() *plan           // nil where too little is known
	places func() map[string][]pt // what the outline has a place for; nil without a plan
	marks  func() []mark          // the traits as numbers, for quick comparison
}

// mark is one state that a taxon usually shows.
type mark struct {
	number int // of the state among all that were met
	counts int // how much it counts when taxa are compared
}

// numbers gives each state of each trait a number of its own.
type numbers struct {
	lock    sync.Mutex
	byState map[[2]string]int
}

func (n *numbers) marks(t Traits) []mark {
	n.lock.Lock()
	defer n.lock.Unlock()
	out := make([]mark, 0, len(t))
	for trait, state := range t {
		at := [2]string{trait, state}
		if _, met := n.byState[at]; !met {
			n.byState[at] = len(n.byState)
		}
		m := mark{n.byState[at], 1}
		if trait == "outline" {
			m.counts = 6
		}
		out = append(out, m)
	}
	return out
}

// gallery keeps what was drawn: a question comes again with every animal.
type gallery struct {
	lock    sync.Mutex
	figures map[any][]Figure // by the trait, or the first lead of the couplet
}

// once is what make made of a question, in a slice of the caller's own.
func (d *gallery) once(question any, make func() []Figure) []Figure {
	d.lock.Lock()
	defer d.lock.Unlock()
	if _, done := d.figures[question]; !done {
		d.figures[question] = make()
	}
	return slices.Clone(d.figures[question])
}

func (a *Atlas) newLook(t *taxa.Taxon) look {
	var l look
	l.traits = sync.OnceValue(func() Traits { return traitsOf(t, a.catalog.Vocabulary()) })
	l.marks = sync.OnceValue(func() []mark { return a.numbers.marks(l.traits()) })
	l.plan = sync.OnceValue(func() *plan { return planOf(l.traits(), t.Build) })
	l.places = sync.OnceValue(func() map[string][]pt {
		p := l.plan()
		if p == nil {
			return nil
		}
		k := newSketch(l.traits())
		p.draw(k)
		return k.places
	})
	return l
}

// look is how the taxon is drawn; of one that the catalog lacks nothing is known.
func (a *Atlas) look(t *taxa.Taxon) look {
	if l, known := a.looks[t.ID]; known {
		return l
	}
	return a.newLook(&taxa.Taxon{})
}

// NewAtlas is an atlas of a key. A catalog alone, with a nil key, has figures of
// taxa and of states.
func NewAtlas(catalog *taxa.Catalog, key *couplets.Sound) *Atlas {
	a := &Atlas{catalog: catalog, key: key, children: map[string][]*taxa.Taxon{}, members: map[string]func() []*taxa.Taxon{},
		looks: map[string]look{}, numbers: numbers{byState: map[[2]string]int{}}, drawn: gallery{figures: map[any][]Figure{}}}
	if key != nil {
		a.common = key.Weights()
		a.way = ways(key)
	}
	for _, t := range catalog.Taxa() {
		a.looks[t.ID] = a.newLook(t)
		if !isPupa(t) { // a kind is shown by its animals, not by its pupae
			a.children[t.Parent] = append(a.children[t.Parent], t)
		}
		a.members[t.ID] = sync.OnceValue(func() []*taxa.Taxon { return a.builds(t) })
	}
	return a
}

func isPupa(t *taxa.Taxon) bool {
	stage := usual(t, "pupa", func(string) bool { return true })
	return stage != "" && !absence(stage)
}

// Prepare works out the outlines of a few taxa before they are wanted, a piece at a
// time from 0, and reports whether there is another piece.
func (a *Atlas) Prepare(piece int) (more bool) {
	const each = 5
	all := a.catalog.Taxa()
	for i := piece * each; i >= 0 && i < min(len(all), (piece+1)*each); i++ {
		a.look(all[i]).places()
	}
	return (piece+1)*each < len(all)
}

// ways are what was answered before each couplet that is come to on one way
// alone, back to where several ways meet.
func ways(key *couplets.Sound) map[string][]couplets.Condition {
	from := map[string][]*couplets.Couplet{}
	last := map[string][]couplets.Condition{}
	for i := range key.Couplets {
		c := &key.Couplets[i]
		for _, l := range c.Leads {
			from[l.Next] = append(from[l.Next], c)
			last[l.Next] = l.Conditions
		}
	}
	out := map[string][]couplets.Condition{}
	for i := range key.Couplets {
		id := key.Couplets[i].ID
		at := id
		for range mostWay {
			if len(from[at]) != 1 {
				break
			}
			out[id] = append(out[id], last[at]...)
			at = from[at][0].ID
		}
	}
	return out
}

// mostWay is how many couplets a way goes back at most.
const mostWay = 100

// taxaUnder are the taxa that a lead of the key leads to, in the order of its file.
func (a *Atlas) taxaUnder(lead *couplets.Lead) (out []*taxa.Taxon) {
	if a.key != nil {
		a.key.EndsOf(lead).Each(func(i int) { out = append(out, a.key.Ends[i]) })
	}
	return out
}

// mostPlans are how many builds a large group is shown by.
const mostPlans = 4

// Taxon is the figure of a taxon: its own most usual states, or, where what it
// holds is built in several ways, one animal of each of up to four builds. If
// too little is known of it, the figure is empty, and its Alt says so.
func (a *Atlas) Taxon(t *taxa.Taxon) Figure {
	f := Figure{Title: plain(t.Name()), Length: t.Length}
	if t.Drawing != nil {
		return f.own(t.Drawing)
	}
	var builds []string
	for _, member := range a.shownBy(t) {
		l := a.look(member)
		p := l.plan()
		f.panels = append(f.panels, body(l.traits(), p, nil))
		builds = append(builds, wording.Sprintf("%s, seen from %s", wording.Text(p.name), wording.Text(p.view)))
	}
	if f.Empty() {
		f.Alt = wording.Sprintf("Too little is known of %s to draw it.", f.Title)
		return f
	}
	f.Alt = wording.Sprintf("Outline of %s: %s.", f.Title, strings.Join(builds, "; "))
	if t.Length.Known() {
		f.Alt += wording.Sprintf(" Length %s.", lengthWords(t.Length))
	}
	return f
}

// shownBy are by whom a taxon is drawn, worked out once for those of the catalog.
func (a *Atlas) shownBy(t *taxa.Taxon) []*taxa.Taxon {
	if members, known := a.members[t.ID]; known {
		return members()
	}
	return a.builds(t)
}

// builds are the taxon itself, or one descendant for each way its descendants are
// built: the one most like the others, the way that most of them have first.
func (a *Atlas) builds(t *taxa.Taxon) []*taxa.Taxon {
	var order []*plan
	by := map[*plan][]*taxa.Taxon{}
	a.eachEnd(t, func(end *taxa.Taxon) {
		if p := a.look(end).plan(); p != nil {
			if by[p] == nil {
				order = append(order, p)
			}
			by[p] = append(by[p], end)
		}
	})
	if own := a.look(t).plan(); len(order) == 1 && own == order[0] {
		return []*taxa.Taxon{t}
	}
	sorting.Stable(order, func(p, q *plan) int { return len(by[q]) - len(by[p]) })
	var out []*taxa.Taxon
	for _, p := range order[:min(len(order), mostPlans)] {
		like := a.alike(by[p])
		out = append(out, slices.MaxFunc(by[p], func(x, y *taxa.Taxon) int { return like[x] - like[y] }))
	}
	return out
}

// eachEnd calls f for all taxa beneath one that have none beneath them.
func (a *Atlas) eachEnd(t *taxa.Taxon, f func(*taxa.Taxon)) {
	if len(a.children[t.ID]) == 0 {
		f(t)
	}
	for _, child := range a.children[t.ID] {
		a.eachEnd(child, f)
	}
}

// plain is text without what could move a cursor.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r >= 0x7f && r < 0xa0 {
			return -1
		}
		return r
	}, s)
}
