// How a drawing lies on a flattened scan of its print, to a fraction of a pixel, whatever the scan's tones: least squares
// over all pixels by the gradients of the drawing, from blurred to sharp, with those that do not go with the rest held
// down. Source: Lucas & Kanade, An Iterative Image Registration Technique, 1981; Huber's weights; both from memory.
#pragma once

#include "base/affine.h"
#include "grade/plane.h"

namespace counterfoil {

// From the drawing's places to those of the scan, which has about the same size. Right from up to about 8 pixels
// off; where there is nothing to go by, or no agreement, it changes nothing.
Affine registered(const Plane& drawing, const Plane& scan);

// Only moved, at most `most` pixels, by what the box shows.
PicturePoint shift_of(const Plane& drawing, const Plane& scan, const PixelBox& box, double most);

}  // namespace counterfoil
