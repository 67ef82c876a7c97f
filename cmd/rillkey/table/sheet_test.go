package table

import (
	"fmt"
	"strings"
	"testing"

	"rillkey/cmd/rillkey/paper"
)

// The code on the sheet beside a table has each of its squares, with the margin of four
// that readers need (ISO/IEC 18004; memory), and the words that go with it.
func TestTheSheetBesideATableHasItsCode(t *testing.T) {
	const address = "http://192.168.1.5:8017"
	rows, err := QR(JoinAddress("http", "192.168.1.5:8017", "abcd2345"))
	if err != nil {
		t.Fatal(err)
	}
	var page strings.Builder
	if _, err := paper.TableSheet("Mill <Brook>", address, Grouped("123456"), rows).WriteTo(&page); err != nil {
		t.Fatal(err)
	}
	dark := 0
	for y, row := range rows {
		for x, is := range row {
			if is {
				dark++
			}
			if got := strings.Contains(page.String(), fmt.Sprintf("M%d %dh1v1h-1z", x+4, y+4)); got != is {
				t.Errorf("the square %d, %d is dark: %v, not %v", x, y, got, is)
			}
		}
	}
	if n := strings.Count(page.String(), "h1v1h-1z"); n != dark || dark == 0 {
		t.Errorf("%d squares, not %d", n, dark)
	}
	for _, want := range []string{fmt.Sprintf(`viewBox="0 0 %[1]d %[1]d"`, len(rows)+8), address, Grouped("123456"), "Mill &lt;Brook&gt;",
		"wash them before you eat"} {
		if !strings.Contains(page.String(), want) {
			t.Errorf("%q is not on the sheet", want)
		}
	}
}
