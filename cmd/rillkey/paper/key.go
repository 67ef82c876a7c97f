package paper

import (
	_ "embed"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
)

//go:embed key.css
var keyStyle string

// LongKey is a whole key to be read on paper: how to use it, the numbered couplets,
// the animals it ends in, the words it uses, and an index of names. The catalog
// must be the one that the key was checked against.
func LongKey(sound *couplets.Sound, catalog *taxa.Catalog) *Page {
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
		Page:     New(oneLine(sound.Title)),
		sound:    sound,
		catalog:  catalog,
		atlas:    figure.NewAtlas(catalog, sound),
		incoming: sound.LeadsTo(),
		paths:    key.Compile(sound, catalog).PathsTo(),
		ends:     map[string][]string{},
	}
	for c, l := range sound.Leads() {
		for _, id := range l.Taxa {
			k.ends[id] = append(k.ends[id], c.ID+l.Letter)
		}
	}
	return k
}

// keyPage is a key's page as it is written.
type keyPage struct {
	*Page
	sound    *couplets.Sound
	catalog  *taxa.Catalog
	atlas    *figure.Atlas
	incoming map[string][]string // the leads that go to a couplet
	paths    map[string][]string // one way to each end point
	ends     map[string][]string // the leads that end in a taxon
	said     strings.Builder     // the words that the glossary is to explain
}

// say is a text on one line, noted for the glossary.
func (k *keyPage) say(text string) string {
	text = oneLine(text)
	k.said.WriteString(text + "\n")
	return text
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
