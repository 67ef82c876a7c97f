// Package couplets is the keys as people write them: how a key's TOML file is
// read, and what is wrong with one, each finding at file:line:column.
//
// Begin with [File], [Couplet] and [Sound].
//
// A key goes through three stages, each a type of its own: [File] as read,
// [Sound] once checked against a catalog, and the walkable form in package key,
// which takes nothing but a Sound. An unchecked key cannot be walked.
package couplets
