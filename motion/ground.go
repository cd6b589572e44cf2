package motion

import (
	"math"

	"holdfast/motion/beats"
	"holdfast/motion/camera"
	"holdfast/motion/feet"
	"holdfast/motion/figure"
	"holdfast/motion/travel"
)

// A Contact is one stand of something of a figure on the ground.
type Contact struct {
	Shot         int              // index into Result.Shots
	Figure       int              // ID
	feet.Contact `cbor:"Contact"` // a member by itself: it has a figure of its own
}

// A Flight is a run of frames in which a figure touches no ground.
type Flight struct {
	Shot        int // index into Result.Shots
	Figure      int // ID
	feet.Flight `cbor:"Flight"`
}

// An Impact is the instant at which a free object meets the ground.
type Impact struct {
	Shot        int // index into Result.Shots
	Figure      int // ID
	feet.Impact `cbor:"Impact"`
}

// An Outside is a run of frames in which a figure's feet are out of the picture.
type Outside struct {
	Shot         int // index into Result.Shots
	Figure       int // ID
	feet.Outside `cbor:"Outside"`
}

// stand finds what stands, flies and bounces in a stretch, whose figures are those
// of the shot that who says.
func (s *shot) stand(found *figure.Found, who []int, path []camera.Similarity, maps []*travel.Map) error {
	b := s.bars.of(s.layers[:len(maps)], s.o.Size.X, s.o.Size.Y)
	in := &feet.Stretch{Rate: s.o.Rate, W: s.o.Size.X, H: s.o.Size.Y, Above: b.Top, Below: b.Bottom, Path: path, Bodies: found.Bodies, Covers: found.Silhouettes, Figures: found.Figures}
	for t := range maps {
		in.Luma = append(in.Luma, s.layers[t].Luma)
		in.Still = append(in.Still, t > 0 && farthestOf(found, maps, t) < beats.StillShare*found.Height())
	}
	var marked []int
	in.Marks, marked = s.feetMarks(len(maps))
	in.Line = s.groundLine(path)
	ground, err := feet.Find(in)
	if err != nil {
		return err
	}
	s.addRows(found, len(maps), ground.Contacts)
	s.addGround(ground, who)
	for _, t := range ground.Trails {
		s.trails = append(s.trails, Trail{Mark: marked[t.Mark], Start: t.Start + s.first, End: t.End + s.first})
	}
	return nil
}

// addGround adds what was found of the ground in a stretch to the shot.
func (s *shot) addGround(ground *feet.Found, who []int) {
	for _, c := range ground.Contacts {
		c.Start, c.End = c.Start+s.first, c.End+s.first
		c.SlideStart, c.SlideEnd = c.SlideStart+s.first, c.SlideEnd+s.first
		c.Figure = who[c.Figure]
		s.addContact(Contact{Contact: c})
	}
	for _, f := range ground.Flights {
		f.Start, f.End = f.Start+s.first, f.End+s.first
		f.Figure = who[f.Figure]
		s.flights = append(s.flights, Flight{Flight: f})
	}
	for _, o := range ground.Outside {
		o.Start, o.End = o.Start+s.first, o.End+s.first
		o.Figure = who[o.Figure]
		s.outside = append(s.outside, Outside{Outside: o})
	}
	for _, im := range ground.Impacts {
		im.Frame += float64(s.first)
		im.Figure = who[im.Figure]
		s.impacts = append(s.impacts, Impact{Impact: im})
	}
}

// joinShare is how far apart, in picture heights, the spots of two contacts may
// be that are one, cut apart where one stretch ends and the next begins.
const joinShare = 0.03

// addContact adds a contact, or lengthens the one that it goes on with.
func (s *shot) addContact(c Contact) {
	for i := range s.contacts {
		o := &s.contacts[i]
		if c.Start != s.first || o.End != s.first-1 {
			continue
		}
		if math.Hypot(o.LastX-c.X, o.LastY-c.Y) <= joinShare*float64(s.o.Size.Y) {
			o.End, o.LastX, o.LastY, o.SlideEnd = c.End, c.LastX, c.LastY, c.SlideEnd
			o.Slip, o.Share, o.Turns = o.Slip+c.Slip, o.Share+c.Share, o.Turns || c.Turns
			return
		}
	}
	s.contacts = append(s.contacts, c)
}

// ground adds what stood, flew and bounced in the shot to the result, whose
// figures must be there.
func (s *shot) ground(r *Result, index int) {
	first := len(r.Figures) - len(s.figures)
	id := func(figure int) int { return r.Figures[first+figure].ID }
	for _, c := range s.contacts {
		c.Shot, c.Figure = index, id(c.Contact.Figure)
		r.Contacts = append(r.Contacts, c)
	}
	for _, f := range s.flights {
		f.Shot, f.Figure = index, id(f.Flight.Figure)
		r.Flights = append(r.Flights, f)
	}
	for _, o := range s.outside {
		o.Shot, o.Figure = index, id(o.Outside.Figure)
		r.Outside = append(r.Outside, o)
	}
	for _, t := range s.trails {
		t.Shot = index
		r.Trails = append(r.Trails, t)
	}
	for _, im := range s.impacts {
		im.Shot, im.Figure = index, id(im.Impact.Figure)
		r.Impacts = append(r.Impacts, im)
	}
	s.addStrip(r, index)
}
