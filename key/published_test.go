package key_test

import (
	"maps"
	"math"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

// What the files must hold at least: the groups of the volunteers' lists, riffle
// beetles and midges in two forms each, and as many diagnoses, families told
// apart, as the regional fauna is to be tried on.
const (
	leastGroups    = 26
	leastDiagnoses = 110
)

// Of the diagnoses whose facts were taken to suffice when they were entered, so
// many in a hundred must land in their family or group.
const leastLanded = 97

// entry is one animal as a publication describes it; the header of each file
// says what the fields mean.
type entry struct {
	Name        string
	Taxa        []string
	Within      string
	Required    bool
	Sources     []string
	Status      string
	Class       string
	ClassSource string   `toml:"class_source"`
	ClassAlso   string   `toml:"class_also"`
	ClassExcept []string `toml:"class_except"`
	Inches      string
	MM          []float64
	MMFrom      string `toml:"mm_from"`
	Lands       bool
	Withdrawn   bool // entered as landing, which its facts were found not to bear; it still counts as a miss
	Beside      []string
	Why         string
	Untested    []string
	Seen        map[string]struct {
		Is   []string
		Fact string
	}

	id, file string
}

// entries reads every file that the pattern matches. Nothing to read, a field
// that nobody knows and an entry without reason or source are errors.
func entries(t *testing.T, pattern string) []entry {
	t.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) == 0 {
		t.Fatalf("no file matches %s (%v)", pattern, err)
	}
	var all []entry
	ids := map[string]string{}
	for _, file := range files {
		var content struct{ Animal map[string]entry }
		meta, err := toml.DecodeFile(file, &content)
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		if left := meta.Undecoded(); len(left) > 0 {
			t.Fatalf("%s: unknown fields %v", file, left)
		}
		for _, id := range slices.Sorted(maps.Keys(content.Animal)) {
			e := content.Animal[id]
			e.id, e.file = id, filepath.Base(file)
			if ids[id] != "" {
				t.Errorf("%s: %s is described in %s already", e.file, id, ids[id])
			}
			ids[id] = e.file
			e.complete(t)
			all = append(all, e)
		}
	}
	return all
}

func (e entry) complete(t *testing.T) {
	t.Helper()
	if e.Name == "" || e.Why == "" || len(e.Taxa) == 0 || len(e.Sources) == 0 || len(e.Seen) == 0 {
		t.Errorf("%s: %s lacks a name, a reason, a taxon, a source or facts", e.file, e.id)
	}
	if e.Withdrawn && e.Lands {
		t.Errorf("%s: %s lands, though that was withdrawn", e.file, e.id)
	}
	if e.Status != "confirmed" && e.Status != "memory" {
		t.Errorf("%s: %s has the status %q", e.file, e.id, e.Status)
	}
	for trait, o := range e.Seen {
		if len(o.Is) == 0 || o.Fact == "" {
			t.Errorf("%s: %s: %s lacks states or the fact behind them", e.file, e.id, trait)
		}
	}
}

// taken is what lists and handbooks of water animals take for granted: that the
// animal is alive, and that it did not fall in from the land.
var taken = [][2]string{{"living", "yes"}, {"land", "no"}}

// seen is a walk on which nothing but the facts of the entry was observed, and what
// is taken for granted where they do not speak of it.
func (e entry) seen(t *testing.T, k *key.Key) *key.Walk {
	t.Helper()
	w := k.Walk()
	for _, o := range taken {
		if _, said := e.Seen[o[0]]; said {
			continue
		}
		if err := w.Observe(o[0], o[1]); err != nil {
			t.Fatal(err)
		}
	}
	for _, trait := range slices.Sorted(maps.Keys(e.Seen)) {
		if err := w.Observe(trait, e.Seen[trait].Is...); err != nil {
			t.Fatal(err)
		}
	}
	return w
}

