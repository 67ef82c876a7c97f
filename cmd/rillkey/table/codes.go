package table

import (
	"crypto/subtle"
	"fmt"
	"io"
	"math/big"
	"strings"

	"crypto/rand"

	"rillkey/taxa/wording"
)

// Codes open the table for a day.
type Codes struct {
	Day    string `json:"day"`    // 40 bits; goes into the QR code
	Spoken string `json:"spoken"` // six digits; tries are limited
	Leader string `json:"leader"` // 40 bits, for the leader alone
}

const (
	codeLength  = 8
	codeLetters = "0123456789abcdefghjkmnpqrstvwxyz" // none that are confused when read aloud
	spokenTo    = 1_000_000
)

// newCodes draws codes from random.
func newCodes(random io.Reader) (Codes, error) {
	day, err := drawCode(random)
	if err != nil {
		return Codes{}, err
	}
	leader, err := drawCode(random)
	if err != nil {
		return Codes{}, err
	}
	n, err := rand.Int(random, big.NewInt(spokenTo))
	if err != nil {
		return Codes{}, wording.Errorf("no code could be drawn: %w", err)
	}
	return Codes{day, fmt.Sprintf("%06d", n), leader}, nil
}

func drawCode(random io.Reader) (string, error) {
	raw := make([]byte, codeLength)
	if _, err := io.ReadFull(random, raw); err != nil {
		return "", wording.Errorf("no code could be drawn: %w", err)
	}
	for i, b := range raw {
		raw[i] = codeLetters[b%32]
	}
	return string(raw), nil
}

// Grouped is a code as people read it.
func Grouped(code string) string { return code[:len(code)/2] + " " + code[len(code)/2:] }

// plainCode is a code as somebody typed it, without what was put between.
func plainCode(typed string) string {
	typed = strings.NewReplacer(" ", "", "-", "", "o", "0", "i", "1", "l", "1").Replace(strings.ToLower(typed))
	return typed
}

func sameCode(typed, code string) bool {
	return subtle.ConstantTimeCompare([]byte(typed), []byte(code)) == 1
}

// spokenTries is how many wrong codes the table hears before the spoken form opens
// it no more: a guesser then had one chance in ten thousand.
const spokenTries = 100

// opens says whether a code opens the table, and as the leader.
func (c Codes) opens(typed string, wrong int) (ok, leader bool) {
	typed = plainCode(typed)
	switch {
	case sameCode(typed, c.Leader):
		return true, true
	case sameCode(typed, c.Day):
		return true, false
	}
	return sameCode(typed, c.Spoken) && wrong < spokenTries, false
}
