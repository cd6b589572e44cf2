#include "dis.h"

#include <cstdio>
#include <exception>

#include <opencv2/core.hpp>
#include <opencv2/video/tracking.hpp>

struct hf_dis {
	cv::Ptr<cv::DISOpticalFlow> algo;
};

/* A C++ exception that reaches Go ends the process, so each entry turns it
   into a message. */
static void say(char *err, int errlen, const char *what) {
	std::snprintf(err, errlen, "%s", what);
}

hf_dis *hf_dis_new(int preset, char *err, int errlen) {
	try {
		hf_dis *d = new hf_dis;
		d->algo = cv::DISOpticalFlow::create(preset);
		return d;
	} catch (const std::exception &e) {
		say(err, errlen, e.what());
		return nullptr;
	}
}

hf_dis *hf_dis_fine(int finest, char *err, int errlen) {
	hf_dis *d = hf_dis_new(cv::DISOpticalFlow::PRESET_FAST, err, errlen);
	if (d == nullptr)
		return nullptr;
	try {
		d->algo->setFinestScale(finest);
		d->algo->setPatchSize(4);
		d->algo->setPatchStride(2);
		d->algo->setGradientDescentIterations(16);
		d->algo->setVariationalRefinementIterations(0);
		return d;
	} catch (const std::exception &e) {
		delete d;
		say(err, errlen, e.what());
		return nullptr;
	}
}

void hf_dis_free(hf_dis *d) { delete d; }

int hf_dis_calc(hf_dis *d, const unsigned char *from, const unsigned char *to,
                int width, int height, int stride_from, int stride_to,
                float *out, char *err, int errlen) {
	try {
		const cv::Mat a(height, width, CV_8UC1, const_cast<unsigned char *>(from), stride_from);
		const cv::Mat b(height, width, CV_8UC1, const_cast<unsigned char *>(to), stride_to);
		/* A Mat of the right size would be taken as the flow to start from,
		   so that results depended on what was measured before. */
		cv::Mat fresh;
		d->algo->calc(a, b, fresh);
		fresh.copyTo(cv::Mat(height, width, CV_32FC2, out));
		return 0;
	} catch (const std::exception &e) {
		say(err, errlen, e.what());
		return -1;
	}
}

void hf_set_threads(int n) {
	try {
		cv::setNumThreads(n);
	} catch (const std::exception &) {
	}
}
