#ifndef HOLDFAST_ESPEAK_H
#define HOLDFAST_ESPEAK_H

// A phoneme and the sample on which it begins.
typedef struct {
	int sample;
	char name[9];
} hf_phoneme;

// What was spoken. Free it with hf_spoken_free.
typedef struct {
	int rate;
	short *samples;
	int sample_count;
	hf_phoneme *phonemes;
	int phoneme_count;
} hf_spoken;

// hf_espeak_open loads the library; it returns the samples a second, 0 where it is absent.
int hf_espeak_open(void);

// hf_espeak_speak speaks a text at so many words a minute; it returns 0 where that failed.
int hf_espeak_speak(const char *voice, const char *text, int words, hf_spoken *out);

void hf_spoken_free(hf_spoken *s);

#endif
