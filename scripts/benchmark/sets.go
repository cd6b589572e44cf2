package main

import (
	"fmt"
	"image"
	"io"
	"os"

	"holdfast/motion/scene"
	"holdfast/motion/scene/solid"
)

// Sets of scenes.
const (
	setDrawn = "drawn" // flat figures and balls, package scene
	setSolid = "solid" // solid figures that move as recorded, package solid
	setAll   = "all"
)

// recordings is where the recordings lie beside the repository, in which
// scripts/bench leaves the shell.
const recordings = "../shared/mocap"

// An original is a scene before any variant.
type original struct {
	name string
	with func(scene.Variant) (picture, error)
}

// originals returns the scenes of a set at a size.
func originals(set string, size image.Point) ([]original, error) {
	if set == setSolid {
		return solidOriginals(size)
	}
	return drawnOriginals(size)
}

func drawnOriginals(size image.Point) (list []original, err error) {
	scenes, err := scene.Catalogue(size)
	for _, s := range scenes {
		list = append(list, original{s.Name, func(v scene.Variant) (picture, error) {
			sc, err := s.With(v)
			if err != nil {
				return picture{}, err
			}
			return ofScene(sc), nil
		}})
	}
	return list, err
}

func solidOriginals(size image.Point) (list []original, err error) {
	scenes, err := solid.Catalogue(size, solid.Open(os.DirFS(recordings)))
	for _, s := range scenes {
		list = append(list, original{s.Name, func(v scene.Variant) (picture, error) {
			sc, err := s.With(v)
			if err != nil {
				return picture{}, err
			}
			return ofSolid(sc), nil
		}})
	}
	return list, err
}

// chooseSets returns the sets that a word asks for, the empty word all that can
// be drawn. It says so where recordings are not there.
func chooseSets(word string, stderr io.Writer) ([]string, error) {
	switch word {
	case setDrawn:
		return []string{setDrawn}, nil
	case "", setAll, setSolid:
	default:
		return nil, fmt.Errorf("--set %q is none of %s, %s, %s", word, setDrawn, setSolid, setAll)
	}
	_, err := os.Stat(recordings)
	switch {
	case err == nil && word == setSolid:
		return []string{setSolid}, nil
	case err == nil:
		return []string{setDrawn, setSolid}, nil
	case word == setSolid:
		return nil, fmt.Errorf("no recordings in %s to draw solid figures from", recordings)
	}
	fmt.Fprintf(stderr, "no recordings in %s: solid figures are left out\n", recordings)
	return []string{setDrawn}, nil
}
