package rules

import (
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// partAlone finds end points that show something of a part while they never show what
// it hangs on: whoever was told so would never be asked for the part.
func partAlone(f *finder) {
	if f.Sound == nil {
		return
	}
	at := f.leadsTo()
	for _, end := range f.Sound.Ends {
		for _, part := range f.Catalog.Vocabulary().Traits() {
			states := f.Catalog.Vocabulary().HangsWrongly(end, part)
			if f.full() || states == nil {
				continue
			}
			f.warn(at[end.ID], wording.Sprintf("%s can show %s %s, which needs %s %s, and it never shows that",
				plain.Quote(end.ID), part.ID, plain.List(states),
				part.OnlyIf.Trait, plain.List(part.OnlyIf.States)), wording.Sprintf("let it show the one, or give it %s = \"none\"",
				part.ID))
		}
	}
}