// underAny reports whether a taxon is one of those named or lies beneath one.
func underAny(k *key.Key, id string, of []string) bool {
	return slices.ContainsFunc(of, func(up string) bool { return k.Catalog().IsUnder(id, up) })
}

func (e entry) kept(k *key.Key, w *key.Walk) bool {
	return slices.ContainsFunc(w.Possible(), func(p *taxa.Taxon) bool { return underAny(k, p.ID, e.Taxa) })
}

// whyNot names, for an end point that should have stayed, the facts that its
// traits do not admit.
func (e entry) whyNot(k *key.Key) string {
	var out []string
	for _, end := range k.Ends() {
		if !underAny(k, end.ID, e.Taxa) {
			continue
		}
		for _, trait := range slices.Sorted(maps.Keys(e.Seen)) {
			shown := end.States(trait)
			if shown != nil && !slices.ContainsFunc(shown, func(w taxa.Weight) bool { return slices.Contains(e.Seen[trait].Is, w.State) }) {
				out = append(out, end.ID+"."+trait+" is never "+strings.Join(e.Seen[trait].Is, " or ")+": "+e.Seen[trait].Fact)
			}
		}
	}
	return strings.Join(out, "; ")
}

func names(ts []*taxa.Taxon) string {
	ids := make([]string, len(ts))
	for i, t := range ts {
		ids[i] = t.ID
	}
	return strings.Join(ids, " ")
}

func TestGroupsOfPublishedLists(t *testing.T) {
	k := keytest.Key(t)
	groups := entries(t, "../testdata/published/groups/*.toml")
	if len(groups) < leastGroups {
		t.Errorf("%d groups, at least %d are published", len(groups), leastGroups)
	}
	facts, landed, meant := 0, 0, 0
	for _, e := range groups {
		t.Run(e.id, func(t *testing.T) {
			for _, id := range slices.Concat(e.Taxa, e.ClassExcept, e.Beside) {
				if problem, hint := k.Catalog().Unknown(id); problem != "" {
					t.Fatal(problem, hint)
				}
			}
			facts += len(e.Seen)
			w := e.seen(t, k)
			if !e.kept(k, w) {
				t.Fatalf("%s: no longer possible by the facts of %s; left: %s; %s", e.Name, strings.Join(e.Sources, ", "),
					names(w.Possible()), e.whyNot(k))
			}
			e.checkBeside(t, k, w)
			lands := underAny(k, w.Result().Taxon, e.Taxa)
			if e.Lands {
				meant++
				if !lands {
					t.Errorf("%s: the facts suffice (%s), but %q is named of %s", e.Name, e.Why, w.Result().Taxon, names(w.Possible()))
				}
			}
			if lands {
				landed++
			}
			e.checkClass(t, k, w)
			e.checkLength(t, k, w)
		})
	}
	t.Logf("%d groups, %d observations; %d landed in their group, %d by facts that suffice", len(groups), facts, landed, meant)
}

// checkBeside wants nothing left but the group and what its facts are known to
// leave open, where the entry says what that is.
func (e entry) checkBeside(t *testing.T, k *key.Key, w *key.Walk) {
	t.Helper()
	if len(e.Beside) == 0 {
		return
	}
	for _, p := range w.Possible() {
		if !underAny(k, p.ID, e.Taxa) && !underAny(k, p.ID, e.Beside) {
			t.Errorf("%s: %s is left too; the facts allow nothing but the group and %v", e.Name, p.ID, e.Beside)
		}
	}
}

// checkClass wants the published class of all that the facts leave of the group.
func (e entry) checkClass(t *testing.T, k *key.Key, w *key.Walk) {
	t.Helper()
	if e.ClassSource == "" {
		t.Errorf("%s: the class has no source", e.Name)
	}
	checked := 0
	for _, p := range w.Possible() {
		if !underAny(k, p.ID, e.Taxa) || underAny(k, p.ID, e.ClassExcept) {
			continue
		}
		checked++
		if string(p.Class) != e.Class {
			t.Errorf("%s: %s is %q, but %q by %s (%s)", e.Name, p.ID, p.Class, e.Class, e.ClassSource, e.ClassAlso)
		}
	}
	if checked == 0 {
		t.Errorf("%s: nothing left to compare the class of", e.Name)
	}
}

