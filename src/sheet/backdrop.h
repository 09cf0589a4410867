// Inside the sheet room: the part of a design that is the same on every tag, recorded once and painted many
// times. Owner of librsvg. Nothing outside the drawing is loaded: the handle has no base address to resolve
// references on.
#pragma once

#include <memory>
#include <string_view>

#include "base/result.h"

struct _cairo;
struct _cairo_surface;

namespace counterfoil {

class Backdrop {
 public:
  static Result<Backdrop> from_svg(std::string_view svg, double width_mm, double height_mm);

  // With its top left corner there; `context` counts in points.
  void paint(_cairo* context, double x_mm, double y_mm) const;

 private:
  explicit Backdrop(std::shared_ptr<_cairo_surface> recording) : recording_(std::move(recording)) {}
  std::shared_ptr<_cairo_surface> recording_;
};

}  // namespace counterfoil
