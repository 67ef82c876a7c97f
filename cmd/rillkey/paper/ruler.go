package paper

import (
	"html/template"
	"strconv"
	"strings"

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
	var b strings.Builder
	size := strconv.Itoa(rulerWide) + `mm" height="` + strconv.Itoa(rulerHigh) + "mm"
	b.WriteString(`<svg role="img" width="` + size + `" viewBox="-3 0 ` + strconv.Itoa(rulerWide) + " " + strconv.Itoa(rulerHigh) +
		`" fill="none" stroke="#111" stroke-width="0.2"><title>` +
		template.HTMLEscapeString(wording.Text("Ruler of 150 mm and 5 7/8 inches, and a bar of 50 mm")) + `</title>`)
	b.WriteString(`<path d="M0 0V18H150V0Z`)
	for mm := 1; mm < rulerLong; mm++ {
		b.WriteString(tick(float64(mm), 0, float64(longer(mm, 10, 5))))
	}
	for eighth := 1; float64(eighth)*eighthInch < rulerLong; eighth++ {
		b.WriteString(tick(float64(eighth)*eighthInch, 18, -float64(longer(eighth, 8, 4))))
	}
	b.WriteString(`"/><path stroke-width="0.7" d="M0 21V25M0 23H` + strconv.Itoa(checkLong) + `M50 21V25"/>`)
	b.WriteString(`<g font-family="sans-serif" font-size="3" fill="#111" stroke="none">`)
	for mm := 10; mm < rulerLong; mm += 10 {
		b.WriteString(label(float64(mm), 8, strconv.Itoa(mm)))
	}
	for inch := 1; float64(inch)*inchMM < rulerLong; inch++ {
		b.WriteString(label(float64(inch)*inchMM, 12.4, strconv.Itoa(inch)))
	}
	b.WriteString(`<text x="1" y="8">mm</text><text x="1" y="12.4">in</text><text x="53" y="24.2">` +
		template.HTMLEscapeString(wording.Text("This bar is 50 mm long if the page was printed at 100 %.")) + `</text></g></svg>`)
	p.Begin("figure", "ruler")
	p.put("svg", template.HTML(b.String()))
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
	return "M" + plain.Number(x) + " " + plain.Number(from) + "v" + plain.Number(by)
}

func label(x, y float64, words string) string {
	return `<text text-anchor="middle" x="` + plain.Number(x) + `" y="` + plain.Number(y) + `">` + words + "</text>"
}