const (
	mmPerInch = 25.4             // exact
	printed   = 0.5 * 25.4 / 8.0 // lists print to the nearest eighth of an inch
)

var number = regexp.MustCompile(`(?:(\d+) )?(\d+)/(\d+)|(\d+)`)

// millimetres reads the lengths that a list prints, such as "1/8-1 1/2".
func millimetres(text string) []float64 {
	var out []float64
	for _, m := range number.FindAllStringSubmatch(text, -1) {
		v := [5]float64{}
		for i := 1; i < 5; i++ {
			v[i], _ = strconv.ParseFloat(m[i], 64) // an empty part is 0
		}
		inches := v[1] + v[4]
		if v[3] > 0 {
			inches += v[2] / v[3]
		}
		out = append(out, inches*mmPerInch)
	}
	return out
}

// checkLength wants the printed lengths to be those in millimetres, and some
// animal of the group to be of such a length.
func (e entry) checkLength(t *testing.T, k *key.Key, w *key.Walk) {
	t.Helper()
	if len(e.MM) == 0 {
		return
	}
	if len(e.MM) != 2 || e.MM[0] > e.MM[1] {
		t.Fatalf("%s: %v is no range", e.Name, e.MM)
	}
	if in := millimetres(e.Inches); e.MMFrom == "" {
		if math.Abs(slices.Max(in)-e.MM[1]) > 0.06 || e.MM[0] > 0 && math.Abs(slices.Min(in)-e.MM[0]) > 0.06 {
			t.Errorf("%s: %q is not %v mm", e.Name, e.Inches, e.MM)
		}
	}
	for _, p := range w.Possible() {
		if underAny(k, p.ID, e.Taxa) && p.Length.Known() && p.Length.Min <= e.MM[1]+printed && p.Length.Max >= e.MM[0]-printed {
			return
		}
	}
	t.Errorf("%s: nothing left of the group is ever %v mm long", e.Name, e.MM)
}

// Families that the catalog does not hold yet are counted, never passed over in
// silence; of those, what is named must at least be no stranger.
func TestDiagnosesOfHandbooks(t *testing.T) {
	k := keytest.Key(t)
	all := entries(t, "../testdata/published/diagnoses/*.toml")
	if len(all) < leastDiagnoses {
		t.Errorf("%d diagnoses, want at least %d", len(all), leastDiagnoses)
	}
	var absent, nameless []string
	facts, landed, sure, claimed, inOrder, order := 0, 0, 0, 0, 0, 0
	for _, e := range all {
		unknown := slices.ContainsFunc(e.Taxa, func(id string) bool { return k.Catalog().Taxon(id) == nil })
		if unknown && !e.Required {
			absent = append(absent, e.id)
		}
		t.Run(e.id, func(t *testing.T) {
			if unknown && e.Required {
				t.Fatalf("the key must hold %s", strings.Join(e.Taxa, ", "))
			}
			facts += len(e.Seen)
			w := e.seen(t, k)
			named := w.Result().Taxon
			if !unknown {
				e.checkLanding(t, k, w)
				if e.Lands || e.Withdrawn {
					claimed++
				}
				if e.Lands {
					sure++
				}
				if e.Lands && underAny(k, named, e.Taxa) {
					landed++
				}
			}
			if e.Within == "" || k.Catalog().Taxon(e.Within) == nil {
				return
			}
			order++
			if k.Catalog().IsUnder(named, e.Within) {
				inOrder++
				return
			}
			if unknown && named == "" {
				nameless = append(nameless, e.id)
			} else {
				t.Errorf("%s: %q is named, which is not within %s; left: %s", e.Name, named, e.Within, names(w.Possible()))
			}
		})
	}
	if inOrder < order {
		t.Errorf("%d of %d diagnoses reach their order, want all", inOrder, order)
	}
	if 100*landed < leastLanded*claimed {
		t.Errorf("%d of %d separable diagnoses land in their family or group, want %d in 100", landed, claimed, leastLanded)
	}
	t.Logf("%d diagnoses, %d observations; %d of %d in the order; of %d whose facts were taken to suffice %d landed, and for "+
		"%d that was withdrawn", len(all), facts, inOrder, order, claimed, landed, claimed-sure)
	t.Logf("not in the catalog yet: %d, %s; of these, not named at all: %s", len(absent), strings.Join(absent, " "),
		strings.Join(nameless, " "))
}

