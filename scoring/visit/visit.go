// Package visit keeps one sampling visit in one append-only TOML file.
//
// Begin with [Visit], [Event] and [Tally].
//
// The file is a [visit] header followed by one [[event]] block per event.
// The last line of every block is a checksum of the lines above it, a block
// is written in one piece and synced before success is reported, and blocks
// are read one by one. So a file cut anywhere keeps every event that was
// reported as saved, and a correction is a new event: nothing is rewritten.
//
// The package knows neither the taxa nor the rules of grading: a taxon is an
// id to it. Time and randomness are arguments.
package visit

import (
	"time"

	"rillkey/scoring/condition"
)

// fileFormat is the version of the file format that this package reads and writes.
const fileFormat = 1

// Bounds on what an event may hold. They are far above what an afternoon at a
// stream gives, and low enough that no file can exhaust a reader.
const (
	MaxCount    = 1_000_000 // animals in one identification
	minArea     = 0.0001    // square metres in one sample: a square centimetre
	MaxArea     = 10_000
	minLength   = 0.01 // millimetres
	MaxLength   = 1_000
	minFraction = 0.0001   // share of a sample that was sorted
	maxText     = 2_000    // characters in one text
	maxLabel    = 20       // characters in a sample's label
	MaxList     = 200      // entries in one list
	MaxBlock    = 64 << 10 // bytes in one block
	MaxEvents   = 100_000  // blocks in one file
	MaxFile     = 64 << 20 // bytes in one file
)

// Header says which visit a file holds. Site and Date are required; the
// others may be empty.
type Header struct {
	ID           string    // drawn by Create
	Site         string    // the place, in the people's own words
	Date         string    // the day, as YYYY-MM-DD
	People       []string  // who took part
	Region       string    // id of the region it is in; empty in older files
	Edition      []string  // version and fingerprints of what it was begun with, as "key 0c4d88dae2a1"; empty in older files
	Protocol     string    // id of the protocol followed
	CautionsRead bool      // somebody confirmed having read the cautions
	Begun        time.Time // when the visit was begun
	Spot         *Spot     // where it is on the map; nil when nobody wrote it down
	Obscured     bool      // the place is not given to others exactly; see [Visit.Obscured]
	Reference    string    // the site that the group compares with, by its name; see [Header.ComparesWith]
	Joined       []string  // ids of visits that were one with this and merged into it

	unread []string // lines that this program does not know, sorted
}

// Event is one thing that happened on a visit.
type Event struct {
	ID   string    // unique in the file; drawn by Append
	Time time.Time // when it was recorded
	Who  string    // who did it; may be empty except for a second look
	Body Body      // what happened
	Line int       // line of the file where the event begins; 0 if not from a file
	// Follows is set where the clock was behind the event before this one, or
	// level with it: the event then comes right after that moment, in UTC.
	Follows time.Time

	byHand bool   // its checksum is wrong
	raw    []byte // the block as it stands in the file, where it holds what this program does not know
}

// Kind returns the word that names the kind of event in the file, such as
// "identification".
func (e Event) Kind() string { return e.Body.kind() }

// Body is what an event says: a Sample, Identification, Amendment, SecondLook,
// Finish, Settlement, SameName, SheetRows, Conditions or Opaque.
type Body interface{ kind() string }

// The words for the kinds of event.
const (
	kindSample         = "sample"
	kindIdentification = "identification"
	kindAmendment      = "amendment"
	kindSecondLook     = "second-look"
	kindFinish         = "finish"
	kindSettlement     = "settlement"
	kindSameName       = "same-name"
	kindSheetRows      = "sheet-rows"
	kindConditions     = "conditions"
)

// Sample says that a sample was taken.
type Sample struct {
	Label    string  // what people call it, such as "A1"; unique whatever its case
	Habitat  string  // habitat id, such as "riffle"
	Area     float64 // square metres of bed; 0 when not measured
	Effort   string  // how it was taken, in free words
	Fraction float64 // share of the sample that is sorted, above 0 to 1; 0 when nobody said, which is taken for all of it
	Said     Sorting // NotSorted, Sorted or Empty; empty when nobody said
}

// Identification puts a name on animals of one sample.
type Identification struct {
	Sample     string   // label of the sample; its case is free
	Taxon      string   // taxon id; may be empty when undecided
	Rank       string   // rank the name was given at
	Count      int      // animals, 1 to MaxCount
	Cell       string   // where in the tray they lie
	Confidence float64  // 0 to 1; 0 when not stated
	Path       []string // leads taken, such as "4a"
	Possible   []string // taxa that could not be excluded
	Also       []Chance // other taxa with their probability, likeliest first
	Undecided  bool     // set aside for a second look
	// FitsHalf and FitsTwice say how many times as likely all answers are from people
	// who misread half, and twice, as often as those whom the record takes for
	// granted; 0 when not stated.
	FitsHalf, FitsTwice float64
	Length              float64 // millimetres; 0 when not measured
	Note                string
	Expert              string // who determined a specimen elsewhere; empty where nobody did
	ExpertOn            string // the day of that, as YYYY-MM-DD
	Kept                string // where the specimen is kept
}

