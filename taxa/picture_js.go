package taxa

// open refuses photographs: what runs in a browser holds none.
func (p *Photo) open(folder, string) (message, hint string) {
	return "there are no photographs on this page", "leave it out"
}
