package question

import (
	"fmt"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/taxa/wording"
)

// Drawings gives the atlas that questions are drawn from. It is called when a
// figure is first wanted; a nil function, or a nil atlas, draws nothing.
type Drawings func() *figure.Atlas

// gallery holds the figures of one question at a time, and what was drawn of
// them: a screen is painted at every key, and drawing takes longer than that.
type gallery struct {
	drawings Drawings
	question string // the question that figures are of
	figures  []figure.Figure
	drawn    map[sheet][]string
}

// sheet is a figure and the cells that it is drawn on.
type sheet struct{ number, cols, rows int }

// figuresNow are the figures of what can be chosen at present, in the order of
// the choices; none where nothing can be drawn.
func (s *sitting) figuresNow() []figure.Figure {
	if s.gallery.drawings == nil {
		return nil
	}
	if s.stage == striking || s.stage == hearing {
		return s.figuresSaid()
	}
	if s.stage != asking && s.stage != anew {
		return nil
	}
	q := s.question()
	of := wording.Sprintf("trait %s: %s", q.ID(), strings.Join(q.States(), ","))
	if q.Couplet != nil {
		of = wording.Sprintf("couplet %s", q.ID())
	}
	g := &s.gallery
	if g.question == of {
		return g.figures
	}
	g.question, g.figures, g.drawn = of, nil, map[sheet][]string{}
	atlas := g.drawings()
	switch {
	case atlas == nil:
	case q.Couplet != nil:
		g.figures = seen(atlas.Leads(q.Couplet))
	default:
		all, states := atlas.States(q.Trait), q.States()
		shown := make([]figure.Figure, min(len(states), len(letters)))
		for i := range shown {
			shown[i] = all[q.Trait.State(states[i])]
		}
		g.figures = seen(shown)
	}
	return g.figures
}

// figuresSaid are the figures of the marks, or of what was understood.
func (s *sitting) figuresSaid() []figure.Figure {
	all := s.shownNow()
	of := fmt.Sprint("said ", s.stage)
	for _, one := range all {
		of += " " + one.Trait.ID + "=" + strings.Join(one.States, "+")
	}
	if g := &s.gallery; g.question != of {
		g.question, g.figures, g.drawn = of, nil, map[sheet][]string{}
		if atlas := g.drawings(); atlas != nil {
			g.figures = seen(saidFigures(atlas, all))
		}
	}
	return s.gallery.figures
}

// seen are the figures, or none if there is nothing to be seen in any.
func seen(all []figure.Figure) []figure.Figure {
	for _, f := range all {
		if !f.Empty() {
			return all
		}
	}
	return nil
}

// braille draws a figure on so many cells. Blank cells are blanks: some fonts
// show the braille character without dots as eight hollow ones.
func (g *gallery) braille(number, cols, rows int) []string {
	at := sheet{number, cols, rows}
	if lines, ok := g.drawn[at]; ok {
		return lines
	}
	lines := make([]string, rows)
	if f := g.figures[number]; !f.Empty() {
		lines = f.Terminal(cols, rows)
	}
	g.drawn[at] = lines
	return lines
}
