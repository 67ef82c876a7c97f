package condition

import (
	"math"
	"strings"
)

// Unlike says in words in what the water or the weather of two visits differed by
// more than is usual, so that a comparison of their animals can say so: "water level
// high, not low". What only one of them noted is not compared.
func Unlike(now, before Values) (out []string) {
	now.Each(func(f *Field, v Value) {
		o, ok := before[f.ID]
		if !ok || f.alike == nil {
			return
		}
		if f.Form == Number && math.Abs(v.Number-o.Number) <= *f.alike || f.Form != Number && v.Text == o.Text {
			return
		}
		out = append(out, strings.ToLower(f.Title[:1])+f.Title[1:]+" "+f.Words(v)+", not "+f.Words(o))
	})
	return out
}
