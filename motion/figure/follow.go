package figure

import (
	"image"
	"math"
	"slices"

	"holdfast/motion/camera"
	"holdfast/motion/flow"
)

const (
	// followMargin is how far around what moves flow is sought, layer pixels:
	// its patches at their coarsest.
	followMargin = 8
	// followMost is the largest area, in layer pixels, in which flow is sought
	// at full size. A figure that fills more is as well told by half the pixels.
	followMost = 20000
	// followLevels is how many halvings there are at most.
	followLevels = 3
	// fitReach is how many layer pixels either way the window reaches by which a
	// displacement is judged: half a forearm of a figure half a picture high.
	fitReach = 3
	// fitAlike is how much the pixels of that window may differ from its middle,
	// levels summed over luma and chroma: what differs more is another part,
	// which goes its own way (the support weights of K.-J. Yoon, I. Kweon,
	// "Adaptive Support-Weight Approach for Correspondence Search", PAMI 28,
	// 2006, here all or nothing).
	fitAlike = 30
	// fitMost cuts what one pixel may add to a misfit, levels.
	fitMost = 60
	// lostFit is how many times worse than the figure's better fitting pixels a
	// pixel must fit for flow to have lost it.
	lostFit = 8.0
	// fineFit and roughFit are the least and the most that those pixels are taken
	// to misfit by, levels: rounding leaves the one, and where more is left even
	// they are lost.
	fineFit, roughFit = 1.5, 12.0
)

// A follower follows the pixels of a frame back to the frame before, by dense
// flow in what the camera left, at the size of layers.
type follower struct {
	layers    []*Layer
	path      []camera.Similarity // layer pixels
	slack     float64
	now       *Layer
	before    *Layer // as the later frame sees it
	flows     [followLevels]*flow.DIS
	field     flow.Field
	crop      image.Rectangle // of the layer, that field covers
	step      int             // between the pixels of a window that are looked at
	fits, few []float64
}

func newFollower(layers []*Layer, path []camera.Similarity) (*follower, error) {
	f := &follower{layers: layers, slack: slackOf(path)}
	for _, p := range path {
		f.path = append(f.path, shrunk(p))
	}
	var err error
	if f.before, err = NewLayer(layers[0].W, layers[0].H); err != nil {
		return f, err
	}
	for level := range f.flows {
		if f.flows[level], err = flow.NewFineDIS(level); err != nil {
			return f, err
		}
	}
	return f, nil
}

func (f *follower) close() {
	if f.before != nil {
		f.before.Close()
	}
	for _, d := range f.flows {
		if d != nil {
			d.Close()
		}
	}
}

// look finds where the pixels of frame t inside b, layer pixels, came from.
func (f *follower) look(t int, b Box) error {
	f.now = f.layers[t]
	f.view(t)
	w, h := f.now.W, f.now.H
	b = b.Grow(max(followMargin, (flow.MinSide-min(b.W(), b.H())+1)/2))
	f.crop = image.Rect(b.X0, b.Y0, b.X1, b.Y1).Intersect(image.Rect(0, 0, w, h))
	if f.crop.Dx() < flow.MinSide || f.crop.Dy() < flow.MinSide {
		f.crop = image.Rect(0, 0, w, h)
	}
	f.step = 1
	if w < flow.MinSide || h < flow.MinSide {
		f.field.Reset(w, h)
		clear(f.field.UV)
		return nil
	}
	level := 0
	for area := f.crop.Dx() * f.crop.Dy(); area > followMost && level < followLevels-1; area /= 4 {
		level++
		f.step = 2
	}
	return f.flows[level].Calc(&f.field, f.now.lumaIn(f.crop), f.before.lumaIn(f.crop))
}

// view sets f.before to frame t-1 as frame t sees it, in its light.
func (f *follower) view(t int) {
	if f.slack == slackStill {
		copy(f.before.Pix, f.layers[t-1].Pix)
	} else {
		m := middle(f.before.W, f.before.H)
		f.before.warp(f.layers[t-1], f.path[t-1].Inverse().Then(f.path[t]), m, m, 0)
	}
	f.before.relight(light(f.now, f.before))
}

