package phone

import (
	"html"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"rillkey/key/keytest"
)

// keysOfTerminals are words that speak of a key of the terminal, which a page has not.
var keysOfTerminals = regexp.MustCompile(`(?i)(^|[^\w&;])(<|\?|\+|[rhwsqv])` +
	`( takes| to look| to set| for can't| for back| for help| look again|,? (or|and) \?)|` +
	`press [a-z<?+]\b|\b(Enter|Esc|Ctrl|Backspace|arrow keys?|Page Up|space bar|keyboard)\b|` +
	`\bby (its letter|its number|number)\b|` +
	`\b[a-z] to [a-z]( choose|:)|empty line|"\[[ x]\]|--far|identify --|recheck settle`)

// textOf is what somebody reads on a page, without its marks.
func textOf(page string) string {
	page = regexp.MustCompile(`<(svg|title)\b.*?</(svg|title)>`).ReplaceAllString(page, " ")
	page = regexp.MustCompile(`<[^>]*>`).ReplaceAllString(page, " ")
	return strings.Join(strings.Fields(html.UnescapeString(page)), " ")
}

// quotedButton is a button that a sentence names.
var quotedButton = regexp.MustCompile(`[Tt]ap "([^"]+)"`)

// No page, with a script or without, speaks of keys of the terminal, and each button
// that a sentence names stands on the page.
func TestNoPageSpeaksOfKeys(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	random := rand.New(rand.NewPCG(9, 17))
	seen := map[string]bool{}
	words := []string{"six legs, three tails", "ten legs, pincers, 40 mm", "40 mm", "scud", "blorb", "perhaps a shell, worm", "?",
		"length 9000 mm"}
	late := []string{"answer:r", "answer:z", "answer:a", "answer:w", "sign:", "sign:zz", "confirm", "hear", "keep", "closer", "on"}
	for seed := range byte(keytest.Thoroughly(6, 3)) {
		p := begun(t, seed+1)
		if seed%3 == 2 {
			p = phoneOf(seed)
			p.Do("practise", FormValues{"learner": "Robin"})
		}
		for range 150 {
			do := anyPress(p, random)
			if do == "drop" && random.IntN(4) > 0 {
				continue
			}
			if random.IntN(8) == 0 { // what belonged to another page
				do = late[random.IntN(len(late))]
			}
			f := FormValues{"words": words[random.IntN(len(words))], "find": "mayfly", "count": "2", "length": "7", "sight": "blorb",
				"learner": "Robin", "site": "Mill Brook", "protocol": "riffle-three", "habitat": "riffle", "read": "yes", "taxon": "",
				"people": "Ada"}
			p.Do(do, f)
			for _, page := range []string{p.HTML(), unscripted(p)} {
				text := textOf(page)
				if at := keysOfTerminals.FindStringIndex(text); at != nil {
					t.Fatalf("after %q: …%s…", do, text[max(0, at[0]-80):min(len(text), at[1]+80)])
				}
				for _, m := range quotedButton.FindAllStringSubmatch(text, -1) {
					if !strings.Contains(page, ">"+html.EscapeString(m[1])+"</button>") {
						t.Fatalf("after %q the page has no button %q: %s", do, m[1], text)
					}
				}
			}
			seen[p.screen] = true
		}
	}
	for _, screen := range []string{counting, naming, named, tallying, grading, handing, sampling, boarding, entry, practising} {
		if !seen[screen] {
			t.Errorf("the screen %q was not come to", screen)
		}
	}
}

// unscripted is the page of the same moment without a script, drawings left out.
func unscripted(p *Phone) string {
	was := p.unscripted
	defer func() { p.unscripted = was }()
	p.unscripted = true
	return p.write(&writer{action: "/plain", turn: "1"})
}

// An answer whose page is not the one that stands now answers nothing.
func TestAThumbThatComesDownTwiceAnswersOnce(t *testing.T) {
	p := begun(t, 1)
	p.Do("name", nil)
	p.Do("answer:<", nil) // none of the marks
	turn := regexp.MustCompile(`name="turn" value="(\d+)"`).FindStringSubmatch(p.Plain("/plain"))[1]
	p.Do("answer:a", FormValues{"turn": turn})
	given := len(p.talk.Inquiry().Given())
	p.Do("answer:a", FormValues{"turn": turn})
	if n := len(p.talk.Inquiry().Given()); given != 1 || n != 1 || !p.wrong {
		t.Errorf("%d answers, then %d: %s", given, n, p.said)
	}
	p.Do("more:row-0:1", FormValues{"turn": turn}) // a count is meant as often as it is pressed
	p.Do("more:row-0:1", FormValues{"turn": turn})
	if n := p.animals(""); n != 2 {
		t.Errorf("%d animals", n)
	}
}

