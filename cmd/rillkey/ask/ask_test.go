package ask

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"maps"
	"reflect"
	"runtime"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/huh"
	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// visit is invented: one field of every sort.
func visit() []Field {
	return []Field{
		{Key: "site", Title: "Site", Help: "The name your group uses, and which stretch of the stream: above the bridge, below " +
			"the mill, at the ford.", Default: "Otter Run"},
		{Key: "protocol", Title: "Protocol", Options: []Option{
			{"kick", "Seven kicks in riffles with a net two feet wide"},
			{"jab", "Twenty jabs over all the places where animals live, sorted on the bank by everybody"},
			{"free", ""},
		}},
		{Key: "count", Title: "How many", Check: func(s string) error {
			if s != "3" {
				return fmt.Errorf("%q is not three", s)
			}
			return nil
		}},
		{Key: "cell", Title: "Tray cell", Optional: true},
		{Key: "read", Title: "Has everybody heard the cautions?", Confirm: true, Check: func(s string) error {
			if s == no {
				return errors.New("read them first")
			}
			return nil
		}},
	}
}

func typed(fields []Field, lines string) (Answers, string, error) {
	var out bytes.Buffer
	a, err := Lines("", fields, bufio.NewReader(strings.NewReader(lines)), &out, TerminalSize{})
	return a, out.String(), err
}

var all = Answers{"site": "Otter Run", "protocol": "kick", "count": "3", "cell": "", "read": yes}

// changed is all with some answers changed.
func changed(changes ...string) Answers {
	a := maps.Clone(all)
	for i := 0; i < len(changes); i += 2 {
		a[changes[i]] = changes[i+1]
	}
	return a
}

func TestLines(t *testing.T) {
	for _, row := range []struct {
		why, lines string
		want       Answers
		says       string
	}{
		{"defaults, a number, nothing", "\n1\n3\n\ny\n", all, "1 of 5: Site\n"},
		{"a text of one's own", "Mill Brook, ford\n1\n3\n\ny\n", changed("site", "Mill Brook, ford"), "  Enter alone: Otter Run\n"},
		{"a choice by its name", "\nFREE\n3\n\ny\n", changed("protocol", "free"), "  3: free\n"},
		{"a choice by its id", "\njab\n3\n\ny\n", changed("protocol", "jab"), "  1: Seven kicks in riffles"},
		{"a choice by how it begins", "\ntwenty\n3\n\ny\n", changed("protocol", "jab"), "2 of 5: Protocol"},
		{"no such number", "\n4\n1\n3\n\ny\n", all, "Answer with a number from 1 to 3, or with the name beside it.\n"},
		{"a choice without a default needs an answer", "\n\n1\n3\n\ny\n", all, "An answer is needed here.\n"},
		{"a refused answer, and the question again", "\n1\n4\n3\n\ny\n", all, "\"4\" is not three.\n3 of 5: How many\n"},
		{"an optional text", "\n1\n3\nB4\ny\n", changed("cell", "B4"), "  Enter alone: nothing\n"},
		{"nothing, said in so many words", "\n1\n3\n-\ny\n", all, "Tray cell"},
		{"yes or no, nothing else", "\n1\n3\n\nmaybe\nYES\n", all, "Answer y or n.\n"},
		{"a no that is refused", "\n1\n3\n\nn\ny\n", all, "Read them first.\n"},
		{"no is what stands", "\n1\n3\n\n\ny\n", all, "  Enter alone: no\n"},
		{"back by one, with what was answered standing", "\n2\n<\n\n3\n\ny\n", changed("protocol", "jab"), "  Enter alone: Twenty jabs"},
		{"back from the first stays there", "<\nFord\n1\n3\n\ny\n", changed("site", "Ford"), "1 of 5: Site"},
		{"escape sequences", "\x1b[2J\n\n1\n3\n\ny\n", all, "That line holds keys or bytes that are not text.\n"},
		{"a text over 200 characters", strings.Repeat("ä", 201) + "\n\n1\n3\n\ny\n", nil, "That line is too long to be an answer.\n"},
		{"a text over 200 letters", strings.Repeat("a", 201) + "\n\n1\n3\n\ny\n", all, "At most 200 characters fit here.\n"},
	} {
		t.Run(row.why, func(t *testing.T) {
			got, out, err := typed(visit(), row.lines)
			if row.want == nil {
				row.want = all
			}
			if err != nil || !maps.Equal(got, row.want) {
				t.Errorf("%v, %v; want %v", got, err, row.want)
			}
			if !strings.Contains(out, row.says) {
				t.Errorf("%q is not in\n%s", row.says, out)
			}
		})
	}
}