// lumaIn returns part of a layer as a picture of its own.
func (l *Layer) lumaIn(r image.Rectangle) *image.Gray {
	g := image.NewGray(image.Rectangle{Max: r.Size()})
	for y := range g.Rect.Dy() {
		row := l.Pix[((y+r.Min.Y)*l.W+r.Min.X)*channels:]
		for x := range g.Rect.Dx() {
			g.Pix[y*g.Stride+x] = row[x*channels+channelY]
		}
	}
	return g
}

// from is the displacement that leads from pixel i of the layer to where it was,
// layer pixels.
func (f *follower) from(i int) (u, v float64) {
	a, b := f.field.At(i%f.now.W-f.crop.Min.X, i/f.now.W-f.crop.Min.Y)
	return float64(a), float64(b)
}

// lost reports which of the pixels look unlike what flow takes them for.
func (f *follower) lost(pixels []int) func(k int) bool {
	f.fits = f.fits[:0]
	for _, i := range pixels {
		u, v := f.from(i)
		f.fits = append(f.fits, f.misfit(i, u, v))
	}
	f.few = append(f.few[:0], f.fits...)
	slices.Sort(f.few)
	limit := lostFit * min(roughFit, max(fineFit, f.few[len(f.few)/4]))
	return func(k int) bool { return f.fits[k] > limit }
}

// misfit is the mean difference, levels over all channels, between the pixels
// around pixel i that look like it and the places they came from if all went
// alike; infinite where those lie outside the picture.
func (f *follower) misfit(i int, u, v float64) float64 {
	w := f.now.W
	x, y := i%w, i/w
	left, up := int(math.Floor(u)), int(math.Floor(v))
	lens := newLens(u-float64(left), v-float64(up), w)
	reach := min(fitReach, x, y, w-1-x, f.now.H-1-y)
	if x+left < reach || y+up < reach || x+left+reach+1 >= w || y+up+reach+1 >= f.before.H {
		return math.Inf(1)
	}
	here := f.now.Pix[i*channels : i*channels+channels]
	shift := up*w + left
	sum, n := min(fitMost*lensOne, lens.unlike(f.before.Pix[(i+shift)*channels:], here)), 1
	for row := y - reach; row <= y+reach; row += f.step {
		for j := row*w + x - reach; j <= row*w+x+reach; j += f.step {
			if j == i {
				continue
			}
			q := f.now.Pix[j*channels : j*channels+channels : j*channels+channels]
			if apartBy(here, q) > fitAlike {
				continue
			}
			sum += min(fitMost*lensOne, lens.unlike(f.before.Pix[(j+shift)*channels:], q))
			n++
		}
	}
	return float64(sum) / float64(lensOne*n)
}

// apartBy is the difference of two pixels' colours, levels over all channels.
func apartBy(p, q []uint8) int {
	sum := 0
	for c := range channelSeen {
		d := int(p[c]) - int(q[c])
		sum += max(d, -d)
	}
	return sum
}

// A lens looks between pixels, bilinear; its weights sum to lensOne.
type lens struct {
	weights [4]int
	down    int // bytes to the pixel below
}

const lensOne = 64 * 64

// newLens looks (x, y) of a pixel right of and below a pixel of a layer w wide.
func newLens(x, y float64, w int) lens {
	a, b := int(64*x), int(64*y)
	return lens{[4]int{(64 - a) * (64 - b), a * (64 - b), (64 - a) * b, a * b}, w * channels}
}

// unlike is the difference between what the lens shows at p and pixel q, in
// levels times lensOne over all channels.
func (l *lens) unlike(p, q []uint8) int {
	up, down := p[:2*channels], p[l.down:l.down+2*channels]
	sum := 0
	for c := range channelSeen {
		d := l.weights[0]*int(up[c]) + l.weights[1]*int(up[c+channels]) +
			l.weights[2]*int(down[c]) + l.weights[3]*int(down[c+channels]) - lensOne*int(q[c])
		sum += max(d, -d)
	}
	return sum
}
