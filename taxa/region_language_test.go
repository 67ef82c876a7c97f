package taxa

import (
	"regexp"
	"testing"
)

// The expression is the shape of RFC 5646, section 2.1, as far as a region needs it.
func TestALanguageIsWrittenAsRFC5646HasIt(t *testing.T) {
	t.Parallel()
	shape := regexp.MustCompile(`^[A-Za-z]{2,3}(?:-[A-Za-z0-9]{1,8})*$`)
	for _, s := range []string{"de", "DE", "deu", "de-AT", "pt-BR", "sl-rozaj-biske-1994", "de-CH-1996", "", "d", "german", "de-", "-de",
		"de--AT", "d1", "de_AT", "de AT", "dé", "de-ÄT", "de-123456789", "de-12345678", "d@", "d[", "de-@", "de-`", "de-{", "de\n"} {
		if isLanguageTag(s) != shape.MatchString(s) {
			t.Errorf("%q: %t", s, isLanguageTag(s))
		}
	}
}
