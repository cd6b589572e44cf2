package main

import (
	"context"
	"errors"
	"fmt"
	"math"

	"github.com/urfave/cli/v2"

	"holdfast/cmd/assemble"
	"holdfast/extract"
	"holdfast/motion/sound"
	"holdfast/sheet"
)

// soundOptions say what to listen to.
type soundOptions struct {
	file   string  // "": the clip's own sound
	offset float64 // seconds that it is set later
	none   bool
}

func soundFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "sound", Usage: "listen to the sound of `FILE` instead of the clip's own"},
		&cli.Float64Flag{Name: "sound-offset", Usage: "set the sound `SECONDS` later against the clip, or earlier where negative"},
		&cli.BoolFlag{Name: "no-sound", DisableDefaultText: true, Usage: "do not listen to the sound"},
	}
}

// maxSoundOffset bounds --sound-offset, in seconds: a day.
const maxSoundOffset = 24 * 60 * 60

func readSoundOptions(c *cli.Context) (soundOptions, error) {
	o := soundOptions{file: c.String("sound"), offset: c.Float64("sound-offset"), none: c.Bool("no-sound")}
	switch {
	case c.IsSet("sound") && o.file == "":
		return o, usage("--sound: no file given", "name a file with a sound track, such as a WAV file")
	case o.none && (c.IsSet("sound") || c.IsSet("sound-offset")):
		return o, usage("--no-sound goes with neither --sound nor --sound-offset", "leave one of them out")
	case !(math.Abs(o.offset) <= maxSoundOffset):
		return o, usage(fmt.Sprintf("--sound-offset %g is out of range", o.offset), "give seconds, a day at most")
	}
	return o, nil
}

// hear listens to the sound that goes with the frames measured. A clip's own sound
// that cannot be read is a warning; one that was asked for is an error.
func (j *sheetJob) hear(ctx context.Context, r *extract.Reader, m *assemble.Measured, frames int) error {
	clip := r.Clip()
	own := j.sound.file == ""
	if j.sound.none || own && !clip.Sound {
		return nil
	}
	from := r.Sound(frames)
	heard := &assemble.Heard{Source: sheet.SoundOfClip, Offset: j.sound.offset}
	if !own {
		heard.Source = extract.SafeName(j.sound.file)
		from.Path, from.Start = j.sound.file, from.Start-clip.SoundLead
	}
	from.Start -= j.sound.offset
	ear := sound.NewListener(clip.Rate.Float(), frames)
	err := extract.ReadSound(ctx, from, ear.Write)
	var damaged *extract.SoundDamagedError
	var none *extract.InputError
	switch {
	case errors.As(err, &damaged):
		m.Warnings = append(m.Warnings, damaged.Error())
	case own && errors.As(err, &none):
		m.Warnings = append(m.Warnings, "the clip's sound cannot be read")
		return nil
	case err != nil:
		return err
	}
	heard.Result = ear.Result()
	m.Sound = heard
	return nil
}
