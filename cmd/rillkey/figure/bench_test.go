package figure

import "testing"

func BenchmarkFigures(b *testing.B) {
	c := catalog(b)
	a := NewAtlas(c, nil)
	for _, size := range []struct {
		name string
		size Size
	}{{"page", Size{64, 48}}, {"lead", Size{35, 21}}, {"row", Size{20, 12}}} {
		b.Run(size.name, func(b *testing.B) {
			for b.Loop() {
				for _, t := range c.Taxa() {
					a.Taxon(t).SVG(size.size)
				}
			}
		})
	}
	b.Run("braille", func(b *testing.B) {
		for b.Loop() {
			for _, t := range c.Taxa() {
				a.Taxon(t).Braille(24, 10)
			}
		}
	})
}
