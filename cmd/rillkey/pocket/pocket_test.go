package pocket

import (
	"bytes"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// bytesOf reads what inText wrote, as unpacked in page.js does.
func bytesOf(text string, n int) (out []byte) {
	held, bits := 0, 0
	for _, c := range text {
		if c < 128 {
			held, bits = held<<7|int(c), bits+7
		} else {
			held, bits = held<<14|int(unkept[c>>7-2])<<7|int(c)&0x7f, bits+14
		}
		for ; bits >= 8 && len(out) < n; bits -= 8 {
			out = append(out, byte(held>>(bits-8)))
		}
		held &= 0xff
	}
	return out
}

// What is packed stands in the page as text that a page keeps as it is: nothing in it
// ends a script, is dropped, is an end of a line or combines with what stands before it,
// and a byte holds seven bits.
func TestWhatIsPackedIsTextThatAPageKeeps(t *testing.T) {
	t.Parallel()
	random := rand.NewChaCha8([32]byte{7})
	for _, n := range []int{0, 1, 2, 6, 7, 8, 13, 14, 15, 1000, 100_000} {
		data := make([]byte, n)
		_, _ = random.Read(data) // never fails
		for _, data := range [][]byte{data, make([]byte, n), bytes.Repeat([]byte("</script>\r"), n)} {
			text := inText(data)
			other := func(r rune) bool { return r >= 0x80 && (r < 0x100 || !unicode.IsLetter(r) && !unicode.IsSymbol(r)) }
			if !utf8.ValidString(text) || strings.ContainsAny(text, "\x00\n\r<") || strings.ContainsFunc(text, other) {
				t.Fatalf("%d bytes have what a page drops or reads otherwise", len(data))
			}
			if got := bytesOf(text, len(data)); !bytes.Equal(got, data) {
				t.Fatalf("%d bytes are %d other ones", len(data), len(got))
			}
		}
		if text := inText(data); n >= 1000 && len(text)*1000 > n*1144+9000 {
			t.Errorf("%d bytes take %d", n, len(text))
		}
	}
}
