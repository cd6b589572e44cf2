package main

import (
	"fmt"
	"image"
	"path"
	"strings"

	"holdfast/motion/scene"
)

// Sizes at which scenes are drawn. The main one is the working size; the large
// ones are scaled down on the way in, as large clips are.
var (
	mainSize   = image.Pt(640, 360)
	smallSize  = image.Pt(320, 180)
	largeSizes = []image.Point{{X: 1280, Y: 720}, {X: 1920, Y: 1080}}
)

// thinning is how many scenes apart a condition is tried where not all pairs
// are: the conditions take turns, so that each scene meets about a third of
// them. More would take two processors over six minutes.
const thinning = 3

// thinningSolid is the same for solid scenes, which take longer to draw and are
// mostly of one walk: each meets about one further condition, and each
// condition five of them.
const thinningSolid = 8

// A plan says which trials to run. The zero plan runs every scene clean, drawn
// ones at two sizes, and each further condition on some scenes.
type plan struct {
	scenes, variants []string // patterns as of path.Match; none means all
	sizes            []image.Point
	full             bool // all pairs, and the large sizes
	care             care
}

// A job is a trial to be run.
type job struct {
	picture
	set     string
	scene   string // its name without that of the variant
	variant scene.Variant
	care    care
}

// jobs lists the trials in the order of the tables.
func (p *plan) jobs(sets []string) ([]job, error) {
	var list []job
	for _, set := range sets {
		for _, size := range p.allSizes(set) {
			more, err := p.jobsAt(set, size)
			if err != nil {
				return nil, err
			}
			list = append(list, more...)
		}
	}
	if len(list) == 0 {
		return nil, fmt.Errorf("no scene fits; %s", known(sets))
	}
	return list, nil
}

// jobsAt lists the trials of one set at one size.
func (p *plan) jobsAt(set string, size image.Point) (list []job, err error) {
	scenes, err := originals(set, size)
	if err != nil {
		return nil, err
	}
	apart := 1
	if !p.full && len(p.scenes)+len(p.variants)+len(p.sizes) == 0 {
		apart = map[string]int{setDrawn: thinning, setSolid: thinningSolid}[set]
	}
	for j, v := range scene.Variants() {
		if !chosen(p.variants, v.Name) || !p.wanted(v, size, apart > 1) {
			continue
		}
		for i, s := range scenes {
			if !chosen(p.scenes, s.name) || j > 0 && (i+j)%apart != 0 {
				continue
			}
			shown, err := s.with(v)
			if err != nil {
				return nil, err
			}
			list = append(list, job{shown, set, s.name, v, p.care})
		}
	}
	return list, nil
}

func (p *plan) allSizes(set string) []image.Point {
	switch sizes := []image.Point{mainSize, smallSize}; {
	case len(p.sizes) > 0:
		return p.sizes
	case p.full:
		return append(sizes, largeSizes...)
	case set == setSolid:
		return sizes[:1]
	default:
		return sizes
	}
}

// wanted reports whether a variant is tried at a size. The small size is a
// condition of its own where trials are thinned; the large ones always are,
// unless they or the variant were asked for.
func (p *plan) wanted(v scene.Variant, size image.Point, thinned bool) bool {
	clean := v.Name == scene.Variants()[0].Name
	switch {
	case clean || len(p.variants) > 0:
		return true
	case size.X*size.Y > mainSize.X*mainSize.Y:
		return len(p.sizes) > 0
	}
	return size == mainSize || !thinned
}

// known names what can be asked for of some sets.
func known(sets []string) string {
	var scenes, variants []string
	for _, set := range sets {
		list, err := originals(set, smallSize)
		if err != nil {
			return err.Error()
		}
		for _, s := range list {
			scenes = append(scenes, s.name)
		}
	}
	for _, v := range scene.Variants() {
		variants = append(variants, v.Name)
	}
	return fmt.Sprintf("scenes: %s; variants: %s", strings.Join(scenes, " "), strings.Join(variants, " "))
}

// chosen reports whether a name fits one of the patterns, or there are none.
func chosen(patterns []string, name string) bool {
	for _, p := range patterns {
		if ok, _ := path.Match(p, name); ok {
			return true
		}
	}
	return len(patterns) == 0
}

// parseSizes reads "640x360,320x180".
func parseSizes(text string) ([]image.Point, error) {
	var list []image.Point
	for _, part := range splitList(text) {
		var p image.Point
		if n, err := fmt.Sscanf(part, "%dx%d", &p.X, &p.Y); n != 2 || err != nil || sizeName(p) != part {
			return nil, fmt.Errorf("size %q is not like 640x360", part)
		}
		list = append(list, p)
	}
	return list, nil
}

// parsePatterns reads "walk*,hops".
func parsePatterns(text string) ([]string, error) {
	list := splitList(text)
	for _, p := range list {
		if _, err := path.Match(p, ""); err != nil {
			return nil, fmt.Errorf("pattern %q: %w", p, err)
		}
	}
	return list, nil
}

func splitList(text string) []string {
	if text == "" {
		return nil
	}
	return strings.Split(text, ",")
}
