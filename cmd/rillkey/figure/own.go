package figure

import (
	"rillkey/cmd/rillkey/figure/draw"
	"rillkey/taxa"
	"rillkey/taxa/lineart"
	"rillkey/taxa/wording"
)

// own is the figure with an author's drawing in it: in the program's own lines, one
// unit wide, so that it looks like the others. A drawing without strokes leaves it
// empty.
func (f Figure) own(d *taxa.Drawing) Figure {
	c := &draw.Canvas{}
	for _, s := range d.Strokes {
		points := make([]pt, len(s.Points))
		for i, p := range s.Points {
			points[i] = pt{X: p.X, Y: p.Y}
		}
		fill := lineart.Open
		if s.Closed || s.Bare {
			fill = s.Fill
		}
		c.Shapes = append(c.Shapes, draw.Shape{Points: points, Closed: s.Closed || s.Bare, Fill: fill, Bare: s.Bare})
	}
	if len(c.Shapes) == 0 {
		f.Alt = wording.Sprintf("There is no drawing of %s.", f.Title)
		return f
	}
	unit := &draw.Canvas{}
	unit.Place(c, draw.Fit(c.Box(), draw.NewBox(0, 0, 1, 1)))
	f.panels = []panel{{canvas: unit, frame: unit.Box()}}
	f.Alt = wording.Sprintf("Drawing of %s.", f.Title)
	if f.Length.Known() {
		f.Alt += wording.Sprintf(" Length %s.", lengthWords(f.Length))
	}
	return f
}
