package export

import (
	"cmp"
	"encoding/xml"
	"time"

	"rillkey/taxa/wording"
)

type emlParty struct {
	Organization string `xml:"organizationName"`
}

type emlDay struct {
	Date string `xml:"calendarDate"`
}

type emlDataset struct {
	Title    string   `xml:"title"`
	Creator  emlParty `xml:"creator"`
	Day      string   `xml:"pubDate"`
	Language string   `xml:"language"`
	Abstract string   `xml:"abstract>para"`
	Rights   string   `xml:"intellectualRights>para"`
	Begin    emlDay   `xml:"coverage>temporalCoverage>rangeOfDates>beginDate"`
	End      emlDay   `xml:"coverage>temporalCoverage>rangeOfDates>endDate"`
	Contact  emlParty `xml:"contact"`
	Methods  string   `xml:"methods>methodStep>description>para"`
}

// language is that of the words, in the three letters of ISO 639-2 where English is.
func language() string {
	if l := wording.Language(); l != "en" {
		return l
	}
	return "eng"
}

// eml describes the data set in the Ecological Metadata Language, version
// 2.1.1. first and last are days as YYYY-MM-DD.
func (a Metadata) eml(first, last string) (string, error) {
	group := emlParty{cmp.Or(a.Group, wording.Text("a group that gave no name"))}
	doc := struct {
		XMLName xml.Name   `xml:"eml:eml"`
		Space   string     `xml:"xmlns:eml,attr"`
		Package string     `xml:"packageId,attr"`
		System  string     `xml:"system,attr"`
		Dataset emlDataset `xml:"dataset"`
	}{
		Space: "eml://ecoinformatics.org/eml-2.1.1", Package: "rillkey-" + a.Day.Format("20060102T150405Z0700"), System: "rillkey",
		Dataset: emlDataset{
			Title: cmp.Or(a.Title, wording.Text("Animals of streams, sampled by volunteers")), Creator: group,
			Day: a.Day.Format(time.DateOnly), Language: language(),
			Abstract: wording.Text("Visits to streams on which volunteers took samples, named the animals to order or family with a " +
				"dichotomous key, and counted them. Each visit is an event with its samples as child events. Names carry the " +
				"confidence they were given with; what was not decided is marked so."),
			Rights: cmp.Or(a.Licence, wording.Text("No licence was stated. Ask the group before you use these data.")),
			Begin:  emlDay{first}, End: emlDay{last}, Contact: group,
			Methods: wording.Text("Living animals were sorted in trays and named by what could be seen on them. A grade describes the " +
				"animal community on the day of the visit; it says nothing on drinking or swimming. A grade is withheld where " +
				"fewer samples were taken than the protocol asks for. Kinds are called absent only where the effort was " +
				"complete and no animal without a close name could be of them."),
		},
	}
	text, err := xml.MarshalIndent(doc, "", "  ")
	return xml.Header + string(text) + "\n", err
}
