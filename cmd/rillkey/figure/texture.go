package figure

import "rillkey/cmd/rillkey/figure/draw"

// hatch fills a closed polygon with parallel lines.
func (k *sketch) hatch(polygon []pt, gap, degrees float64) {
	k.Texture(func() {
		for _, l := range draw.Hatch(polygon, gap, degrees) {
			k.Line(l[0], l[1])
		}
	})
}

// speckle fills a closed polygon with dots on a grid.
func (k *sketch) speckle(polygon []pt, gap, radius float64) {
	odd := false
	box := draw.Box{}
	for _, p := range polygon {
		box = box.Extended(p)
	}
	for y := box.Min.Y + gap/2; y < box.Max.Y; y += gap {
		odd = !odd
		shift := 0.0
		if odd {
			shift = gap / 2
		}
		for x := box.Min.X + shift; x < box.Max.X; x += gap {
			if p := (pt{X: x, Y: y}); draw.InPolygon(p, polygon) {
				k.Texture(func() { k.Dot(p, radius) })
			}
		}
	}
}

// scatter are places inside a polygon, about a gap apart, not in rows. The same
// polygon has the same places.
func scatter(polygon []pt, gap float64) []pt {
	var out []pt
	box := draw.Box{}
	for _, p := range polygon {
		box = box.Extended(p)
	}
	seed := uint32(7)
	next := func() float64 {
		seed = seed*1664525 + 1013904223
		return float64(seed>>8)/float64(1<<24) - 0.5
	}
	row := 0
	for y := box.Min.Y + gap/2; y < box.Max.Y; y += gap {
		row++
		for x := box.Min.X + gap/2*float64(row%2); x < box.Max.X; x += gap {
			p := pt{X: x + next()*gap*0.4, Y: y + next()*gap*0.4}
			if draw.InPolygon(p, polygon) {
				out = append(out, p)
			}
		}
	}
	return out
}
