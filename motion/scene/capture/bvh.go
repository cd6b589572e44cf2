package capture

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// A Hierarchy is the skeleton of a BVH file and how it moves; lengths are the
// file's own.
type Hierarchy struct {
	Nodes    []Node      // parents before their children
	Interval float64     // seconds between frames
	Frames   [][]float64 // one value a channel
}

// A Node is a joint of a hierarchy, or the end of its last bone.
type Node struct {
	Name     string   // of an end: that of its joint with " end"
	Parent   int      // -1 for the root
	Offset   Vec      // from the parent, unturned
	Channels []string // such as Xposition, Zrotation, in the order of the values
	first    int      // index of its first channel's value
}

// maxNodes bounds a skeleton; real ones have under a hundred joints.
const maxNodes = 1000

// ReadBVH reads a BVH file: the skeleton under HIERARCHY, its frames under
// MOTION (Biovision's format, as described by M. Meredith and S. Maddock,
// Motion Capture File Formats Explained).
func ReadBVH(r io.Reader) (*Hierarchy, error) {
	p := &bvhReader{words: bufio.NewScanner(r)}
	p.words.Split(bufio.ScanWords)
	h, err := p.hierarchy()
	if err != nil {
		return nil, fmt.Errorf("bvh: word %d: %w", p.at, err)
	}
	return h, nil
}

type bvhReader struct {
	words    *bufio.Scanner
	at       int // words read
	nodes    []Node
	channels int
}

func (p *bvhReader) next() (string, error) {
	if p.words.Scan() {
		p.at++
		return p.words.Text(), nil
	}
	if err := p.words.Err(); err != nil {
		return "", err
	}
	return "", io.ErrUnexpectedEOF
}

// want reads words that must be the given ones.
func (p *bvhReader) want(words ...string) error {
	for _, w := range words {
		got, err := p.next()
		if err != nil {
			return err
		}
		if !strings.EqualFold(got, w) {
			return fmt.Errorf("%q where %q is wanted", got, w)
		}
	}
	return nil
}

func (p *bvhReader) number() (float64, error) {
	w, err := p.next()
	if err != nil {
		return 0, err
	}
	return number(w)
}

// number reads a finite number.
func number(text string) (float64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, fmt.Errorf("%q is no number", text)
	}
	return v, nil
}

func (p *bvhReader) count() (int, error) {
	w, err := p.next()
	if err != nil {
		return 0, err
	}
	n, err := strconv.Atoi(w)
	if err != nil || n < 0 {
		return 0, fmt.Errorf("%q is no count", w)
	}
	return n, nil
}

func (p *bvhReader) hierarchy() (*Hierarchy, error) {
	if err := p.want("HIERARCHY", "ROOT"); err != nil {
		return nil, err
	}
	if err := p.skeleton(); err != nil {
		return nil, err
	}
	// The word MOTION was read by skeleton.
	if err := p.want("Frames:"); err != nil {
		return nil, err
	}
	n, err := p.count()
	if err != nil {
		return nil, err
	}
	if err := p.want("Frame", "Time:"); err != nil {
		return nil, err
	}
	h := &Hierarchy{Nodes: p.nodes}
	if h.Interval, err = p.number(); err != nil {
		return nil, err
	}
	switch {
	case n == 0 || p.channels == 0:
		return nil, errors.New("nothing moves")
	case h.Interval <= 0:
		return nil, fmt.Errorf("%g seconds between frames", h.Interval)
	}
	return h, p.frames(h, n)
}

// frames reads n frames; it makes room only for what is there.
func (p *bvhReader) frames(h *Hierarchy, n int) error {
	for range n {
		f := make([]float64, 0, p.channels)
		for range p.channels {
			v, err := p.number()
			if err != nil {
				return err
			}
			f = append(f, v)
		}
		h.Frames = append(h.Frames, f)
	}
	return nil
}

// skeleton reads joints from the root's name to the word MOTION.
func (p *bvhReader) skeleton() error {
	parents := []int{-1} // of the next joint, innermost last
	if err := p.open(-1, ""); err != nil {
		return err
	}
	parents = append(parents, 0)
	for {
		word, err := p.next()
		if err != nil {
			return err
		}
		switch top := parents[len(parents)-1]; {
		case word == "}" && top >= 0:
			parents = parents[:len(parents)-1]
		case word == "MOTION" && top < 0:
			return nil
		case top < 0:
			return fmt.Errorf("%q after the root", word)
		case word == "JOINT" || word == "End":
			end := ""
			if word == "End" {
				end = p.nodes[top].Name + " end"
			}
			if err := p.open(top, end); err != nil {
				return err
			}
			parents = append(parents, len(p.nodes)-1)
		case word == "OFFSET":
			err = p.offset(&p.nodes[top])
		case word == "CHANNELS":
			err = p.listChannels(&p.nodes[top])
		default:
			err = fmt.Errorf("%q in a joint", word)
		}
		if err != nil {
			return err
		}
	}
}

// open reads a joint's name and its bracket. An end has a name already.
func (p *bvhReader) open(parent int, name string) error {
	word, err := p.next()
	if err != nil {
		return err
	}
	if name == "" {
		name = word
	}
	if len(p.nodes) == maxNodes {
		return fmt.Errorf("over %d joints", maxNodes)
	}
	p.nodes = append(p.nodes, Node{Name: name, Parent: parent, first: p.channels})
	return p.want("{")
}

func (p *bvhReader) offset(n *Node) (err error) {
	for _, v := range []*float64{&n.Offset.X, &n.Offset.Y, &n.Offset.Z} {
		if *v, err = p.number(); err != nil {
			return err
		}
	}
	return nil
}

func (p *bvhReader) listChannels(n *Node) error {
	k, err := p.count()
	if err != nil {
		return err
	}
	if k > 6 || len(n.Channels) > 0 {
		return fmt.Errorf("%d more channels for %s", k, n.Name)
	}
	n.first = p.channels
	for range k {
		w, err := p.next()
		if err != nil {
			return err
		}
		if len(w) < 2 || w[0] < 'X' || w[0] > 'Z' || w[1:] != "position" && w[1:] != "rotation" {
			return fmt.Errorf("channel %q", w)
		}
		n.Channels = append(n.Channels, w)
	}
	p.channels += k
	return nil
}

// node returns the index of the node with the first of the names that there
// is, or -1.
func (h *Hierarchy) node(names ...string) int {
	for _, name := range names {
		for i, n := range h.Nodes {
			if n.Name == name {
				return i
			}
		}
	}
	return -1
}

// place returns where the nodes are on a frame and how each is turned. A
// joint's turns come in the order of its channels, the last one first.
func (h *Hierarchy) place(frame []float64) ([]Vec, []turn) {
	at, turned := make([]Vec, len(h.Nodes)), make([]turn, len(h.Nodes))
	for i, n := range h.Nodes {
		parent, from := unturned, Vec{}
		if n.Parent >= 0 {
			parent, from = turned[n.Parent], at[n.Parent]
		}
		offset, own := n.Offset, unturned
		for k, c := range n.Channels {
			v := frame[n.first+k]
			switch c {
			case "Xposition":
				offset.X += v
			case "Yposition":
				offset.Y += v
			case "Zposition":
				offset.Z += v
			default:
				own = own.then(about(c[0], radians(v)))
			}
		}
		at[i], turned[i] = from.Add(parent.at(offset)), parent.then(own)
	}
	return at, turned
}
