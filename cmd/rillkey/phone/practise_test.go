package phone

import (
	"strings"
	"testing"
)

func practisingPhone(t *testing.T) *Phone {
	t.Helper()
	p := phoneOf(1)
	p.Do("practise", FormValues{"learner": "Robin"})
	if p.lesson == nil || p.wrong {
		t.Fatal(p.said)
	}
	return p
}

func TestPracticeNeedsNoVisit(t *testing.T) {
	p := practisingPhone(t)
	if page := p.HTML(); !strings.Contains(page, "What is it?") || !strings.Contains(page, `data-figure="practice:0"`) {
		t.Fatal(page)
	}
	if svg := p.Figure("practice:0", true); !strings.HasPrefix(svg, "<svg") {
		t.Errorf("no drawing: %.40q", svg)
	}
	p.Do("sight", FormValues{"sight": "golden stonefly"})
	if page := p.HTML(); !strings.Contains(page, ", not golden stonefly") && !strings.Contains(page, "Yes: ") {
		t.Error(page)
	}
	p.Do("sign:", nil)
	p.Do("sign:k", nil)
	if page := p.HTML(); !strings.Contains(page, "Question 1") || !strings.Contains(page, `value="sign:a"`) {
		t.Error(page)
	}
	p.Do("sign:q", nil)
	if page := p.HTML(); !strings.Contains(page, "Begin a visit") || !strings.Contains(page, "Robin has met 1 animal") {
		t.Error(page)
	}
}

// Who waits for an animal practises in the middle of a visit, which stays as it was; and
// what was practised stays when the visit is put away.
func TestPracticeAndVisitStandBesideEachOther(t *testing.T) {
	p := phoneOf(1)
	p.Do("begin", FormValues{"site": "Mill Brook", "protocol": "riffle-three", "habitat": "riffle", "read": "yes", "people": "Ada"})
	p.Do("more:row-0:5", nil)
	before := string(p.File())
	p.Do("go:hand", nil)
	if page := p.HTML(); !strings.Contains(page, "Practise meanwhile") {
		t.Fatal(page)
	}
	p.Do("practise", FormValues{"learner": "Robin"})
	p.Do("sight", FormValues{"sight": "golden stonefly"})
	if page := p.HTML(); !strings.Contains(page, ", not golden stonefly") && !strings.Contains(page, "Yes: ") {
		t.Error(page)
	}
	p.Do("sign:q", nil)
	if page := p.HTML(); !strings.Contains(page, "Hand over") || !strings.Contains(page, "Robin has met 1 animal") {
		t.Error(page)
	}
	if string(p.File()) != before {
		t.Error("practice changed the visit")
	}
	if p.Do("unlearn", nil); !strings.Contains(p.HTML(), "Yes, delete it") {
		t.Error("it does not ask before it deletes")
	}
	p.Do("go:hand", nil)
	p.PutAway()
	if page := p.HTML(); !strings.Contains(page, "Begin a visit") || !strings.Contains(page, "Robin has met 1 animal") {
		t.Error(page)
	}
}

func TestPracticeIsKeptUntilItIsDeleted(t *testing.T) {
	p := practisingPhone(t)
	if p.Practice() != "" {
		t.Error("nothing was practised and something is kept")
	}
	p.Do("sight", FormValues{"sight": "golden stonefly"})
	p.Do("sign:q", nil)
	if page := p.HTML(); !strings.Contains(page, "Save what was practised as a file") || p.PracticeFileName() != "robin.practice.toml" {
		t.Errorf("no way to give it to a trainer, as %s: %s", p.PracticeFileName(), page)
	}
	other := phoneOf(2)
	if err := other.TakePractice(p.Practice()); err != nil {
		t.Fatal(err)
	}
	if err := other.TakePractice(p.Practice()); err != nil || len(other.practised.Meetings) != 1 {
		t.Errorf("taken in twice: %v, %d animals", err, len(other.practised.Meetings))
	}
	other.Do("practise", FormValues{"learner": "somebody else"})
	if other.practised.Person != "Robin" {
		t.Error("another name took over what one person practised")
	}
	other.Do("sign:q", nil)
	other.Do("unlearn", nil)
	if other.Practice() == "" || !strings.Contains(other.HTML(), "Yes, delete it") {
		t.Error("one press deleted")
	}
	if other.Do("unlearn:yes", nil); other.Practice() != "" {
		t.Error("two did not")
	}
	if err := other.TakePractice("[person]"); err == nil {
		t.Error("a record without a name was taken in")
	}
}

// A page that lives beside the table keeps nobody's practice, since it would be kept
// there and not on the phone.
func TestNobodyPractisesOnAPlainPage(t *testing.T) {
	v := begun(t, 1).visit
	p := phoneOf(2)
	p.Follow(v, Joined{Name: "Ada"})
	if p.Do("practise", FormValues{"learner": "Robin"}); p.lesson != nil || p.practised != nil || !p.wrong {
		t.Errorf("a plain page practises: %q", p.said)
	}
}

func TestNobodyPractisesWithoutAName(t *testing.T) {
	p := phoneOf(1)
	for _, do := range []string{"practise", "sign:k", "sight", "unlearn:yes"} {
		if p.Do(do, nil); p.lesson != nil || !p.wrong {
			t.Errorf("%s: %q", do, p.said)
		}
	}
}
