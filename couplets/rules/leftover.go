package rules

import (
	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// leftoverRemark finds remarks of a merge, or of drafting again, that nobody has read yet.
func leftoverRemark(f *finder) {
	for _, at := range f.File.Leftovers {
		left := Leftover(at)
		f.warn(left.Pos, left.Message, left.Hint)
	}
}

// Leftover is the warning of a remark with another version that nobody has chosen from
// yet, at its place.
func Leftover(at authored.Pos) authored.Finding {
	return authored.Finding{Pos: at, Rule: "leftover-remark",
		Message: wording.Text("this remark holds what another version of the file has here, and nobody has chosen yet"),
		Hint:    wording.Text("keep one of the two, and delete the remark")}
}
