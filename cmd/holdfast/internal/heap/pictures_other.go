//go:build !linux

package heap

// returnPictures does nothing: the C libraries of other systems have no such
// setting.
func returnPictures() {}
