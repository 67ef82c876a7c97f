package lesson

import (
	"strings"
	"testing"

	"rillkey/key/practice"
	"rillkey/taxa"
)

func TestOwnPhotographsComeInThePlaceOfDrawings(t *testing.T) {
	for _, shows := range []bool{true, false} {
		o, _ := options(t, practice.DrawingSource)
		o.Photos = shows
		for _, k := range o.Course.Kinds() {
			own := &taxa.Photo{Credit: "Ada"}
			defer func(was *taxa.Photo) { k.Photo = was }(k.Photo)
			k.Photo = own
		}
		l := New(o)
		photos, drawings := 0, 0
		for range 12 {
			p := l.Now()
			if p.Picture.Photo != nil {
				photos++
			} else if !p.Picture.Figure.Empty() {
				drawings++
			}
			if len(p.Drawings()) != 1 || strings.Contains(strings.ToLower(p.Drawings()[0].Caption), l.kind.Name()) {
				t.Errorf("%v", p.Drawings())
			}
			withPhoto := l.photo != nil
			l.Do(byKey)
			l.Do(stop)
			l.Do(stop)
			if last := o.Record.Meetings[len(o.Record.Meetings)-1]; withPhoto && len(last.Readings) > 0 {
				t.Error("a photograph is read as a drawing")
			}
			l.Do(GoOn)
		}
		if (photos > 0) != shows || drawings == 0 {
			t.Errorf("%d photographs and %d drawings", photos, drawings)
		}
	}
}
