package figure

import (
	"strconv"
	"strings"

	"rillkey/cmd/rillkey/figure/draw"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// smallestType is 8 pt in millimetres: nothing is written smaller.
const smallestType = 8 * inchMM / 72

// bar draws the length of mature animals at life size: heavy up to the
// shortest, thin up to the longest. What is longer than the page is broken off.
func (f Figure) bar(page *draw.Canvas, s Size) {
	if !f.Length.Known() {
		return
	}
	x, y := 2.0, s.Height-6.3
	room := s.Width - 4
	least, most := min(f.Length.Min, room), min(f.Length.Max, room)
	if f.Length.Max > room {
		most, least = room, min(least, room*0.8)
	}
	page.Part("length")
	page.Line(draw.Pt{X: x, Y: y}, draw.Pt{X: x + most, Y: y})
	page.Line(draw.Pt{X: x, Y: y - 0.9}, draw.Pt{X: x, Y: y + 0.9})
	page.Line(draw.Pt{X: x + most, Y: y - 0.9}, draw.Pt{X: x + most, Y: y + 0.9})
	page.Part("shortest")
	page.Line(draw.Pt{X: x, Y: y}, draw.Pt{X: x + least, Y: y})
	page.SetOff("shortest")
	words := lengthWords(f.Length)
	if f.Length.Max > room {
		cut := x + room*0.9
		page.Part()
		page.Erase(draw.Pt{X: cut - 1, Y: y - 1}, draw.Pt{X: cut + 1, Y: y - 1}, draw.Pt{X: cut + 1, Y: y + 1},
			draw.Pt{X: cut - 1, Y: y + 1})
		for _, dx := range []float64{-0.8, 0.8} {
			page.Line(draw.Pt{X: cut + dx - 0.4, Y: y + 1}, draw.Pt{X: cut + dx + 0.4, Y: y - 1})
		}
		words += wording.Text(", bar cut")
	}
	if fits := s.Width / smallestType * 1.75; float64(len(words)) > fits {
		words, _, _ = strings.Cut(words, " (")
	}
	page.Write(draw.Label{Anchor: draw.Pt{X: x, Y: s.Height - 1.4}, Size: max(smallestType, min(3,
		s.Width/float64(len(words))*1.75)), Words: words})
}

// lengthWords gives a range of lengths in millimetres and inches.
func lengthWords(r taxa.Range) string {
	return wording.Sprintf("%s to %s mm (%s to %s in)", decimal(r.Min, -1), decimal(r.Max, -1), inches(r.Min), inches(r.Max))
}

func inches(mm float64) string {
	if in := mm / inchMM; in >= 1 {
		return decimal(in, 1)
	}
	return decimal(mm/inchMM, 2)
}

func decimal(v float64, digits int) string { return strconv.FormatFloat(v, 'f', digits, 64) }

// inchMM is an inch in millimetres, exactly.
const inchMM = 25.4

// Ruler is two lines of text that show the range of lengths above an inch, both
// to one scale, in at most cols columns: "█" is up to the shortest animal and
// "░" up to the longest, "├─ 1 inch ─┤" is the inch. It is empty where no length
// is known.
func Ruler(length taxa.Range, cols int) []string {
	if !length.Known() || cols < 8 {
		return nil
	}
	whole := max(length.Max, inchMM)
	cells := func(mm float64) int { return max(1, int(mm/whole*float64(cols)+0.5)) }
	least, most, inch := cells(length.Min), cells(length.Max), cells(inchMM)
	animal := strings.Repeat("█", least) + strings.Repeat("░", max(0, most-least))
	return []string{animal, inchScale(inch, cols)}
}

// inchScale is a scale of so many columns, with its name inside, or behind it
// where that does not fit.
func inchScale(inch, cols int) string {
	const name = " 1 inch "
	bar := max(0, inch-2)
	if spare := bar - len(name); spare >= 2 {
		left := spare / 2
		return "├" + strings.Repeat("─", left) + name + strings.Repeat("─", spare-left) + "┤"
	}
	scale := "├" + strings.Repeat("─", bar) + "┤"
	if bar+2+len(name)-1 > cols {
		return scale
	}
	return scale + name[:len(name)-1]
}
