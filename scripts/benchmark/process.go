package main

import (
	"bytes"
	"context"
	"fmt"
	"os/exec"
	"time"
)

// resources are what a run with all its children took.
type resources struct {
	wall, cpu float64 // seconds
	memory    float64 // bytes, resident, all processes at one time, the most
}

// memoryEvery is how often memory is looked at: runs take seconds, and looking
// costs about a tenth of a millisecond.
const memoryEvery = 20 * time.Millisecond

// runProcess runs a command to its end and throws its output away. What it took is
// told of one that fails as well.
func runProcess(ctx context.Context, args []string) (resources, error) {
	cmd := exec.CommandContext(ctx, args[0], args[1:]...)
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	start := time.Now()
	if err := cmd.Start(); err != nil {
		return resources{}, err
	}
	stop, most := make(chan struct{}), make(chan int64)
	go func() { most <- watchMemory(cmd.Process.Pid, stop) }()
	err := cmd.Wait()
	wall := time.Since(start)
	close(stop)
	memory := <-most
	if err != nil {
		err = fmt.Errorf("%s: %w: %s", args[0], err, bytes.TrimSpace(complaint.Bytes()))
	}
	// The times of a process include those of the children it waited for.
	cpu := cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	return resources{wall.Seconds(), cpu.Seconds(), float64(memory)}, err
}

// watchMemory looks at a process and its descendants until stop and returns
// the most that they held together.
func watchMemory(pid int, stop <-chan struct{}) int64 {
	tick := time.NewTicker(memoryEvery)
	defer tick.Stop()
	most := int64(0)
	for {
		most = max(most, residentTree(pid))
		select {
		case <-stop:
			return most
		case <-tick.C:
		}
	}
}

func medianResources(list []resources) resources {
	pick := func(of func(resources) float64) float64 {
		var v []float64
		for _, r := range list {
			v = append(v, of(r))
		}
		return median(v)
	}
	return resources{
		wall:   pick(func(r resources) float64 { return r.wall }),
		cpu:    pick(func(r resources) float64 { return r.cpu }),
		memory: pick(func(r resources) float64 { return r.memory }),
	}
}
