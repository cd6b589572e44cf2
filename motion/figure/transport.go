package figure

import (
	"math"
	"slices"
)

// A way is how far what flow lost went, in layer pixels.
type way struct {
	gone          // of all pixels that went
	top   float64 // of the part that went farthest
	cells []bool  // of the travel map, in which this counts and flow does not
}

// A gone is how far pixels went, layer pixels.
type gone struct{ sum, squares float64 }

func (g *gone) add(far, pixels float64) {
	g.sum, g.squares = g.sum+far*pixels, g.squares+far*far*pixels
}

func (g gone) plus(o gone) gone { return gone{g.sum + o.sum, g.squares + o.squares} }

// over is the same of a part of some area, layer pixels. Least work carries the rim
// of a part that goes less far than it is wide across all of it, and leaves the rest.
func (g gone) over(area float64) gone {
	if area > 0 {
		g.squares = min(g.squares, g.sum*g.sum/area)
	}
	return g
}

// pace is the mean of how far pixels went, each with the weight of how far it went:
// what rests has none. Unlike the plain mean over a figure it does not change with
// how much of a part is to be seen, before the body or beside it.
func (g gone) pace() float64 {
	if g.sum == 0 {
		return 0
	}
	return g.squares / g.sum
}

const (
	// mostCarried is how many pixels are carried at most; of more only every
	// second, third, ... is. Large parts are told as well by some hundred pixels
	// as by all, and the work grows with the third power.
	mostCarried = 300
	// leastCarried is the fewest that tell anything.
	leastCarried = 4
	// nearPrice is what a pixel of way costs against a level of colour, summed
	// over luma and chroma: of like places the nearest.
	nearPrice = 0.3
	// partPixels is how many layer pixels of something must go far for it to be
	// a part of the figure: a hand of a figure a fifth of the picture high.
	partPixels = 6
)

// A carrier finds the least work that makes one frame of another where they
// differ: the earth mover's distance (Y. Rubner, C. Tomasi, L. Guibas, "The Earth
// Mover's Distance as a Metric for Image Retrieval", IJCV 40, 2000) between equal
// numbers of pixels, which makes it an assignment. Unlike a search for the
// nearest likeness it gives each place to one pixel only, so that a limb which
// jumps clear of where it was is carried the whole way.
type carrier struct {
	assigner assigner
	cost     []float32
	columns  []int
	ways     []float64
	a, b     [][3]float32 // colours at the places, before and after
	at       [][2]float32 // the places
}

// carry returns the way of what was carried between two layers over the given
// places, pixels that lie nowhere on the rim.
func (c *carrier) carry(from, to *Layer, places []int) way {
	stride := 1 + len(places)/mostCarried
	places = thin(places, stride)
	n := len(places)
	if n < leastCarried {
		return way{}
	}
	c.price(from, to, places)
	c.columns = c.assigner.assign(c.cost, n, c.columns)
	c.ways = c.ways[:0]
	var total way
	for i, j := range c.columns {
		far := apart(places[i], places[j], from.W)
		c.ways = append(c.ways, far)
		// What is carried one way, the ground it covers is carried the other.
		total.add(far, float64(stride)/2)
	}
	slices.Sort(c.ways)
	if part := 2 * (partPixels + stride - 1) / stride; n >= part {
		total.top = c.ways[n-part]
	}
	return total
}

// thin keeps every stride-th of the places.
func thin(places []int, stride int) []int {
	kept := places[:0]
	for k := 0; k < len(places); k += stride {
		kept = append(kept, places[k])
	}
	return kept
}

// price fills c.cost: row by row what it costs to make the colour that a place
// has before that of each place after.
func (c *carrier) price(from, to *Layer, places []int) {
	n := len(places)
	c.a, c.b = colours(c.a, from, places), colours(c.b, to, places)
	c.at = c.at[:0]
	for _, i := range places {
		c.at = append(c.at, [2]float32{float32(i % from.W), float32(i / from.W)})
	}
	c.cost = slices.Grow(c.cost[:0], n*n)[:n*n]
	for i, p := range c.a {
		row, at := c.cost[i*n:(i+1)*n], c.at[i]
		for j, q := range c.b {
			unlike := abs(p[0]-q[0]) + abs(p[1]-q[1]) + abs(p[2]-q[2])
			dx, dy := at[0]-c.at[j][0], at[1]-c.at[j][1]
			row[j] = unlike + nearPrice*float32(math.Sqrt(float64(dx*dx+dy*dy)))
		}
	}
}

func abs(v float32) float32 { return max(v, -v) }

// apart is the distance between two pixels of a layer w wide.
func apart(i, j, w int) float64 { return math.Hypot(float64(i%w-j%w), float64(i/w-j/w)) }

// colours returns the mean over three by three pixels around each place, which
// takes most of the grain out.
func colours(dst [][3]float32, l *Layer, places []int) [][3]float32 {
	dst = dst[:0]
	for _, i := range places {
		var sum [3]float32
		for _, row := range [3]int{i - l.W, i, i + l.W} {
			for j := row - 1; j <= row+1; j++ {
				p := l.Pix[j*channels : j*channels+channels]
				sum[0], sum[1], sum[2] = sum[0]+float32(p[channelY]), sum[1]+float32(p[channelCb]), sum[2]+float32(p[channelCr])
			}
		}
		dst = append(dst, [3]float32{sum[0] / 9, sum[1] / 9, sum[2] / 9})
	}
	return dst
}
