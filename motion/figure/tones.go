package figure

import (
	"math"
	"slices"

	"holdfast/motion/travel"
)

// tones are the mean luma and chroma of the cells of a travel.Map, three values
// a cell: over a cell grain comes to little, and what is large shows.
type tones []float32

// set fills v with the means of l over the cells of grid; cells that l does not
// see whole are not a number.
func (v tones) set(l *Layer, grid *travel.Map) tones {
	v = v[:0]
	for i := range grid.Cols * grid.Rows {
		x0, y0 := grid.Bounds(i)
		m := l.mean(x0/Shrink, y0/Shrink)
		v = append(v, m[:]...)
	}
	return v
}

// mean is the mean luma and chroma of the cell at layer pixel (x0, y0).
func (l *Layer) mean(x0, y0 int) [channelSeen]float32 {
	var sum [channelSeen]int
	for y := y0; y < y0+cellSide; y++ {
		row := l.Pix[(y*l.W+x0)*channels : (y*l.W+x0+cellSide)*channels]
		for ; len(row) > 0; row = row[channels:] {
			if row[channelSeen] != 255 {
				nan := float32(math.NaN())
				return [channelSeen]float32{nan, nan, nan}
			}
			sum[0], sum[1], sum[2] = sum[0]+int(row[0]), sum[1]+int(row[1]), sum[2]+int(row[2])
		}
	}
	const n = cellArea
	return [channelSeen]float32{float32(sum[0]) / n, float32(sum[1]) / n, float32(sum[2]) / n}
}

// unlike is the difference in cell i, levels; not a number where either is none.
func (v tones) unlike(u tones, i int) float32 {
	d := func(c int) float32 { return abs(v[channelSeen*i+c] - u[channelSeen*i+c]) }
	return max(d(channelY), chromaWeight*d(channelCb), chromaWeight*d(channelCr))
}

// known reports whether cell i was seen whole.
func (v tones) known(i int) bool { return v[channelSeen*i] == v[channelSeen*i] }

// lit returns v in the light of u: brighter by the ratio that most cells agree
// on, which are a quarter of them where the rest shows something else.
func (v tones) lit(u tones) tones {
	var ratios []float32
	for i := 0; i < len(v); i += channelSeen {
		if v[i] > 0 && u[i] > 0 {
			ratios = append(ratios, u[i]/v[i])
		}
	}
	gain := densest(ratios, len(v)/channelSeen/4)
	out := slices.Clone(v)
	for i := range out {
		black := float32(0)
		if i%channelSeen != channelY {
			black = 128
		}
		out[i] = black + gain*(out[i]-black)
	}
	return out
}

// densest is the middle of the shortest interval that holds n of the values, 1
// where there are fewer.
func densest(values []float32, n int) float32 {
	slices.Sort(values)
	best := -1
	for i := 0; i+n <= len(values) && n > 0; i++ {
		if best < 0 || values[i+n-1]-values[i] < values[best+n-1]-values[best] {
			best = i
		}
	}
	if best < 0 {
		return 1
	}
	return values[best+n/2]
}
