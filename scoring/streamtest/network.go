package streamtest

import (
	"fmt"
	"iter"
	"math"
	"math/rand/v2"
	"time"

	"rillkey/scoring/visit"
)

// Network is an invented county: many sites along streams, each visited once a year.
type Network struct {
	Sites, Years int
	Seed         uint64
	Protocol     string
	Region       string
}

// waters and bends name the invented sites.
var (
	waters = []string{"Alder", "Bramble", "Cinder", "Dapple", "Ember", "Fallow", "Gorse", "Heron", "Iron", "Juniper", "Kestrel", "Larch"}
	bends  = []string{"above the ford", "below the mill", "at the footbridge", "by the old weir", "at the school", "under the oaks"}
)

// sitesOfStream is how many sites lie along one stream.
const sitesOfStream = 8

// Visits are all visits of the network, about thirty entries each, site by site and
// year by year. Every fortieth site is obscured and every hundredth has no place on
// the map.
func (n Network) Visits() iter.Seq[*visit.Visit] {
	return func(yield func(*visit.Visit) bool) {
		for i := range n.Sites {
			for year, v := range n.site(i) {
				v.Header.ID = fmt.Sprintf("v%05d%02d", i, year)
				if !yield(v) {
					return
				}
			}
		}
	}
}

// Name is what a site of the network is called.
func (n Network) Name(i int) string {
	s := i / sitesOfStream
	name := fmt.Sprintf("%s Brook, %s", waters[s%len(waters)], bends[i%len(bends)])
	if s >= len(waters) {
		name = fmt.Sprintf("%s Brook %d, %s", waters[s%len(waters)], s/len(waters), bends[i%len(bends)])
	}
	if i%sitesOfStream >= len(bends) {
		name += " again"
	}
	return name
}

func (n Network) site(i int) []*visit.Visit {
	r := rand.New(rand.NewPCG(n.Seed, uint64(i)))
	s := Stream{Random: r, Animals: 150 + 300*r.Float64(), Samples: 3, YearlySD: 0.5, Memory: 0.4, Patches: 2, Protocol: n.Protocol}
	if i%10 == 3 {
		s.Crash = max(1, n.Years-2)
	}
	years := s.Years(n.Name(i), n.Years)
	spot := n.spot(i, r)
	for year, v := range years {
		h := &v.Header
		h.Date = fmt.Sprintf("%d%s", 2027-n.Years+year, h.Date[4:])
		begun, _ := time.Parse(time.DateOnly, h.Date)
		h.Begun = begun.Add(10 * time.Hour)
		h.Region, h.People, h.CautionsRead, h.Spot = n.Region, []string{"Ada", "Bo"}, true, spot
		h.Obscured = i%40 == 17
		v.File = visit.FileName(h.Date, h.Site, false, fmt.Sprint(i))
		for e := range v.Events {
			v.Events[e].Time = h.Begun.Add(time.Duration(e+1) * time.Minute)
		}
		v.Events = append(v.Events, visit.Event{ID: "finish", Time: h.Begun.Add(3 * time.Hour), Who: "Ada", Body: visit.Finish{}})
	}
	return years
}

// spot lies along a stream that winds through a county of about a degree.
func (n Network) spot(i int, r *rand.Rand) *visit.Spot {
	if i%100 == 99 {
		return nil
	}
	stream, along := float64(i/sitesOfStream), float64(i%sitesOfStream)/sitesOfStream
	across := math.Sqrt(float64(max(n.Sites, 1)) / sitesOfStream)
	row, col := math.Floor(stream/math.Ceil(across)), math.Mod(stream, math.Ceil(across))
	return &visit.Spot{
		Latitude:    math.Round(1e5*(53.6+(row+0.6*math.Sin(3*along+stream)+0.1*r.Float64())/across)) / 1e5,
		Longitude:   math.Round(1e5*(-2.4+1.6*(col+along*0.9+0.05*r.Float64())/across)) / 1e5,
		Uncertainty: 10,
	}
}
