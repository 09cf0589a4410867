#include "identity/payload.h"

#include <algorithm>
#include <array>
#include <cstdlib>

#include "base/text.h"

namespace counterfoil {
namespace {

constexpr std::string_view kBare = "CF1.";
constexpr std::string_view kScheme = "HTTPS://";
constexpr std::string_view kPath = "/CF1/";
constexpr std::size_t kLongestHost = 60;
constexpr std::uint64_t kLastPort = 65535;

constexpr std::array kHalves = {Half::bag, Half::box, Half::label};

std::string_view code(Half half) {
  switch (half) {
    case Half::bag:
      return "BAG";
    case Half::box:
      return "BOX";
    case Half::label:
      return "LBL";
  }
  std::abort();
}

// A label of a host name as RFC 1123 section 2.1 has it, in upper case.
bool is_host_label(std::string_view text) {
  return !text.empty() && text.front() != '-' && text.back() != '-' &&
         std::all_of(text.begin(), text.end(),
                     [](char c) { return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-'; });
}

bool is_host(std::string_view text) {
  if (text.size() > kLongestHost) return false;
  const auto colon = text.find(':');
  if (colon != std::string_view::npos) {
    const auto port = to_unsigned(text.substr(colon + 1));
    if (!port || *port == 0 || *port > kLastPort) return false;
  }
  const auto labels = split(text.substr(0, colon), '.');
  return std::all_of(labels.begin(), labels.end(), is_host_label);
}

// What lies between the head of a payload and its end: number, separator, half, copy.
Result<Payload> parse_tail(std::string_view tail, char separator) {
  const auto at = tail.find(separator);
  auto number = Number::from_exact(tail.substr(0, at));
  if (!number) return malformed("the symbol's number does not check");
  if (at == std::string_view::npos) return malformed("the symbol does not say which half it is");
  const auto end = tail.substr(at + 1);
  const auto half =
      std::find_if(kHalves.begin(), kHalves.end(), [&](Half h) { return end.starts_with(code(h)); });
  if (half == kHalves.end()) return malformed("the symbol does not say which half it is");
  const auto copy = to_unsigned(end.substr(code(*half).size()));
  if (!copy || *copy == 0 || *copy > kLastCopy) return malformed("the symbol does not say which copy it is");
  return Payload{*std::move(number), *half, static_cast<int>(*copy)};
}

}  // namespace

std::string_view to_text(Half half) {
  switch (half) {
    case Half::bag:
      return "bag";
    case Half::box:
      return "box";
    case Half::label:
      return "label";
  }
  std::abort();
}

Result<Half> parse_half(std::string_view text) {
  const std::string word = to_lower(trimmed(text));
  for (const Half half : kHalves)
    if (word == to_text(half)) return half;
  return malformed("\"" + std::string(text) + "\" is not a half", "write bag, box or label");
}

Result<std::string> parse_host(std::string_view text) {
  std::string host = to_upper(trimmed(text));
  if (is_host(host)) return host;
  return malformed(
      "\"" + std::string(text) + "\" is not a host name",
      "write it like tags.example.org: letters, digits, hyphens and dots, at most 60 characters");
}

std::string write_payload(const Payload& payload, std::string_view host) {
  if (payload.copy < 1 || payload.copy > kLastCopy || (!host.empty() && !is_host(host))) std::abort();
  const std::string end = std::string(code(payload.half)) + std::to_string(payload.copy);
  if (host.empty()) return std::string(kBare) + payload.number.text() + "." + end;
  return std::string(kScheme) + std::string(host) + std::string(kPath) + payload.number.text() + "/" + end;
}

Result<Payload> parse_payload(std::string_view text) {
  const Error foreign = refused("the symbol is not one of ours");
  const std::string upper = to_upper(text);
  const std::string_view all = upper;
  if (all.starts_with(kBare)) return parse_tail(all.substr(kBare.size()), '.');
  if (!all.starts_with(kScheme)) return foreign;
  const auto host_on = all.substr(kScheme.size());
  const auto path = host_on.find(kPath);
  if (path == std::string_view::npos || !is_host(host_on.substr(0, path))) return foreign;
  return parse_tail(host_on.substr(path + kPath.size()), '/');
}

}  // namespace counterfoil
