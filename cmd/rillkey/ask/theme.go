package ask

import (
	"github.com/charmbracelet/huh"
	"github.com/charmbracelet/lipgloss"

	"rillkey/cmd/rillkey/terminal"
)

// theme dresses the library's fields: no frame, no colour without a mark.
func theme(ink terminal.Styles) *huh.Theme {
	chosen := ink.Plain.Border(lipgloss.Border{Left: "[", Right: "]"}, false, true, false, true).MarginRight(1)
	other := ink.Plain.Padding(0, 1).MarginRight(1)
	field := huh.FieldStyles{
		Base:             ink.Plain,
		SelectSelector:   ink.Mark.SetString(cursor),
		SelectedOption:   ink.Title,
		UnselectedOption: ink.Plain,
		Option:           ink.Plain,
		FocusedButton:    chosen.Bold(true),
		BlurredButton:    other,
		ErrorIndicator:   ink.Plain,
		TextInput: huh.TextInputStyles{
			Cursor: ink.Cursor, CursorText: ink.Plain, Placeholder: ink.Plain, Prompt: ink.Mark, Text: ink.Plain,
		},
	}
	t := huh.ThemeBase()
	t.Focused, t.Blurred = field, field
	t.Form.Base, t.Group.Base = ink.Plain, ink.Plain
	return t
}
