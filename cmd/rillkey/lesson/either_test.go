package lesson

import (
	"maps"
	"regexp"
	"strings"
	"testing"

	"rillkey/couplets"
	"rillkey/key/keytest"
	"rillkey/key/practice"
)

// A drawing told a red midge larva from a pale one by nothing, and the other name was
// counted as wrong.
func TestANameThatTheDrawingAllowsIsNotWrong(t *testing.T) {
	for _, row := range []struct {
		kind, called string
		told         string // a trait that was told in words
		length       float64
		alike        bool
	}{
		{"chironomidae-red", "midge larva, not red", "", 0, true},
		{"chironomidae-red", "midge larva, not red", "colour", 0, false},
		{"chironomidae-red", "midge larva, not red", "", 300, false},
		{"planorbidae", "pouch snail", "", 0, false},
		{"perlidae", "crane fly", "", 0, false},
	} {
		o, _ := options(t, practice.DrawingSource)
		l := placed(o, row.kind)
		l.told, l.length = map[string]bool{row.told: true}, row.length
		l.Name(row.called)
		m := o.Record.Meetings[0]
		p := l.Now()
		if m.Alike != row.alike || m.Right() != row.alike || strings.Contains(inLines(&p), "does not count as wrong") != row.alike {
			t.Errorf("%+v: %+v\n%s", row, m, inLines(&p))
		}
		if n, right := l.Met(); n != 1 || right == 1 != row.alike {
			t.Errorf("%+v: %d of %d right", row, right, n)
		}
	}
}

// An animal without its gills was called another that looks the same without them, and a
// round house of leaves one whose kind builds such too: both were counted as wrong, while
// leaf squares, which the other never sets, passed for laths.
func TestWhatIsLostOrBuiltByBothPartsNoKinds(t *testing.T) {
	gills := []string{"gills", "gill-form", "gill-row", "gill-mark"}
	padless := map[string]string{"colour": "brown", "wings": "none", "pads": "none"}
	round := map[string]string{"case-shape": "tube", "case-bend": "curved"}
	for _, row := range []struct {
		kind, other string
		shows       map[string]string
		lost        []string
		told        []string
		alike       bool
	}{
		{"siphlonuridae", "ameletidae", map[string]string{"colour": "grey"}, gills, []string{"colour"}, true},
		{"siphlonuridae", "ameletidae", padless, gills, []string{"colour"}, true},
		{"ameletidae", "siphlonuridae", map[string]string{"colour": "dark"}, gills, []string{"colour"}, true},
		{"siphlonuridae", "ameletidae", map[string]string{"colour": "grey"}, nil, []string{"colour"}, false},
		{"lepidostomatidae", "brachycentridae", round, nil, nil, true},
		{"lepidostomatidae", "brachycentridae", round, nil, []string{"neck-horn"}, false},
		{"lepidostomatidae", "brachycentridae", map[string]string{"case-shape": "square"}, nil, nil, false},
		{"lepidostomatidae", "brachycentridae", map[string]string{"case-shape": "square"}, nil, []string{"case-lay"}, false},
	} {
		o, _ := options(t, practice.DrawingSource)
		l := placed(o, row.kind)
		l.told, l.length = map[string]bool{}, 10
		maps.Copy(l.animal.Shows, row.shows)
		if len(row.lost) > 0 {
			l.animal.Whole, l.animal.Hurt, l.animal.Lost = maps.Clone(l.animal.Shows), true, row.lost[0]
		}
		for _, trait := range row.lost {
			l.animal.Shows[trait] = "none"
		}
		for _, trait := range row.told {
			l.told[trait] = true
		}
		if got := couldBe(l, l.catalog.Taxon(row.other)); got != row.alike {
			t.Errorf("%+v: %v", row, got)
		}
	}
}

// What is said to be either counts as right, and nothing else is said to be.
func TestWhatCouldBeEitherIsNotCounted(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	o, _ := options(t, practice.DrawingSource)
	o.Animals = practice.MostMeetings
	l := New(o)
	alike, others := 0, 0
	for _, kind := range o.Course.Kinds() {
		for _, other := range o.Course.LookAlikes(kind.ID) {
			for range keytest.Thoroughly(3, 1) {
				drawOne(l, kind.ID, 1)
				l.pose, l.told, l.length = lies(l), map[string]bool{}, 0
				l.meeting = practice.Meeting{Source: practice.DrawingSource, Kind: kind.ID}
				l.Name(other.ID)
				p := l.Now()
				words := inLines(&p)
				m := o.Record.Meetings[len(o.Record.Meetings)-1]
				if said := strings.Contains(words, "could be either"); said && !m.Alike {
					t.Errorf("%s called %s: %+v\n%s", kind.ID, other.ID, m, words)
				}
				if m.Alike {
					alike++
				} else {
					others++
				}
				if l.stage == telling {
					l.Do(GoOn)
				}
			}
		}
	}
	t.Logf("%d of %d could be either", alike, alike+others)
	if alike == 0 || alike > others/4 {
		t.Errorf("%d of %d could be either", alike, alike+others)
	}
}

// "Its gill lids are three-cornered" was read as said of the other kind.
func TestWhatTellsTwoKindsApartNamesWhatItSpeaksOf(t *testing.T) {
	unclear := regexp.MustCompile(`^(It|Its|This|These|They|Their|One|Here)\b|\bthis one\b`)
	for _, file := range []string{couplets.DefaultName, "north-west-europe.toml"} {
		_, catalog := keytest.Sound(t, file)
		for _, kind := range catalog.Taxa() {
			for _, m := range kind.Mistaken {
				if unclear.MatchString(m.Tell) {
					t.Errorf("%s beside %s: %s", kind.ID, m.Taxon, m.Tell)
				}
			}
		}
	}
}

// No picture comes twice in a test while there is another.
func TestATestRepeatsNoPicture(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	o.Test, o.Animals = practice.OnSight, 60
	l := begun(o)
	seen, again := map[string]bool{}, 0
	for l.stage != resting {
		if l.likeness != "" && seen[l.likeness] {
			again++
		}
		seen[l.likeness] = true
		l.Do("?")
	}
	if again > 0 {
		t.Errorf("%d of 60 pictures were shown before", again)
	}
}
