package main

import (
	"strings"

	"rillkey/cmd/rillkey/ask"
	"rillkey/taxa/plain"
)

// setting is a field that a flag can answer instead of the person.
type setting struct {
	ask.Field
	value *string // the flag's value, and where the answer goes
	given bool    // the flag was used
}

// fill asks for what the flags leave open. Where any flag was used only what
// cannot be left open is asked, so that a script that gives all of that is asked
// nothing; with --json nothing is asked at all.
func (c *console) fill(settings []setting) error {
	script := false
	for _, s := range settings {
		script = script || s.given
	}
	var fields []ask.Field
	for _, s := range settings {
		switch {
		case s.given:
			if err := checkFlag(s); err != nil {
				return err
			}
		case script && (s.Optional || s.Default != ""):
			*s.value = s.Default
		default:
			fields = append(fields, s.Field)
		}
	}
	if len(fields) == 0 {
		return nil
	}
	if c.json {
		return misused("with --json nothing is asked; give %s", flagNames(fields))
	}
	answers, err := c.ask(fields...)
	if err != nil {
		return err
	}
	for _, s := range settings {
		if answer, ok := answers[s.Key]; ok {
			*s.value = answer
		}
	}
	return nil
}

func checkFlag(s setting) error {
	value := strings.TrimSpace(*s.value)
	switch {
	case value == "" && s.Optional:
		return nil
	case value == "":
		return misused("--%s is empty", s.Key)
	}
	if len(s.Options) > 0 {
		var allowed []string
		for _, o := range s.Options {
			allowed = append(allowed, o.Value)
		}
		for _, o := range allowed {
			if plain.Fold(o) == plain.Fold(value) {
				*s.value = o
				return nil
			}
		}
		return oneOf(s.Key, value, allowed)
	}
	if s.Check != nil {
		if err := s.Check(value); err != nil {
			return misused("--%s: %w", s.Key, err)
		}
	}
	return nil
}

// readOptional reads the value of a flag that may be empty.
func readOptional[T any](flag, value string, read func(string) (T, error), to *T) error {
	if value == "" {
		return nil
	}
	return readFlag(flag, value, read, to)
}

// readFlag reads the value of a flag.
func readFlag[T any](flag, value string, read func(string) (T, error), to *T) error {
	v, err := read(value)
	if err != nil {
		return misused("--%s: %w", flag, err)
	}
	*to = v
	return nil
}

// checkedBy is the check of a field whose value is read later.
func checkedBy[T any](read func(string) (T, error)) func(string) error {
	return func(s string) error { _, err := read(s); return err }
}

func flagNames(fields []ask.Field) string {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = "--" + f.Key
	}
	return strings.Join(names, ", ")
}