// Whoever stopped the questions, or left the animal, by a slip goes on where they were.
func TestAnAnimalThatWasStoppedOrLeftIsGoneOnWith(t *testing.T) {
	p := begun(t, 1)
	p.Do("name", nil)
	p.Do("answer:<", nil)
	p.Do("answer:a", nil)
	before := textOf(p.HTML())
	p.Do("answer:s", nil)
	if p.screen != named || !strings.Contains(p.HTML(), `value="on"`) {
		t.Fatal(textOf(p.HTML()))
	}
	p.Do("on", nil)
	title := func(text string) string { return text[strings.Index(text, "Question"):][:20] }
	if now := textOf(p.HTML()); p.screen != naming || title(now) != title(before) {
		t.Errorf("%s\nbefore: %s", now, before)
	}
	before = textOf(p.HTML())
	p.Do("drop", nil)
	if p.talk != nil || !strings.Contains(p.HTML(), `value="back"`) {
		t.Fatal(textOf(p.HTML()))
	}
	p.Do("go:tally", nil)
	p.Do("go:count", nil)
	p.Do("back", nil)
	if now := textOf(p.HTML()); now != before {
		t.Errorf("%s\nbefore: %s", now, before)
	}
	p.Do("drop", nil)
	p.Do("name", nil)
	p.Do("drop", nil)
	p.Do("back", nil)
	if n := len(p.talk.Inquiry().Given()); n != 0 {
		t.Errorf("an animal of before, with %d answers", n)
	}
}

// The questions stop where the protocol needs no narrower name; a button goes on, with
// what was said. A second look goes to the end.
func TestAPageAsksAsFarAsTheProtocolCounts(t *testing.T) {
	p := begun(t, 1)
	p.Do("name", nil)
	p.Do("hear", FormValues{"words": "six legs, three tails, leaf-like gills along the sides"})
	p.Do("confirm", nil)
	for range 20 {
		if p.talk.Ended() {
			break
		}
		p.Do("answer:?", nil)
	}
	page := textOf(p.HTML())
	if !strings.Contains(page, "enough for this visit's sheet") || !strings.Contains(page, "A closer name") {
		t.Fatal(page)
	}
	given := len(p.talk.Inquiry().Given())
	p.Do("closer", nil)
	if q := p.talk.Inquiry(); len(q.Options().Enough) > 0 || len(q.Given()) == 0 || len(q.Given()) > given {
		t.Errorf("%d answers are kept of %d", len(q.Given()), given)
	}
	if p.wrong || p.screen != naming && p.screen != named {
		t.Errorf("%s: %s", p.screen, p.said)
	}
	p.Do("drop", nil)
	p.Do("more:taxon-baetidae:1", nil)
	p.Do("who", FormValues{"who": "Bo"})
	p.Do("look:"+p.tally.Records[0].ID, nil)
	if p.looking == "" || len(p.talk.Inquiry().Options().Enough) > 0 {
		t.Errorf("a second look: %s", p.said)
	}
}

// A page that is closed while an animal is named goes on with the same question.
func TestAPageThatWasClosedGoesOnWithItsQuestion(t *testing.T) {
	p := begun(t, 1)
	p.Do("more:row-0:5", nil)
	p.Do("name", nil)
	p.Do("hear", FormValues{"words": "ten legs, pincers"})
	for _, do := range []string{"confirm", "answer:?", "answer:a", "answer:<"} {
		p.Do(do, nil)
		again := phoneOf(3)
		if err := again.Open(p.File(), p.Keep()); err != nil {
			t.Fatal(err)
		}
		if got, want := again.talk.Inquiry().Path(), p.talk.Inquiry().Path(); !slices.Equal(got, want) || again.screen != p.screen {
			t.Errorf("after %s: %v, not %v", do, got, want)
		}
	}
	p.Do("drop", nil)
	again := phoneOf(4)
	if err := again.Open(p.File(), p.Keep()); err != nil || again.talk != nil || again.screen != counting {
		t.Errorf("%v: an animal that was left is asked about", err)
	}
	old := p.Keep()
	old.Naming = []press{{Do: "name"}, {Do: "answer:zz"}, {Do: "look:gone"}}
	if err := again.Open(p.File(), old); err != nil || again.talk != nil || again.wrong {
		t.Errorf("%v: what another version kept: %s", err, again.said)
	}
}
