package table

import (
	"net"
	"net/netip"
	"slices"
	"strings"

	"github.com/yeqown/go-qrcode/v2"
)

// Addresses are those at which this machine is reached on networks of its own:
// private ones, this machine itself last.
func Addresses() []netip.Addr {
	var out []netip.Addr
	all, err := net.InterfaceAddrs()
	if err == nil {
		for _, a := range all {
			if p, err := netip.ParsePrefix(a.String()); err == nil && p.Addr().Is4() &&
				(p.Addr().IsPrivate() || p.Addr().IsLinkLocalUnicast()) {
				out = append(out, p.Addr())
			}
		}
	}
	slices.SortFunc(out, netip.Addr.Compare)
	return append(slices.Compact(out), netip.AddrFrom4([4]byte{127, 0, 0, 1}))
}

// JoinAddress is the address that a phone opens: the code of the day stands behind the #,
// which no browser sends to anybody.
func JoinAddress(scheme, host, code string) string { return scheme + "://" + host + "/#code=" + code }

// QR is the QR code of a text, true where it is dark, without the margin.
func QR(text string) ([][]bool, error) {
	code, err := qrcode.NewWith(text, qrcode.WithErrorCorrectionLevel(qrcode.ErrorCorrectionMedium))
	if err != nil {
		return nil, err
	}
	var m matrix
	if err := code.Save(&m); err != nil {
		return nil, err
	}
	return m.rows, nil
}

type matrix struct{ rows [][]bool }

// Write implements qrcode.Writer.
func (m *matrix) Write(mat qrcode.Matrix) error {
	m.rows = mat.Bitmap()
	return nil
}

// Close implements qrcode.Writer.
func (*matrix) Close() error { return nil }

// quiet is the margin that readers of a QR code need, in modules (ISO/IEC 18004 asks
// for 4; memory).
const quiet = 4

// dark reports whether a module is dark; there is none beyond the edge.
func dark(rows [][]bool, x, y int) bool {
	x, y = x-quiet, y-quiet
	return y >= 0 && y < len(rows) && x >= 0 && x < len(rows[y]) && rows[y][x]
}

// QRText draws a QR code with two modules in one character. It is light on dark, as
// most terminals are: what is light is drawn.
func QRText(rows [][]bool) string {
	var b strings.Builder
	size := len(rows) + 2*quiet
	for y := 0; y < size; y += 2 {
		for x := range size {
			up, down := !dark(rows, x, y), !dark(rows, x, y+1) && y+1 < size
			b.WriteString(map[[2]bool]string{
				{true, true}: "█", {true, false}: "▀", {false, true}: "▄", {false, false}: " "}[[2]bool{up, down}])
		}
		b.WriteString("\n")
	}
	return b.String()
}