func TestNoneInPlaceOfADefault(t *testing.T) {
	a, _, err := typed([]Field{{Key: "who", Title: "Who", Default: "Ada", Optional: true}}, "-\n")
	if err != nil || a["who"] != "" {
		t.Error(a, err)
	}
}

// Input cut at any byte gives no answers, and says at which field.
func TestInputCutAnywhere(t *testing.T) {
	const lines = "Ford\n1\n4\n3\nB4\nn\ny\n"
	for n := range len(lines) {
		a, _, err := typed(visit(), lines[:n])
		if a != nil || !errors.Is(err, io.ErrUnexpectedEOF) {
			t.Fatalf("cut at %d: %v, %v", n, a, err)
		}
	}
	_, _, err := typed(visit(), "Ford\n1\n")
	if want := `no answer could be read to "How many"; nothing was kept: the input ended`; err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
}

func TestAnInputThatNeverAnswersComesToAnEnd(t *testing.T) {
	_, out, err := typed(visit()[1:], strings.Repeat("what\n", 10000))
	if err == nil || !strings.Contains(err.Error(), `no answer to "Protocol"`) || len(out) > 100_000 {
		t.Errorf("%v, %d bytes", err, len(out))
	}
}

func FuzzLines(f *testing.F) {
	f.Add("\n1\n3\n\ny\n")
	f.Add("<\n<\n-\n\x1b\n\xff\n")
	f.Fuzz(func(t *testing.T, lines string) {
		a, out, err := typed(visit(), lines)
		if (a == nil) == (err == nil) {
			t.Fatal(a, err)
		}
		for _, l := range strings.Split(out, "\n") {
			if plain.HasControl(l) {
				t.Fatalf("%q", l)
			}
		}
		for _, field := range visit() {
			if err == nil && field.check(a[field.Key]) != nil {
				t.Fatalf("%s: %q was taken", field.Key, a[field.Key])
			}
		}
	})
}

// opened is the form at a size.
func opened(fields []Field, width, height int) *form {
	m := newForm(fields, terminal.Bare())
	follow(m, m.Init())
	send(m, tea.WindowSizeMsg{Width: width, Height: height})
	return m
}

func send(m *form, msg tea.Msg) {
	_, cmd := m.Update(msg)
	follow(m, cmd)
}

// follow does what a command asks, and what follows from it. Those of the cursor,
// which blinks, would wait for it and are left alone.
func follow(m *form, cmd tea.Cmd) {
	if cmd == nil || strings.Contains(runtime.FuncForPC(reflect.ValueOf(cmd).Pointer()).Name(), "/cursor.") {
		return
	}
	msg := cmd()
	if v := reflect.ValueOf(msg); v.Kind() == reflect.Slice && v.Type().Elem() == reflect.TypeFor[tea.Cmd]() {
		for i := range v.Len() {
			follow(m, v.Index(i).Interface().(tea.Cmd))
		}
		return
	}
	if msg != nil && reflect.TypeOf(msg) != reflect.TypeOf(tea.Quit()) {
		send(m, msg)
	}
}

var namedKeys = map[string]tea.KeyType{
	"enter": tea.KeyEnter, "up": tea.KeyUp, "down": tea.KeyDown, "back": tea.KeyShiftTab,
	"erase": tea.KeyCtrlU, "ctrl+c": tea.KeyCtrlC, "end": tea.KeyEnd, "rub": tea.KeyBackspace, "esc": tea.KeyEsc,
}

