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

}  // namespace

Result<Backdrop> Backdrop::from_svg(std::string_view svg, double width_mm, double height_mm) {
  GError* error = nullptr;
  const std::unique_ptr<RsvgHandle, Unref> handle(
      rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()), svg.size(), &error));
  if (!handle) return undrawable(error);
  const cairo_rectangle_t extents = {0, 0, width_mm * kPointsPerMm, height_mm * kPointsPerMm};
  std::shared_ptr<cairo_surface_t> recording(
      cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, &extents), cairo_surface_destroy);
  const std::unique_ptr<cairo_t, Unref> context(cairo_create(recording.get()));
  const RsvgRectangle viewport = {0, 0, extents.width, extents.height};
  if (!rsvg_handle_render_document(handle.get(), context.get(), &viewport, &error)) return undrawable(error);
  if (cairo_status(context.get()) != CAIRO_STATUS_SUCCESS)
    return malformed(std::string("the drawing cannot be drawn: ") +
                     cairo_status_to_string(cairo_status(context.get())));
  return Backdrop(std::move(recording));
}

void Backdrop::paint(cairo_t* context, double x_mm, double y_mm) const {
  cairo_set_source_surface(context, recording_.get(), x_mm * kPointsPerMm, y_mm * kPointsPerMm);
  cairo_paint(context);
}

}  // namespace counterfoil
