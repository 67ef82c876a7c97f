package phone

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/key/keytest"
)

// onlyOfKeys are what the terminal says of its keys, and what the page says in its place.
var onlyOfKeys = []struct {
	terminal *regexp.Regexp
	page     string
}{
	{regexp.MustCompile(`^\s*(\S{1,2}|\S to \S|\S or \S|\S(, \S)+ or \S):\s+`), ""}, // the letter before an answer
	{regexp.MustCompile(`\[[ x]\] `), ""},
	{regexp.MustCompile(`\(s\)`), "(tap it)"},
	{regexp.MustCompile(`([Pp])ress [a-z]`), "tap it"},
	{regexp.MustCompile(`[Tt]ap "[^"]+"`), "tap it"},
	{regexp.MustCompile(` < takes (it|them) back.*`), ""},
	{regexp.MustCompile(`its number`), "one"},
	{regexp.MustCompile(`Enter leaves it open.`), "It may stay open."},
	{regexp.MustCompile(`Enter leaves it as it is.`), "It may stay as it is."},
	{regexp.MustCompile(`A letter takes one in or leaves it out; Enter notes those with an x.`),
		"Take in what you meant, leave out the rest, and note it."},
	{regexp.MustCompile(`or press Enter`), ""},
}

// notShown begin lines that tell of keys alone, or of how lines go on.
var notShown = regexp.MustCompile(`^(Answer|Send an empty line|At any question you can say|What you can answer|Noted: \d+ things|` +
	`There is nothing to draw here|the words that fit your animal|the answer that you want|how to look, and what|what you can answer|` +
	`leave without a name|A letter ticks one|all that you see, one after|what the drawings of|say what strikes you)`)

func inButtons(line string) string {
	for _, o := range onlyOfKeys {
		line = o.terminal.ReplaceAllString(line, o.page)
	}
	return strings.Join(strings.Fields(line), " ")
}

// twins walk with the page and the line-by-line twin of the terminal side by side.
type twins struct {
	t      *testing.T
	p      *Phone
	random *rand.Rand
	way    []string // what was answered

	out  strings.Builder // what the lines showed since they were asked last
	rest string          // of the line that they read
	step int             // 0 the question, 1 its help, 2 its drawings in words
	read string          // all that was on the page since the last answer
}

// Read implements io.Reader: whoever reads a line has shown all that comes before it.
func (b *twins) Read(into []byte) (int, error) {
	if b.rest == "" {
		shown := b.out.String()
		b.out.Reset()
		b.rest = b.next(shown) + "\n"
	}
	n := copy(into, b.rest)
	b.rest = b.rest[n:]
	return n, nil
}

// next holds what the lines show against the page, and is what they are told then.
func (b *twins) next(shown string) string {
	if b.step == 0 {
		b.read = ""
	}
	b.look()
	talk := b.p.talk
	words := talk.Now().Title == "What strikes you?" || talk.Now().Title == "How long is it?" || talk.Now().Confirm
	if b.step == 0 && talk.Now().Title == "What strikes you?" && strings.Contains(shown, "At any question") {
		if b.random.IntN(2) == 0 { // by its number
			b.compare(marksAlone(shown))
			return b.answer("1", "answer:1", nil)
		}
		b.p.Do("answer:<", nil)
		b.look()
		words = false
	}
	b.compare(shown)
	if b.step++; b.step < 3 && !words {
		return []string{"", "h", "v"}[b.step]
	}
	b.step = 0
	return b.anything()
}

// marksAlone is what the lines say of marks, before the question that follows.
func marksAlone(shown string) string {
	marks, _, _ := strings.Cut(shown, "\n\n")
	return marks
}

// look reads the page, and what its drawings say.
func (b *twins) look() {
	page := b.p.HTML()
	b.read += " " + textOf(page)
	for i := range b.p.talk.Now().Options {
		if f := b.p.talk.Figure(i); !f.Empty() {
			place := fmt.Sprintf("lead:%d", i)
			if !strings.Contains(page, `data-figure="`+place+`"`) || !strings.HasPrefix(b.p.Figure(place, true), "<svg") {
				b.t.Errorf("%v: answer %d has no drawing on the page", b.way, i)
			}
			b.read += " " + f.Alt
		}
	}
}

