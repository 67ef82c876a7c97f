package paper

import (
	"maps"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"rillkey/couplets"
	"rillkey/key/keytest"
)

// embeddedKeys are the keys inside the program, by file, that are looked at.
func embeddedKeys() []string {
	return []string{"north-america.toml", "north-west-europe.toml"}[:keytest.Times(2, 1)]
}

// keyPages are the pages of the embedded keys, each made and read once.
var keyPages = map[string]*node{}

func keyOnPaper(t *testing.T, name string) *node {
	t.Helper()
	if keyPages[name] == nil {
		keyPages[name] = parsed(t, written(t, LongKey(keytest.Sound(t, name))))
	}
	return keyPages[name]
}

// printedStep is a couplet as it stands on the paper: all of it is text.
type printedStep struct {
	number string
	from   []string
	leads  []printedLead
	stops  []string // "mayfly Ephemeroptera sensitive"
}

// printedLead goes to a number, or ends in the plain name of an animal.
type printedLead struct {
	label, words, to, drawing string
	names                     []string // of the one or more kinds that it ends in
}

var (
	fromWords = regexp.MustCompile(`^\(from (.+)\)$`)
	goWords   = regexp.MustCompile(`^go to (\S+)$`)
)

func steps(t *testing.T, page *node) []printedStep {
	t.Helper()
	var out []printedStep
	for _, n := range page.classed("step") {
		s := printedStep{number: n.classed("number")[0].read()}
		for _, f := range n.classed("from") {
			s.from = strings.Split(fromWords.FindStringSubmatch(f.read())[1], ", ")
		}
		for _, l := range n.named("li") {
			lead := printedLead{label: l.classed("letter")[0].read(), words: l.named("p")[0].read()}
			for _, d := range l.named("svg")[:1] {
				lead.drawing = d.named("title")[0].read()
			}
			to := l.classed("to")[0]
			if m := goWords.FindStringSubmatch(to.read()); m != nil {
				lead.to = m[1]
			} else {
				for _, a := range to.named("a") {
					lead.names = append(lead.names, a.named("strong")[0].read())
				}
			}
			s.leads = append(s.leads, lead)
		}
		for _, stop := range n.classed("stop") {
			s.stops = append(s.stops, stop.named("strong")[0].read())
		}
		out = append(out, s)
	}
	return out
}

// Couplets, leads, words, drawings and numbers are those of the key.
func TestThePrintedKeyIsTheKey(t *testing.T) {
	for _, name := range embeddedKeys() {
		sound, catalog := keytest.Sound(t, name)
		printed := steps(t, keyOnPaper(t, name))
		if len(printed) != len(sound.Couplets) {
			t.Fatalf("%s: %d couplets of %d", name, len(printed), len(sound.Couplets))
		}
		for i, s := range printed {
			c := sound.Couplets[i]
			if s.number != c.ID || len(s.leads) != len(c.Leads) {
				t.Fatalf("%s: couplet %q has number %q and %d leads", name, c.ID, s.number, len(s.leads))
			}
			for j, l := range s.leads {
				want := printedLead{label: c.ID + c.Leads[j].Letter, words: oneLine(c.Leads[j].Text), to: c.Leads[j].Next,
					drawing: oneLine(c.Leads[j].Text)}
				for _, id := range c.Leads[j].Taxa {
					want.names = append(want.names, catalog.Taxon(id).Name())
				}
				if !reflect.DeepEqual(l, want) {
					t.Errorf("%s: printed is %+v, not %+v", name, l, want)
				}
			}
		}
	}
}

// Somebody who goes back finds the lead that led here, and no other.
func TestBackReferencesAreTheInverseOfTheNumbers(t *testing.T) {
	for _, name := range embeddedKeys() {
		printed := steps(t, keyOnPaper(t, name))
		forward, back := map[string]bool{}, map[string]bool{}
		for _, s := range printed {
			for _, l := range s.leads {
				if l.to != "" {
					forward[l.label+" to "+l.to] = true
				}
			}
			for _, f := range s.from {
				back[f+" to "+s.number] = true
			}
		}
		if !maps.Equal(forward, back) {
			t.Errorf("%s: numbers lead %v, back-references say %v", name, forward, back)
		}
	}
}

// By numbers alone every animal's name is reached, and each name that stands in
// the key has one entry to check it by.
func TestEveryAnimalIsReachedByPrintedNumbers(t *testing.T) {
	for _, name := range embeddedKeys() {
		sound, _ := keytest.Sound(t, name)
		page := keyOnPaper(t, name)
		byNumber := map[string]printedStep{}
		for _, s := range steps(t, page) {
			byNumber[s.number] = s
		}
		reached, seen := map[string]bool{}, map[string]bool{sound.Start: true}
		for todo := []string{sound.Start}; len(todo) > 0; {
			s, ok := byNumber[todo[0]]
			if !ok {
				t.Fatalf("%s: there is no number %q", name, todo[0])
			}
			todo = todo[1:]
			for _, l := range s.leads {
				for _, name := range l.names {
					reached[name] = true
				}
				if l.to != "" && !seen[l.to] {
					seen[l.to] = true
					todo = append(todo, l.to)
				}
			}
		}
		entries := map[string]bool{}
		for _, e := range page.named("h4") {
			plain := e.named("strong")[0].read()
			if entries[plain] {
				t.Errorf("%s: two animals are called %q", name, plain)
			}
			entries[plain] = true
		}
		if !maps.Equal(reached, entries) || len(entries) != len(sound.Ends) {
			t.Errorf("%s: %d names are reached, %d have an entry, %d are in the key", name, len(reached), len(entries), len(sound.Ends))
		}
	}
}

