//go:build !js

package question

import (
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/terminal"
)

// Sizes of figures in cells. An animal is about twice as long as wide, and a
// cell twice as high as wide.
const (
	leastCols, leastRows = 20, 5  // below this, contrasts are no longer to be seen
	fairRows             = 9      // from here on blank lines matter more than size
	mostCols             = widest // of one figure
	plateGap             = 2      // columns between figures
)

// Of more figures than these each must be larger, or they are a jumble.
const fewFigures, jumbleCols, jumbleRows = 4, 24, 6

// plates is one way to show choices as figures below their words.
type plates struct {
	perRow, cols, rows int
	heads              [][]string // the words of each choice
	tall               []int      // how high the words of each row of plates are
}

// size is how large the figures come out, to compare ways.
func (p plates) size() int { return min(p.cols, 4*p.rows) }

// better reports whether figures come out larger than another way. Side by side
// they are easier to compare than one above the other, which counts for a third.
func (p plates) better(than plates) bool {
	if len(than.tall) == 1 {
		return 3*p.size() > 4*than.size()
	}
	return p.size() > than.size()
}

// lines is how many lines words and figures take.
func (p plates) lines() int {
	n := len(p.tall) * p.rows
	for _, t := range p.tall {
		n += t
	}
	return n
}

// worth reports whether the figures are large enough to be of use.
func (p plates) worth() bool {
	n := len(p.heads)
	return p.cols >= leastCols && p.rows >= leastRows && (n <= fewFigures || p.cols >= jumbleCols && p.rows >= jumbleRows)
}

// arranged is a page with plates: what stands above and below them, and where
// blank lines go.
type arranged struct {
	head, foot []block
	plates     plates
	gaps       gaps
	room       int // lines for all of it
}

// arrange finds how the page is shown with a figure below the words of each
// choice, if all its words and the keys leave room for that.
func (m *screen) arrange(blocks []block, room int) (arranged, bool) {
	n := len(m.figuresNow())
	first := slices.IndexFunc(blocks, func(b block) bool { return b.kind == lead })
	if n == 0 || first < 0 || n != len(m.choices()) {
		return arranged{}, false
	}
	a := arranged{head: blocks[:first], foot: blocks[first+n:], room: room}
	for _, g := range []gaps{allGaps, leadGaps, noGaps} {
		p := m.plates(blocks[first:first+n], room-len(m.aroundPlates(a.head, a.foot, nil, g)))
		if p.size() > a.plates.size() {
			a.plates, a.gaps = p, g
		}
		if a.plates.rows >= fairRows {
			break
		}
	}
	for g := allGaps; g > a.gaps; g-- { // what the figures could not use
		if len(m.aroundPlates(a.head, a.foot, nil, g))+a.plates.lines() <= room {
			a.gaps = g
		}
	}
	return a, a.plates.rows > 0
}

// pictured is the page as arranged.
func (m *screen) pictured(blocks []block) (frame, bool) {
	foot := m.picturedFoot()
	a, ok := m.arrange(blocks, m.height-len(foot))
	if !ok {
		return frame{}, false
	}
	return frame{body: m.aroundPlates(a.head, a.foot, m.setPlates(a.plates), a.gaps), room: a.room, foot: foot}, true
}

// aroundPlates sets what stands above and below the plates.
func (m *screen) aroundPlates(before, after []block, plates []string, g gaps) []string {
	lines := set(before, m.width, g, m.ink)
	end := len(plates) - 1
	switch {
	case len(lines) == 0:
	case g >= leadGaps:
		lines = append(lines, "")
	case end >= 0 && plates[end] == "": // better above than below
		lines = append(lines, "")
		plates = plates[:end]
	}
	lines = append(lines, plates...)
	if g >= leadGaps && len(after) > 0 {
		lines = append(lines, "")
	}
	return append(lines, set(after, m.width, g, m.ink)...)
}

// picturedFoot is the keys, with a line above them for a remark, so that figures
// do not change their size when there is one.
func (m *screen) picturedFoot() []string {
	said := m.saidLines()
	if len(said) == 0 {
		said = []string{""}
	}
	return append(said, m.footer(false)...)
}

// plates finds in how many columns the figures come out largest in so many
// lines; without rows if they come out too small to be of use.
func (m *screen) plates(choices []block, lines int) plates {
	var best plates
	for n := len(choices); n > 0; n-- {
		p := plates{perRow: n, cols: min(mostCols, (m.wide-plateGap*(n-1))/n)}
		if p.cols < leastCols {
			continue
		}
		for i, c := range choices {
			head := c.setPlate(p.cols, m.ink)
			p.heads = append(p.heads, head)
			if i%n == 0 {
				p.tall = append(p.tall, 0)
			}
			p.tall[i/n] = max(p.tall[i/n], len(head))
		}
		p.rows = min(max(0, lines-p.lines())/len(p.tall), p.cols/2)
		if p.worth() && p.better(best) {
			best = p
		}
	}
	return best
}

// setPlate sets the words of a choice in a column.
func (b block) setPlate(cols int, ink terminal.Styles) []string {
	hang := ansi.StringWidth(b.mark) + 1
	lines := terminal.Wrap(b.text, cols-hang)
	for i, l := range lines {
		if i == 0 {
			lines[i] = ink.Mark.Render(b.mark) + " " + l
			continue
		}
		lines[i] = strings.Repeat(" ", hang) + l
	}
	return lines
}

// setPlates sets words and figures side by side. Lines that the drawings leave
// blank part the rows of plates; more of them than that come last.
func (m *screen) setPlates(p plates) []string {
	var lines []string
	for row := range p.tall {
		lines = append(lines, m.setPlateRow(p, row)...)
		for len(lines) > 1 && lines[len(lines)-1] == "" && lines[len(lines)-2] == "" {
			lines = lines[:len(lines)-1]
		}
	}
	return append(lines, make([]string, max(0, p.lines()-len(lines)))...)
}

// setPlateRow is one row of plates: the words on as many lines as the longest
// need, then the drawings.
func (m *screen) setPlateRow(p plates, row int) []string {
	var words, drawn [][]string
	for i := row * p.perRow; i < min((row+1)*p.perRow, len(p.heads)); i++ {
		words = append(words, append(slices.Clone(p.heads[i]), make([]string, p.tall[row]-len(p.heads[i]))...))
		drawn = append(drawn, m.gallery.braille(i, p.cols, p.rows))
	}
	return append(joinedColumns(words, p.cols), raised(joinedColumns(drawn, p.cols))...)
}

// raised puts blank lines below a drawing, so that it stands by its words.
func raised(lines []string) []string {
	at := slices.IndexFunc(lines, func(l string) bool { return l != "" })
	return slices.Concat(lines[max(0, at):], lines[:max(0, at)])
}

// joinedColumns sets columns of equally many lines side by side.
func joinedColumns(columns [][]string, cols int) []string {
	lines := make([]string, len(columns[0]))
	for i := range lines {
		var line strings.Builder
		for _, c := range columns {
			line.WriteString(c[i] + strings.Repeat(" ", max(0, cols-ansi.StringWidth(c[i]))+plateGap))
		}
		lines[i] = strings.TrimRight(line.String(), " ")
	}
	return lines
}
