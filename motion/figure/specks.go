package figure

const (
	// speckShare is the area, as a share of the largest piece's, under which a piece
	// of a silhouette is a remains of something else: feet that trousers the colour
	// of the ground cut off have twice that.
	speckShare = 0.02
	// reachShare is how far beside the largest piece, in its heights, another may
	// lie and still be of the same figure. Where trousers are lost that is a trunk of
	// half a figure, and feet in a stride lie a quarter of one to either side.
	reachShare = 0.5
)

// Tidy clears, inside a box of working pixels, all but the larger pieces that
// lie together.
func (s *Silhouette) Tidy(box Box) {
	b := Box{max(0, box.X0/Shrink), max(0, box.Y0/Shrink), min(s.W, (box.X1+1)/Shrink), min(s.H, (box.Y1+1)/Shrink)}
	if b.Empty() {
		return
	}
	pieces, largest := s.pieces(b), 0
	for i, p := range pieces {
		if len(p) > len(pieces[largest]) {
			largest = i
		}
	}
	if len(pieces) == 0 {
		return
	}
	near := s.around(pieces[largest])
	reach := int(reachShare * float64(near.H()))
	near = Box{near.X0 - reach, b.Y0, near.X1 + reach, b.Y1}
	for _, p := range pieces {
		if float64(len(p)) < speckShare*float64(len(pieces[largest])) || near.Overlap(s.around(p)) == 0 {
			for _, i := range p {
				s.Words[i/64] &^= 1 << (i % 64)
			}
		}
	}
}

// around is the box around a piece, layer pixels.
func (s *Silhouette) around(piece []int) (b Box) {
	for _, i := range piece {
		x, y := i%s.W, i/s.W
		b = b.Union(Box{x, y, x + 1, y + 1})
	}
	return b
}

// pieces are the connected pieces inside b, layer pixels, each as a list of
// indices.
func (s *Silhouette) pieces(b Box) [][]int {
	seen := make([]bool, b.W()*b.H())
	var list [][]int
	for y := b.Y0; y < b.Y1; y++ {
		for x := b.X0; x < b.X1; x++ {
			if p := s.flood(b, x, y, seen); p != nil {
				list = append(list, p)
			}
		}
	}
	return list
}

// flood gathers the piece that (x, y) belongs to, nil where there is none or
// seen has it.
func (s *Silhouette) flood(b Box, x, y int, seen []bool) []int {
	var piece []int
	visit := func(x, y int) {
		if x < b.X0 || y < b.Y0 || x >= b.X1 || y >= b.Y1 {
			return
		}
		if k := (y-b.Y0)*b.W() + x - b.X0; !seen[k] && s.At(x, y) {
			seen[k] = true
			piece = append(piece, y*s.W+x)
		}
	}
	visit(x, y)
	for k := 0; k < len(piece); k++ {
		px, py := piece[k]%s.W, piece[k]/s.W
		for dy := -1; dy <= 1; dy++ {
			for dx := -1; dx <= 1; dx++ {
				visit(px+dx, py+dy)
			}
		}
	}
	return piece
}