func TestKeyPageHoldsTogether(t *testing.T) {
	for _, name := range embeddedKeys() {
		page := keyOnPaper(t, name)
		ids := map[string]bool{}
		for _, n := range page.all(func(n *node) bool { return n.attributes["id"] != "" }) {
			if ids[n.attributes["id"]] {
				t.Errorf("%s: two elements have the id %q", name, n.attributes["id"])
			}
			ids[n.attributes["id"]] = true
		}
		links := page.named("a")
		for _, a := range links {
			if at, ok := strings.CutPrefix(a.attributes["href"], "#"); !ok || !ids[at] {
				t.Errorf("%s: the link %q leads nowhere", name, a.attributes["href"])
			}
		}
		if len(links) < 1000 {
			t.Errorf("%s: only %d links", name, len(links))
		}
		for _, s := range page.named("svg") {
			if s.attributes["aria-hidden"] != "true" &&
				(s.attributes["role"] != "img" || len(s.named("title")) == 0 || s.named("title")[0].read() == "") {
				t.Errorf("%s: a drawing has no words", name)
			}
		}
		level := 0
		for _, h := range page.all(func(n *node) bool {
			return len(n.name) == 2 && n.name[0] == 'h' && n.name[1] >= '1' && n.name[1] <= '6'
		}) {
			if next := int(h.name[1] - '0'); next > level+1 {
				t.Errorf("%s: heading %q is of level %d beneath level %d", name, h.read(), next, level)
			} else {
				level = next
			}
		}
		if len(page.all(func(n *node) bool {
			return slices.Contains([]string{"script", "link", "img", "iframe"}, n.name) || n.attributes["src"] != "" ||
				n.attributes["tabindex"] != ""
		})) > 0 || regexp.MustCompile(`url\(|@import`).MatchString(page.named("style")[0].children[0].text) {
			t.Errorf("%s: the page needs something from elsewhere, or changes the order of the tab key", name)
		}
	}
}

// Every end point's entry has its class as a word, its length in both units and
// where it is keyed out; one that needs care says so.
func TestAnimalsHaveWhatIsNeededToCheckThem(t *testing.T) {
	sound, catalog := keytest.Sound(t, couplets.DefaultName)
	entries := keyOnPaper(t, couplets.DefaultName).classed("animal")
	byID := map[string]string{}
	for _, e := range entries {
		if len(e.named("svg")) < 2 {
			t.Errorf("%s has no drawing or no mark", e.attributes["id"])
		}
		byID[e.attributes["id"]] = e.read()
	}
	for _, end := range sound.Ends {
		text := byID["animal-"+end.ID]
		var want []string
		for _, m := range end.Mistaken {
			want = append(want, "Mistaken for "+catalog.Taxon(m.Taxon).Name()+": "+oneLine(m.Tell))
		}
		want = append(want, " mm (", " in)", oneLine(end.Handling), oneLine(end.Habitat), end.Scientific, "Check: ")
		if end.Class != "" {
			want = append(want, string(end.Class))
		}
		for _, c := range sound.Couplets {
			for _, l := range c.Leads {
				if slices.Contains(l.Taxa, end.ID) {
					want = append(want, c.ID+l.Letter)
				}
			}
		}
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("the entry of %s lacks %q: %s", end.ID, w, text)
			}
		}
	}
}

// Whoever checks a name has, for each couplet on a way to it, something that the
// animal can show and that the lead accepts.
func TestWhatIsCheckedIsWhatTheKeyAskedFor(t *testing.T) {
	sound, catalog := keytest.Sound(t, couplets.DefaultName)
	k := newKeyPage(sound, catalog)
	for _, end := range sound.Ends {
		features := k.features(end)
		if len(features) == 0 || len(features) > len(k.paths[end.ID]) {
			t.Errorf("%s: %d features for %d couplets", end.ID, len(features), len(k.paths[end.ID]))
		}
		for _, label := range k.paths[end.ID] {
			for _, c := range k.conditions(label) {
				if !slices.ContainsFunc(statesOf(end, c), func(s string) bool { return slices.Contains(c.States, s) }) {
					t.Errorf("%s: at %s none of %v is accepted", end.ID, label, statesOf(end, c))
				}
			}
		}
	}
}

// The index has every name of every end point, by the alphabet.
func TestIndexHasEveryName(t *testing.T) {
	sound, _ := keytest.Sound(t, couplets.DefaultName)
	var lines, names []string
	for _, li := range keyOnPaper(t, couplets.DefaultName).classed("index")[0].named("li") {
		lines = append(lines, li.read())
		if a := li.named("a")[0]; strings.HasPrefix(a.attributes["href"], "#animal-") {
			names = append(names, strings.ToLower(a.read()))
		}
	}
	if len(names) < len(sound.Ends) || !slices.IsSorted(names) {
		t.Errorf("the index is not in the order of the alphabet: %q", names)
	}
	for _, end := range sound.Ends {
		for _, name := range slices.Concat(end.Common, end.Synonyms, []string{end.Scientific}) {
			if !slices.ContainsFunc(lines, func(l string) bool {
				return strings.HasPrefix(l, oneLine(name)) && regexp.MustCompile(`\d[a-f]`).MatchString(l)
			}) {
				t.Errorf("the index lacks %q", name)
			}
		}
	}
}

func BenchmarkKey(b *testing.B) {
	sound, catalog := keytest.Sound(b, couplets.DefaultName)
	for b.Loop() {
		LongKey(sound, catalog)
	}
}
