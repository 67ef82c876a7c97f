// Package streams holds a test and no code: simulated streams whose animals are
// known, people who key them and misread, and what a grade makes of the records.
package streams
