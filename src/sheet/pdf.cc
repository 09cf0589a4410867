#include "sheet/pdf.h"

#include <array>
#include <charconv>
#include <cstdio>
#include <optional>
#include <set>
#include <vector>

#include "base/moment.h"
#include "base/text.h"
#include "sheet/colour_profile.h"

namespace counterfoil {
namespace {

// As Cairo begins the lines that matter here.
constexpr std::string_view kDrawings = "   /XObject <<";
constexpr std::string_view kPages = "   /Pages ", kRoot = "   /Root ", kInfo = "   /Info ",
                           kSize = "<< /Size ";
constexpr std::string_view kTableAt = "startxref\n";

constexpr const char* kMaker = "counterfoil";

// "   /XObject << /x6 6 0 R /x7 7 0 R /x6 6 0 R >>", as long as before, so that no place in the file moves.
std::string without_repeats(std::string_view line) {
  std::string out(line);
  std::set<std::string_view> seen;
  for (auto at = line.find('/', kDrawings.size()); at != std::string_view::npos;) {
    const auto next = line.find('/', at + 1);
    const auto end = next == std::string_view::npos ? line.rfind(">>") : next;
    if (end == std::string_view::npos) return out;
    if (!seen.insert(line.substr(at, line.find(' ', at) - at)).second)
      out.replace(at, end - at, end - at, ' ');
    at = next;
  }
  return out;
}

std::optional<std::uint64_t> number_in(std::string_view text) {
  std::uint64_t value = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
  if (read.ec != std::errc()) return std::nullopt;
  return value;
}

std::string numbered(std::uint64_t object) { return std::to_string(object) + " 0 R"; }

// 7.9.4: "(D:20261125093015+01'00')", as much of it as is known.
std::string date_string(const Moment& moment, bool has_time) {
  std::array<char, 64> text;
  std::snprintf(text.data(), text.size(), "(D:%04d%02d%02d", moment.year, moment.month, moment.day);
  std::string out = text.data();
  if (!has_time) return out + ")";
  std::snprintf(text.data(), text.size(), "%02d%02d%02d", moment.hour, moment.minute, moment.second);
  out += text.data();
  if (!moment.offset_minutes) return out + ")";
  const int east = *moment.offset_minutes;
  if (east == 0) return out + "Z)";
  const int minutes = east < 0 ? -east : east;
  std::snprintf(text.data(), text.size(), "%c%02d'%02d'", east < 0 ? '-' : '+', minutes / 60, minutes % 60);
  return out + text.data() + ")";
}

// 7.9.2.2: UTF-16BE behind its mark, in hexadecimal. Precondition: UTF-8.
std::string text_string(std::string_view utf8) {
  std::string units = "\xfe\xff";
  const auto add = [&](unsigned unit) {
    units += static_cast<char>(unit >> 8);
    units += static_cast<char>(unit & 0xff);
  };
  for (std::size_t i = 0; i < utf8.size();) {
    const auto first = static_cast<unsigned char>(utf8[i++]);
    const int more = first < 0x80 ? 0 : first < 0xe0 ? 1 : first < 0xf0 ? 2 : 3;
    unsigned point = more == 0 ? first : first & (0x3fu >> more);
    for (int k = 0; k < more; ++k) point = point << 6 | (static_cast<unsigned char>(utf8[i++]) & 0x3f);
    if (point >= 0x10000) add(0xd800 + ((point - 0x10000) >> 10));
    add(point < 0x10000 ? point : 0xdc00 + (point & 0x3ff));
  }
  return "<" + to_hex(units) + ">";
}

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else
      out += c;
  }
  return out;
}

// ISO 16684-1 (XMP), with the words of ISO 19005-2, 6.6.4.
std::string xmp_packet(std::string_view title, std::string_view created) {
  const std::string date(created);
  return "<?xpacket begin=\"\xef\xbb\xbf\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
         "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
         "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
         "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\""
         " xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\""
         " xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\">\n"
         "<dc:format>application/pdf</dc:format>\n"
         "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">" +
         escaped(title) + "</rdf:li></rdf:Alt></dc:title>\n<xmp:CreateDate>" + date +
         "</xmp:CreateDate>\n<xmp:ModifyDate>" + date + "</xmp:ModifyDate>\n<xmp:CreatorTool>" + kMaker +
         "</xmp:CreatorTool>\n<pdf:Producer>" + kMaker +
         "</pdf:Producer>\n<pdfaid:part>2</pdfaid:part>\n<pdfaid:conformance>B</pdfaid:conformance>\n"
         "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>";
}

// The objects of an update, and the table of where they lie.
class Update {
 public:
  explicit Update(std::uint64_t at) : begins_(at) {}

