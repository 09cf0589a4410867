#include "reader/image.h"

#include <array>
#include <filesystem>
#include <fstream>
#include <utility>

#include "reader/heif.h"
#include "reader/pdf.h"
#include "reader/raster.h"

namespace counterfoil {
namespace {

constexpr std::size_t kHeadBytes = 12;

enum class Kind { none, jpeg, png, tiff, webp, heif, pdf };

Kind kind_of(std::string_view head) {
  if (head.starts_with("\xFF\xD8\xFF")) return Kind::jpeg;
  if (head.starts_with("\x89PNG\r\n\x1A\n")) return Kind::png;
  if (head.starts_with(std::string_view("II\x2A\0", 4)) ||
      head.starts_with(std::string_view("MM\0\x2A", 4)) ||
      head.starts_with(std::string_view("II\x2B\0", 4)) ||
      head.starts_with(std::string_view("MM\0\x2B", 4))) {
    return Kind::tiff;
  }
  if (head.starts_with("%PDF-")) return Kind::pdf;
  if (head.size() < kHeadBytes) return Kind::none;
  const std::string_view brand = head.substr(8, 4);
  if (head.starts_with("RIFF") && brand == "WEBP") return Kind::webp;
  // ISO/IEC 23008-12 annex B.4 and clause 10: HEVC images, and those that leave the coding open.
  if (head.substr(4, 4) == "ftyp") {
    for (const std::string_view known : {"heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1"}) {
      if (brand == known) return Kind::heif;
    }
  }
  return Kind::none;
}

std::string head_of(const std::string& path) {
  std::array<char, kHeadBytes> head{};
  std::ifstream file(path, std::ios::binary);
  file.read(head.data(), head.size());
  return {head.data(), static_cast<std::size_t>(std::max<std::streamsize>(file.gcount(), 0))};
}

// Puts the file's name to what its library says.
class NamedFile : public PictureFile {
 public:
  NamedFile(std::unique_ptr<PictureFile> file, std::string name)
      : file_(std::move(file)), name_(std::move(name)) {}

  int pages() const override { return file_->pages(); }
  const CameraWords& words() const override { return file_->words(); }
  Result<Picture> load(int page, Channel channel) override {
    const std::string where = pages() > 1 ? "page " + std::to_string(page) + ": " : "";
    auto picture = file_->load(page, channel);
    if (!picture)
      return unreadable("cannot read " + name_ + ": " + where + picture.error().message,
                        picture.error().hint);
    if (!picture->damage.empty())
      picture->damage = name_ + " can be read in part only: " + where + picture->damage;
    return picture;
  }

 private:
  std::unique_ptr<PictureFile> file_;
  std::string name_;
};

using Opened = Result<std::unique_ptr<PictureFile>>;

// `raster`, `heif` and `pdf` open the file, each by its library.
template <typename Raster, typename Heif, typename Pdf>
Opened open_kind(Kind kind, const std::string& name, Raster raster, Heif heif, Pdf pdf) {
  const auto open = [&]() -> Opened {
    switch (kind) {
      case Kind::jpeg:
        return raster(RasterFormat::jpeg);
      case Kind::png:
        return raster(RasterFormat::png);
      case Kind::tiff:
        return raster(RasterFormat::tiff);
      case Kind::webp:
        return raster(RasterFormat::webp);
      case Kind::heif:
        return heif();
      case Kind::pdf:
        return pdf();
      case Kind::none:
        break;
    }
    return unreadable("it is no picture in a format that is known",
                      "JPEG, PNG, TIFF, WebP, HEIC and PDF are read");
  };
  auto file = open();
  if (!file) return unreadable("cannot read " + name + ": " + file.error().message, file.error().hint);
  return std::unique_ptr<PictureFile>(std::make_unique<NamedFile>(std::move(*file), name));
}

Result<Picture> first_page(Opened file, Channel channel) {
  if (!file) return file.error();
  return (*file)->load(1, channel);
}

}  // namespace

Result<std::unique_ptr<PictureFile>> open_picture(const std::string& path) {
  std::error_code failed;
  // A pipe would be waited for without end, and a folder has no content of this kind.
  const auto status = std::filesystem::status(path, failed);
  if (!std::filesystem::exists(status))
    return unreadable("cannot read " + path + ": " + (failed ? failed.message() : "no such file"));
  if (!std::filesystem::is_regular_file(status))
    return unreadable("cannot read " + path + ": it is not a file");
  return open_kind(
      kind_of(head_of(path)), path, [&](RasterFormat format) { return open_raster(path, format); },
      [&] { return open_heif(path); }, [&] { return open_pdf(path); });
}

Result<std::unique_ptr<PictureFile>> open_picture_bytes(std::string_view bytes) {
  return open_kind(
      kind_of(bytes.substr(0, kHeadBytes)), "the picture",
      [&](RasterFormat format) { return open_raster_bytes(bytes, format); },
      [&] { return open_heif_bytes(bytes); }, [&] { return open_pdf_bytes(bytes); });
}

bool is_picture(const std::string& path) {
  std::error_code failed;
  return std::filesystem::is_regular_file(path, failed) && kind_of(head_of(path)) != Kind::none;
}

Result<Picture> load_picture(const std::string& path, Channel channel) {
  return first_page(open_picture(path), channel);
}

Result<Picture> load_picture_bytes(std::string_view bytes, Channel channel) {
  return first_page(open_picture_bytes(bytes), channel);
}

}  // namespace counterfoil
