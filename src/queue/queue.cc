#include "queue/queue.h"

#include <cups/cups.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <optional>

#include "base/nearest.h"

namespace counterfoil {
namespace {

struct Close {
  void operator()(http_t* http) const { httpClose(http); }
  void operator()(ipp_t* message) const { ippDelete(message); }
};
using HttpPtr = std::unique_ptr<http_t, Close>;
using IppPtr = std::unique_ptr<ipp_t, Close>;

constexpr int kConnectMs = 5000;
constexpr double kAnswerSeconds = 30;
constexpr double kUnitsPerMm = 100;  // PWG 5100.7 6.3: media sizes in hundredths of a millimetre
constexpr int kTolerance = 50;
constexpr int kUriLength = 1024;

// Where a printer is asked: its address as IPP states it, and the parts of it.
struct Address {
  std::string uri, host, path;
  int port = 0;
  bool is_secure = false;
  bool is_queue = false;  // of this computer's print server
};

Error no_server() {
  const std::string_view server = cupsServer();
  const bool is_socket = server.starts_with('/');
  return unreadable(
      "the print server of this computer does not answer" +
          (is_socket ? " at " + std::string(server)
                     : " (" + std::string(server) + ", port " + std::to_string(ippPort()) + ")"),
      "without one there are no queues; a printer on the network can be named by its address, such as "
      "ipp://192.168.1.20/ipp/print");
}

// libcups would ask for a password on the terminal.
const char* no_password(const char*, http_t*, const char*, const char*, void*) { return nullptr; }
int give_up(http_t*, void*) { return 0; }

std::string why() {
  const char* const text = cupsLastErrorString();
  return text == nullptr ? "no reason given" : text;
}

Result<Address> address_of(const std::string& to) {
  Address address;
  std::array<char, kUriLength> uri;
  if (to.find("://") == std::string::npos) {
    if (to.empty() || to.find_first_of("/#? ") != std::string::npos)
      return malformed("\"" + to + "\" is not the name of a print queue",
                       "`counterfoil queues` lists them; a printer's own address begins with ipp://");
    address.host = cupsServer();
    address.port = ippPort();
    address.path = "/printers/" + to;
    address.is_queue = true;
    address.is_secure =
        cupsEncryption() == HTTP_ENCRYPTION_REQUIRED || cupsEncryption() == HTTP_ENCRYPTION_ALWAYS;
    httpAssembleURI(HTTP_URI_CODING_ALL, uri.data(), kUriLength, "ipp", nullptr, "localhost", 0,
                    address.path.c_str());
    address.uri = uri.data();
    return address;
  }
  std::array<char, 32> scheme;
  std::array<char, kUriLength> user, host, path;
  if (httpSeparateURI(HTTP_URI_CODING_ALL, to.c_str(), scheme.data(), scheme.size(), user.data(), kUriLength,
                      host.data(), kUriLength, &address.port, path.data(), kUriLength) < HTTP_URI_STATUS_OK ||
      host[0] == '\0' || user[0] != '\0' ||
      (std::string_view(scheme.data()) != "ipp" && std::string_view(scheme.data()) != "ipps"))
    return malformed("\"" + to + "\" is not the address of a printer",
                     "such as ipp://192.168.1.20/ipp/print");
  address.host = host.data();
  address.path = path.data();
  address.is_secure = std::string_view(scheme.data()) == "ipps";
  address.uri = to;
  return address;
}

Result<HttpPtr> connect(const Address& address) {
  cupsSetPasswordCB2(no_password, nullptr);
  HttpPtr http(httpConnect2(address.host.c_str(), address.port, nullptr, AF_UNSPEC,
                            address.is_secure ? HTTP_ENCRYPTION_ALWAYS : HTTP_ENCRYPTION_IF_REQUESTED, 1,
                            kConnectMs, nullptr));
  if (!http && address.is_queue) return no_server();
  if (!http) {
    http_addrlist_t* const found =
        httpAddrGetList(address.host.c_str(), AF_UNSPEC, std::to_string(address.port).c_str());
    httpAddrFreeList(found);
    if (found == nullptr)
      return unreadable("no computer or printer is known by the name " + address.host,
                        "look at the name, or give the printer's address in numbers");
    return unreadable(
        "the printer " + address.uri + " does not answer" + (address.is_secure ? ": " + why() : ""),
        "see that it is switched on and on the network, and that this is its address");
  }
  httpSetTimeout(http.get(), kAnswerSeconds, give_up, nullptr);
  return http;
}

IppPtr request_for(ipp_op_t operation, const Address& address) {
  IppPtr request(ippNewRequest(operation));
  ippAddString(request.get(), IPP_TAG_OPERATION, IPP_TAG_URI, "printer-uri", nullptr, address.uri.c_str());
  ippAddString(request.get(), IPP_TAG_OPERATION, IPP_TAG_NAME, "requesting-user-name", nullptr, cupsUser());
  return request;
}

// Whether an attribute that lists keywords has that one.
bool lists(ipp_t* answer, const char* attribute, const char* keyword) {
  ipp_attribute_t* const found = ippFindAttribute(answer, attribute, IPP_TAG_ZERO);
  return found != nullptr && ippContainsString(found, keyword) != 0;
}

std::string joined(ipp_t* answer, const char* attribute) {
  ipp_attribute_t* const found = ippFindAttribute(answer, attribute, IPP_TAG_ZERO);
  std::string out;
  for (int i = 0; i < ippGetCount(found); ++i)
    if (const char* const text = ippGetString(found, i, nullptr))
      out += (out.empty() ? "" : ", ") + std::string(text);
  return out;
}

struct Size {
  int width = 0, height = 0;  // hundredths of a millimetre
};

// The printer's own idea of that size: of one that it lists, or the same where it takes a range.
std::optional<int> matched(ipp_t* size, const char* name, int wanted) {
  ipp_attribute_t* const side = ippFindAttribute(size, name, IPP_TAG_ZERO);
  if (side == nullptr) return std::nullopt;
  if (ippGetValueTag(side) == IPP_TAG_RANGE) {
    int most = 0;
    const int least = ippGetRange(side, 0, &most);
    if (wanted < least - kTolerance || wanted > most + kTolerance) return std::nullopt;
    return std::clamp(wanted, least, most);
  }
  const int value = ippGetInteger(side, 0);
  if (std::abs(value - wanted) > kTolerance) return std::nullopt;
  return value;
}

std::string in_mm(int value) {
  std::array<char, 32> text;
  std::snprintf(text.data(), text.size(), "%.6g", value / kUnitsPerMm);
  return text.data();
}

std::string side_in_mm(ipp_t* size, const char* name) {
  ipp_attribute_t* const side = ippFindAttribute(size, name, IPP_TAG_ZERO);
  if (side == nullptr) return "?";
  if (ippGetValueTag(side) != IPP_TAG_RANGE) return in_mm(ippGetInteger(side, 0));
  int most = 0;
  const int least = ippGetRange(side, 0, &most);
  return in_mm(least) + " to " + in_mm(most);
}

// A printer that lists no sizes is believed to have what it is asked for.
Result<Size> medium_of(ipp_t* answer, Size wanted, const std::string& to) {
  ipp_attribute_t* const sizes = ippFindAttribute(answer, "media-size-supported", IPP_TAG_BEGIN_COLLECTION);
  if (sizes == nullptr) return wanted;
  std::string has;
  for (int i = 0; i < ippGetCount(sizes); ++i) {
    ipp_t* const size = ippGetCollection(sizes, i);
    const auto width = matched(size, "x-dimension", wanted.width);
    const auto height = matched(size, "y-dimension", wanted.height);
    if (width && height) return Size{*width, *height};
    has +=
        (has.empty() ? "" : ", ") + side_in_mm(size, "x-dimension") + " x " + side_in_mm(size, "y-dimension");
  }
  return refused(
      "the printer " + to + " has no medium of " + in_mm(wanted.width) + " x " + in_mm(wanted.height) + " mm",
      has.empty() ? "" : "it has, in mm: " + has);
}

Result<std::string> mime_type_of(const std::string& path) {
  const std::string ending = std::filesystem::path(path).extension().string();
  if (ending == ".pdf" || ending == ".PDF") return std::string("application/pdf");
  if (ending == ".png" || ending == ".PNG") return std::string("image/png");
  return malformed("a printer is sent a PDF or PNG file, not " + path, "end the name in .pdf or .png");
}

Error no_queue(const Address& address, const std::string& to) {
  if (!address.is_queue)
    return refused("there is no printer behind " + to,
                   "the printer's own page or display tells its address; most end in /ipp/print");
  std::vector<std::string> names;
  if (const auto all = queues())
    for (const auto& queue : *all) names.push_back(queue.name);
  return refused("there is no print queue " + to,
                 names.empty() ? "the print server of this computer has no queues"
                               : did_you_mean(to, names) + "the queues are " + listed(names));
}

// What the printer can do, asked of it.
Result<IppPtr> ask(http_t* http, const Address& address, const std::string& to) {
  IppPtr request = request_for(IPP_OP_GET_PRINTER_ATTRIBUTES, address);
  constexpr std::array<const char*, 7> kAsked = {
      "printer-is-accepting-jobs",        "printer-state-message", "document-format-supported",
      "print-scaling-supported",          "media-size-supported",  "sides-supported",
      "job-creation-attributes-supported"};
  ippAddStrings(request.get(), IPP_TAG_OPERATION, IPP_TAG_KEYWORD, "requested-attributes",
                static_cast<int>(kAsked.size()), nullptr, kAsked.data());
  IppPtr answer(cupsDoRequest(http, request.release(), address.path.c_str()));
  if (answer && ippGetStatusCode(answer.get()) <= IPP_STATUS_OK_EVENTS_COMPLETE) return answer;
  if (cupsLastError() == IPP_STATUS_ERROR_NOT_FOUND) return no_queue(address, to);
  return unreadable("the printer " + to + " does not say what it can do: " + why());
}

IppPtr job_request(const Address& address, const QueueJob& job, const std::string& mime_type, Size medium,
                   ipp_t* able) {
  IppPtr request = request_for(IPP_OP_PRINT_JOB, address);
  ipp_t* const message = request.get();
  const bool unscaled = lists(able, "print-scaling-supported", "none");
  ippAddString(message, IPP_TAG_OPERATION, IPP_TAG_NAME, "job-name", nullptr, job.name.c_str());
  ippAddString(message, IPP_TAG_OPERATION, IPP_TAG_MIMETYPE, "document-format", nullptr, mime_type.c_str());
  // RFC 8011 4.2.1.1: rather no print than another size. A printer that does not list our words would refuse them
  // for being unknown, so it is only asked.
  const bool lists_all = unscaled && ippFindAttribute(able, "media-size-supported", IPP_TAG_ZERO) != nullptr;
  ippAddBoolean(message, IPP_TAG_OPERATION, "ipp-attribute-fidelity", lists_all ? 1 : 0);
  ippAddInteger(message, IPP_TAG_JOB, IPP_TAG_INTEGER, "copies", 1);  // whatever the queue's default is
  ippAddString(message, IPP_TAG_JOB, IPP_TAG_KEYWORD, "print-scaling", nullptr, "none");
  if (lists(able, "sides-supported", "one-sided"))
    ippAddString(message, IPP_TAG_JOB, IPP_TAG_KEYWORD, "sides", nullptr, "one-sided");
  const IppPtr size(ippNew());
  ippAddInteger(size.get(), IPP_TAG_ZERO, IPP_TAG_INTEGER, "x-dimension", medium.width);
  ippAddInteger(size.get(), IPP_TAG_ZERO, IPP_TAG_INTEGER, "y-dimension", medium.height);
  const IppPtr collection(ippNew());
  ippAddCollection(collection.get(), IPP_TAG_ZERO, "media-size", size.get());
  ippAddCollection(message, IPP_TAG_JOB, "media-col", collection.get());
  return request;
}

}  // namespace

Result<std::vector<Queue>> queues() {
  cupsSetPasswordCB2(no_password, nullptr);
  cups_dest_t* list = nullptr;
  const int count = cupsGetDests2(CUPS_HTTP_DEFAULT, &list);
  std::vector<Queue> out;
  for (int i = 0; i < count; ++i) {
    const auto about = [&](const char* option) {
      const char* const text = cupsGetOption(option, list[i].num_options, list[i].options);
      return std::string(text == nullptr ? "" : text);
    };
    const std::string place = about("printer-location"), what = about("printer-info");
    out.push_back({list[i].name, place.empty() || what.empty() ? place + what : what + ", " + place});
  }
  cupsFreeDests(count, list);
  if (out.empty() && cupsLastError() > IPP_STATUS_OK_EVENTS_COMPLETE &&
      cupsLastError() != IPP_STATUS_ERROR_NOT_FOUND)
    return no_server();
  return out;
}

Result<SentJob> send(const std::string& to, const QueueJob& job) {
  auto mime_type = mime_type_of(job.path);
  if (!mime_type) return mime_type.error();
  std::error_code missing;
  if (!std::filesystem::is_regular_file(job.path, missing)) return unreadable("cannot read " + job.path);
  auto address = address_of(to);
  if (!address) return address.error();
  auto http = connect(*address);
  if (!http) return http.error();
  auto able = ask(http->get(), *address, to);
  if (!able) return able.error();
  ipp_attribute_t* const accepting =
      ippFindAttribute(able->get(), "printer-is-accepting-jobs", IPP_TAG_BOOLEAN);
  if (accepting != nullptr && ippGetBoolean(accepting, 0) == 0) {
    const std::string state = joined(able->get(), "printer-state-message");
    return refused("the printer " + to + " takes no jobs now" + (state.empty() ? "" : ": " + state),
                   "let it take jobs again where it is kept, or send the sheet elsewhere");
  }
  if (ippFindAttribute(able->get(), "document-format-supported", IPP_TAG_ZERO) != nullptr &&
      !lists(able->get(), "document-format-supported", mime_type->c_str()))
    return refused("the printer " + to + " does not take " + *mime_type,
                   "it takes " + joined(able->get(), "document-format-supported"));
  auto medium = medium_of(able->get(),
                          {static_cast<int>(std::lround(job.width_mm * kUnitsPerMm)),
                           static_cast<int>(std::lround(job.height_mm * kUnitsPerMm))},
                          to);
  if (!medium) return medium.error();
  IppPtr request = job_request(*address, job, *mime_type, *medium, able->get());
  const IppPtr answer(
      cupsDoFileRequest(http->get(), request.release(), address->path.c_str(), job.path.c_str()));
  if (!answer || ippGetStatusCode(answer.get()) > IPP_STATUS_OK_EVENTS_COMPLETE) {
    const bool heard = answer && ippGetStatusCode(answer.get()) < IPP_STATUS_ERROR_INTERNAL;
    const std::string message = "the printer " + to + " did not take " + job.path + ": " + why();
    return heard ? refused(message) : unreadable(message);
  }
  ipp_attribute_t* const number = ippFindAttribute(answer.get(), "job-id", IPP_TAG_INTEGER);
  return SentJob{number == nullptr ? 0 : ippGetInteger(number, 0),
                 lists(able->get(), "print-scaling-supported", "none")};
}

}  // namespace counterfoil
