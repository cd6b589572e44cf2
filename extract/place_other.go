//go:build unix && !linux

package extract

func renameNew(from, to string) error { return linkNew(from, to) }
