package export

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/account"
	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// A row of the archive is made of terms of Darwin Core by name.
type row map[string]string

// sheet is one file of the archive: the first term is the id, or the id of the
// core's row that the row belongs to.
type sheet struct {
	file     string
	class    string            // class of Darwin Core that a row is of
	terms    []string          // columns after the id
	constant map[string]string // terms that are the same in every row
}

const (
	coreID = "id"

	eventFile      = "event.csv"
	occurrenceFile = "occurrence.csv"
	factFile       = "measurement.csv"
)

// sheets are the files of an archive, the core first.
var sheets = []sheet{
	{eventFile, "Event", []string{
		"eventID", "parentEventID", "eventType", "eventDate", "eventTime", "samplingProtocol", "sampleSizeValue", "sampleSizeUnit",
		"samplingEffort", "habitat", "locality", "decimalLatitude", "decimalLongitude", "geodeticDatum",
		"coordinateUncertaintyInMeters", "informationWithheld", "dataGeneralizations", "fieldNumber", "eventRemarks",
	}, nil},
	{occurrenceFile, "Occurrence", []string{
		"occurrenceID", "occurrenceStatus", "organismQuantity", "organismQuantityType", "taxonID", "scientificName",
		"kingdom", "taxonRank", "higherClassification", "vernacularName", "verbatimIdentification", "identificationQualifier",
		"identificationVerificationStatus", "lifeStage", "recordedBy", "identifiedBy", "dateIdentified", "disposition", "occurrenceRemarks",
	}, map[string]string{"basisOfRecord": "HumanObservation"}},
	{factFile, "MeasurementOrFact", []string{
		"measurementID", "occurrenceID", "measurementType", "measurementValue", "measurementUnit", "measurementMethod",
		"measurementRemarks",
	}, nil},
}

// darwin turns one visit into rows.
type darwin struct {
	k       Knowledge
	d       Discretion
	account *account.Account
	grade   *scoring.Grade
	give    func(file string, r row)
}

func (d *darwin) rows() {
	d.event()
	events := map[string]string{}
	for _, s := range d.account.Tally.Samples {
		events[s.Label] = d.sample(s)
	}
	for _, r := range d.account.Tally.Records {
		d.present(r, events[r.Sample])
	}
	d.absences()
	d.grades()
}

func (d *darwin) id(parts ...string) string {
	return strings.Join(append([]string{d.account.Visit.Header.ID}, parts...), ":")
}

func (d *darwin) event() {
	h := d.account.Visit.Header
	r := row{
		coreID: d.id(), "eventID": d.id(), "eventType": "Visit", "eventDate": h.Date,
		"samplingProtocol": h.Protocol, "locality": h.Site,
	}
	if p, err := d.k.Rules.Protocol(h.Protocol); err == nil {
		r["samplingProtocol"] = p.Title
	}
	if n := len(d.account.Tally.Samples); n > 0 {
		r["samplingEffort"] = plain.Count(n, "sample")
	}
	if g := d.grade; g != nil && !g.Effort.Complete {
		r["eventRemarks"] = wording.Sprintf("Not all is done that the protocol asks for, so what was not found may have been "+
			"missed: %s.", g.Effort.Lack())
	}
	d.place(r)
	d.conditions(r)
	d.give(eventFile, r)
}

// conditions are measurements or facts of the visit's event; what has a term of its
// own goes there, begun and ended as the interval that ISO 8601 writes with a slash.
func (d *darwin) conditions(event row) {
	noted := d.account.Tally.Conditions()
	for _, f := range condition.Parameters() { // in English, as all that an archive names
		v, there := noted[f.ID]
		if !there {
			continue
		}
		if f.Term != "" {
			if event[f.Term] != "" {
				event[f.Term] += "/"
			}
			event[f.Term] += f.Cell(v)
			continue
		}
		if f.Form == condition.PersonsForm && !d.d.People {
			continue
		}
		r := row{coreID: d.id(), "measurementID": d.id("condition", f.ID), "measurementType": f.Title, "measurementValue": f.Cell(v)}
		if f.Unit != "" {
			r["measurementUnit"] = f.Unit
		}
		if v.Instrument != "" {
			r["measurementMethod"] = wording.Sprintf("with %s", v.Instrument)
		}
		d.give(factFile, r)
	}
}

