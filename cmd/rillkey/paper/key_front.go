package paper

import (
	"html"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
)

var keySteps = []string{
	"Put one live animal into a white tray with a finger of clear water, in the shade. Wait a minute: cases walk, gills wave, legs come out.",
	"Begin at number %s. Read all its answers, a, b and so on, and look at the drawings, before you choose.",
	"Choose the answer that fits the animal better in every part. What a thick line and a pointer show is what the answer speaks of; a dotted ring means that nothing is there.",
	"Go to the number at the right of that answer, and go on so until a name stands there in place of a number.",
	"Turn to the animal's own entry and check: all that is listed must hold. If something does not, go back: the numbers in brackets, such as (from 3b), say where you came from.",
	"Write down the number and letter where you ended, with the name: another person can then follow you.",
}

var keyDoubts = []string{
	"Cannot tell? Try both ways. Often one of them soon asks for something that your animal plainly does not have.",
	"Not every animal must be named to the last. Where it says \"Unsure? Stop here\", that name is right whatever comes below it.",
	"If two names are left, keep the animal in a cup of its own, write down both, and set it aside for a second look by somebody else. A guess helps nobody.",
	"Young animals are smaller than the lengths given, and hard to tell. Parts break off: two tails may be what is left of three.",
}

var keyNeeds = []string{
	"a white tray, and a few white cups or an ice-cube tray to keep kinds apart",
	"a spoon and a soft brush; no tweezers on live animals",
	"a hand lens, for what is marked \"hand lens\"",
	"a ruler, such as the one below",
	"a pencil: it writes on wet paper",
}

// classMeanings are what the classes say, in the order in which they are told.
var classMeanings = []struct {
	class taxa.Class
	means string
}{
	{taxa.Sensitive, "needs clean water"},
	{taxa.SomewhatSensitive, "puts up with a little dirt"},
	{taxa.Tolerant, "lives nearly anywhere"},
	{taxa.NotScored, "tells nothing of the water, or is no water animal"},
	{"", "its kinds are not all of one class"},
}

// front is what comes before the couplets.
func (k *keyPage) front() {
	k.Raw(`<div class="front">` + "\n")
	k.Text("lead-in", "A key for naming one live stream animal at a time, by looking. It leads from question to question to a name: an order or family, with what that kind of animal bears.")
	k.Raw(`<p class="note">`)
	if k.sound.Region != "" {
		k.Raw("<b>Region:</b> " + html.EscapeString(oneLine(k.sound.Region)) + ". Elsewhere it may mislead. ")
	}
	k.Raw("<b>Source:</b> " + html.EscapeString(oneLine(k.sound.Source)) + ". Drawings are schematic and made from the features alone.</p>\n")
	k.Section("How to use this key")
	k.Raw("<ol>\n")
	start := coupletLink(k.sound.Start)
	for _, step := range keySteps {
		k.Raw("<li>" + strings.Replace(html.EscapeString(step), "%s", start, 1) + "</li>\n")
	}
	k.Raw("</ol>\n")
	k.Heading("When you cannot tell")
	k.List("", keyDoubts)
	k.Heading("What you need")
	k.List("needs", keyNeeds)
	k.Heading("What an animal says of its water")
	k.Raw(`<ul class="classes">` + "\n")
	for _, m := range classMeanings {
		k.Raw("<li>" + classWord(m.class) + ": " + html.EscapeString(m.means) + "</li>\n")
	}
	k.Raw("</ul>\n")
	k.Text("", "One animal is no verdict on a stream, and a grade never speaks on drinking or swimming.")
	k.Ruler()
	k.End()
	k.Section("Before anyone steps into the water")
	k.List("cautions", show.Cautions)
	k.End()
	k.Raw("</div>\n")
}
