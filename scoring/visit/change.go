package visit

func (ch Change) touchesSample() bool {
	return ch.Habitat != nil || ch.Area != nil || ch.Effort != nil || ch.Fraction != nil || ch.Said != nil
}

func (ch Change) touchesVisit() bool { return ch.Obscured != nil }

func (ch Change) touchesRecord() bool {
	ch.Habitat, ch.Area, ch.Effort, ch.Fraction, ch.Said, ch.Obscured = nil, nil, nil, nil, nil, nil
	return ch != Change{}
}

func (ch Change) applyToSample(s *Sample) {
	set(&s.Habitat, ch.Habitat)
	set(&s.Area, ch.Area)
	set(&s.Effort, ch.Effort)
	set(&s.Fraction, ch.Fraction)
	set(&s.Said, ch.Said)
}

func (ch Change) applyToRecord(d *Identification) {
	if ch.Taxon != nil {
		d.Undecided = false
	}
	if ch.Taxon != nil && *ch.Taxon != d.Taxon {
		d.Rank, d.Confidence = "", 0
		d.Path, d.Possible, d.Also = nil, nil, nil
	}
	set(&d.Sample, ch.Sample)
	set(&d.Taxon, ch.Taxon)
	set(&d.Rank, ch.Rank)
	set(&d.Count, ch.Count)
	set(&d.Cell, ch.Cell)
	set(&d.Confidence, ch.Confidence)
	set(&d.Undecided, ch.Undecided)
	set(&d.Length, ch.Length)
	set(&d.Note, ch.Note)
}

func set[T any](to *T, from *T) {
	if from != nil {
		*to = *from
	}
}

// without drops the fields that other touches.
func (ch Change) without(other Change) Change {
	drop(&ch.Habitat, other.Habitat)
	drop(&ch.Area, other.Area)
	drop(&ch.Effort, other.Effort)
	drop(&ch.Fraction, other.Fraction)
	drop(&ch.Said, other.Said)
	drop(&ch.Sample, other.Sample)
	drop(&ch.Taxon, other.Taxon)
	drop(&ch.Rank, other.Rank)
	drop(&ch.Count, other.Count)
	drop(&ch.Cell, other.Cell)
	drop(&ch.Confidence, other.Confidence)
	drop(&ch.Undecided, other.Undecided)
	drop(&ch.Length, other.Length)
	drop(&ch.Note, other.Note)
	drop(&ch.Obscured, other.Obscured)
	return ch
}

func drop[T any](field **T, other *T) {
	if other != nil {
		*field = nil
	}
}

// contradicts tells whether both touch a field and want different values.
func (ch Change) contradicts(o Change) bool {
	return differ(ch.Habitat, o.Habitat) || differ(ch.Area, o.Area) || differ(ch.Effort, o.Effort) || differ(ch.Fraction, o.Fraction) || differ(ch.Said, o.Said) ||
		differ(ch.Sample, o.Sample) || differ(ch.Taxon, o.Taxon) || differ(ch.Rank, o.Rank) ||
		differ(ch.Count, o.Count) || differ(ch.Cell, o.Cell) || differ(ch.Confidence, o.Confidence) ||
		differ(ch.Undecided, o.Undecided) || differ(ch.Length, o.Length) || differ(ch.Note, o.Note) || differ(ch.Obscured, o.Obscured)
}

func differ[T comparable](a, b *T) bool { return a != nil && b != nil && *a != *b }
