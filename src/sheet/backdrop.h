// Inside the sheet room: the part of a design that is the same on every tag, recorded once and painted many
// times. Owner of librsvg. Nothing outside the drawing is loaded: the handle has no base address to resolve
// references on.
#pragma once

#include <map>
#include <memory>
#include <string_view>
#include <tuple>

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
  friend class Backdrops;
  struct Drawing;
  using Recording = std::shared_ptr<_cairo_surface>;
  explicit Backdrop(std::shared_ptr<const Drawing> drawing) : drawing_(std::move(drawing)) {}
  std::shared_ptr<const Drawing> drawing_;
};

// The backdrops of one document. Where one is painted again and again, page after page, it gets a recording of
// its own for that place: Cairo need not move it there each time, which is a tenth of a long document's cost.
// A short document, which would only become larger by it, has one recording of each.
class Backdrops {
 public:
  void paint(_cairo* context, const Backdrop& backdrop, double x_mm, double y_mm);

 private:
  struct Place {
    int uses = 0;
    Backdrop::Recording recording;  // once it is worth while
  };
  std::map<std::tuple<const Backdrop::Drawing*, double, double>, Place> places_;
};

}  // namespace counterfoil
