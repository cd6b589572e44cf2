#include "speak.h"

#include <dlfcn.h>
#include <stdlib.h>
#include <string.h>

// The part of eSpeak NG's interface (speak_lib.h) that is used here. It is looked up
// when the benchmark runs, so that building it needs nothing installed.
typedef struct {
	int type;
	unsigned int unique_identifier;
	int text_position, length, audio_position, sample;
	void *user_data;
	union {
		int number;
		const char *name;
		char string[8];
	} id;
} event;

enum { event_end = 0, event_phoneme = 7 };
enum { synchronous = 2, phoneme_events = 1, by_character = 1, utf8 = 1, parameter_rate = 1 };

typedef int (*heard)(short *, int, event *);

static int (*initialize)(int, int, const char *, int);
static void (*set_callback)(heard);
static int (*set_voice)(const char *);
static int (*set_parameter)(int, int, int);
static int (*synthesize)(const void *, size_t, unsigned, int, unsigned, unsigned, unsigned *, void *);
static int rate;

int hf_espeak_open(void) {
	if (rate > 0) return rate;
	void *lib = dlopen("libespeak-ng.so.1", RTLD_NOW);
	if (!lib) return 0;
	initialize = dlsym(lib, "espeak_Initialize");
	set_callback = dlsym(lib, "espeak_SetSynthCallback");
	set_voice = dlsym(lib, "espeak_SetVoiceByName");
	set_parameter = dlsym(lib, "espeak_SetParameter");
	synthesize = dlsym(lib, "espeak_Synth");
	if (!initialize || !set_callback || !set_voice || !set_parameter || !synthesize) return 0;
	rate = initialize(synchronous, 0, NULL, phoneme_events);
	return rate > 0 ? rate : 0;
}

static hf_spoken *into;
static int failed;

static void *grown(void *list, size_t bytes) {
	void *more = realloc(list, bytes);
	if (!more) failed = 1;
	return more ? more : list;
}

// gather is called by the library with each piece of sound.
static int gather(short *wave, int count, event *events) {
	if (wave && count > 0) {
		into->samples = grown(into->samples, (into->sample_count + (size_t)count) * sizeof *wave);
		if (failed) return 1;
		memcpy(into->samples + into->sample_count, wave, (size_t)count * sizeof *wave);
		into->sample_count += count;
	}
	for (event *e = events; e && e->type != event_end; e++) {
		if (e->type != event_phoneme) continue;
		into->phonemes = grown(into->phonemes, (into->phoneme_count + (size_t)1) * sizeof *into->phonemes);
		if (failed) return 1;
		hf_phoneme *p = &into->phonemes[into->phoneme_count++];
		memset(p, 0, sizeof *p);
		memcpy(p->name, e->id.string, sizeof e->id.string);
		p->sample = (int)((long long)e->audio_position * rate / 1000);
	}
	return 0;
}

int hf_espeak_speak(const char *voice, const char *text, int words, hf_spoken *out) {
	memset(out, 0, sizeof *out);
	if (!hf_espeak_open() || set_voice(voice) != 0) return 0;
	out->rate = rate;
	into = out;
	failed = 0;
	set_callback(gather);
	set_parameter(parameter_rate, words, 0);
	return synthesize(text, strlen(text) + 1, 0, by_character, 0, utf8, NULL, NULL) == 0 && !failed;
}

void hf_spoken_free(hf_spoken *s) {
	free(s->samples);
	free(s->phonemes);
}
