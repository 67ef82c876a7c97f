package paper

import (
	"testing"

	"rillkey/couplets"
	"rillkey/key/keytest"
)

// A key is short by its size, whatever it is called.
func TestWhichKeysAreShort(t *testing.T) {
	for name, want := range map[string]bool{"kinds.toml": true, couplets.DefaultName: false, "north-west-europe.toml": false} {
		if sound, _ := keytest.Sound(t, name); OnOneSheet(sound) != want {
			t.Errorf("%s is short: %v", name, !want)
		}
	}
	if sound, _ := pondKey(t); OnOneSheet(sound) {
		t.Error("three couplets take a sheet with all that belongs to them")
	}
	sound, _ := keytest.Sound(t, "kinds.toml")
	file := *sound.File
	file.Glossary = map[string]string{"tuft": "a bush of hairs"}
	own := *sound
	own.File = &file
	if OnOneSheet(&own) {
		t.Error("its own glossary is lost")
	}
}

// On its one sheet a short key has every couplet and every lead with where it goes, an
// animal by the name that it ends in.
func TestAShortKeyIsWhole(t *testing.T) {
	sound, catalog := keytest.Sound(t, "kinds.toml")
	page := parsed(t, written(t, ShortKey(sound, catalog)))
	steps := page.classed("step")
	if len(steps) != len(sound.Couplets) {
		t.Fatalf("%d couplets of %d", len(steps), len(sound.Couplets))
	}
	for i, c := range sound.Couplets {
		leads := steps[i].named("li")
		if len(leads) != len(c.Leads) {
			t.Errorf("couplet %s has %d leads of %d", c.ID, len(leads), len(c.Leads))
			continue
		}
		for j, l := range c.Leads {
			want := c.ID + l.Letter + " " + oneLine(l.Text) + " "
			if l.Next != "" {
				want += "go to " + l.Next
			} else {
				want += catalog.Taxon(l.Taxa[0]).Name()
			}
			if got := leads[j].read(); len(got) < len(want) || got[:len(want)] != want {
				t.Errorf("it reads %q, not %q", got, want)
			}
		}
	}
}

func TestTextOfAShortKeyStaysText(t *testing.T) {
	page := written(t, ShortKey(keyWith(t, "Legs", "Legs<b x>", "Two tails.", "Two <script>tails.")))
	if len(parsed(t, page).named("script")) > 0 || len(parsed(t, page).classed("x")) > 0 {
		t.Error("markup in a text reaches the page")
	}
}
