package visit

func (ch Change) touchesSample() bool {
	return ch.Habitat != nil || ch.Area != nil || ch.Effort != nil
}

func (ch Change) touchesRecord() bool {
	ch.Habitat, ch.Area, ch.Effort = nil, nil, nil
	return ch != Change{}
}

func (ch Change) applyToSample(s *Sample) {
	set(&s.Habitat, ch.Habitat)
	set(&s.Area, ch.Area)
	set(&s.Effort, ch.Effort)
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
