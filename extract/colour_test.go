package extract

import (
	"context"
	"image"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestColours reads plain colours back from clips of both matrices, as ffmpeg
// wrote them.
func TestColours(t *testing.T) {
	for _, test := range []struct {
		name, size, matrix string
		tagged             bool
	}{
		{"standard definition", "320x180", "bt601", false},
		{"high definition", "1280x720", "bt709", false},
		{"small, but says bt709", "320x180", "bt709", true},
	} {
		t.Run(test.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "c.mp4")
			args := []string{"-v", "error", "-f", "lavfi", "-i", "color=c=0xC86428:s=" + test.size + ":r=24:d=0.2,format=rgb24",
				"-vf", "scale=out_color_matrix=" + test.matrix + ":out_range=tv,format=yuv420p", "-c:v", "libx264", "-qp", "0"}
			if test.tagged {
				args = append(args, "-colorspace", test.matrix)
			}
			if said, err := exec.Command("ffmpeg", append(args, path)...).CombinedOutput(); err != nil {
				t.Fatalf("%v: %s", err, said)
			}
			err := Read(context.Background(), path, Options{WorkArea: 1 << 40}, func(r *Reader) error {
				f := image.NewYCbCr(image.Rectangle{Max: r.Clip().Work}, image.YCbCrSubsampleRatio420)
				if err := r.Next(f); err != nil {
					return err
				}
				c := r.Clip().Matrix.RGBA(f).RGBAAt(40, 40)
				for i, want := range []int{0xC8, 0x64, 0x28} {
					if got := int([]uint8{c.R, c.G, c.B}[i]); got < want-3 || got > want+3 {
						t.Errorf("got %v, want about C8 64 28", c)
						break
					}
				}
				return nil
			})
			if err != nil {
				t.Fatal(err)
			}
		})
	}
}
