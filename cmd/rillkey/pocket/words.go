package pocket

import (
	"encoding/json"

	"rillkey/taxa/wording"
)

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
