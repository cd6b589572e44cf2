#include "cut.h"

#include <cstdio>
#include <exception>

#include <opencv2/core.hpp>
#include <opencv2/imgproc.hpp>

/* The colours are sorted from a random start. OpenCV keeps the state of chance
   by thread, and Go changes threads at will, so it is set anew each time. */
static const int seed = 1;

int hf_cut(const unsigned char *picture, unsigned char *mask, int width, int height,
           int rounds, char *err, int errlen) {
	try {
		const cv::Mat p(height, width, CV_8UC3, const_cast<unsigned char *>(picture));
		cv::Mat m(height, width, CV_8UC1, mask);
		cv::Mat ground, figure;
		cv::setRNGSeed(seed);
		cv::grabCut(p, m, cv::Rect(), ground, figure, rounds, cv::GC_INIT_WITH_MASK);
		return 0;
	} catch (const std::exception &e) {
		std::snprintf(err, errlen, "%s", e.what());
		return -1;
	}
}
