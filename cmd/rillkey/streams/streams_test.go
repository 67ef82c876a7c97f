package streams

import (
	"fmt"
	"io/fs"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"strconv"
	"testing"
	"testing/fstest"

	"rillkey/cmd/rillkey/record"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/scoring"
	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// cell is one setting of the simulation.
type cell struct {
	name    string
	key     string
	schemes []string
	times   float64 // misread rates by those the belief is told
	heaps   bool    // like animals of a sample are keyed once and counted
	bars    map[string]float64
}

var cells = []cell{
	{"each keyed", "north-america", []string{"presence", "weighted", "fbi"}, 1, false, nil},
	{"like ones counted", "north-america", []string{"presence", "weighted", "fbi"}, 1, true, nil},
	{"each keyed", "north-west-europe", []string{"bmwp"}, 1, false, nil},
	{"like ones counted", "north-west-europe", []string{"bmwp"}, 1, true, nil},
	{"each keyed, twice as careless", "north-america", []string{"presence", "weighted", "fbi"}, 2, false, nil},
	{"like ones counted, twice as careless", "north-america", []string{"presence", "weighted", "fbi"}, 2, true, nil},
	{"each keyed, twice as careless", "north-west-europe", []string{"bmwp"}, 2, false, nil},
	{"like ones counted, twice as careless", "north-west-europe", []string{"bmwp"}, 2, true, nil},
}

// visited draws a visit to a stream.
func (c cell) visited(m *key.Model, random *rand.Rand) tray {
	p := person{c.times, random}
	s := newStream(m.Key(), random)
	var t tray
	for n := range samples {
		heap := map[*taxa.Taxon]int{} // to its record, from 1
		for range animals / samples {
			animal := s.animal(random)
			if at := heap[animal]; c.heaps && at > 0 {
				t.records[at-1].Count++
				continue
			}
			d := record.Identification(p.keyed(m, animal), strconv.Itoa(n+1), 1, 0)
			t.records = append(t.records, visit.Record{ID: fmt.Sprintf("e%d", len(t.records)+1), Identification: d})
			t.true_ = append(t.true_, animal)
			heap[animal] = len(t.records)
		}
	}
	return t
}

// tally is a visit's with these records.
func (t tray) tally(records []visit.Record) visit.Tally {
	out := visit.Tally{Records: records}
	for n := range samples {
		s := visit.Sample{Label: strconv.Itoa(n + 1), Habitat: "riffle", Area: 0.37}
		out.Samples = append(out.Samples, visit.Taken{ID: "s" + s.Label, Sample: s, State: visit.Sorted})
	}
	return out
}

// truth is the tally of what the animals are.
func (t tray) truth() visit.Tally {
	var records []visit.Record
	for i, r := range t.records {
		records = append(records, visit.Record{ID: r.ID, Identification: visit.Identification{Sample: r.Sample, Taxon: t.true_[i].ID, Count: r.Count}})
	}
	return t.tally(records)
}

// floor is what withholds a word; here all words are to be seen.
var floor = regexp.MustCompile(`(?m)^\[floor\]\n(?:[^\[\n].*\n)*`)

// rules have one protocol for each scheme, which goes by its name, and no floors.
func rules(t testing.TB, catalog *taxa.Catalog) *scoring.Rules {
	t.Helper()
	folder := fstest.MapFS{}
	files, err := fs.Glob(os.DirFS("../../../scoring"), "schemes/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		data, err := fs.ReadFile(os.DirFS("../../../scoring"), name)
		if err != nil {
			t.Fatal(err)
		}
		folder[name] = &fstest.MapFile{Data: floor.ReplaceAll(data, nil)}
	}
	for _, id := range []string{"presence", "weighted", "fbi", "bmwp"} {
		text := fmt.Sprintf("[protocol]\nid = %q\ntitle = \"t\"\nsource = \"memory\"\nstatus = \"memory\"\nschemes = [%q]\ncombine = \"pooled\"\n[need.any]\nsamples = 3\n", id, id)
		folder["protocols/"+id+".toml"] = &fstest.MapFile{Data: []byte(text)}
	}
	r, err := scoring.LoadRules(folder, "", catalog)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// measured is what a scheme's grades came to.
type measured struct {
	visits, holds, below, above int // the truth lies in the 95 % interval, or below or above it
	words                       int // values with a word of their own
	bias, width                 float64
	claims                      []claim // that the rating of the value is that of the truth
}

type claim struct {
	chance float64
	right  bool
}

func (m *measured) add(s *scheme.Scheme, i, true_ scoring.Index) {
	m.visits++
	truth := *true_.Value
	const rounding = 1e-9
	switch {
	case truth < i.Identification.Low-rounding:
		m.below++
	case truth > i.Identification.High+rounding:
		m.above++
	default:
		m.holds++
	}
	m.bias += *i.Value - truth
	m.width += i.Identification.High - i.Identification.Low
	band := func(i scoring.Index) string { return s.Band(int64(math.Round(*i.Value * float64(s.One())))).Rating }
	if i.Rating != "" {
		m.words++
	}
	m.claims = append(m.claims, claim{i.Probabilities[band(i)], band(i) == band(true_)})
}

// calibration is the mean distance of what is claimed from what is right, by ten
// bins of what is claimed.
func calibration(claims []claim) (out float64) {
	var n, sum, right [10]float64
	for _, c := range claims {
		b := min(9, int(c.chance*10))
		n[b]++
		sum[b] += c.chance
		if c.right {
			right[b]++
		}
	}
	for b := range n {
		out += math.Abs(sum[b]-right[b]) / float64(len(claims))
	}
	return out
}

// names is how far names hold.
type names struct{ all, once []claim }

func (n *names) add(catalog *taxa.Catalog, a *account.Account, t tray) {
	times := map[string]int{}
	for _, r := range t.records {
		times[r.Taxon] += r.Count
	}
	for i := range a.Records {
		r := &a.Records[i]
		if r.Taxon == "" {
			continue
		}
		c := claim{right: t.true_[i].ID == r.Taxon || catalog.IsUnder(t.true_[i].ID, r.Taxon)}
		for _, b := range a.Belief(r) {
			if b.Taxon == r.Taxon || catalog.IsUnder(b.Taxon, r.Taxon) {
				c.chance += b.Probability
			}
		}
		n.all = append(n.all, c)
		if times[r.Taxon] == 1 {
			n.once = append(n.once, c)
		}
	}
}

func mean(claims []claim) (right, claimed float64) {
	for _, c := range claims {
		claimed += c.chance / float64(len(claims))
		if c.right {
			right += 1 / float64(len(claims))
		}
	}
	return right, claimed
}

func TestStreams(t *testing.T) {
	if testing.Short() {
		t.Skip("it keys many animals")
	}
	visits := 2
	if n, err := strconv.Atoi(os.Getenv("RILLKEY_STREAMS")); err == nil {
		visits = n
	}
	for n, c := range cells {
		c.measure(t, uint64(n), visits)
	}
}

func (c cell) measure(t *testing.T, seed uint64, visits int) {
	k := key.Compile(keytest.Sound(t, c.key+".toml"))
	m, err := k.Model(key.FileRates(k.Catalog().Vocabulary()))
	if err != nil {
		t.Fatal(err)
	}
	r := rules(t, k.Catalog())
	var all names
	by := map[string]*measured{}
	for n := range visits {
		v := c.visited(m, rand.New(rand.NewPCG(seed, uint64(n))))
		a := c.account(k, v.tally(v.records))
		all.add(k.Catalog(), a, v)
		for _, id := range c.schemes {
			if by[id] == nil {
				by[id] = &measured{}
			}
			if i, true_ := grade(t, r, a, id), grade(t, r, c.account(k, v.truth()), id); i.Value != nil && true_.Value != nil {
				by[id].add(r.Scheme(id), i, true_)
			}
		}
	}
	t.Logf("== %s, %s, %d visits", c.key, c.name, visits)
	right, claimed := mean(all.all)
	t.Logf("names: right %.4f claimed %.4f of %d", right, claimed, len(all.all))
	right, claimed = mean(all.once)
	t.Logf("kinds named once: right %.3f claimed %.3f of %d", right, claimed, len(all.once))
	for _, id := range c.schemes {
		m := by[id]
		n := float64(m.visits)
		right, claimed := mean(m.claims)
		t.Logf("%-9s holds %.3f (truth below %.3f above %.3f), bias %+.2f, width %.2f; rating right %.3f claimed %.3f calibration error %.3f; words %.2f",
			id, float64(m.holds)/n, float64(m.below)/n, float64(m.above)/n, m.bias/n, m.width/n, right, claimed, calibration(m.claims), float64(m.words)/n)
	}
}

func (c cell) account(k *key.Key, tally visit.Tally) *account.Account {
	if os.Getenv("RILLKEY_ALONE") != "" {
		return account.New(&visit.Visit{}, tally, k.Catalog())
	}
	fauna := account.NewFauna(k.Catalog(), k.Commonness())
	return account.New(&visit.Visit{}, tally, k.Catalog()).Among(func() []*account.Fauna { return []*account.Fauna{fauna} })
}

func grade(t *testing.T, r *scoring.Rules, a *account.Account, scheme string) scoring.Index {
	t.Helper()
	a.Visit.Header.Protocol = scheme
	g, err := r.Grade(a, scoring.GradeOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return g.Indices[0]
}
