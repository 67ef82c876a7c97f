package chart

import (
	"fmt"
	"math"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Gathered is how many kinds were found against how many samples were taken,
// and how many more samples would likely hold.
type Gathered struct {
	Title string
	Taken []Step // in 1, 2, … of the samples taken, on average
	Ahead []Step // in more samples
}

// Step is a number of kinds in a number of samples, with its interval of 95 %.
type Step struct {
	Samples          int
	Kinds, Low, High float64
}

func (c Gathered) last() (taken, ahead Step) {
	if n := len(c.Taken); n > 0 {
		taken = c.Taken[n-1]
	}
	if n := len(c.Ahead); n > 0 {
		ahead = c.Ahead[n-1]
	}
	return taken, ahead
}

func (c Gathered) steps() []Step { return append(append([]Step{}, c.Taken...), c.Ahead...) }

func (s Step) text() string {
	return wording.Sprintf("%s (%s to %s)", number(s.Kinds, 1), number(s.Low, 1), number(s.High, 1))
}

// Data is every step.
func (c Gathered) Data() Data {
	d := Data{Head: []string{wording.Text("samples"), wording.Text("kinds"), wording.Text("in 95 of 100 cases"), wording.Text("how known")}}
	for i, s := range c.steps() {
		what := wording.Text("among the samples taken")
		if i >= len(c.Taken) {
			what = wording.Text("expected")
		}
		d.Rows = append(d.Rows, []string{
			fmt.Sprint(s.Samples), number(s.Kinds, 1), wording.Sprintf("%s to %s", number(s.Low, 1), number(s.High, 1)), what})
	}
	return d
}

// Alt says what was found and what is expected.
func (c Gathered) Alt() string {
	taken, ahead := c.last()
	text := wording.Sprintf("Line chart, %s: %s kinds in %s", c.Title, number(taken.Kinds, 0), plain.Count(taken.Samples, "sample"))
	if ahead.Samples > 0 {
		text += wording.Sprintf("; in %s about %s would be found", plain.Count(ahead.Samples, "sample"), ahead.text())
	}
	return text + "."
}

// manySteps are the samples above which single ones get no dot.
const manySteps = 30

// SVG draws the samples taken as a full line with dots, what is ahead dashed
// with a hollow one, and the band of 95 % behind both.
func (c Gathered) SVG(s PaperSize) string {
	s = s.atLeast(least)
	p := newPen(s, c.Title, c.Alt())
	top := c.legend(p)
	most, furthest := 1.0, 1
	for _, x := range c.steps() {
		most, furthest = max(most, finite(x.High), finite(x.Kinds)), max(furthest, x.Samples)
	}
	a := frame(p, frameOf{top: top, maxX: float64(furthest), maxY: most, whole: true, nameX: wording.Text("samples"),
		nameY: wording.Text("kinds")})
	c.band(p, a)
	line := pointsAlong(a, c.Taken)
	p.path(line, style{width: heavy * 0.7})
	if n := len(line); n > 0 && len(c.Ahead) > 0 {
		onward := append([]point{line[n-1]}, pointsAlong(a, c.Ahead)...)
		p.path(onward, style{width: medium, dash: "1.6 1.1"})
		p.dot(onward[len(onward)-1], 1, true)
	}
	for i, at := range line {
		if len(line) <= manySteps || i == len(line)-1 {
			p.dot(at, 0.9, false)
		}
	}
	return p.done()
}

func pointsAlong(a axes, steps []Step) []point {
	out := make([]point, len(steps))
	for i, x := range steps {
		out[i] = a.pointAt(float64(x.Samples), x.Kinds)
	}
	return out
}

// legend says in words what the marks are, with the figures at their ends, and
// gives where the plot may begin.
func (c Gathered) legend(p *pen) (top float64) {
	taken, ahead := c.last()
	y := lead
	say := func(hollow bool, text string) {
		dash := ""
		if hollow {
			dash = "1.6 1.1"
		}
		p.path([]point{{0.5, y - 1}, {7, y - 1}}, style{width: map[bool]float64{true: medium, false: heavy * 0.7}[hollow], dash: dash})
		p.dot(point{7, y - 1}, 0.9, hollow)
		p.text(point{9.5, y}, words{text, type8, fromStart, false, p.size.Width - 9.5})
		y += lead
	}
	say(false, wording.Sprintf("found: %s kinds in %s", number(taken.Kinds, 0), plain.Count(taken.Samples, "sample")))
	if ahead.Samples > 0 {
		say(true, wording.Sprintf("expected: about %s in %s", number(ahead.Kinds, 0), plain.Count(ahead.Samples, "sample")))
	}
	if len(c.steps()) > 1 {
		p.path([]point{{0.5, y - 2.4}, {8, y - 2.4}, {8, y + 0.2}, {0.5, y + 0.2}}, style{fill: grey, closed: true})
		p.text(point{9.5, y}, words{wording.Text("where it would be in 95 of 100 cases"), type8, fromStart, false, p.size.Width - 9.5})
		y += lead
	}
	return y
}

// band is the interval of every step as one shape.
func (c Gathered) band(p *pen, a axes) {
	steps := c.steps()
	if len(steps) < 2 {
		return
	}
	var up, down []point
	for _, x := range steps {
		up, down = append(up, a.pointAt(float64(x.Samples), x.High)), append([]point{a.pointAt(float64(x.Samples), x.Low)}, down...)
	}
	p.path(append(up, down...), style{fill: grey, closed: true})
	p.path(up, style{width: thin, dash: "0.6 0.6"})
	p.path(down, style{width: thin, dash: "0.6 0.6"})
}

// Text is a line for each step, or for some of many.
func (c Gathered) Text(cols int, bars bool) []string {
	cols = max(leastCols, cols)
	steps, most := c.steps(), 1.0
	for _, x := range steps {
		most = max(most, finite(x.High))
	}
	var all []entry
	for i, x := range steps {
		if !isPicked(i, len(steps), mostLines) && i != len(c.Taken)-1 {
			continue
		}
		label := plain.Count(x.Samples, "sample")
		if i >= len(c.Taken) {
			label = wording.Sprintf("%d expected", x.Samples)
		}
		all = append(all, entry{label: label, value: x.text(), part: x.Kinds / most})
	}
	title := c.Title
	if len(all) > 0 {
		title += wording.Text("; in brackets where it would be in 95 of 100 cases")
	}
	return append(wrap(title, cols, 2), columns(all, cols, bars)...)
}

// isPicked picks so many of n things, the first and the last among them, evenly
// spread.
func isPicked(i, n, most int) bool {
	if n <= most || i == n-1 {
		return true
	}
	step := int(math.Ceil(float64(n-1) / float64(most-1)))
	return i%step == 0
}
