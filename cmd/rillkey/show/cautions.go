package show

import (
	"fmt"
	"io"
	"strconv"
)

// Cautions are read before a visit. They are common practice of stream work;
// local rules and the people in charge come first.
var Cautions = []string{
	"Stay out of high, fast or rising water. If you cannot see the bottom, do not wade; if in doubt, stay on the bank.",
	"Leave the water at the first thunder, and wait half an hour after the last.",
	"Stones are slippery and hold traps for feet: wear shoes that grip, go slowly, face upstream.",
	"Never go alone. Children go with an adult who watches only them.",
	"Keep away after heavy rain, below outfalls, and where the water smells, foams or has an odd colour.",
	"Cover cuts. Wash your hands before you eat or touch your face.",
	"Have the landowner's leave and whatever permits your area asks for. Some mussels, crayfish, fish and salamanders " +
		"are protected: look, and put them back first.",
	"Do not carry life between streams: clean all gear, and let it dry through before the next one.",
	"Crayfish pinch; hellgrammites, water bugs and some beetles bite. Use a spoon or a brush.",
	"The animals go back alive, where they came from, before they get warm.",
	"Rules of your area, and the people licensed to apply them, come before anything said here.",
}

// CautionTitle stands above the cautions.
const CautionTitle = "Before anyone steps into the water:"

// NumberedCautions are the cautions with their numbers before them.
func NumberedCautions() []string {
	out := make([]string, len(Cautions))
	for i, c := range Cautions {
		out[i] = fmt.Sprintf("%d. %s", i+1, c)
	}
	return out
}

// CautionList writes the cautions as a numbered list.
func CautionList(w io.Writer, width int) error {
	p := newPage(w, width)
	p.text(0, 2, CautionTitle)
	for i, c := range NumberedCautions() {
		p.text(2-len(strconv.Itoa(i+1)), 4, "%s", c)
	}
	return p.err
}
