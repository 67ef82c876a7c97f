package show

// fold leaves folding to the browser.
func fold(words string, _ int) []string { return []string{words} }
