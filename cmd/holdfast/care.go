package main

import (
	"fmt"

	"github.com/urfave/cli/v2"

	"holdfast/extract"
)

// careFlags trade accuracy for speed: they set how large the pictures are that
// are measured.
func careFlags() []cli.Flag {
	return []cli.Flag{
		&cli.BoolFlag{Name: "quick", DisableDefaultText: true, Usage: "measure smaller pictures for a first look: the slightest moves, feet, slides and looks are less sure"},
		&cli.BoolFlag{Name: "careful", DisableDefaultText: true, Usage: "measure larger pictures: small figures and hops better, in twice the time and half as much memory again"},
	}
}

// readCare returns the pixels of the pictures to measure; 0: the usual number.
func readCare(c *cli.Context) (area int, err error) {
	switch quick, careful := c.Bool("quick"), c.Bool("careful"); {
	case quick && careful:
		return 0, usage("--quick and --careful say opposite things", "leave one of them out")
	case quick:
		return extract.QuickArea, nil
	case careful:
		return extract.CarefulArea, nil
	}
	return 0, nil
}

// careWarnings say in the sheet that a clip was looked at quickly only, where that
// made its pictures smaller.
func careWarnings(area int, clip extract.Clip) []string {
	if area != extract.QuickArea || clip.Width*clip.Height <= area {
		return nil
	}
	return []string{fmt.Sprintf("a first look, at pictures of %d by %d: the slightest moves, feet, slides and looks are less sure than without --quick", clip.Work.X, clip.Work.Y)}
}
