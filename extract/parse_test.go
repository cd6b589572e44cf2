package extract

import (
	"errors"
	"io"
	"strings"
	"testing"
)

func TestTimeLines(t *testing.T) {
	l := newTimeLines(strings.NewReader("#software: x\n#tb 0: 1/12288\n#dimensions 0: 80x45\n" +
		"0,        512,       -512,      512,     5440, 0x31e3793c\n0, 1024, 1024, 512, 96, 0x1, F=0x2\n"))
	for _, want := range []frameTime{{-512, 5440}, {1024, 96}} {
		if got, err := l.next(); err != nil || got != want {
			t.Errorf("%v, %v; want %v", got, err, want)
		}
	}
	if _, err := l.next(); err != io.EOF {
		t.Errorf("at the end: %v", err)
	}
	if l.tb != (timeBase{1, 12288}) {
		t.Errorf("time base %v", l.tb)
	}
	for _, bad := range []string{"0, 1, 2\n", "#tb 0: 1/0\n", "0, a, b, c, d, e\n", strings.Repeat("9", 2*maxTimeLine)} {
		if _, err := newTimeLines(strings.NewReader(bad)).next(); err == nil {
			t.Errorf("%.20q: no error", bad)
		}
	}
}

func FuzzTimeLines(f *testing.F) {
	f.Add("#tb 0: 1/24\n0, 0, 0, 1, 5440, 0x31e3793c\n")
	f.Fuzz(func(t *testing.T, s string) {
		l := newTimeLines(strings.NewReader(s))
		for range len(s) + 1 {
			line, err := l.next()
			if err != nil {
				return
			}
			if line.bytes < 0 {
				t.Fatalf("%q: negative size", s)
			}
		}
		t.Fatalf("%q: more lines than bytes", s)
	})
}

const probeSample = `{"streams":[
 {"index":0,"codec_type":"video","codec_name":"png","width":9,"height":9,"disposition":{"attached_pic":1}},
 {"index":1,"codec_type":"video","codec_name":"h264","width":720,"height":576,"sample_aspect_ratio":"64:45","time_base":"1/90000",
  "r_frame_rate":"25/1","avg_frame_rate":"0/0","side_data_list":[{"side_data_type":"x"},{"rotation":-90}]},
 {"index":2,"codec_type":"audio"}],"format":{"format_name":"mpeg"}}`

func TestParseProbe(t *testing.T) {
	p, err := parseProbe([]byte(probeSample))
	if err != nil {
		t.Fatal(err)
	}
	v := p.videoStreams()
	if len(v) != 1 || v[0].Codec != "h264" || !p.sound() {
		t.Fatalf("%+v", p)
	}
	if g := displayed(v[0]); g.width != 576 || g.height != 1024 || len(g.warnings) != 0 {
		t.Errorf("displayed %+v", g)
	}
}

func FuzzParseProbe(f *testing.F) {
	f.Add([]byte(probeSample))
	f.Fuzz(func(t *testing.T, out []byte) {
		p, err := parseProbe(out)
		if err != nil || len(p.videoStreams()) == 0 {
			return
		}
		if judgeProbe(input{path: "/x"}, p, nil, DefaultLimits()) != nil {
			return
		}
		c, _ := describe(input{path: "/x"}, p, UsualArea)
		if c.Width < 1 || c.Height < 1 || c.Work.X < 2 || c.Work.Y < 2 || c.Work.X%2+c.Work.Y%2 != 0 ||
			c.Work.X*c.Work.Y > 2*UsualArea {
			t.Fatalf("%s: %+v", out, c)
		}
	})
}

func FuzzPackets(f *testing.F) {
	f.Add(`{"packets":[{"pts":0,"dts":-1,"duration":1,"flags":"K_"},{"pts":2,"dts":0,"flags":"__"},{"pts":1,"dts":1,"flags":"_D"}]}`, int64(1), int64(24))
	f.Add(`{"packets":[{"pts":9223372036854775807},{"pts":-9223372036854775808},{"dts":5}]}`, int64(1), int64(1000))
	f.Fuzz(func(t *testing.T, s string, num, den int64) {
		var packets []packet
		err := readPackets(strings.NewReader(s), func(p packet) error {
			packets = append(packets, p)
			if len(packets) > 10_000 {
				return errTooManyPackets
			}
			return nil
		})
		if errors.Is(err, errTooManyPackets) || num <= 0 || den <= 0 || num > 1<<32 || den > 1<<32 {
			return
		}
		times, last := packetTimes(packets, timeBase{num, den})
		if len(times) == 0 {
			return
		}
		tm := analyse(times, last, timeBase{num, den}, claims{})
		if tm.rate.IsZero() || tm.last.IsZero() || tm.rate.Float() > maxRate || tm.rate.Float() < minRate {
			t.Fatalf("%q in %d/%d: %+v", s, num, den, tm)
		}
	})
}
