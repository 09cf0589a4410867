#include "identity/spelling.h"

#include "base/text.h"
#include "identity/number.h"

namespace counterfoil {
namespace {

bool is_continuation(char c) { return (static_cast<unsigned char>(c) & 0xc0) == 0x80; }

bool is_printable(char c) { return c > ' ' && c < 0x7f; }

}  // namespace

bool is_number_character(char c) { return kNumberAlphabet.find(c) != std::string_view::npos; }

std::string fold(std::string_view typed) {
  std::string out;
  for (const char c : to_upper(typed)) {
    if (c == ' ' || c == '\t' || c == '-' || is_continuation(c)) continue;
    if (c == 'O')
      out += '0';
    else if (c == 'I' || c == 'L')
      out += '1';
    else
      out += is_printable(c) ? c : '?';
  }
  return out;
}

std::string in_groups(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i > 0 && i % 4 == 0) out += ' ';
    out += text[i];
  }
  return out;
}

}  // namespace counterfoil
