#include "base/text.h"

#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>

namespace counterfoil {
namespace {

constexpr std::string_view kHex = "0123456789abcdef";
constexpr std::string_view kBase64 = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

std::uint32_t byte_at(std::string_view text, std::size_t i) { return static_cast<unsigned char>(text[i]); }

std::string mapped(std::string_view text, int options) {
  utf8proc_uint8_t* raw = nullptr;
  const auto size =
      utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                   static_cast<utf8proc_ssize_t>(text.size()), &raw, static_cast<utf8proc_option_t>(options));
  if (size < 0) std::abort();  // not UTF-8, or out of memory
  std::string out(reinterpret_cast<const char*>(raw), static_cast<std::size_t>(size));
  std::free(raw);
  return out;
}

}  // namespace

std::string to_hex(std::string_view bytes) {
  std::string out;
  out.reserve(bytes.size() * 2);
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    out += kHex[byte_at(bytes, i) >> 4];
    out += kHex[byte_at(bytes, i) & 15];
  }
  return out;
}

std::optional<std::string> from_hex(std::string_view hex) {
  if (hex.size() % 2 != 0) return std::nullopt;
  std::string out;
  out.reserve(hex.size() / 2);
  for (std::size_t i = 0; i < hex.size(); i += 2) {
    const auto high = kHex.find(hex[i]);
    const auto low = kHex.find(hex[i + 1]);
    if (high == std::string_view::npos || low == std::string_view::npos) return std::nullopt;
    out += static_cast<char>(high * 16 + low);
  }
  return out;
}

std::string to_base64(std::string_view bytes) {
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t n = std::min<std::size_t>(3, bytes.size() - i);
    std::uint32_t group = byte_at(bytes, i) << 16;
    if (n > 1) group |= byte_at(bytes, i + 1) << 8;
    if (n > 2) group |= byte_at(bytes, i + 2);
    out += kBase64[group >> 18];
    out += kBase64[(group >> 12) & 63];
    out += n > 1 ? kBase64[(group >> 6) & 63] : '=';
    out += n > 2 ? kBase64[group & 63] : '=';
  }
  return out;
}

std::optional<std::string> from_base64(std::string_view text) {
  if (text.size() % 4 != 0) return std::nullopt;
  std::string out;
  out.reserve(text.size() / 4 * 3);
  for (std::size_t i = 0; i < text.size(); i += 4) {
    const bool last = i + 4 == text.size();
    std::size_t padding = 0;
    if (last && text[i + 3] == '=') padding = text[i + 2] == '=' ? 2 : 1;
    std::uint32_t group = 0;
    for (std::size_t j = 0; j < 4; ++j) {
      std::uint32_t value = 0;
      if (j < 4 - padding) {
        const auto found = kBase64.find(text[i + j]);
        if (found == std::string_view::npos) return std::nullopt;
        value = static_cast<std::uint32_t>(found);
      }
      group = group << 6 | value;
    }
    if (padding == 1 && (group & 0xff) != 0) return std::nullopt;
    if (padding == 2 && (group & 0xffff) != 0) return std::nullopt;
    out += static_cast<char>(group >> 16);
    if (padding < 2) out += static_cast<char>(group >> 8 & 0xff);
    if (padding < 1) out += static_cast<char>(group & 0xff);
  }
  return out;
}

bool is_utf8(std::string_view bytes) {
  // The shape of a lead byte, how many bytes follow, and the least code point that needs so many.
  struct Form {
    std::uint32_t mask, lead;
    std::size_t more;
    std::uint32_t least;
  };
  constexpr std::array kForms = {Form{0x80, 0x00, 0, 0}, Form{0xe0, 0xc0, 1, 0x80},
                                 Form{0xf0, 0xe0, 2, 0x800}, Form{0xf8, 0xf0, 3, 0x10000}};
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    const std::uint32_t lead = byte_at(bytes, i);
    const auto form =
        std::find_if(kForms.begin(), kForms.end(), [&](const Form& f) { return (lead & f.mask) == f.lead; });
    if (form == kForms.end() || bytes.size() - i <= form->more) return false;
    std::uint32_t point = lead & ~form->mask;
    for (std::size_t more = form->more; more > 0; --more) {
      const std::uint32_t next = byte_at(bytes, ++i);
      if (next >> 6 != 0b10) return false;
      point = point << 6 | (next & 0x3f);
    }
    if (point < form->least || point > 0x10ffff || (point >= 0xd800 && point <= 0xdfff)) return false;
  }
  return true;
}

bool has_control_characters(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::uint32_t byte = byte_at(text, i);
    if (byte < 0x20 || byte == 0x7f) return true;
    if (byte == 0xc2 && i + 1 < text.size() && byte_at(text, i + 1) < 0xa0) return true;  // U+0080-U+009F
  }
  return false;
}

std::string composed(std::string_view text) { return mapped(text, UTF8PROC_STABLE | UTF8PROC_COMPOSE); }

std::string folded(std::string_view text) {
  std::string out = mapped(text, UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_COMPAT | UTF8PROC_CASEFOLD |
                                     UTF8PROC_LUMP | UTF8PROC_IGNORE);
  std::erase_if(out, [](char c) { return std::string_view(" \t-./_,").find(c) != std::string_view::npos; });
  return out;
}

std::string to_upper(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return out;
}

std::string to_lower(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view kSpace = " \t\r\n";
  const auto first = text.find_first_not_of(kSpace);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(kSpace) - first + 1);
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> out;
  for (std::size_t from = 0;;) {
    const auto to = text.find(separator, from);
    out.emplace_back(text.substr(from, to == std::string_view::npos ? to : to - from));
    if (to == std::string_view::npos) return out;
    from = to + 1;
  }
}

std::string counted(std::uint64_t n, std::string_view noun) {
  constexpr std::string_view kVowels = "aeiou";
  std::string out = std::to_string(n) + " " + std::string(noun);
  if (n == 1) return out;
  const bool es = noun.back() == 'x';
  const bool ies =
      noun.size() > 1 && noun.back() == 'y' && kVowels.find(noun[noun.size() - 2]) == std::string_view::npos;
  if (!ies) return out + (es ? "es" : "s");
  out.back() = 'i';
  return out + "es";
}

std::string decimal(double value, int significant_digits) {
  std::array<char, 64> text;
  std::snprintf(text.data(), text.size(), "%.*g", significant_digits, value);
  return text.data();
}

std::optional<std::uint64_t> to_unsigned(std::string_view digits) {
  if (digits.empty() || digits.size() > 18 || (digits.size() > 1 && digits[0] == '0')) return std::nullopt;
  std::uint64_t value = 0;
  for (const char c : digits) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + static_cast<std::uint64_t>(c - '0');
  }
  return value;
}

}  // namespace counterfoil
