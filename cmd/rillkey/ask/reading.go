package ask

import (
	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// pagesOf folds paragraphs and puts them on pages of at most so many lines, each
// whole where it fits. A paragraph higher than a page goes over several.
func pagesOf(paragraphs []string, width, lines int) [][]string {
	var pages [][]string
	var page []string
	lines = max(1, lines)
	for _, p := range paragraphs {
		folded := terminal.Wrap(plain.OneLine(p), width)
		if len(page) > 0 && len(page)+len(folded) > lines {
			pages, page = append(pages, page), nil
		}
		for len(folded) > lines {
			pages, folded = append(pages, folded[:lines]), folded[lines:]
		}
		page = append(page, folded...)
	}
	return append(pages, page)
}

// pages are those of the text of a field, at the present size.
func (m *form) pages(i int) [][]string {
	return pagesOf(m.fields[i].Text, m.width, m.height-len(m.readingTitle(i))-len(m.readingKeys(i, 1, 2)))
}

func (m *form) readingTitle(i int) []string {
	if m.height < lowKeys {
		return nil
	}
	return m.fold(m.ink.Title, plain.OneLine(m.fields[i].Title))
}

// readingKeys name the page and the keys. On a low terminal only the page is
// named.
func (m *form) readingKeys(i, page, of int) []string {
	at := wording.Sprintf("Page %d of %d", page+1, of)
	if of == 1 {
		at = ""
	}
	items := []string{at, wording.Text("Enter next"), wording.Text("Esc back"), wording.Text("Ctrl-C leave")}
	if page == 0 && i == 0 {
		items = []string{at, wording.Text("Enter next"), wording.Text("Ctrl-C leave")}
	}
	if at == "" {
		items = items[1:]
	}
	switch {
	case m.height < 2:
		return nil
	case m.height < lowKeys:
		return terminal.Wrap(terminal.Cut(items[0], m.width), m.width)
	}
	return terminal.SideBySide(items, m.width)
}

// reading is the present page of a text, and how to go on.
func (m *form) reading(i int) []string {
	pages := m.pages(i)
	page := min(m.page, len(pages)-1)
	lines := append(m.readingTitle(i), pages[page]...)
	keys := m.readingKeys(i, page, len(pages))
	if len(lines)+len(keys) < m.height {
		lines = append(lines, "")
	}
	return last(append(lines, keys...), m.height)
}
