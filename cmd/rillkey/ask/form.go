package ask

import (
	"io"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/huh"
	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/terminal"
)

// Screen asks the fields on a terminal, one after the other, below what is on it
// already; Esc and Shift-Tab go back. The first letter typed takes the place of
// a text that stands in a field, keys that edit keep it. What the questions are
// about stays in view above each; it may be empty. in and out must be
// terminals that can move a cursor; the caller has seen to that. Ctrl-C, SIGTERM
// and the end of in give [ErrLeft]. The terminal is given back as it was in every
// case.
func Screen(about string, fields []Field, in io.Reader, out io.Writer, look terminal.Appearance) (Answers, error) {
	if len(fields) == 0 {
		return Answers{}, nil
	}
	m := newForm(fields, look.Ink(out))
	m.opening = about
	if _, err := terminal.Run(m, in, out); err != nil {
		return nil, err
	}
	// Neither a signal nor the library's abort is an error here, so that only
	// completion counts.
	switch {
	case m.goesBack:
		return nil, ErrBefore
	case m.instead != nil:
		return m.instead, nil
	}
	if m.form.State != huh.StateCompleted {
		return nil, ErrLeft
	}
	return m.answers(), nil
}

// form is a form of one field to a page. The library shows the field alone;
// the words around it are set here, because the library loses them where the
// terminal is low.
type form struct {
	opening       string
	fields        []Field
	texts         []string     // bound to the text fields and choices
	yeses         []bool       // bound to the yes-or-no fields
	inputs        []*huh.Input // nil beside a field that is no line of text
	form          *huh.Form
	width, height int
	ink           terminal.Styles
	began         bool    // something was typed in the present field, or its text edited
	instead       Answers // what ended the asking, or nil
	goesBack      bool    // the person goes back from the first field
	page          int     // of the present field's text to read
	// goingBack lets a field be left unanswered: the library would hold the
	// person there.
	goingBack bool
}

func newForm(fields []Field, ink terminal.Styles) *form {
	n := len(fields)
	m := &form{fields: fields, texts: make([]string, n), yeses: make([]bool, n), inputs: make([]*huh.Input, n), ink: ink}
	groups := make([]*huh.Group, n)
	for i := range fields {
		groups[i] = huh.NewGroup(m.field(i))
	}
	m.form = huh.NewForm(groups...).WithTheme(theme(ink)).WithShowHelp(false).WithShowErrors(false).WithHeight(boundless)
	m.form.SubmitCmd, m.form.CancelCmd = tea.Quit, tea.Quit
	return m
}

// field is the library's field for a field.
func (m *form) field(i int) huh.Field {
	f := m.fields[i]
	m.texts[i], m.yeses[i] = f.standing(), f.standing() == yes
	check := func(s string) error { return m.check(f, s) }
	switch {
	case f.Confirm || len(f.Text) > 0:
		return huh.NewConfirm().Key(f.Key).Value(&m.yeses[i]).WithButtonAlignment(0).
			Validate(func(b bool) error { return check(word(b)) })
	case len(f.Options) > 0:
		options := make([]huh.Option[string], len(f.Options))
		for j, o := range f.Options {
			options[j] = huh.NewOption(o.label(), o.Value)
		}
		return huh.NewSelect[string]().Key(f.Key).Options(options...).Value(&m.texts[i]).Validate(check)
	}
	m.inputs[i] = huh.NewInput().Key(f.Key).Prompt(cursor).Value(&m.texts[i]).Validate(check)
	return m.inputs[i]
}

// check refuses an answer that is to stay.
func (m *form) check(f Field, answer string) error {
	if m.goingBack {
		return nil
	}
	return f.check(f.meant(answer))
}

func word(b bool) string {
	if b {
		return yes
	}
	return no
}

func (m *form) answers() Answers {
	a := Answers{}
	for i, f := range m.fields {
		if len(f.Text) == 0 {
			a[f.Key] = m.answer(i)
		}
	}
	return a
}

func (m *form) answer(i int) string {
	if m.fields[i].Confirm {
		return word(m.yeses[i])
	}
	return m.fields[i].meant(m.texts[i])
}

// Init implements tea.Model.
func (m *form) Init() tea.Cmd { return m.form.Init() }

// Update implements tea.Model. The library is told of a terminal without end,
// and what it draws is cut to the real one in View.
func (m *form) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch seen := msg.(type) {
	case tea.KeyMsg:
		return m, m.take(seen)
	case tea.WindowSizeMsg:
		m.width, m.height = seen.Width, seen.Height
		if m.width <= 0 || m.height <= 0 {
			m.width, m.height = 80, 24
		}
		msg = tea.WindowSizeMsg{Width: max(m.width, least), Height: boundless}
	}
	return m, m.pass(msg)
}

// pass gives a message to the library.
func (m *form) pass(msg tea.Msg) tea.Cmd {
	_, cmd := m.form.Update(msg)
	return cmd
}

const (
	least     = 8   // columns that the library needs
	boundless = 200 // lines that no field fills
	cursor    = "> "
)

// position is the index of the field that is asked.
func (m *form) position() int {
	key := m.form.GetFocusedField().GetKey()
	for i, f := range m.fields {
		if f.Key == key {
			return i
		}
	}
	return 0
}

// drawn is the field as the library draws it, and the line that the person is
// at.
func (m *form) drawn() (lines []string, at int) {
	lines = strings.Split(strings.TrimRight(m.form.View(), " \n"), "\n")
	for len(lines) > 1 && strings.TrimSpace(ansi.Strip(lines[0])) == "" {
		lines = lines[1:]
	}
	for i, l := range lines {
		lines[i] = terminal.Cut(l, m.width)
		if strings.HasPrefix(ansi.Strip(l), strings.TrimSpace(cursor)) {
			at = i
		}
	}
	return lines, at
}
