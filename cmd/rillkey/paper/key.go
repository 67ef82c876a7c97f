package paper

import (
	_ "embed"
	"html"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
)

//go:embed key.css
var keyStyle string

// Key is a whole key to be read on paper: how to use it, the numbered couplets,
// the animals it ends in, the words it uses, and an index of names. The catalog
// must be the one that the key was checked against.
func Key(sound *couplets.Sound, catalog *taxa.Catalog) *Page {
	k := newKeyPage(sound, catalog)
	k.Style(keyStyle)
	k.front()
	k.couplets()
	k.animals()
	k.glossary()
	k.index()
	return k.Page
}

func newKeyPage(sound *couplets.Sound, catalog *taxa.Catalog) *keyPage {
	k := &keyPage{
		Page:    New(oneLine(sound.Title)),
		sound:   sound,
		catalog: catalog,
		atlas:   figure.NewAtlas(catalog, sound.Couplets),
		from:    sound.From(),
		paths:   key.Compile(sound, catalog).PathsTo(),
		ends:    map[string][]string{},
	}
	for _, c := range sound.Couplets {
		for _, l := range c.Leads {
			if l.Taxon != "" {
				k.ends[l.Taxon] = append(k.ends[l.Taxon], c.ID+l.Letter)
			}
		}
	}
	return k
}

// keyPage is a key's page as it is written.
type keyPage struct {
	*Page
	sound   *couplets.Sound
	catalog *taxa.Catalog
	atlas   *figure.Atlas
	from    map[string][]string // the leads that go to a couplet
	paths   map[string][]string // one way to each end point
	ends    map[string][]string // the leads that end in a taxon
	said    strings.Builder     // the words that the glossary is to explain
}

// say is a text fit for the page, noted for the glossary.
func (k *keyPage) say(text string) string {
	text = oneLine(text)
	k.said.WriteString(text + "\n")
	return html.EscapeString(text)
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// The anchors of couplets, leads and taxa. An id is made of lower-case letters,
// digits and hyphens, so that a full stop parts it from a letter.
func coupletAnchor(id string) string      { return "couplet-" + id }
func leadAnchor(id, letter string) string { return "lead-" + id + "." + letter }
func taxonAnchor(id string) string        { return "animal-" + id }

// coupletLink is a link to a couplet by its number.
func coupletLink(id string) string {
	return `<a href="#` + html.EscapeString(coupletAnchor(id)) + `">` + html.EscapeString(id) + `</a>`
}

// leadLink is a link to a lead by its label, such as "4a".
func leadLink(label string) string {
	id, letter := label[:len(label)-1], label[len(label)-1:]
	return `<a href="#` + html.EscapeString(leadAnchor(id, letter)) + `">` + html.EscapeString(label) + `</a>`
}

func leadLinks(labels []string) string {
	links := make([]string, len(labels))
	for i, l := range labels {
		links[i] = leadLink(l)
	}
	return strings.Join(links, ", ")
}

// taxonNames are a taxon's plain name, strong, and its scientific one, if that
// is another.
func taxonNames(t *taxa.Taxon) string {
	out := "<strong>" + html.EscapeString(t.Name()) + "</strong>"
	if t.Name() != t.Scientific {
		out += " <i>" + html.EscapeString(t.Scientific) + "</i>"
	}
	return out
}

// marks are small signs of the classes, so that a class is seen at a glance
// without colour; its word stands beside it.
var marks = map[taxa.Class]string{
	taxa.Sensitive:         `<circle cx="5" cy="5" r="4" fill="#111"/>`,
	taxa.SomewhatSensitive: `<circle cx="5" cy="5" r="4" fill="none"/><path d="M5 1A4 4 0 0 0 5 9Z" fill="#111"/>`,
	taxa.Tolerant:          `<circle cx="5" cy="5" r="4" fill="none"/>`,
	taxa.NotScored:         `<path d="M1 5H9"/>`,
}

// classWord is a class as its sign and its word.
func classWord(c taxa.Class) string {
	sign := marks[c]
	if sign == "" {
		sign = `<path d="M1 5H3M5 5H6M8 5H9"/>`
	}
	return `<span class="class"><svg aria-hidden="true" width="3mm" height="3mm" viewBox="0 0 10 10" stroke="#111" stroke-width="1.2">` + sign + `</svg> ` + html.EscapeString(show.ClassWord(c)) + `</span>`
}
