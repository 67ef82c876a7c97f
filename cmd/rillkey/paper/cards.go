package paper

import (
	_ "embed" // the style
	"html/template"
	"slices"
	"strings"
	"unicode/utf8"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

//go:embed cards.css
var cardsStyle string

// cardFigure is the size of the drawing on a card in mm, with its bar; on a card with
// little text it is higher.
var cardFigure = figure.Size{Width: 86, Height: 31}

// manyLetters are more than a card holds that is one of four on a sheet.
const manyLetters = 1100

// Cards are the cards of a catalog's animals, as far as its region has them, four
// to a sheet: names, length at life size, marks with pointers, and what a leader
// tells of each.
func Cards(catalog *taxa.Catalog) *Page {
	p := New(wording.Text("Cards of stream animals"))
	p.Style(cardsStyle)
	atlas := figure.NewAtlas(catalog, nil)
	r := catalog.Region()
	var cards []animalCard
	for _, c := range catalog.Cards() {
		if r == nil || r.Holds(c.Taxon, catalog) {
			card := newAnimalCard(catalog, atlas, c)
			card.Photo = p.photoOf(card.Taxon)
			cards = append(cards, card)
		}
	}
	for _, four := range sheetsOf(cards) {
		p.Begin("div", "four")
		for _, card := range four {
			p.put("card", card)
		}
		p.End()
	}
	return p
}

// sheetsOf are the cards of each sheet: four, two abreast, a wide one in the place of two.
// A place that a wide one would leave empty takes the next card that fits.
func sheetsOf(cards []animalCard) (out [][]animalCard) {
	const places = 4
	taken := places
	cards = slices.Clone(cards)
	for len(cards) > 0 {
		i := 0
		if cards[0].Wide && taken%2 == 1 {
			i = max(0, slices.IndexFunc(cards, func(c animalCard) bool { return !c.Wide }))
		}
		c := cards[i]
		cards = slices.Delete(cards, i, i+1)
		from, to := taken, taken+1
		if c.Wide {
			from += taken % 2
			to = from + 2
		}
		if to > places {
			out, to = append(out, nil), to-from
		}
		taken = to
		out[len(out)-1] = append(out[len(out)-1], c)
	}
	return out
}

// animalCard is a card as the template has it.
type animalCard struct {
	Taxon   *taxa.Taxon
	Names   string // further names
	Drawing template.HTML
	Photo   photo
	Marks   []string
	Signs   []eating
	Lines   []show.CardLine
	Source  string
	Wide    bool // its text takes the place of two cards
}

// eating is a way to eat with its sign.
type eating struct {
	Word string
	Path string
}

func newAnimalCard(catalog *taxa.Catalog, atlas *figure.Atlas, c *taxa.Card) animalCard {
	t := catalog.Taxon(c.Taxon)
	out := animalCard{Taxon: t, Lines: show.CardLines(catalog, t, c), Source: show.CardSource(c)}
	if len(t.Common) > 1 {
		out.Names = strings.Join(t.Common[1:min(3, len(t.Common))], ", ")
	}
	var traits []string
	for _, m := range c.Marks {
		out.Marks, traits = append(out.Marks, m.Words), append(traits, m.Trait)
	}
	letters := 0
	for _, l := range out.Lines {
		letters += len(l.Text)
	}
	out.Wide = letters > manyLetters
	size := cardFigure
	if !out.Wide {
		size.Height += min(mostHigher, max(0, spare(out)))
	}
	out.Drawing = template.HTML(atlas.Marked(t, traits).SVG(size))
	for _, word := range c.Eats {
		out.Signs = append(out.Signs, eating{word, eatingSigns()[word]})
	}
	return out
}

// A card that is one of four is so many mm high, of which what every card has takes
// this many, its drawing not among it; a line of its text holds so many letters.
const (
	cardHeight  = 129
	cardCommon  = 31
	cardLine    = 3.4
	cardLetters = 58
	mostHigher  = 26 // by how many mm a drawing grows where there is room
)

// spare is how many mm of a card's height its text and its drawing leave.
func spare(c animalCard) float64 {
	lines := 0
	for _, l := range c.Lines {
		lines += 1 + utf8.RuneCountInString(l.Label+": "+l.Text)/cardLetters
	}
	return cardHeight - cardCommon - cardFigure.Height - float64(lines)*cardLine - 0.5*float64(len(c.Lines))
}

// eatingSigns are a small sign for each way to eat, in a box of ten by ten: a leaf
// with a bite, a blade on a stone, a heap of bits, a net, a pair of jaws.
func eatingSigns() map[string]string {
	return map[string]string{
		"shredder": "M1.5 8.5C1 3 5 1 9 1C9 3 8.4 4.2 8 5A1.5 1.5 0 0 0 5.6 7.4C4.5 8.4 3 8.7 1.5 8.5ZM1.5 8.5L6 4",
		"scraper":  "M1 9H9M2 7L7 1.5L9 3.5L4 7.5Z",
		"gatherer": "M2 8.5H2.01M4 8.5H4.01M6 8.5H6.01M8 8.5H8.01M3 6.5H3.01M5 6.5H5.01M7 6.5H7.01M4 4.5H4.01M6 4.5H6.01",
		"filterer": "M1 1V9M3.7 1V9M6.3 1V9M9 1V9M1 2.5H9M1 5H9M1 7.5H9",
		"hunter":   "M4.5 9C1 7.5 0.5 3.5 3.5 1C3 4 3.5 6 4.5 9ZM5.5 9C9 7.5 9.5 3.5 6.5 1C7 4 6.5 6 5.5 9Z",
	}
}
