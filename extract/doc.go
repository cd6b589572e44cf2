// Package extract is the only room that touches media: it asks ffprobe what
// a clip is, has ffmpeg decode it, and hands out one frame at a time as
// planar 4:2:0 pictures of a small working size, at one exact constant rate.
// It also writes video.
//
// What comes in is not trusted: a file may be damaged, may claim absurd
// sizes, may be a play list that points elsewhere, or may not be a clip at
// all. The file is looked at before a child process is started, the child
// gets an almost empty environment and lists of allowed formats, codecs and
// protocols, and every wait has an end. What goes wrong comes back as one of
// the typed errors in errors.go.
//
// The package imports no other room of holdfast.
package extract
