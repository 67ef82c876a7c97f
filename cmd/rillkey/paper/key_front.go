package paper

import (
	"slices"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// meaning is what a class says.
type meaning struct {
	Class taxa.Class
	Means string
}

// meanings are those of the classes, in the order in which they are told.
var meanings = []meaning{
	{taxa.Sensitive, wording.Mark("needs clean water")},
	{taxa.SomewhatSensitive, wording.Mark("puts up with a little dirt")},
	{taxa.Tolerant, wording.Mark("lives nearly anywhere")},
	{taxa.NotScored, wording.Mark("tells nothing of the water, or is no water animal")},
	{"", wording.Mark("its kinds are not all of one class")},
}

func spokenMeanings() []meaning {
	out := slices.Clone(meanings)
	for i := range out {
		out[i].Means = wording.Text(out[i].Means)
	}
	return out
}

// front is what comes before the couplets.
func (k *keyPage) front() {
	k.Begin("div", "front")
	k.put("key-about", struct{ Region, Source string }{oneLine(k.sound.Region), oneLine(k.sound.Source)})
	k.Section(wording.Text("How to use this key"))
	k.put("key-use", struct {
		Start   string
		Classes []meaning
	}{k.sound.Start, spokenMeanings()})
	k.ruler()
	k.End()
	k.Section(wording.Text("Before anyone steps into the water"))
	k.List("cautions", show.Cautions(k.catalog.Region()))
	k.End()
	k.End()
}
