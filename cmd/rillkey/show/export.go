package show

// HandedOver says what an export wrote.
type HandedOver struct {
	Form    string   `json:"form"`
	Target  string   `json:"to"`
	Visits  int      `json:"visits"`
	Skipped []string `json:"skipped"` // files that could not be read
}

// TakenIn says what an import wrote.
type TakenIn struct {
	Files []string `json:"files"`
	There []string `json:"there"` // the same before

	Remarks []string `json:"remarks"` // on what was passed over in the tables
}
