package wholefile

import "errors"

// OnASimpleCard has files named as on a card that knows neither hard links nor the
// system's call, until back is called.
func OnASimpleCard() (back func()) {
	before := naming
	cannot := func(string, string) error { return errors.ErrUnsupported }
	naming.rename, naming.link = cannot, cannot
	return func() { naming = before }
}

// ClaimEnd is how claims to a name end.
var ClaimEnd = claimEnd
