// Package replays counts how often visits are replayed, so that a test can hold every
// command to once for each file.
package replays

import "sync/atomic"

// How often any visit was replayed in this process: Tallied into a tally, and Admitted to
// judge whether one more event fits the file as it is when it is written, which gives no
// tally: between the two readings another program may have added something.
var Tallied, Admitted atomic.Int64