func press(m *form, keys string) {
	for _, k := range strings.Fields(keys) {
		if typ, ok := namedKeys[k]; ok {
			send(m, tea.KeyMsg{Type: typ})
			continue
		}
		send(m, tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(k)})
	}
}

func TestForm(t *testing.T) {
	for _, row := range []struct {
		why, keys string
		shows     string
		want      Answers // of a form that is complete
	}{
		{"the first field stands on its default", "", "> Otter Run", nil},
		{"the whole way", "enter enter 3 enter enter y", "", all},
		{"a text of one's own", "erase Ford enter enter 3 enter enter y", "", changed("site", "Ford")},
		{"what was answered stays in view", "erase Ford enter", "Site: Ford", nil},
		{"a choice further down", "enter down enter 3 enter enter y", "", changed("protocol", "jab")},
		{"a choice is shown by its words", "enter down enter", "Protocol: Twenty jabs", nil},
		{"a needed text may not be erased", "erase enter", "! An answer is needed here.", nil},
		{"a refused answer", "enter enter 4 enter", `! "4" is not three.`, nil},
		{"what is typed replaces what was refused", "enter enter 4 enter 3", "> 3\n", nil},
		{"and is taken", "enter enter 4 enter 3 enter", "How many: 3", nil},
		{"a key that edits keeps what was refused", "enter enter 34 enter rub enter", "How many: 3", nil},
		{"a refused no", "enter enter 3 enter enter n", "! Read them first.", nil},
		{"no stands first, by a mark", "enter enter 3 enter enter", "[No]", nil},
		{"back by one, with what was answered", "erase Ford enter enter back back", "> Ford", nil},
		{"what is typed replaces what stands there", "Ford", "> Ford", nil},
		{"letter by letter too", "F ord enter", "Site: Ford", nil},
		{"a key that edits keeps it", "rub rub rub way enter", "Site: Otter way", nil},
		{"a key that moves keeps it", "end s enter", "Site: Otter Runs", nil},
		{"what was answered before is replaced as well", "Ford enter back Mill enter", "Site: Mill", nil},
		{"Esc is back", "Ford enter esc", "> Ford", nil},
		{"and goes no further than the first", "esc esc", "> Otter Run", nil},
		{"Esc ends a search first", "enter / free esc", "2 of 5: Protocol", nil},
		{"Esc leaves a field with a wrong answer", "enter enter 4 enter esc", "2 of 5: Protocol", nil},
		{"Ctrl-C gives nothing", "enter ctrl+c", "", nil},
	} {
		t.Run(row.why, func(t *testing.T) {
			m := opened(visit(), 80, 24)
			press(m, row.keys)
			if (m.form.State == huh.StateCompleted) != (row.want != nil) {
				t.Fatalf("state %v\n%s", m.form.State, m.View())
			}
			if row.want != nil && !maps.Equal(m.answers(), row.want) {
				t.Errorf("%v, want %v", m.answers(), row.want)
			}
			if !strings.Contains(ansi.Strip(m.View()), row.shows) {
				t.Errorf("%q is not in\n%s", row.shows, m.View())
			}
		})
	}
}

// The same answers, typed into the form and line by line, are the same.
func TestFormAndLinesAreTwins(t *testing.T) {
	for _, row := range []struct{ keys, lines string }{
		{"enter enter 3 enter enter y", "\n1\n3\n\ny\n"},
		{"erase Ford enter down down enter 3 enter B4 enter y", "Ford\n3\n3\nB4\ny\n"},
		{"enter enter 12 enter erase 3 enter enter n y", "\n1\n12\n3\n\nn\ny\n"},
		{"enter enter 12 enter 4 enter 3 enter enter n y", "\n1\n12\n4\n3\n\nn\ny\n"},
		{"Ford enter enter 4 enter rub 3 enter enter y", "Ford\n\n1\n4\n3\n\ny\n"},
		{"enter down enter back back erase Mill enter enter 3 enter enter y", "\n2\n<\n<\nMill\n\n3\n\ny\n"},
	} {
		m := opened(visit(), 80, 24)
		press(m, row.keys)
		got, _, err := typed(visit(), row.lines)
		if err != nil || m.form.State != huh.StateCompleted || !maps.Equal(got, m.answers()) {
			t.Errorf("%q: %v, %v, %v", row.keys, err, got, m.answers())
		}
	}
}

