#include "workflow/verify.h"

#include <algorithm>
#include <map>

#include "base/file.h"
#include "base/text.h"
#include "workflow/evidence.h"

namespace counterfoil {
namespace {

constexpr std::uint64_t kLargestProofBytes = 1 << 20;

// Entries that the ledger holds to be whole, taken as events.
Result<void> verify_events(const Ledger& ledger, const std::string& photos_folder, VerifyReport& report) {
  auto entries = ledger.all();
  if (!entries) return entries.error();
  std::map<Number, std::uint64_t> issued;
  for (const auto& entry : *entries) {
    const auto fault = [&](std::string what) {
      const auto same = [&](const LedgerFault& f) {
        return f.origin == entry.origin && f.position == entry.position;
      };
      if (std::none_of(report.faults.begin(), report.faults.end(), same))
        report.faults.push_back({entry.origin, entry.position, std::move(what)});
    };
    const auto event = parse_event(entry.body);
    if (!event) {
      fault("is no event: " + event.error().message);
      continue;
    }
    for (const auto& evidence : event->evidence) {
      const auto kept = kept_photo(photos_folder, evidence);
      if (!kept) continue;
      const auto digest = sha256_of_file(*kept);
      if (!digest || to_hex(bytes_of(*digest)) != evidence.sha256)
        fault("its photograph " + evidence.name + " was altered: " + *kept);
    }
    if (entry.origin != ledger.own().name) continue;
    auto words = ledger.words(entry.position);
    if (!words) return words.error();
    auto right = event_words(*event);
    std::sort(right.begin(), right.end());
    right.erase(std::unique(right.begin(), right.end()), right.end());
    if (*words != right) fault("is filed under other index words than its event has");
    if (event->step != Step::commissioning) continue;
    const auto [before, fresh] = issued.emplace(*event->number, entry.position);
    if (!fresh)
      fault("issues number " + event->number->grouped() + ", which entry " + std::to_string(before->second) +
            " has issued");
  }
  return {};
}

}  // namespace

Result<VerifyReport> verify_ledger(const std::string& path) {
  const std::string file = desk_paths(path).ledger;
  auto ledger = Ledger::open(file);
  if (!ledger) return ledger.error();
  auto report = ledger->verify();
  if (!report) return report.error();
  if (auto done = verify_events(*ledger, desk_paths(path).photos, *report); !done) return done.error();
  std::stable_sort(report->faults.begin(), report->faults.end(),
                   [](const LedgerFault& a, const LedgerFault& b) {
                     return std::tie(a.origin, a.position) < std::tie(b.origin, b.position);
                   });
  return report;
}

Result<void> prove_entry(const Desk& desk, std::uint64_t position, const std::string& path) {
  auto size = desk.ledger().size();
  if (!size) return size.error();
  if (position >= *size)
    return refused("the ledger has no entry " + std::to_string(position),
                   "it has entries 0 to " + std::to_string(*size - 1) +
                       "; `counterfoil trace NUMBER` shows which are whose");
  auto proof = desk.ledger().prove(position);
  if (!proof) return proof.error();
  return write_file(path, write_proof(*proof));
}

Result<CheckedProof> check_proof_file(const std::string& path, const std::string& verifier_key) {
  auto key = VerifierKey::parse(verifier_key);
  if (!key) return key.error();
  auto text = read_file(path, kLargestProofBytes);
  if (!text) return text.error();
  auto proof = parse_proof(*text);
  if (!proof) return proof.error();
  auto checkpoint = check_proof(*proof, *key);
  if (!checkpoint) return checkpoint.error();
  auto event = parse_event(proof->body);
  if (!event) return event.error();
  return CheckedProof{proof->index, *checkpoint, std::move(*event)};
}

}  // namespace counterfoil