  void add(std::uint64_t number, const std::string& body) {
    places_.push_back({number, begins_ + text_.size()});
    text_ += std::to_string(number) + " 0 obj\n" + body + "\nendobj\n";
  }
  void add_stream(std::uint64_t number, const std::string& keys, const std::string& bytes) {
    add(number,
        "<< " + keys + " /Length " + std::to_string(bytes.size()) + " >>\nstream\n" + bytes + "\nendstream");
  }
  std::string text(const std::string& trailer) const {
    std::string out = text_ + "xref\n";
    for (const auto& place : places_) {
      std::array<char, 64> entry;  // 7.5.4: 20 bytes, the end of the line two of them
      std::snprintf(entry.data(), entry.size(), "%010llu 00000 n \n",
                    static_cast<unsigned long long>(place.at));
      out += std::to_string(place.number) + " 1\n" + entry.data();
    }
    return out + "trailer\n" + trailer + "\nstartxref\n" + std::to_string(begins_ + text_.size()) +
           "\n%%EOF\n";
  }

 private:
  struct Place {
    std::uint64_t number, at;
  };
  std::uint64_t begins_;
  std::string text_;
  std::vector<Place> places_;
};

}  // namespace

Result<void> PdfStream::add(std::string_view bytes, NewFile& file) {
  while (!bytes.empty()) {
    const auto end = bytes.find('\n');
    if (end == std::string_view::npos) {
      line_ += bytes;
      return {};
    }
    const std::string_view piece = bytes.substr(0, end + 1);
    bytes.remove_prefix(end + 1);
    if (line_.empty()) {
      if (auto done = pass(piece, file); !done) return done;
      continue;
    }
    line_ += piece;
    if (auto done = pass(line_, file); !done) return done;
    line_.clear();
  }
  return {};
}

Result<void> PdfStream::pass(std::string_view line, NewFile& file) {
  std::string changed;
  if (line.starts_with(kDrawings)) line = changed = without_repeats(line);
  notice(line);
  digest_.add(line);
  length_ += line.size();
  return file.add(line);
}

void PdfStream::notice(std::string_view line) {
  const auto after = [&](std::string_view words, std::string& value) {
    if (line.starts_with(words)) value = line.substr(words.size(), line.size() - words.size() - 1);
  };
  if (table_follows_) after("", table_at_);
  table_follows_ = line == kTableAt;
  if (!line.starts_with(' ') && !line.starts_with('<')) return;
  after(kPages, pages_);
  after(kRoot, root_);
  after(kInfo, info_);
  after(kSize, objects_);
}

Result<void> PdfStream::finish(std::string_view title, std::string_view created, NewFile& file) {
  if (auto done = pass(line_, file); !done) return done;
  auto moment = parse_moment(created);
  if (!moment) return moment.error();
  const auto objects = number_in(objects_), root = number_in(root_), info = number_in(info_),
             at = number_in(table_at_);
  if (!objects || !root || !info || !at || pages_.empty())
    return unreadable("the drawing library wrote a PDF without the usual end",
                      "counterfoil is made for Cairo 1.16");
  const std::string date = date_string(*moment, created.size() > sizeof "2026-11-25" - 1);
  const std::uint64_t metadata = *objects, profile = *objects + 1;
  Update update(length_);
  update.add(*info, "<< /Title " + text_string(title) + " /Creator (" + kMaker + ") /Producer (" + kMaker +
                        ") /CreationDate " + date + " /ModDate " + date + " >>");
  update.add(*root,
             "<< /Type /Catalog /Version /1.7 /Pages " + pages_ + " /Metadata " + numbered(metadata) +
                 " /OutputIntents [ << /Type /OutputIntent /S /GTS_PDFA1 /OutputConditionIdentifier (sRGB)"
                 " /Info (sRGB IEC61966-2.1) /DestOutputProfile " +
                 numbered(profile) +
                 " >> ]\n/ViewerPreferences << /PrintScaling /None /PickTrayByPDFSize true /Duplex /Simplex"
                 " /Enforce [ /PrintScaling ] >> >>");
  update.add_stream(metadata, "/Type /Metadata /Subtype /XML", xmp_packet(title, created));
  update.add_stream(profile, "/N 3", srgb_profile());
  const std::string id = to_hex(bytes_of(digest_.finish())).substr(0, 32);
  return file.add(update.text("<< /Size " + std::to_string(*objects + 2) + " /Root " + root_ + " /Info " +
                              info_ + " /Prev " + table_at_ + "\n/ID [ <" + id + "> <" + id + "> ] >>"));
}

}  // namespace counterfoil
