// Package lesson lets a person practise: one animal at a time, named on sight or by
// the key, then what was misread and how the two kinds are told apart. A [Lesson] gives
// pages as values; a screen, lines and the page for phones show the same ones.
//
// Begin with [Lesson], [Prompt] and [Options].
package lesson

import (
	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/question"
	"rillkey/taxa"
)

// Prompt is what a person has before them.
type Prompt struct {
	Where   string // how far the sitting is
	Said    string // what came of the last answer
	Title   string
	Before  []question.Paragraph
	Picture Picture // the animal, or none
	Plates  []Picture
	Options []LetteredAnswer
	After   []question.Paragraph
	Keys    []Command
	Named   bool   // the name of an animal may be typed
	Go      string // what the main key does: go on, where no answer is due
}

// Picture is a drawing, or a photograph in its place, with words beneath; the zero
// Picture is none.
type Picture struct {
	Figure  figure.Figure
	Photo   *taxa.Photo
	Caption string
}

// empty reports whether there is nothing to be seen.
func (p Picture) empty() bool { return p.Photo == nil && p.Figure.Empty() }

// LetteredAnswer is an answer by its letter.
type LetteredAnswer struct{ Letter, Words string }

// Command is something else that can be done: its sign, what it is called and what it does.
type Command struct{ Sign, Short, Long string }

// The signs beside the letters of answers, which have no other meaning.
const (
	byKey  = "k" // walk with the key; at an animal there are no letters
	closer = "+"
	help   = "h"
	leave  = "q"
	GoOn   = "" // Enter, or an empty line
	more   = "m"
	again  = "r" // look at an answer of the walk again
)
