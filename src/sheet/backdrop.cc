#include "sheet/backdrop.h"

#include <librsvg/rsvg.h>

#include "sheet/measure.h"

namespace counterfoil {
namespace {

struct Unref {
  void operator()(RsvgHandle* handle) const { g_object_unref(handle); }
  void operator()(cairo_t* context) const { cairo_destroy(context); }
  void operator()(GError* error) const { g_error_free(error); }
};

Error undrawable(GError* error) {
  const std::unique_ptr<GError, Unref> owned(error);
  return malformed(std::string("the drawing cannot be drawn: ") +
                   (owned ? owned->message : "no reason given"));
}

// How often a backdrop is painted at one place until it has a recording there.
constexpr int kUsesToPlace = 100;

}  // namespace

struct Backdrop::Drawing {
  std::unique_ptr<RsvgHandle, Unref> handle;
  double width_pt = 0, height_pt = 0;
  Recording at_origin;

  Result<Recording> recorded(double x_pt, double y_pt) const {
    const cairo_rectangle_t extents = {0, 0, x_pt + width_pt, y_pt + height_pt};
    Recording recording(cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, &extents),
                        cairo_surface_destroy);
    const std::unique_ptr<cairo_t, Unref> context(cairo_create(recording.get()));
    const RsvgRectangle viewport = {x_pt, y_pt, width_pt, height_pt};
    GError* error = nullptr;
    if (!rsvg_handle_render_document(handle.get(), context.get(), &viewport, &error))
      return undrawable(error);
    if (cairo_status(context.get()) != CAIRO_STATUS_SUCCESS)
      return malformed(std::string("the drawing cannot be drawn: ") +
                       cairo_status_to_string(cairo_status(context.get())));
    return recording;
  }
};

Result<Backdrop> Backdrop::from_svg(std::string_view svg, double width_mm, double height_mm) {
  auto drawing = std::make_shared<Drawing>();
  GError* error = nullptr;
  drawing->handle.reset(
      rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()), svg.size(), &error));
  if (!drawing->handle) return undrawable(error);
  drawing->width_pt = width_mm * kPointsPerMm;
  drawing->height_pt = height_mm * kPointsPerMm;
  auto recording = drawing->recorded(0, 0);
  if (!recording) return recording.error();
  drawing->at_origin = std::move(*recording);
  return Backdrop(std::move(drawing));
}

void Backdrop::paint(cairo_t* context, double x_mm, double y_mm) const {
  cairo_set_source_surface(context, drawing_->at_origin.get(), x_mm * kPointsPerMm, y_mm * kPointsPerMm);
  cairo_paint(context);
}

void Backdrops::paint(cairo_t* context, const Backdrop& backdrop, double x_mm, double y_mm) {
  const Backdrop::Drawing* const drawing = backdrop.drawing_.get();
  Place& place = places_[{drawing, x_mm, y_mm}];
  // What could be drawn once can be drawn again; if not, the first recording does as well.
  if (++place.uses == kUsesToPlace)
    if (auto recording = drawing->recorded(x_mm * kPointsPerMm, y_mm * kPointsPerMm))
      place.recording = std::move(*recording);
  if (!place.recording) return backdrop.paint(context, x_mm, y_mm);
  cairo_set_source_surface(context, place.recording.get(), 0, 0);
  cairo_paint(context);
}

}  // namespace counterfoil
