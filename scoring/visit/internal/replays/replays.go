// Package replays counts how often visits are replayed, so that a test can hold every
// command to once for each file.
package replays

import "sync/atomic"

// Count is how often any visit was replayed in this process.
var Count atomic.Int64