// At every size nothing is wider or higher than the terminal, and what is asked
// for is in view wherever there is a line for it.
func TestTheFormFits(t *testing.T) {
	for _, size := range []struct{ width, height int }{{80, 24}, {40, 20}, {40, 12}, {30, 8}, {20, 5}, {10, 3}, {1, 1}, {3, 40}, {0, 0}} {
		m := opened(visit(), size.width, size.height)
		for _, keys := range []string{"", "enter", "down", "enter", "4", "enter", "erase 3", "enter", "enter", "n"} {
			press(m, keys)
			width, height := size.width, size.height
			if width == 0 {
				width, height = 80, 24
			}
			lines := strings.Split(m.View(), "\n")
			if len(lines) > height {
				t.Errorf("%d lines on %v:\n%s", len(lines), size, m.View())
			}
			if height >= lowKeys && width >= 10 && !strings.Contains(m.View(), "Enter ") {
				t.Errorf("%v: no key is named:\n%s", size, m.View())
			}
			for _, l := range lines {
				if ansi.StringWidth(l) > width {
					t.Errorf("%q is wider than %v", l, size)
				}
			}
			if f := m.fields[m.position()]; !f.Confirm && height >= 3 && !strings.Contains(ansi.Strip(m.View()), ">") {
				t.Errorf("%v: the place to type is not to be seen:\n%s", size, m.View())
			}
		}
	}
}

func TestAtFortyByTwentyEverythingIsInView(t *testing.T) {
	m := opened(visit(), 40, 20)
	for i, f := range m.fields {
		seen := strings.Join(strings.Fields(ansi.Strip(m.View())), " ")
		for _, text := range append([]string{f.Title, f.Help, "Ctrl-C leave"}, labels(f)...) {
			if !strings.Contains(seen, strings.Join(strings.Fields(text), " ")) {
				t.Errorf("field %d: %q is not in\n%s", i, text, m.View())
			}
		}
		press(m, []string{"enter", "enter", "3 enter", "enter", ""}[i])
	}
}

func labels(f Field) []string {
	var out []string
	for _, o := range f.Options {
		out = append(out, o.label())
	}
	return out
}

func TestHostileWordsReachNoTerminal(t *testing.T) {
	const evil = "\x1b]0;owned\a\x1b[2J\u202egnp\r\n"
	fields := []Field{{Key: "a", Title: evil, Help: evil, Options: []Option{{"x", evil}, {evil, ""}},
		Check: func(string) error { return errors.New(evil) }}}
	m := newForm(fields, terminal.Bare())
	follow(m, m.Init())
	send(m, tea.WindowSizeMsg{Width: 60, Height: 20})
	press(m, "enter")
	_, out, err := typed(fields, "1\n")
	for _, s := range []string{m.View(), out, err.Error()} {
		if strings.ContainsAny(s, "\x1b\a\r\u202e") {
			t.Errorf("%q", s)
		}
	}
}

func TestASingleFieldIsNotCounted(t *testing.T) {
	fields := visit()[4:]
	_, out, _ := typed(fields, "y\n")
	for _, shown := range []string{out, strings.TrimSpace(opened(fields, 80, 24).View())} {
		if !strings.HasPrefix(shown, "Has everybody heard the cautions?\n") {
			t.Errorf("\n%s", shown)
		}
	}
}

