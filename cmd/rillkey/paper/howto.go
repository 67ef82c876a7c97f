package paper

import (
	_ "embed" // the style

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

//go:embed howto.css
var howToStyle string

// task is one of the six things that are done with a net and a tray; its drawing
// is the template "draw-" and its name. What to do is common practice.
type task struct {
	Name, Title string
	Do          []string
	Care        string // the caution that belongs to it
}

// tasks are in the order of doing them.
var tasks = []task{
	{"kick", wording.Mark("1 Kick"), []string{
		wording.Mark("Begin downstream, then go up. The net stands on the bed, its mouth to the current."),
		wording.Mark("Stand upstream of it and shuffle the bed, a hand deep, over the area that the sheet asks for."),
	}, wording.Mark("Not above the knee, not in fast or rising water, never alone. Face upstream. Out at the first thunder.")},
	{"rub", wording.Mark("2 Rub"), []string{
		wording.Mark("Hold each large stone in the mouth of the net and rub all its sides. Scrape leaves, roots and wood."),
		wording.Mark("Put the stone back as it lay."),
	}, wording.Mark("Feel for glass and hooks first; cover cuts; gloves in cold or doubtful water.")},
	{"rinse", wording.Mark("3 Rinse"), []string{
		wording.Mark("Lift the net against the current. Wash mud out through it, then turn it inside out into a white tray."),
		wording.Mark("Two fingers of clear stream water in the tray, in the shade. Look through the net once more."),
	}, wording.Mark("Lift with bent knees, two to a full tub. Native mussels and fish go back at once; ask about crayfish.")},
	{"sort", wording.Mark("4 Sort"), []string{
		wording.Mark("Wait until the water is still: what moves is an animal. Take it by spoon, brush or pipette."),
		wording.Mark("Like to like into the cells. Hunters apart. Living animals only."),
	}, wording.Mark("What bites by spoon only. Change the water before it gets warm; no sun on the tray.")},
	{"count", wording.Mark("5 Count"), []string{
		wording.Mark("Name by the key or the sheet, two people each kind. In doubt: not a guess, but \"look again\"."),
		wording.Mark("Count cell by cell, one calls and one writes. Write the numbers beside the tally."),
	}, wording.Mark("Dry clothes and something warm for those who stand still. No food before hands are washed.")},
	{"return", wording.Mark("6 Give back"), []string{
		wording.Mark("Under water, gently, where they came from; mussels and snails right side up."),
		wording.Mark("Foreign ones only as the law of the place says. Then check, clean and dry boots, nets and trays."),
	}, wording.Mark("Wash hands. Count the people and the gear. Go from the cleaner stream to the dirtier.")},
}

// HowTo is one page with a drawing of each thing that is done with a net and a
// tray, and the caution that belongs to it; without the drawings, which show water,
// in a region that is no stream.
func HowTo(region *taxa.Region) *Page {
	p := New(wording.Text("Six steps at the stream"))
	p.Style(howToStyle)
	p.Begin("div", "steps")
	for _, t := range tasks {
		p.Begin("section", "step")
		if region == nil || !region.OnlyCautions {
			p.put("draw-"+t.Name, nil)
		}
		p.put("howto-title", wording.Text(t.Title))
		p.List("", spoken(t.Do))
		p.Text("care", wording.Text(t.Care))
		p.End()
	}
	p.End()
	all := show.Cautions(region)
	p.Text("last", wording.Sprintf("Common practice. All cautions are on the field sheet: read them aloud first. %s", all[len(all)-1]))
	return p
}

// spoken are sentences in the language in use.
func spoken(sentences []string) (out []string) {
	for _, s := range sentences {
		out = append(out, wording.Text(s))
	}
	return out
}
