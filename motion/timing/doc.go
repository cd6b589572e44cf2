// Package timing reads the texture of a move's timing out of its speed, drawing
// by drawing: how smoothly it goes, how it settles, and where it hitches. It
// knows numbers only, no pictures.
package timing