// tray is invented: a default, and names that are offered.
func tray() []Field {
	return []Field{
		{Key: "count", Title: "How many?", Default: "1"},
		{Key: "who", Title: "Who looked?", Default: "Oona", Offers: []string{"Oona", "Mags", "Bo Lind"}, Optional: true},
	}
}

// A typed value takes the place of the default, on the screen and line by line,
// and an offer is taken by its number or its name.
func TestTypingReplacesAndNamesAreOffered(t *testing.T) {
	for _, row := range []struct{ keys, lines, count, who string }{
		{"7 enter enter", "7\n\n", "7", "Oona"},
		{"enter Mags enter", "\nMags\n", "1", "Mags"},
		{"12 enter 3 enter", "12\n3\n", "12", "Bo Lind"},
		{"enter mags enter", "\nmags\n", "1", "Mags"},
		{"enter Sten enter", "\nSten\n", "1", "Sten"},
		{"enter 4 enter", "\n4\n", "1", "4"},
		{"enter erase enter", "\n-\n", "1", ""},
	} {
		m := opened(tray(), 80, 24)
		press(m, row.keys)
		got, out, err := typed(tray(), row.lines)
		want := Answers{"count": row.count, "who": row.who}
		if err != nil || !maps.Equal(got, want) || !maps.Equal(m.answers(), want) {
			t.Errorf("%q: %v, %v, %v", row.keys, err, got, m.answers())
		}
		if !strings.Contains(out, "  3: Bo Lind\n") {
			t.Errorf("no offer in\n%s", out)
		}
	}
	m := opened(tray(), 80, 24)
	press(m, "enter")
	if v := ansi.Strip(m.View()); !strings.Contains(v, "1 Oona   2 Mags   3 Bo Lind") {
		t.Errorf("no offer in\n%s", v)
	}
}

// rules is invented: a text longer than a page, and a question about it.
func rules() []Field {
	var text []string
	for i := range 20 {
		text = append(text, fmt.Sprintf("%d. %s", i+1, strings.Repeat("Mind the stones at the ford. ", 1+i%4)))
	}
	return []Field{{Key: "text", Title: "Before you go", Text: text}, {Key: "read", Title: "Were these read?", Confirm: true}}
}

// On every size of terminal each word of a text comes by, page by page, and the
// question after it.
func TestNoPageIsSkipped(t *testing.T) {
	var want string
	for _, p := range rules()[0].Text {
		want += " " + p
	}
	want = strings.Join(strings.Fields(want), " ")
	for _, size := range []TerminalSize{{80, 24}, {40, 20}, {30, 7}, {10, 3}} {
		m := opened(rules(), size.Width, size.Height)
		var seen []string
		pages := len(m.pages(0))
		for range pages {
			lines := strings.Split(ansi.Strip(m.View()), "\n")
			if len(lines) > size.Height {
				t.Fatalf("%d lines on %v", len(lines), size)
			}
			page := strings.Join(m.pages(0)[m.page], " ")
			if !strings.Contains(squeeze(strings.Join(lines, " ")), squeeze(page)) {
				t.Errorf("%v: not the whole page is shown:\n%s", size, m.View())
			}
			seen = append(seen, page)
			press(m, "enter")
		}
		if squeeze(strings.Join(seen, " ")) != squeeze(want) {
			t.Errorf("%v: %d pages show %q", size, pages, seen)
		}
		if m.position() != 1 || size.Height == 24 && pages < 2 {
			t.Errorf("%v: after %d pages comes\n%s", size, pages, m.View())
		}
		press(m, "esc")
		if m.position() != 0 || m.page != pages-1 {
			t.Errorf("%v: Esc goes back to page %d of %d", size, m.page+1, pages)
		}
		press(m, "enter y")
		if !m.answers().Yes("read") || len(m.answers()) != 1 {
			t.Errorf("%v: %v", size, m.answers())
		}
	}
}

func squeeze(s string) string { return strings.Join(strings.Fields(s), "") }

