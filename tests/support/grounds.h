// What tags lie on.
#pragma once

#include "support/fields.h"

namespace counterfoil {

Colours wood_ground(cv::Size size, Chance& chance);
Colours metal_ground(cv::Size size, Chance& chance);  // brushed
Colours cardboard_ground(cv::Size size, Chance& chance);
Colours bench_ground(cv::Size size, Chance& chance);  // dark and rough
Colours any_ground(cv::Size size, Chance& chance);    // one of these

// Uneven light, the lens' blur, the sensor's noise; in place. `blur_pixels` is the deviation.
void develop(Colours& picture, double blur_pixels, double noise, Chance& chance);
// 8 bits a channel.
cv::Mat_<cv::Vec3b> bytes_of(const Colours& picture);

}  // namespace counterfoil