func (e entry) checkLanding(t *testing.T, k *key.Key, w *key.Walk) {
	t.Helper()
	if !e.kept(k, w) {
		t.Errorf("%s: no longer possible; left: %s; %s", e.Name, names(w.Possible()), e.whyNot(k))
		return
	}
	if e.Lands && !underAny(k, w.Result().Taxon, e.Taxa) {
		t.Errorf("%s: the facts suffice (%s), but %q is named of %s", e.Name, e.Why, w.Result().Taxon, names(w.Possible()))
	}
}

// partedBy are states that diagnoses give a taxon and the table does not: a couplet of a
// built-in key parts it by that trait, and a taxon that shows both must be keyed twice.
// The misread rate of the trait stands for them.
var partedBy = map[string][]string{
	"dytiscidae-adult": {"eyes", "move"},
	"aeshnidae":        {"antennae"},
	"macromiidae":      {"mask", "outline"},
	"libellulidae":     {"outline"},
	"tabanidae":        {"hind"},
	"ephemeridae":      {"gills"},
	"polymitarcyidae":  {"gills"},
	"haliplidae-larva": {"mouth"},
	"veliidae":         {"leg-length"},
	"dryopidae":        {"antennae"},
	"perlodidae":       {"gills", "gill-form"},
	"tipulidae":        {"prolegs"},
	"muscidae":         {"outline"}, // a crane fly's
	"empididae":        {"hind"},
	"athericidae":      {"head"},
	"chironomidae-red": {"outline"},
	"goeridae":         {"case-stuff"},
	"uenoidae":         {"case-stuff"},
	"hydrobiidae":      {"spire"},
	"valvatidae":       {"spire"},
	// Its legs row and skate; only a body swims.
	"gerridae": {"move"},
	// Rings stand for whatever is not cut into three parts.
	"diptera-larva-other": {"rings"},
}

// Whatever a diagnosis lets an animal show it can show by the table, as the taxon itself
// or as one beneath it: a fact that is too narrow calls true answers misread.
func TestTheTableShowsWhatDiagnosesSay(t *testing.T) {
	catalog := keytest.Catalog(t)
	for _, e := range entries(t, "../testdata/published/diagnoses/*.toml") {
		if len(e.Taxa) != 1 {
			continue
		}
		for _, trait := range slices.Sorted(maps.Keys(e.Seen)) {
			shown, known := shownBy(catalog, e.Taxa[0], trait)
			for _, state := range e.Seen[trait].Is {
				if known && !shown[state] && !slices.Contains(partedBy[e.Taxa[0]], trait) {
					t.Errorf("%s is never %s = %s by the table; %s: %s", e.Taxa[0], trait, state, e.id, e.Seen[trait].Fact)
				}
			}
		}
	}
}

// shownBy are the states that a taxon and those beneath it can show of a trait, and
// whether the table knows it of all of them.
func shownBy(catalog *taxa.Catalog, id, trait string) (shown map[string]bool, known bool) {
	shown = map[string]bool{}
	for _, t := range catalog.Taxa() {
		if !catalog.IsUnder(t.ID, id) {
			continue
		}
		states := t.States(trait)
		if states == nil {
			return nil, false
		}
		for _, w := range states {
			shown[w.State] = true
		}
	}
	return shown, true
}
