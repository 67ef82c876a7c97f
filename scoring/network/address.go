package network

import (
	"net/url"
	"strings"
)

// IsAddress tells that a word is the address of a database.
func IsAddress(word string) bool {
	word = strings.ToLower(word)
	return strings.HasPrefix(word, "postgres://") || strings.HasPrefix(word, "postgresql://")
}

// SecretIn tells that an address among some words, or in the value of a flag among them, has a
// password in it: others on the machine can read what was typed, and shells keep it.
func SecretIn(words []string) bool {
	for _, word := range words {
		if _, value, cut := strings.Cut(word, "="); cut && strings.HasPrefix(word, "-") {
			word = value
		}
		if !IsAddress(word) {
			continue
		}
		u, err := url.Parse(word)
		if err != nil {
			if strings.Contains(word, "@") || strings.Contains(word, "password") {
				return true
			}
			continue
		}
		if _, secret := u.User.Password(); secret {
			return true
		}
		for key := range u.Query() {
			if strings.Contains(strings.ToLower(key), "password") {
				return true
			}
		}
	}
	return false
}
