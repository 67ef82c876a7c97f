package pocket

import (
	"encoding/json"
	"html"
	"strings"

	"rillkey/taxa/wording"
)

// frameWords are what the page says around the program, by their marks in page.html.
func frameWords() map[string]string {
	return map[string]string{
		"/*LANGUAGE*/":  wording.Language(),
		"/*TITLE*/":     wording.Text("rillkey: name and count stream animals"),
		"/*WAIT*/":      wording.Text("Getting ready. This takes a few seconds the first time."),
		"/*NOSCRIPT*/":  wording.Text("This page needs a browser that runs scripts. Ask for the paper sheet."),
		"/*PLAINPAGE*/": wording.Text("At a table: its plain pages, which need none"),
	}
}

// scriptWords are what page.js says, by the names that it has for them; %s stands for
// what the browser says went wrong.
func scriptWords() map[string]string {
	return map[string]string{
		"keepsNothing": wording.Text("this window keeps nothing"),
		"blocked":      wording.Text("it is blocked"),
		"brokenOff":    wording.Text("it was broken off"),
		"notKept":      wording.Text("NOT kept on this phone (%s). Do not close this page before you save the visit as a file."),
		"beingKept":    wording.Text("Being kept …"),
		"kept":         wording.Text("Kept on this phone."),
		"save":         wording.Text("Save the visit as a file"),
		"outOfReach":   wording.Text("Out of its reach just now."),
		"noAnswer":     wording.Text("the table does not answer (%s); is this phone in its network?"),
		"refused":      wording.Text("The table: %s"),
		"leave":        wording.Text("Leave the table? The visit stays on this phone."),
		"away":         wording.Text("Take this visit off the page? What was not saved as a file is gone."),
		"cannotRun":    wording.Text("This browser cannot run the page (%s). A newer one can; else use the paper sheet."),
	}
}

// wordsSetting is the script that gives page.js its words.
func wordsSetting() string {
	words, _ := json.Marshal(scriptWords()) // texts are always written
	return "window.rillkeyWords = " + string(words) + ";"
}

// framed puts the words into the page around the program.
func framed(page string) string {
	var with []string
	for mark, words := range frameWords() {
		with = append(with, mark, html.EscapeString(words))
	}
	return strings.NewReplacer(with...).Replace(page)
}
