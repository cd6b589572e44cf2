package picture

// BlackLevel is the luma up to which a border is black: video black is 16, and coding
// rings by some levels beside the picture.
const BlackLevel = 24

// blackStride is the distance, in pixels, between those of a line that are looked at.
const blackStride = 4

// Black reports whether a line of luma, its pixels so many apart, shows nothing: a bar
// above, below or beside a picture of another shape than its frame.
func Black(line []uint8, apart int) bool {
	for i := 0; i < len(line); i += apart * blackStride {
		if line[i] > BlackLevel {
			return false
		}
	}
	return true
}
