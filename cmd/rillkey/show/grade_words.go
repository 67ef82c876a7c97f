package show

import (
	"fmt"
	"strings"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// InWords is the grade as one paragraph that can be read aloud: what was found,
// what it means, and what it does not mean.
func InWords(g *scoring.Grade) string {
	out := []string{foundWords(g)}
	if g.Foreign != "" {
		out = append(out, g.Foreign)
	}
	main := &g.Indices[0]
	switch {
	case main.Withheld && len(g.Effort.Missing) > 0:
		out = append(out, wording.Sprintf("That is no grade yet: the method asks for %s, and %d %s taken.",
			plain.Count(g.Effort.Required, "sample"), g.Effort.Taken, wording.Agree(g.Effort.Taken, "was", "were")))
		out = append(out, outlook(g.Effort.Forecast))
	case main.Withheld && !g.Effort.Complete:
		out = append(out, wording.Sprintf("That is no grade yet: %s.", g.Effort.Lack()))
	case len(main.RatingRange) > 0:
		out = append(out, wording.Sprintf("By the %s, with a value of %s, the life in this stream lies %s: %s.", main.Title,
			wording.Number(*main.Value), ratingsBetween(main), main.Reason))
	case main.Withheld:
		out = append(out, wording.Sprintf("That gives no grade: %s.", main.Reason))
	default:
		out = append(out, meaning(main))
	}
	return strings.Join(append(out, wording.Text("It tells how the animals did that day and not why, and nothing on whether the water "+
		"is fit to drink or to swim in.")), " ")
}

// outlook is what the missing samples would likely bring.
func outlook(o *scoring.RichnessForecast) string {
	if o == nil {
		return wording.Text("What more samples would show, nobody can say from these.")
	}
	return wording.Sprintf("All samples together would likely hold about %.0f kinds, so a word now would be a guess.", o.Expected)
}

// lives says what a class of animals tells, in words for everybody. It is the
// method that counts a kind so: not each animal of it lives so.
var lives = map[string]string{
	string(taxa.Sensitive):         wording.Mark("counted as needing clean water"),
	string(taxa.SomewhatSensitive): wording.Mark("counted as putting up with a little dirt"),
	string(taxa.Tolerant):          wording.Mark("counted as living nearly anywhere"),
}

func foundWords(g *scoring.Grade) string {
	kinds, animals := 0, int64(0)
	var classes []string
	for _, c := range g.Found {
		kinds += len(c.Kinds)
		animals += c.Animals
		if how, ok := lives[c.Label]; ok && len(c.Kinds) > 0 {
			classes = append(classes, fmt.Sprintf("%s %s (%s)", plain.Count(len(c.Kinds), "kind"), wording.Text(how), someKinds(c.Kinds)))
		}
	}
	text := wording.Sprintf("At %s on %s we found %s, with %s", g.Visit.Site, Day(g.Visit.Date),
		plain.CountOf(kinds, "kind that counts", "kinds that count"), plain.Count(int(animals), "animal"))
	if kinds == 0 {
		text = wording.Sprintf("At %s on %s we found nothing that counts", g.Visit.Site, Day(g.Visit.Date))
	}
	if len(classes) > 0 {
		text += ": " + plain.And(classes)
	}
	return text + "."
}

func someKinds(kinds []scoring.KindFound) string {
	const most = 4
	var names []string
	for _, k := range kinds[:min(most, len(kinds))] {
		names = append(names, k.Label)
	}
	if n := len(kinds) - most; n > 0 {
		return strings.Join(names, ", ") + wording.Sprintf(" and %d more", n)
	}
	return plain.And(names)
}

// Day is a date as it is spoken.
func Day(date string) string {
	t, err := time.Parse("2006-01-02", date)
	if err != nil {
		return date
	}
	return wording.Date(t)
}

func meaning(i *scoring.Index) string {
	if i.Rating == scheme.Unrated {
		return wording.Sprintf("The %s is %s; no words are published for it.", i.Title, wording.Number(*i.Value))
	}
	text := wording.Sprintf("By the %s, with a value of %s, the life in this stream is %s%s.", i.Title, wording.Number(*i.Value),
		strings.ToUpper(i.Rating), provisionally(i))
	return text + steadiness(i)
}

func provisionally(i *scoring.Index) string {
	if i.RatingProvisional {
		return wording.Text(", provisionally: fewer animals were counted than a firm word takes")
	}
	return ""
}

// steadiness says whether doubts could change the word, and which doubts.
func steadiness(i *scoring.Index) string {
	var shaky []string
	for _, d := range []struct {
		spread *scoring.Spread
		why    string
	}{{i.Identification, wording.Text("some names are doubtful")},
		{i.Sampling, wording.Text("other samples might have held other animals")}} {
		if d.spread == nil || d.spread.Method == scoring.ClumpedMethod {
			continue
		}
		chance := 0.0
		for _, r := range d.spread.Ratings {
			if r.Rating == i.Rating {
				chance = r.Chance
			}
		}
		if chance < 0.95 {
			shaky = append(shaky, wording.Sprintf("%s (the word holds in %.0f of 100 cases)", d.why, 100*chance))
		}
	}
	if len(shaky) == 0 {
		return ""
	}
	return wording.Sprintf(" Take it with care: %s.", plain.And(shaky))
}

// GradeJSON is a grade with its paragraph, for scripts.
type GradeJSON struct {
	*scoring.Grade
	Words string `json:"in_words"`
}