func (d *darwin) place(r row) {
	if d.account.Visit.Obscured() && !d.d.Places {
		r["locality"] = ""
		r["informationWithheld"] = wording.Text("exact place and name of the site, on request of those who recorded it")
	}
	s := d.account.Visit.Header.Spot
	if s == nil {
		return
	}
	r["decimalLatitude"], r["decimalLongitude"] = plain.FormatFloat(s.Latitude), plain.FormatFloat(s.Longitude)
	r["geodeticDatum"] = "EPSG:4326"
	r["coordinateUncertaintyInMeters"] = float(s.Uncertainty)
	if d.account.Visit.Obscured() && !d.d.Places {
		r["dataGeneralizations"] = wording.Text("coordinates rounded to a tenth of a degree")
	}
}

func (d *darwin) sample(s visit.Taken) (id string) {
	id = d.id(s.ID)
	r := row{
		coreID: id, "eventID": id, "parentEventID": d.id(), "eventType": "Sample", "eventDate": d.account.Visit.Header.Date,
		"samplingEffort": s.Effort, "habitat": s.Habitat, "fieldNumber": s.Label,
		"eventRemarks": wording.Sprintf("The sample is %s.", s.State.Words()),
	}
	if s.Fraction > 0 && s.Fraction < 1 {
		r["eventRemarks"] += wording.Sprintf(" Share sorted: %s.", wording.Number(math.Round(s.Fraction*1e4)/1e4))
	}
	if s.Area > 0 {
		r["sampleSizeValue"], r["sampleSizeUnit"] = plain.FormatFloat(math.Round(s.Area*1e8)/1e8), "square metre"
	}
	d.give(eventFile, r)
	return id
}

func (d *darwin) present(rec visit.Record, event string) {
	id := d.id(rec.ID)
	r := row{
		coreID: event, "occurrenceID": id, "occurrenceStatus": "present",
		"organismQuantity": plain.FormatFloat(float64(rec.Count)), "organismQuantityType": "individuals",
		"dateIdentified": rec.Time.Format("2006-01-02"), "occurrenceRemarks": rec.Note,
		"identificationVerificationStatus": looked(rec),
	}
	if rec.Expert != "" {
		r["identificationVerificationStatus"] = wording.Text("a specimen was determined by an expert")
		r["dateIdentified"] = rec.ExpertOn
	}
	if rec.Kept != "" {
		r["disposition"] = wording.Sprintf("kept at %s", rec.Kept)
	}
	if d.d.People {
		r["recordedBy"] = strings.Join(d.account.Visit.Header.People, " | ")
		r["identifiedBy"] = cmp.Or(rec.Expert, d.account.Visit.Person(rec.Who))
	}
	d.name(r, rec)
	d.give(occurrenceFile, r)
	if rec.Confidence > 0 {
		d.give(factFile, row{coreID: event, "measurementID": id + ":confidence", "occurrenceID": id,
			"measurementType":   wording.Text("confidence of the identification"),
			"measurementValue":  plain.FormatFloat(rec.Confidence),
			"measurementMethod": wording.Text("probability, from 0 to 1, that the name is right, as it was stated when it was given")})
	}
	if rec.Length > 0 {
		d.give(factFile, row{coreID: event, "measurementID": id + ":length", "occurrenceID": id,
			"measurementType":  wording.Text("body length"),
			"measurementValue": plain.FormatFloat(rec.Length), "measurementUnit": "mm"})
	}
}

// looked says what second looks have come to.
func looked(rec visit.Record) string {
	status := wording.Text("not looked at twice")
	for _, l := range rec.Looks {
		if l.Taxon != rec.Taxon || l.Undecided {
			return wording.Text("a second look disagrees")
		}
		status = wording.Text("a second look agrees")
	}
	return status
}

func (d *darwin) name(r row, rec visit.Record) {
	t := d.k.Catalog.Taxon(rec.Taxon)
	r["taxonID"] = rec.Taxon
	if rec.Undecided || rec.Taxon == "" {
		r["identificationQualifier"] = d.qualifier(rec)
		if t == nil {
			t = d.k.Catalog.Cover(rec.Possible)
		}
	}
	d.taxon(r, t)
	if t == nil && rec.Taxon != "" {
		r["verbatimIdentification"] = rec.Taxon
	}
}

