package taxa

import (
	"embed"
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// cardsFile is the file of a catalog's folder that holds its cards; a catalog may
// have none.
const cardsFile = "cards.toml"

// Card is what a leader tells of a kind of animal. All texts are one line.
type Card struct {
	Taxon  string
	Marks  [2]FieldMark // what to know it by
	Life   string       // how it grows up and breathes
	Eats   []string     // its ways to eat, of Eatings
	Food   string       // the same in words
	Tells  string       // what it says of a stream
	Silent string       // what it does not say
	Months string       // when it is large enough to key; empty where that is not sure
	Try    string       // something to watch for a minute
	Source string
	Status string // how far it was confirmed, of CardStatuses
}

// FieldMark is a mark that a beginner sees, and the trait that a drawing shows it by.
type FieldMark struct{ Trait, Words string }

// eatings are the ways to eat that a card may name.
var eatings = []string{"shredder", "scraper", "gatherer", "filterer", "hunter"}

// cardStatuses are how far a card's texts may have been confirmed: in a
// publication that was seen, by what the trade agrees on, or from memory.
var cardStatuses = []string{"seen", "common practice", "memory"}

// longestMark is how many characters a mark may have: it stands in a small box.
const longestMark = 70

// Cards are the cards of the catalog in the order of their file.
func (c *Catalog) Cards() []*Card { return c.cards() }

// Card is the card of a taxon, or of the nearest above it; nil where there is
// none. A resting stage has only a card of its own.
func (c *Catalog) Card(id string) *Card {
	t := c.index[id]
	for up := t; up != nil; up = up.parent {
		for _, card := range c.cards() {
			if card.Taxon == up.ID {
				return card
			}
		}
		if slices.ContainsFunc(up.States("pupa"), func(w Weight) bool { return w.State != "no" && w.Share > 0.5 }) {
			return nil
		}
	}
	return nil
}

// haveCards has a catalog know the cards of its folder, which need not be there. Those
// inside the program are taken to be sound, which its tests see to, and read when one
// is first wanted: they are a sixth of all that a catalog reads.
func haveCards(c *Catalog, fsys fs.FS, dir string, report *authored.Report) error {
	if _, builtIn := fsys.(embed.FS); builtIn {
		c.cards = sync.OnceValue(func() []*Card {
			cards, err := readCards(c, fsys, dir, &authored.Report{})
			if err != nil {
				return nil
			}
			return cards
		})
		return nil
	}
	cards, err := readCards(c, fsys, dir, report)
	c.cards = func() []*Card { return cards }
	return err
}

func readCards(c *Catalog, fsys fs.FS, dir string, report *authored.Report) (out []*Card, err error) {
	if _, err := fs.Stat(fsys, cardsFile); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	top, err := authored.ReadTable(fsys, cardsFile, path.Join(dir, cardsFile), report)
	if err != nil || top == nil {
		return nil, err
	}
	for _, s := range top.Subs("card") {
		c.known(top.Sub("card"), s.Here(), s.ID)
		out = append(out, readCard(c, s))
	}
	top.Done()
	return out, nil
}

func readCard(c *Catalog, s authored.Section) *Card {
	card := &Card{Taxon: s.ID, Life: s.NeedStr("life"), Eats: s.Strs("eats"), Food: s.NeedStr("food"), Tells: s.NeedStr("tells"),
		Silent: s.NeedStr("silent"), Months: s.Str("months"), Try: s.NeedStr("try"), Source: s.NeedStr("source"),
		Status: s.NeedStr("status")}
	s.Need("eats", "marks")
	for i, word := range card.Eats {
		if !slices.Contains(eatings, word) {
			s.FailAt(s.Elem("eats", i), "unknown-eats", wording.Sprintf("there is no way to eat %s", plain.Quote(word)),
				wording.Sprintf("it is one of %s", strings.Join(eatings, ", ")))
		}
	}
	checkWord(s, "status", card.Status, cardStatuses)
	if marks := s.Sub("marks"); marks != nil {
		card.Marks = readMarks(c, marks)
	}
	s.Done()
	return card
}

func readMarks(c *Catalog, t *authored.Table) (out [2]FieldMark) {
	for i, trait := range t.Keys() {
		if problem, hint := c.vocabulary.Unknown(trait); problem != "" {
			t.FailAt(t.KeyPos(trait), "unknown-trait", problem, hint)
		}
		words := t.NeedStr(trait)
		if n := utf8.RuneCountInString(words); n > longestMark {
			t.Fail(trait, "long-mark", wording.Sprintf("this mark has %d characters, and there is room for %d", n, longestMark),
				wording.Text("say it shorter"))
		}
		if i < len(out) {
			out[i] = FieldMark{trait, words}
		}
	}
	if n := len(t.Keys()); n != len(out) {
		t.FailAt(t.Here(), "not-two-marks", wording.Sprintf("a card has two marks, not %d", n),
			wording.Text("name the two that tell it best"))
	}
	return out
}
