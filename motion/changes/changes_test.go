package changes

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// bursts is a series of so many values that moves for eight of every period, at a
// speed by lot around so many hundredths of a figure height from frame to frame.
func bursts(r *rand.Rand, n, period int, speed float64) []float64 {
	v := make([]float64, n)
	for i := range v {
		if i%period < 8 {
			v[i] = 0.01 * speed * (0.5 + r.Float64()) * math.Sin(math.Pi*(float64(i%period)+0.5)/8)
		}
	}
	return v
}

// pops is a series of so many values that rests but for a jump of some heights once
// in a period.
func pops(n, period int, far float64) []float64 {
	v := make([]float64, n)
	for i := period - 1; i < n; i += period {
		v[i] = far
	}
	return v
}

func TestFind(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for name, c := range map[string]struct {
		parts [][]float64
		want  []int // the first values of the stretches after the first
	}{
		"nothing":             {nil, nil},
		"still":               {[][]float64{make([]float64, 200)}, nil},
		"short":               {[][]float64{{1, 0, 1}}, nil},
		"lively":              {[][]float64{bursts(r, 400, 13, 4)}, nil},
		"lively, a long hold": {[][]float64{bursts(r, 150, 13, 4), make([]float64, 24), bursts(r, 150, 13, 4)}, nil},
		"quiet, one gesture":  {[][]float64{bursts(r, 300, 100, 0.4), bursts(r, 8, 8, 4), bursts(r, 300, 100, 0.4)}, nil},
		"turns quiet":         {[][]float64{bursts(r, 190, 13, 4), bursts(r, 150, 50, 0.4)}, []int{190}},
		"turns lively":        {[][]float64{bursts(r, 150, 50, 0.4), bursts(r, 190, 13, 4)}, []int{150}},
		"rests and goes on":   {[][]float64{bursts(r, 190, 13, 4), make([]float64, 100), bursts(r, 190, 13, 4)}, []int{190, 290}},
		"poses that pop":      {[][]float64{pops(600, 60, 3), pops(160, 80, 3)}, nil},
		"twice as lively":     {[][]float64{bursts(r, 100, 13, 4), bursts(r, 100, 13, 8)}, nil},
	} {
		var speed []float64
		for _, p := range c.parts {
			speed = append(speed, p...)
		}
		list := Find(speed, 24)
		var got []int
		for i, s := range list {
			if i > 0 {
				got = append(got, s.From)
			}
			if i > 0 && s.From != list[i-1].To+1 || i == len(list)-1 && s.To != len(speed)-1 {
				t.Errorf("%s: the stretches %v do not follow each other", name, list)
			}
		}
		if len(got) != len(c.want) {
			t.Errorf("%s: changes on %v, want %v", name, got, c.want)
			continue
		}
		for i := range got {
			// The rest after a burst of the one belongs to the other as well.
			if d := got[i] - c.want[i]; d < -5 || d > 3 {
				t.Errorf("%s: changes on %v, want %v", name, got, c.want)
			}
		}
	}
}

// Against trying all cuts (optimal partitioning, without pruning).
func TestCutIsTheCheapest(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for k := range 60 {
		n, least := 1+r.IntN(60), 1+r.IntN(8)
		speed := make([]float64, n)
		for i := range speed {
			speed[i] = 0.02 * r.ExpFloat64() * float64(1+9*(i/13%2))
		}
		s := newSeries(speed, 24)
		price := 4 * r.Float64()
		best := make([]float64, n+1)
		best[0] = -price
		for end := 1; end <= n; end++ {
			best[end] = math.Inf(1)
			for at := range end {
				if end-at >= least || at == 0 && end == n {
					best[end] = min(best[end], best[at]+s.cost(at, end)+price)
				}
			}
		}
		got, from := -price, 0
		ends := s.cut(least, price)
		for _, end := range ends {
			if end-from < least && len(ends) > 1 {
				t.Errorf("run %d: a stretch of %d values, least %d", k, end-from, least)
			}
			got += s.cost(from, end) + price
			from = end
		}
		if from != n || math.Abs(got-best[n]) > 1e-9 {
			t.Errorf("run %d: %d values from %d cost %g up to %d, the cheapest %g", k, n, least, got, from, best[n])
		}
	}
}

func BenchmarkFind(b *testing.B) {
	r := rand.New(rand.NewPCG(5, 6))
	for _, minutes := range []int{1, 30} {
		var speed []float64
		for len(speed) < minutes*60*24 {
			speed = append(speed, bursts(r, 200, 13, 4)...)
			speed = append(speed, bursts(r, 150, 50, 0.4)...)
		}
		b.Run(fmt.Sprintf("%dmin", minutes), func(b *testing.B) {
			for b.Loop() {
				Find(speed, 24)
			}
		})
	}
}
