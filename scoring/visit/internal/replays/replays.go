// Package replays counts how often visits are replayed, so that a test can hold every
// command to once for each file.
package replays

import "sync/atomic"

// Replayed is how often any visit was replayed in this process.
var Replayed atomic.Int64
