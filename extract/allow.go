package extract

import (
	"strconv"
	"strings"
)

// What the children may open. The list of formats is what keeps play lists
// out: with the list of protocols alone they still read local neighbours,
// even when named like a video. image2 stands in no list but that of
// sequences, since it turns one name into many files.
const (
	formats = "mov,matroska,avi,mpegts,mpeg,mpegvideo,m4v,h264,hevc,gif,apng,flv,asf,ogg,mxf,dv,ivf," +
		"yuv4mpegpipe,png_pipe,jpeg_pipe,webp_pipe,bmp_pipe"
	sequenceFormats = "image2"
	// What a separate sound may come in besides.
	soundFormats = formats + ",wav,w64,mp3,flac,aac,ac3,eac3,aiff"

	videoCodecs = "h264,hevc,libdav1d,libaom-av1,av1,vp8,vp9,libvpx,libvpx-vp9,mpeg1video,mpeg2video,mpeg4," +
		"msmpeg4v1,msmpeg4v2,msmpeg4,h261,h263,h263i,h263p,flv,vp6,vp6f,vp6a,wmv1,wmv2,wmv3,vc1,theora,prores,dnxhd,cfhd," +
		"mjpeg,ffv1,ffvhuff,huffyuv,utvideo,qtrle,rpza,cinepak,svq1,svq3,msrle,msvideo1,dvvideo,rawvideo,v210,v410,r210," +
		"png,apng,gif,webp,bmp,targa"
	// Subtitles are never decoded, but ffprobe fails on a clip when the decoder
	// of any of its streams is not listed.
	otherCodecs = "aac,aac_latm,ac3,eac3,mp1float,mp1,mp2float,mp2,mp3float,mp3,dca,flac,alac,vorbis,libvorbis,opus,libopus," +
		"speex,libspeex,amrnb,amrwb,wmav1,wmav2,wmapro,pcm_s16le,pcm_s16be,pcm_s24le,pcm_s24be,pcm_s32le,pcm_s32be,pcm_u8," +
		"pcm_s8,pcm_f32le,pcm_f32be,pcm_alaw,pcm_mulaw,adpcm_ms,adpcm_ima_wav,adpcm_ima_qt,truehd,nellymoser," +
		"mov_text,subrip,srt,ass,ssa,webvtt,dvbsub,dvdsub,pgssub"
)

const (
	maxAlloc   = 256 << 20 // bytes in one piece that a child may ask for
	maxStreams = 16        // streams of one file; clips have two or three
)

// allowances are the options that stand before every input, in the order in
// which they are given.
func allowances(in input, l Limits) [][2]string {
	f, c := formats, videoCodecs+","+otherCodecs
	switch {
	case in.sequence != nil:
		f = sequenceFormats
	case in.soundOnly:
		f = soundFormats
	}
	a := [][2]string{
		{"max_alloc", strconv.Itoa(maxAlloc)},
		{"protocol_whitelist", "file"},
		{"format_whitelist", f},
		{"codec_whitelist", c},
		{"max_pixels", strconv.FormatInt(storedPixels(l.Pixels), 10)},
		{"max_streams", strconv.Itoa(maxStreams)},
	}
	return append(a, in.demuxer()...)
}

// storedPixels is what ffmpeg is held to where pictures may have so many
// pixels. Codecs store whole blocks, of up to 128 pixels a side, so that it
// sees more than is shown; what is shown is held to the limit itself.
func storedPixels(shown int64) int64 {
	const most = 1<<31 - 1 // that the option takes
	return min(min(shown, most)*9/8+1<<16, most)
}

// fileURL names a file so that no part of its name is taken for a protocol,
// an option or a pattern. path must be absolute.
func fileURL(path string) string { return "file:" + path }

// dashed turns options into arguments.
func dashed(options [][2]string) []string {
	var args []string
	for _, o := range options {
		args = append(args, "-"+o[0])
		if o[1] != "" {
			args = append(args, o[1])
		}
	}
	return args
}

// escapePercent protects the percent signs of the literal parts of a pattern.
func escapePercent(s string) string { return strings.ReplaceAll(s, "%", "%%") }