// compare wants each line on the page.
func (b *twins) compare(shown string) {
	page := inButtons(b.read)
	folded := strings.ToLower(page)
	for line := range strings.Lines(shown) {
		words := inButtons(line)
		undrawn := strings.HasPrefix(words, "There is no drawing") || strings.HasSuffix(words, "to draw it.")
		if words != "" && !undrawn && !notShown.MatchString(words) && !strings.Contains(folded, strings.ToLower(words)) {
			b.t.Fatalf("%v: the terminal says\n%s\nand the page\n%s", b.way, words, page)
		}
	}
}

func (b *twins) answer(line, do string, f FormValues) string {
	b.way = append(b.way, line)
	b.p.Do(do, f)
	if b.p.wrong {
		b.t.Fatalf("%v: %s", b.way, b.p.said)
	}
	b.step = 0
	return line
}

// said are things that people say in their own words.
var said = []string{"six legs, three tails", "ten legs, pincers", "a coiled shell", "it swims on its side", "perhaps hooks at the end"}

// anything is an answer at random.
func (b *twins) anything() string {
	a := b.p.talk.Now()
	n := b.random.IntN(10)
	switch {
	case a.Confirm && n < 7:
		return b.answer("", "confirm", nil)
	case a.Confirm:
		return b.answer("a", "answer:a", nil)
	case a.Title == "How long is it?" && n < 5:
		return b.answer("12", "hear", FormValues{"words": "12"})
	case a.Title == "How long is it?":
		return b.answer("", "answer:<", nil)
	case a.Title == "What strikes you?" && len(a.Options) > 0 && n < 5:
		return b.answer("1", "answer:1", nil)
	case a.Title == "What strikes you?":
		return b.answer("", "answer:<", nil)
	case a.Words && n == 0:
		words := said[b.random.IntN(len(said))]
		return b.answer(words, "hear", FormValues{"words": words})
	}
	also := []string{"?", "?", "<", "r", "w"}
	if len(a.Options) == 0 {
		also = []string{"r", "s"}
	}
	pick := also[b.random.IntN(len(also))]
	offered := slices.ContainsFunc(a.Also, func(k question.Also) bool { return k.Answer == pick })
	if offered && (n < 4 || len(a.Options) == 0) {
		return b.answer(pick, "answer:"+pick, nil)
	}
	if len(a.Options) == 0 {
		return b.answer("s", "answer:s", nil)
	}
	pick = a.Options[b.random.IntN(len(a.Options))].Answer
	return b.answer(pick, "answer:"+pick, nil)
}

// Whatever is answered, the page shows at each step what the terminal shows: the
// question, why it is asked, what waiting or a lens helps, the answers and their
// drawings, what is still possible, what was noted or is doubted, how to look, what
// stopping comes to, and with the name all that is told of it.
func TestThePageShowsAllThatTheTerminalShows(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	ways, steps, most := keytest.Thoroughly(50, 25), 0, 40
	m, err := kit.Model()
	if err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(50, 1))
	for range ways {
		p := begun(t, 1)
		p.Do("name", nil)
		o := key.DefaultOptions()
		o.Enough = kit.enough(p.visit.Header.Protocol)
		q, err := m.Inquire(o)
		if err != nil {
			t.Fatal(err)
		}
		b := &twins{t: t, p: p, random: random}
		ending, err := question.Lines(q, question.Destination{}, kit.Atlas, bufio.NewReader(b), &b.out, 0)
		if err != nil || ending != question.Named || p.screen != named || len(b.way) > 3*most {
			t.Fatalf("%v: %v, and the page is at %s: %v", b.way, ending, p.screen, err)
		}
		if !slices.Equal(q.Path(), p.talk.Inquiry().Path()) {
			t.Fatalf("%v: %v on the terminal, %v on the page", b.way, q.Path(), p.talk.Inquiry().Path())
		}
		var text strings.Builder
		if err := show.NewIdentified(q, q.Length()).Text(&text, unfolded); err != nil {
			t.Fatal(err)
		}
		page := textOf(p.HTML())
		for line := range strings.Lines(text.String()) {
			_, words, found := strings.Cut(strings.TrimSpace(line), "  ")
			if !found {
				words = strings.TrimSpace(line)
			}
			words = strings.Replace(words, "its family too: 'rillkey identify --far end'", `"A closer name" goes on to its family`, 1)
			if words = strings.Join(strings.Fields(words), " "); !strings.Contains(page, words) {
				t.Fatalf("%v: the terminal says\n%s\nand the page\n%s", b.way, words, page)
			}
		}
		steps += len(b.way)
	}
	t.Logf("%d ways, %d answers", ways, steps)
	if steps < 4*ways {
		t.Errorf("only %d answers on %d ways", steps, ways)
	}
}
