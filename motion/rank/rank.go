// Package rank finds values by their rank without sorting all of a list.
package rank

import "cmp"

// insertionMost is the length up to which a stretch is sorted by insertion: on
// so few values choosing a pivot costs more than it saves.
const insertionMost = 12

// Kth returns the value that would stand at index k if v were sorted, and leaves
// v in another order: what lies before index k is no larger, what lies behind no
// smaller. v must hold no NaN, and k must be an index of it, else Kth panics.
//
// The method is C. A. R. Hoare, "Algorithm 65: Find", CACM 4, 1961, with the
// middle of three for a pivot: it grows in step with len(v) where sorting grows
// by len(v) log len(v).
func Kth[T cmp.Ordered](v []T, k int) T {
	_ = v[k]
	low, high := 0, len(v)-1
	for high-low >= insertionMost {
		left, right := partition(v, low, high)
		switch {
		case k <= right:
			high = right
		case k >= left:
			low = left
		default:
			return v[k]
		}
	}
	insert(v[low : high+1])
	return v[k]
}

// Median returns the median of v, of an even number the upper one of the middle
// two, and leaves v in another order. v must hold a value and no NaN.
func Median[T cmp.Ordered](v []T) T { return Kth(v, len(v)/2) }

// partition sets apart v[low..high] so that nothing up to right is larger than
// anything from left on; what lies between equals the pivot.
func partition[T cmp.Ordered](v []T, low, high int) (left, right int) {
	pivot := middleOf(v[low], v[low+(high-low)/2], v[high])
	left, right = low, high
	for left <= right {
		for v[left] < pivot {
			left++
		}
		for pivot < v[right] {
			right--
		}
		if left <= right {
			v[left], v[right] = v[right], v[left]
			left++
			right--
		}
	}
	return left, right
}

func middleOf[T cmp.Ordered](a, b, c T) T { return max(min(a, b), min(max(a, b), c)) }

// insert sorts v by insertion.
func insert[T cmp.Ordered](v []T) {
	for i := 1; i < len(v); i++ {
		for j := i; j > 0 && v[j] < v[j-1]; j-- {
			v[j], v[j-1] = v[j-1], v[j]
		}
	}
}
