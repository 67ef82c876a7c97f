package question

import (
	"bufio"
	"bytes"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/terminal"
	"rillkey/key"
	"rillkey/key/keytest"
)

const smallTraits = `
[trait.legs]
question = "How many legs?"
how = "Count one side and double it."
look = "eye"
misread = 0.05
source = "memory"
state.0.label = "no legs"
state.6.label = "six legs"
[trait.tails]
question = "How many tails?"
how = "Float it: thin tails fan out."
look = "patience"
misread = 0.1
source = "memory"
state.none.label = "no tails"
state.2.label = "two tails"
state.3.label = "three tails"
[trait.swims]
question = "How does it move?"
look = "eye"
misread = 0.1
source = "memory"
state.swims.label = "swims"
state.crawls.label = "crawls"
state.neither.label = "neither"
[trait.gills]
question = "Gills along the belly?"
how = "Look for plates that flutter."
look = "lens"
misread = 0.2
source = "memory"
state.yes.label = "gills"
state.no.label = "no gills"
`

const smallTaxa = `
[taxon.insecta]
rank = "class"
scientific = "Insecta"
source = "memory"
[taxon.ephemeroptera]
rank = "order"
scientific = "Ephemeroptera"
common = ["mayfly"]
parent = "insecta"
class = "sensitive"
class_source = "memory"
source = "memory"
[taxon.swimmer]
rank = "family"
scientific = "Baetidae"
common = ["small swimmer mayfly"]
parent = "ephemeroptera"
source = "memory"
traits = { legs = "6", tails = "3", gills = "yes", swims = "swims" }
[taxon.clinger]
rank = "family"
scientific = "Heptageniidae"
parent = "ephemeroptera"
source = "memory"
traits = { legs = "6", tails = "3", gills = "yes", swims = "crawls" }
[taxon.stonefly]
rank = "order"
scientific = "Plecoptera"
common = ["stonefly"]
parent = "insecta"
class = "sensitive"
class_source = "memory"
source = "memory"
traits = { legs = "6", tails = "2", gills = "no", swims = "crawls" }
[taxon.sprawler]
rank = "family"
scientific = "Ephemerellidae"
parent = "ephemeroptera"
source = "memory"
traits = { legs = "6", tails = "3", gills = "no", swims = "neither" }
[taxon.worm]
rank = "class"
scientific = "Oligochaeta"
common = ["aquatic worm"]
class = "tolerant"
class_source = "memory"
source = "memory"
traits = { legs = "0" }
`

const smallKey = `[key]
id = "small"
title = "A small key"
source = "invented"
[couplet.1]
ask = "Legs"
a = { text = "Six legs with joints, three on each side of the chest, 3-5 mm long", traits = { legs = "6" }, to = "2" }
b = { text = "No legs anywhere", traits = { legs = "0" }, taxon = "worm" }
[couplet.2]
ask = "Tails"
wait = "Float it in a finger of water until the tails fan out."
a = { text = "Three tails", traits = { tails = "3" }, to = "3" }
b = { text = "Two tails", traits = { tails = "2" }, taxon = "stonefly" }
[couplet.3]
ask = "Gills and moving"
stop = "ephemeroptera"
a = { text = "Swims, with gills that flutter along the belly", traits = { swims = "swims", gills = "yes" }, taxon = "swimmer" }
b = { text = "Crawls, with gills that flutter along the belly", traits = { swims = "crawls", gills = "yes" }, taxon = "clinger" }
c = { text = "Neither, and there are no gills", traits = { swims = "neither", gills = "no" }, taxon = "sprawler" }
`

func small(t testing.TB) *key.Key {
	t.Helper()
	catalog := keytest.Invented(t, smallTraits, smallTaxa)
	return key.Compile(keytest.Checked(t, smallKey, catalog), catalog)
}

// begin begins an inquiry that ends with the author's path, as the printed key
// does.
func begin(t testing.TB, k *key.Key) *key.Inquiry {
	t.Helper()
	o := key.DefaultOptions()
	o.Required, o.Confirm = 0.85, 0
	return inquire(t, k, o)
}

func inquire(t testing.TB, k *key.Key, o key.Options) *key.Inquiry {
	t.Helper()
	q, err := model(t, k).Inquire(o)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func model(t testing.TB, k *key.Key) *key.Model {
	t.Helper()
	m, err := k.Model(key.FileRates(k.Catalog().Vocabulary()))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// shown opens a screen of the given size on the inquiry, without figures.
func shown(q *key.Inquiry, width, height int) *screen {
	return pictured(q, nil, width, height)
}

// pictured opens a screen with figures.
func pictured(q *key.Inquiry, drawings Drawings, width, height int) *screen {
	m := newScreen(q, Destination{}, drawings, terminal.Bare())
	m.Update(tea.WindowSizeMsg{Width: width, Height: height})
	return m
}

// atlas draws the questions of a key.
func atlas(k *key.Key) Drawings {
	a := figure.NewAtlas(k.Catalog(), k.Sound())
	return func() *figure.Atlas { return a }
}

// named keys, for what no letter stands for.
var namedKeys = map[string]tea.KeyType{
	"up": tea.KeyUp, "down": tea.KeyDown, "left": tea.KeyLeft, "right": tea.KeyRight, "pgup": tea.KeyPgUp, "pgdown": tea.KeyPgDown,
	"home": tea.KeyHome, "end": tea.KeyEnd, "esc": tea.KeyEsc, "enter": tea.KeyEnter,
	"backspace": tea.KeyBackspace, "space": tea.KeySpace, "ctrl+c": tea.KeyCtrlC, "tab": tea.KeyTab,
	"ctrl+u": tea.KeyCtrlU,
}

// press sends keys, separated by blanks, until the screen quits.
func press(m *screen, keys string) {
	for _, k := range strings.Fields(keys) {
		msg := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(k)}
		if typ, ok := namedKeys[k]; ok {
			msg = tea.KeyMsg{Type: typ}
			if k == "space" {
				msg.Runes = []rune{' '}
			}
		}
		if _, cmd := m.Update(msg); cmd != nil {
			return
		}
	}
}

// typed gives the lines to Lines, and what it wrote.
func typed(q *key.Inquiry, lines string, width int) (Ending, string, error) {
	var out bytes.Buffer
	outcome, err := Lines(q, Destination{}, nil, bufio.NewReader(strings.NewReader(lines)), &out, width)
	return outcome, out.String(), err
}

func path(q *key.Inquiry) string { return strings.Join(q.Path(), " ") }

func reader(s string) *bufio.Reader { return bufio.NewReader(strings.NewReader(s)) }
