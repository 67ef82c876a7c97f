package main

import (
	"context"
	"io"
	"slices"
	"strings"
	"time"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// boardEvery is how often a screen shows the board anew, and turnEvery after how many of
// these it turns to the next page of one that it has no room for.
const (
	boardEvery = 3 * time.Second
	turnEvery  = 3
)

// watchBoard prints how a visit stands that was read just now; on a screen it reads and
// prints it again and again.
func watchBoard(a *app, v *visit.Visit) error {
	if !a.onScreen() {
		b, err := boardOf(a, v)
		switch {
		case err != nil:
			return err
		case a.json:
			return show.JSON(a.out, b)
		}
		return b.Text(a.out, a.width)
	}
	ctx, stop := a.leaving.untilSignal()
	defer stop()
	for round := 0; ; round++ {
		b, err := boardOf(a, v)
		if err != nil {
			return err
		}
		if err := turnTo(a, b, round/turnEvery); err != nil {
			return err
		}
		if !waited(ctx, boardEvery) {
			return nil
		}
		if v, err = visit.Read(v.File); err != nil {
			return err
		}
	}
}

// waited waits, and reports whether nobody ended it meanwhile.
func waited(ctx context.Context, long time.Duration) bool {
	select {
	case <-ctx.Done():
		return false
	case <-time.After(long):
		return true
	}
}

func boardOf(a *app, v *visit.Visit) (*show.Board, error) {
	catalog, rules, err := a.catalogAndRules()
	if err != nil {
		return nil, err
	}
	return show.NewBoard(rules, catalog, v, a.now()), nil
}

// turnTo shows a page of the board on a cleared screen, with which of how many it is
// where there are several.
func turnTo(a *app, b *show.Board, turn int) error {
	var text strings.Builder
	if err := b.Text(&text, a.width); err != nil {
		return err
	}
	pages := boardPages(strings.TrimRight(text.String(), "\n"), a.height)
	at := turn % len(pages)
	shown := pages[at]
	if len(pages) > 1 {
		shown += "\n" + wording.Sprintf("Page %d of %d", at+1, len(pages))
	}
	_, err := io.WriteString(a.out, "\x1b[2J\x1b[H"+shown)
	return err
}

// boardPages are the lines of a board as pages for a screen of so many lines, each with
// whole parts where they fit; a last line is left for which page it is.
func boardPages(text string, height int) (pages []string) {
	lines := strings.Split(text, "\n")
	room := max(1, height-1)
	if height == 0 || len(lines) <= height {
		return []string{text}
	}
	for len(lines) > 0 {
		n := min(room, len(lines))
		if n < len(lines) && lines[n] != "" {
			if blank := lastBlank(lines[:n]); blank > 0 {
				n = blank
			}
		}
		pages = append(pages, strings.Join(lines[:n], "\n"))
		lines = lines[n:]
		for len(lines) > 0 && lines[0] == "" {
			lines = lines[1:]
		}
	}
	return pages
}

func lastBlank(lines []string) int {
	for i, line := range slices.Backward(lines) {
		if line == "" {
			return i
		}
	}
	return -1
}
