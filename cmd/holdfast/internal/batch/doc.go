// Package batch measures many clips, each in a process of its own, and keeps
// track of which are done: stopped at any instant, it goes on where it was. A
// batch may be cut into shares for many machines; put together again, they are
// what one machine would have made.
//
// Below the folder of a batch lie
//
//	batch.json           the plan: which clips, and how they are measured
//	NAME/                the results of a clip, as the sheet command writes them
//	failures/NAME.json   why a clip has none
//	shares/I-of-N/       the same three for a share that is not gathered yet
package batch
