package paper

import (
	"html/template"
	"strconv"

	"rillkey/cmd/rillkey/markup"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// The ruler's lengths in millimetres; an inch is 25.4 mm exactly.
const (
	rulerLong  = 150
	rulerWide  = 156
	rulerHigh  = 25
	checkLong  = 50
	inchMM     = 25.4
	eighthInch = inchMM / 8
)

// ruler puts a ruler on the page, millimetres above and inches below, and a bar
// to check it by: both are true where the page is printed at 100 %.
func (p *Page) ruler() {
	var w markup.Writer
	wide, high := strconv.Itoa(rulerWide), strconv.Itoa(rulerHigh)
	w.Open("svg", "role", "img", "width", wide+"mm", "height", high+"mm", "viewBox", "-3 0 "+wide+" "+high,
		"fill", "none", "stroke", "#111", "stroke-width", "0.2")
	w.Element("title", wording.Text("Ruler of 150 mm and 5 7/8 inches, and a bar of 50 mm"))
	ticks := "M0 0V18H150V0Z"
	for mm := 1; mm < rulerLong; mm++ {
		ticks += tick(float64(mm), 0, float64(longer(mm, 10, 5)))
	}
	for eighth := 1; float64(eighth)*eighthInch < rulerLong; eighth++ {
		ticks += tick(float64(eighth)*eighthInch, 18, -float64(longer(eighth, 8, 4)))
	}
	w.Empty("path", "d", ticks)
	w.Empty("path", "stroke-width", "0.7", "d", "M0 21V25M0 23H"+strconv.Itoa(checkLong)+"M50 21V25")
	w.Open("g", "font-family", "sans-serif", "font-size", "3", "fill", "#111", "stroke", "none")
	label := func(x, y float64, words string) {
		w.Element("text", words, "text-anchor", "middle", "x", plain.FormatFloat(x), "y", plain.FormatFloat(y))
	}
	for mm := 10; mm < rulerLong; mm += 10 {
		label(float64(mm), 8, strconv.Itoa(mm))
	}
	for inch := 1; float64(inch)*inchMM < rulerLong; inch++ {
		label(float64(inch)*inchMM, 12.4, strconv.Itoa(inch))
	}
	w.Element("text", "mm", "x", "1", "y", "8")
	w.Element("text", "in", "x", "1", "y", "12.4")
	w.Element("text", wording.Text("This bar is 50 mm long if the page was printed at 100 %."), "x", "53", "y", "24.2")
	w.Close("g")
	w.Close("svg")
	p.Begin("figure", "ruler")
	p.put("svg", template.HTML(w.String()))
	p.End()
}

// longer is how long the tick of a ruler is: longest where n is a whole unit.
func longer(n, whole, half int) int {
	switch {
	case n%whole == 0:
		return 5
	case n%half == 0:
		return 4
	}
	return 2
}

func tick(x, from, by float64) string {
	return "M" + plain.FormatFloat(x) + " " + plain.FormatFloat(from) + "v" + plain.FormatFloat(by)
}
