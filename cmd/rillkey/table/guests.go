package table

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"strings"
	"sync"
	"unicode/utf8"

	"rillkey/scoring/wholefile"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Guests are the codes of a table and who joined with them. They are kept in a file
// beside the visit's, so that a table begun anew knows its phones. It is safe for
// many goroutines.
type Guests struct {
	path   string
	random io.Reader

	mu    sync.Mutex
	state state
	wrong int // codes that opened nothing
}

type state struct {
	Codes  Codes   `json:"codes"`
	Guests []guest `json:"guests"`
}

// guest is one phone that joined.
type guest struct {
	Name   string `json:"name"`
	Key    string `json:"key"` // of its token, so that the file opens nothing
	Leader bool   `json:"leader"`
	Away   bool   `json:"away"` // sent away
}

// Bounds on who joins.
const (
	mostGuests = 300
	mostName   = 40
	mostState  = 1 << 20
)

// StatePath is the file of a visit's table.
func StatePath(visitPath string) string {
	return strings.TrimSuffix(visitPath, ".visit.toml") + ".table.json"
}

// OpenGuests reads the guests in the file at path, or begins with new codes where
// there is none, or where anew is set; then nobody has joined yet.
func OpenGuests(path string, anew bool, random io.Reader) (*Guests, error) {
	g := &Guests{path: path, random: random}
	err := g.read()
	switch {
	case err == nil && g.state.Codes.Day == "":
		return nil, wording.Errorf("%s is no file of a table and is left alone; put it away to begin one", plain.Printable(path))
	case err == nil && !anew:
		return g, nil
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return nil, wording.Errorf("%s: what the table keeps of its phones cannot be read; put the file away to begin anew: %w",
			plain.Printable(path), err)
	}
	codes, err := newCodes(random)
	if err != nil {
		return nil, err
	}
	g.state = state{Codes: codes}
	return g, g.write()
}

func (g *Guests) read() error {
	if wholefile.LeftEmpty(g.path) {
		return fs.ErrNotExist
	}
	f, err := authored.OpenFile(g.path, os.O_RDONLY)
	if err != nil {
		return err
	}
	defer f.Close()
	return json.NewDecoder(io.LimitReader(f, mostState)).Decode(&g.state)
}

func (g *Guests) write() error {
	return wholefile.Replace(g.path, 0o600, func(w io.Writer) error { return json.NewEncoder(w).Encode(g.state) })
}

// Codes are those of the table.
func (g *Guests) Codes() Codes {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.state.Codes
}

// Why somebody does not join.
var (
	errCode = wording.NewError("that is not the code of the day; scan it again, or ask the leader")
	errAway = wording.NewError("this phone is not at the table (any more); under Give it can leave and join again, or ask the leader")
	errFull = wording.NewError("too many phones have joined; ask the leader")
)

// join gives who comes with a name and a code a token, which only they have.
func (g *Guests) join(name, code string) (guest, string, error) {
	name = strings.Join(strings.Fields(name), " ")
	g.mu.Lock()
	defer g.mu.Unlock()
	ok, leader := g.state.Codes.opens(code, g.wrong)
	switch {
	case !ok:
		g.wrong++
		return guest{}, "", errCode
	case name == "" || utf8.RuneCountInString(name) > mostName || plain.HasControl(name):
		return guest{}, "", wording.Errorf("a name has 1 to %d letters", mostName)
	case g.called(name) != nil:
		return guest{}, "", wording.Errorf("somebody called %s counts on another phone already; add a letter, or have the leader "+
			"send that phone away", name)
	case len(g.state.Guests) >= mostGuests:
		return guest{}, "", errFull
	}
	raw := make([]byte, 16)
	if _, err := io.ReadFull(g.random, raw); err != nil {
		return guest{}, "", err
	}
	token := hex.EncodeToString(raw)
	one := guest{Name: name, Key: keyOf(token), Leader: leader}
	g.state.Guests = append(g.state.Guests, one)
	if err := g.write(); err != nil {
		g.state.Guests = g.state.Guests[:len(g.state.Guests)-1]
		return guest{}, "", err
	}
	return one, token, nil
}

// lead makes the leader's phone of one that joined without her code.
func (g *Guests) lead(one guest) (guest, error) {
	g.mu.Lock()
	defer g.mu.Unlock()
	at := g.called(one.Name)
	if at == nil {
		return one, errAway
	}
	at.Leader = true
	if err := g.write(); err != nil {
		at.Leader = false
		return one, err
	}
	return *at, nil
}

// called is the phone at the table with a name.
func (g *Guests) called(name string) *guest {
	for i := range g.state.Guests {
		if one := &g.state.Guests[i]; !one.Away && plain.Fold(one.Name) == plain.Fold(name) {
			return one
		}
	}
	return nil
}

func keyOf(token string) string {
	sum := sha256.Sum256([]byte(token))
	return hex.EncodeToString(sum[:])
}

// withToken is the guest with a token.
func (g *Guests) withToken(token string) (guest, error) {
	key := keyOf(token)
	g.mu.Lock()
	defer g.mu.Unlock()
	for _, one := range g.state.Guests {
		if one.Key == key && !one.Away {
			return one, nil
		}
	}
	return guest{}, errAway
}

// sendAway takes the phone with a name from the table; what it entered stays.
func (g *Guests) sendAway(name string) error {
	g.mu.Lock()
	defer g.mu.Unlock()
	one := g.called(name)
	if one == nil {
		return wording.Errorf("nobody called %s is at the table", name)
	}
	one.Away = true
	return g.write()
}

// all are those at the table, in the order in which they came.
func (g *Guests) all() (out []guest) {
	g.mu.Lock()
	defer g.mu.Unlock()
	for _, one := range g.state.Guests {
		if !one.Away {
			out = append(out, one)
		}
	}
	return out
}
