package pocket

import (
	"bytes"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"
)

// bytesOf reads what inText wrote, as unpacked in page.js does.
func bytesOf(text string, n int) (out []byte) {
	held, bits := 0, 0
	for _, c := range text {
		held, bits = held<<7&0x3fff|int(c)&0x7f, bits+7
		if bits >= 8 && len(out) < n {
			bits -= 8
			out = append(out, byte(held>>bits))
		}
	}
	return out
}

// What is packed stands in the page as text that a page keeps as it is: nothing in it
// ends a script, is dropped or is read as a line's end of another system, and a
// character holds nearly seven bits.
func TestWhatIsPackedIsTextThatAPageKeeps(t *testing.T) {
	t.Parallel()
	random := rand.NewChaCha8([32]byte{7})
	for _, n := range []int{0, 1, 2, 6, 7, 8, 13, 14, 15, 1000, 100_000} {
		data := make([]byte, n)
		_, _ = random.Read(data) // never fails
		for _, data := range [][]byte{data, make([]byte, n), bytes.Repeat([]byte("</script>\r"), n)} {
			text := inText(data)
			if !utf8.ValidString(text) || strings.ContainsAny(text, "\x00\r<") {
				t.Fatalf("%d bytes have what a page drops or reads otherwise", len(data))
			}
			if got := bytesOf(text, len(data)); !bytes.Equal(got, data) {
				t.Fatalf("%d bytes are %d other ones", len(data), len(got))
			}
		}
		if text := inText(data); n >= 1000 && len(text)*100 > n*118 {
			t.Errorf("%d bytes take %d", n, len(text))
		}
	}
}
