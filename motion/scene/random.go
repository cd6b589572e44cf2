package scene

// hash mixes its arguments into 64 bits that look random: the finaliser of
// splitmix64 (Steele, Lea and Flood 2014), applied after each argument.
func hash(values ...uint64) uint64 {
	h := uint64(0x9e3779b97f4a7c15)
	for _, v := range values {
		h += v + 0x9e3779b97f4a7c15
		h = (h ^ h>>30) * 0xbf58476d1ce4e5b9
		h = (h ^ h>>27) * 0x94d049bb133111eb
		h ^= h >> 31
	}
	return h
}

// HashUnit mixes its arguments into a number in 0..1, 1 excluded, that looks
// random and is always the same.
func HashUnit(values ...uint64) float64 { return float64(hash(values...)>>11) / (1 << 53) }