// Line by line a text stops where the screen is full; into a pipe it does not.
func TestATextStopsWhereTheScreenIsFull(t *testing.T) {
	for _, size := range []TerminalSize{{80, 24}, {40, 20}} {
		var out bytes.Buffer
		pages := len(pagesOf(append([]string{"Before you go"}, rules()[0].Text...), size.Width, size.Height-2))
		a, err := Lines("", rules(), bufio.NewReader(strings.NewReader("\n\x1b\n"+strings.Repeat("\n", pages)+"y\n")), &out, size)
		if err != nil || !a.Yes("read") || pages < 2 {
			t.Errorf("%v: %v, %v of %d pages\n%s", size, a, err, pages, out.String())
		}
		for i, part := range strings.SplitAfter(out.String(), "Enter goes on.\n") {
			if n := strings.Count(part, "\n"); n >= size.Height && !strings.Contains(part, "Were these read?") {
				t.Errorf("%v: %d lines at once before stop %d", size, n, i+1)
			}
		}
		for i := range 20 {
			if !strings.Contains(out.String(), fmt.Sprintf("\n%d. Mind", i+1)) {
				t.Errorf("%v: paragraph %d is missing", size, i+1)
			}
		}
	}
	if a, out, err := typed(rules(), "y\n"); err != nil || !a.Yes("read") || strings.Contains(out, "Enter goes on") {
		t.Errorf("%v, %v\n%s", a, err, out)
	}
}

// A letter that leads elsewhere ends the asking, in a form and line by line, and is
// no letter once a text is begun.
func TestALetterInsteadOfAnAnswer(t *testing.T) {
	elsewhere := []Option{{"d", "what does it do?"}, {"r", "look again"}}
	fields := []Field{{Key: "length", Title: "Length", Optional: true, Instead: elsewhere},
		{Key: "add", Title: "Add?", Confirm: true, Instead: elsewhere}}
	for _, row := range []struct {
		why, lines string
		want       Answers
	}{
		{"at once", "r\n", Answers{"length": "r"}},
		{"a capital is the same", "R\n", Answers{"length": "r"}},
		{"another letter", "d\n", Answers{"length": "d"}},
		{"at a later field", "12\nr\n", Answers{"add": "r"}},
		{"not in a text", "12r\ny\n", Answers{"length": "12r", "add": yes}},
	} {
		got, out, err := typed(fields, row.lines)
		if err != nil || !maps.Equal(got, row.want) || !strings.Contains(out, "  r: look again\n") {
			t.Errorf("%s: %v, %v\n%s", row.why, got, err, out)
		}
	}
	for keys, want := range map[string]Answers{"r": {"length": "r"}, "1 2 enter r": {"add": "r"}, "1 r enter y": nil} {
		m := newForm(fields, terminal.Bare())
		m.Init()
		for _, k := range strings.Fields(keys) {
			msg := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(k)}
			if k == "enter" {
				msg = tea.KeyMsg{Type: tea.KeyEnter}
			}
			m.Update(msg)
		}
		if !maps.Equal(m.instead, want) {
			t.Errorf("%s: %v", keys, m.instead)
		}
	}
}

// Yes and no are answered with the first letters of the language in use and of English, in a
// form and line by line.
func TestYesAndNoHaveTheLettersOfTheLanguage(t *testing.T) {
	wording.Use(&wording.Translation{Language: "de", Say: map[string]string{"yes": "ja", "no": "nein"}})
	defer wording.Use(nil)
	fields := []Field{{Key: "add", Title: "Add?", Confirm: true}}
	for key, want := range map[string]string{"j": yes, "J": yes, "y": yes, "n": no, "N": no} {
		if got, out, err := typed(fields, key+"\n"); err != nil || got["add"] != want {
			t.Errorf("%s: %v, %v\n%s", key, got, err, out)
		}
		m := newForm(fields, terminal.Bare())
		m.Init()
		m.yeses[0] = want == no
		m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(key)})
		if got := m.answer(0); got != want {
			t.Errorf("%s in a form: %q", key, got)
		}
	}
}
