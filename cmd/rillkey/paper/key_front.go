package paper

import (
	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
)

// meaning is what a class says.
type meaning struct {
	Class taxa.Class
	Means string
}

// meanings are those of the classes, in the order in which they are told.
var meanings = []meaning{
	{taxa.Sensitive, "needs clean water"},
	{taxa.SomewhatSensitive, "puts up with a little dirt"},
	{taxa.Tolerant, "lives nearly anywhere"},
	{taxa.NotScored, "tells nothing of the water, or is no water animal"},
	{"", "its kinds are not all of one class"},
}

// front is what comes before the couplets.
func (k *keyPage) front() {
	k.Begin("div", "front")
	k.put("key-about", struct{ Region, Source string }{oneLine(k.sound.Region), oneLine(k.sound.Source)})
	k.Section("How to use this key")
	k.put("key-use", struct {
		Start   string
		Classes []meaning
	}{k.sound.Start, meanings})
	k.Ruler()
	k.End()
	k.Section("Before anyone steps into the water")
	k.List("cautions", show.Cautions(k.catalog.Region()))
	k.End()
	k.End()
}