// Chance is a taxon with its probability, 0 to 1.
type Chance struct {
	Taxon       string
	Probability float64
}

// Amendment corrects an earlier sample, identification or finish, or the visit
// itself, without rewriting it. Either Withdrawn is set, which takes the event out (a
// withdrawn sample takes its records along, a withdrawn finish opens the
// visit again), or at least one field of Change is.
type Amendment struct {
	Entry     string // id of the event, or of the visit, that is corrected
	Reason    string // why; required
	Withdrawn bool
	Change    Change
}

// Change holds the new values of what an amendment changes; nil leaves a
// value as it was. Habitat, Area, Effort, Fraction and Said belong to a sample,
// Obscured, Site, Date, Protocol, Reference, People and Spot to the visit, Conditions to what was noted of stream and day, all others
// to an identification. A Count is what was counted again, and replaces what was
// counted before it; More is added, so that several hands count one record on. A
// record that comes to no animals is taken for withdrawn. A Taxon decides what was undecided, and a new one drops
// the rank, confidence, path and other possibilities of the old, except what
// the change itself gives.
type Change struct {
	Habitat    *string  `json:"habitat,omitempty"`
	Area       *float64 `json:"area_m2,omitempty"` // square metres
	Effort     *string  `json:"effort,omitempty"`
	Fraction   *float64 `json:"fraction,omitempty"` // share sorted
	Said       *Sorting `json:"state,omitempty"`
	Sample     *string  `json:"sample,omitempty"`
	Taxon      *string  `json:"taxon,omitempty"`
	Rank       *string  `json:"rank,omitempty"`
	Count      *int     `json:"count,omitempty"`
	More       *int     `json:"more,omitempty"` // animals counted on, or taken back if below 0
	Cell       *string  `json:"cell,omitempty"`
	Confidence *float64 `json:"confidence,omitempty"`
	Undecided  *bool    `json:"undecided,omitempty"`
	FitsHalf   *float64 `json:"fits_half,omitempty"`
	FitsTwice  *float64 `json:"fits_twice,omitempty"`
	Length     *float64 `json:"length_mm,omitempty"` // millimetres
	Note       *string  `json:"note,omitempty"`
	Expert     *string  `json:"expert,omitempty"`
	ExpertOn   *string  `json:"expert_on,omitempty"`
	Kept       *string  `json:"kept_at,omitempty"`
	Obscured   *bool    `json:"obscured,omitempty"`
	// Of the header.
	Site     *string `json:"site,omitempty"`
	Date     *string `json:"date,omitempty"`
	Protocol *string `json:"protocol,omitempty"`
	// Reference is empty where the group compares with no site any more.
	Reference *string   `json:"reference,omitempty"`
	People    *[]string `json:"people,omitempty"` // all of them anew
	Spot      *Spot     `json:"spot,omitempty"`
	// Conditions are new values, and those taken back; never changed once given.
	Conditions *condition.Values `json:"conditions,omitempty"`
}

// SecondLook is a second identification of the same animals. It stands beside
// the first and does not change it; an Amendment does that.
type SecondLook struct {
	Entry      string // id of the identification looked at again
	Taxon      string // taxon id; may be empty when undecided
	Rank       string
	Count      int     // animals as counted again; 0 when they were not
	Confidence float64 // 0 to 1
	Path       []string
	Undecided  bool
	Note       string
}

// Finish closes the visit: no further samples or identifications.
type Finish struct {
	Note string
}

// Settlement decides between amendments of one event that were made apart and
// contradict each other. Where two settlements do, the later one counts.
type Settlement struct {
	Entry     string   // id of the amended event
	Holds     string   // id of the amendment that holds
	Overruled []string // ids of those that give way wherever they touch the same field
}

// SameName says that two ways to write a name mean one person, site or
// sample, or, with Differ, that they do not, so that nobody is asked again.
// For one sample that was recorded twice under one label, Name and Spelling are that
// label.
type SameName struct {
	What     string // NamePerson, NameSite or NameSample
	Name     string
	Spelling string // the way to write it that holds
	Differ   bool
}

// What a SameName can be about.
const (
	NamePerson = "person"
	NameSite   = "site"
	NameSample = "sample"
)

func (Sample) kind() string         { return kindSample }
func (Identification) kind() string { return kindIdentification }
func (Amendment) kind() string      { return kindAmendment }
func (SecondLook) kind() string     { return kindSecondLook }
func (Finish) kind() string         { return kindFinish }
func (Settlement) kind() string     { return kindSettlement }
func (SameName) kind() string       { return kindSameName }
func (SheetRows) kind() string      { return kindSheetRows }
func (Conditions) kind() string     { return kindConditions }
