package paper

import (
	"fmt"
	"rillkey/taxa/wording"
	"strings"
)

// TableSheet is the sheet to prop up beside a sorting table: the QR code, in which
// true is dark, the address and the spoken code of the day.
func TableSheet(site, address, spoken string, qr [][]bool) *Page {
	p := New(wording.Sprintf("Count with your phone: %s", site))
	p.Text("", wording.Text("1. Join this table's wireless network. It has no internet, and none is needed."))
	p.Text("", wording.Sprintf("2. Scan this with your camera, or open %s in your browser.", address))
	p.Figure(qrFigure(qr), wording.Text("The address of the table, with its code of the day."))
	p.Text("", wording.Sprintf("3. Give your name. If you are asked for a code: %s", spoken))
	p.List("advice", []string{
		wording.Text("Out of reach of the table go on counting: your phone keeps everything and hands it over when it is back."),
		wording.Text("Do not put this sheet where strangers read it, and take it down at the end of the day."),
		wording.Text("Hands in stream water are not clean hands: wash them before you eat. Hold the phone away from the tray."),
	})
	return p
}

// qrFigure draws a QR code of 90 mm with the margin that readers need.
func qrFigure(qr [][]bool) string {
	const margin = 4
	size := len(qr) + 2*margin
	var b strings.Builder
	fmt.Fprintf(&b,
		`<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm" viewBox="0 0 %d %d" role="img" aria-label="QR code">`,
		size, size)
	fmt.Fprintf(&b, `<rect width="%d" height="%d" fill="#fff"/><path fill="#000" d="`, size, size)
	for y, row := range qr {
		for x, is := range row {
			if is {
				fmt.Fprintf(&b, "M%d %dh1v1h-1z", x+margin, y+margin)
			}
		}
	}
	return b.String() + `"/></svg>`
}
