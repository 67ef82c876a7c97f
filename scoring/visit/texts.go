package visit

import "rillkey/taxa/wording"

// RecordText is a text that people may write of a record in their own words, beside its
// note. Whatever keeps, corrects, tables, tells or holds back such texts goes through
// [RecordTexts], so that a new one is a row there beside its fields in [Identification] and
// in [Change].
type RecordText struct {
	Key         string // its name in files and tables
	Description string // what it is, for readers of the tables; English, to be said in the language in use
	Label       string // what it is called where a correction is told; likewise
	Kind        string // what kind of text it is, where one is found to name somebody

	Text   func(*Identification) *string // of a record
	Change func(*Change) **string        // of a correction; nil where it leaves the text as it is
}

var recordTexts = []RecordText{
	{"kept_at", wording.Mark("where the specimen is kept"), wording.Mark("kept at"), "place where a specimen is kept",
		func(d *Identification) *string { return &d.Kept }, func(ch *Change) **string { return &ch.Kept }},
}

// RecordTexts are all of them, in the order of the file. The caller must not change them.
func RecordTexts() []RecordText { return recordTexts }

// textFields are the fields that hold them.
func textFields() (out []field[Identification]) {
	for _, t := range recordTexts {
		out = append(out, newField(t.Key, asText, t.Text, t.Change))
	}
	return out
}
