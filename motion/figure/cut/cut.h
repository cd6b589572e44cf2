#ifndef HOLDFAST_CUT_H
#define HOLDFAST_CUT_H

#ifdef __cplusplus
extern "C" {
#endif

/* The picture is width x height pixels of three bytes, the mask one byte a pixel
   of the values of cv::GrabCutClasses, both without gaps between rows. Returns 0,
   or -1 and a message. */
int hf_cut(const unsigned char *picture, unsigned char *mask, int width, int height,
           int rounds, char *err, int errlen);

#ifdef __cplusplus
}
#endif
#endif