func (d *darwin) qualifier(rec visit.Record) string {
	if len(rec.Possible) == 0 {
		return wording.Text("undecided; set aside for a second look")
	}
	var names []string
	for _, id := range rec.Possible {
		if t := d.k.Catalog.Taxon(id); t != nil {
			id = t.Scientific
		}
		names = append(names, id)
	}
	return wording.Sprintf("undecided; one of %s", strings.Join(names, ", "))
}

// taxon enters a name. One without a formal rank goes by the nearest formal
// name above it, and its own stands beside it.
func (d *darwin) taxon(r row, t *taxa.Taxon) {
	if r["kingdom"] = d.kingdom(t); r["kingdom"] != "" {
		r["scientificName"], r["taxonRank"] = r["kingdom"], kingdom
	}
	if t == nil {
		return
	}
	r["vernacularName"] = strings.Join(t.Common, " | ")
	r["lifeStage"] = t.Stage
	formal := t
	for formal != nil && formal.Rank == taxa.Informal {
		formal = d.k.Catalog.Taxon(formal.Parent)
	}
	if formal != t {
		r["verbatimIdentification"] = t.Scientific
	}
	if formal == nil {
		return
	}
	r["scientificName"], r["taxonRank"] = formal.Scientific, formal.Rank
	var above []string
	for _, up := range d.k.Catalog.Ancestors(formal.ID) {
		if up.Rank != taxa.Informal {
			above = append(above, up.Scientific)
		}
	}
	slices.Reverse(above)
	r["higherClassification"] = strings.Join(above, " | ")
}

const kingdom = "kingdom" // a rank

// kingdom is that of a taxon as its catalog has it; where that says none, what streams
// are judged by are animals.
func (d *darwin) kingdom(t *taxa.Taxon) string {
	if t != nil && t.Rank == kingdom {
		return t.Scientific
	}
	if t != nil {
		for _, up := range d.k.Catalog.Ancestors(t.ID) {
			if up.Rank == kingdom {
				return up.Scientific
			}
		}
	}
	if r := d.k.Catalog.Region(); r != nil && r.OnlyCautions {
		return ""
	}
	return "Animalia"
}

// absences are the kinds of the main scheme that were looked for with the whole
// effort and not found. A kind that an animal without a close name may belong
// to is not called absent.
func (d *darwin) absences() {
	scheme := d.k.scheme(d.account.Visit)
	if scheme == nil || d.grade == nil || !d.grade.Effort.Complete {
		return
	}
	found := map[string]bool{}
	for _, b := range d.account.Rows(scheme.Counting()) {
		if b.Any {
			return
		}
		if b.Why == "" {
			found[scheme.Kinds[b.Kind].ID] = true
		}
		for _, k := range b.MayBe {
			found[scheme.Kinds[k].ID] = true
		}
	}
	for _, kind := range scheme.Kinds {
		if found[kind.ID] {
			continue
		}
		for _, id := range kind.Taxa {
			r := row{coreID: d.id(), "occurrenceID": d.id("absent", id), "occurrenceStatus": "absent", "organismQuantity": "0",
				"organismQuantityType": "individuals", "taxonID": id,
				"occurrenceRemarks": wording.Sprintf("none of the kind \"%s\" was found in any sample", kind.Label)}
			d.taxon(r, d.k.Catalog.Taxon(id))
			d.give(occurrenceFile, r)
		}
	}
}

func (d *darwin) grades() {
	if d.grade == nil {
		return
	}
	for _, i := range d.grade.Indices {
		r := row{coreID: d.id(), "measurementID": d.id("index", i.ID), "measurementType": i.Title,
			"measurementMethod": wording.Text(i.Source), "measurementValue": wording.Text("withheld"), "measurementRemarks": i.Reason}
		if i.Value != nil {
			r["measurementValue"], r["measurementRemarks"] = plain.FormatFloat(*i.Value), remark(i)
		}
		d.give(factFile, r)
	}
}

// remark is the word of an index, or why it has none.
func remark(i scoring.Index) string {
	switch {
	case i.Withheld:
		return wording.Sprintf("no word: %s", i.Reason)
	case i.RatingProvisional:
		return wording.Sprintf("%s, provisional", i.Rating)
	}
	return i.Rating
}
