#ifndef HOLDFAST_DIS_H
#define HOLDFAST_DIS_H

#ifdef __cplusplus
extern "C" {
#endif

typedef struct hf_dis hf_dis;

hf_dis *hf_dis_new(int preset, char *err, int errlen);
/* For small pictures of thin parts: patches of 4 pixels every 2, down to the
   pictures' own size shrunk finest times by 2. */
hf_dis *hf_dis_fine(int finest, char *err, int errlen);
void hf_dis_free(hf_dis *d);

/* Both pictures are width x height bytes, rows stride bytes apart; out holds
   2*width*height floats, u and v interleaved. Returns 0, or -1 and a message. */
int hf_dis_calc(hf_dis *d, const unsigned char *from, const unsigned char *to,
                int width, int height, int stride_from, int stride_to,
                float *out, char *err, int errlen);

void hf_set_threads(int n);

#ifdef __cplusplus
}
#endif
#endif
