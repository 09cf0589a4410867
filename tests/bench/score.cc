#include "bench/score.h"

#include <algorithm>
#include <set>

#include "support/text_table.h"

namespace counterfoil {
namespace {

const Reading::Text* found(const Reading& reading, const std::string& text) {
  const Reading::Text* out = nullptr;
  for (const auto& read : reading.texts) {
    if (read.text == text && (!out || out->identified)) out = &read;
  }
  return out;
}

bool first_of_unread(const Reading& reading, const std::string& text) {
  return std::any_of(reading.unread.begin(), reading.unread.end(),
                     [&](const auto& likely) { return !likely.empty() && likely.front() == text; });
}

bool among_unread(const Reading& reading, const std::string& text) {
  return std::any_of(reading.unread.begin(), reading.unread.end(), [&](const auto& likely) {
    return std::find(likely.begin(), likely.end(), text) != likely.end();
  });
}

bool is_true(const TruePicture& truth, const std::string& text) {
  return std::find(truth.texts.begin(), truth.texts.end(), text) != truth.texts.end();
}

// By set and level; level 0 stands for all levels, the empty set for all sets.
using Scores = std::map<std::pair<std::string, int>, Score>;

Scores scores_of(const std::vector<TruePicture>& pictures, const ReaderResults& results) {
  Scores out;
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    Score one;
    one.add(pictures[i], results.readings[i]);
    for (const std::string& set : {pictures[i].set, std::string()}) {
      for (const int level : {pictures[i].level, 0}) out[{set, level}].add(one);
    }
  }
  return out;
}

std::vector<std::string> sets_in_order(const std::vector<TruePicture>& pictures) {
  std::vector<std::string> out;
  for (const auto& picture : pictures) {
    if (std::find(out.begin(), out.end(), picture.set) == out.end()) out.push_back(picture.set);
  }
  return out;
}

std::set<int> levels_of(const std::vector<TruePicture>& pictures) {
  std::set<int> out;
  for (const auto& picture : pictures) out.insert(picture.level);
  return out;
}

template <typename Part>
std::vector<double> milliseconds(const ReaderResults& results, Part part) {
  std::vector<double> out;
  for (const auto& reading : results.readings) out.push_back(reading.*part * 1000);
  return out;
}

}  // namespace

void Score::add(const TruePicture& truth, const Reading& reading) {
  codes += truth.texts.size();
  for (const auto& text : truth.texts) {
    if (const auto* as = found(reading, text)) {
      ++read;
      if (as->identified) ++identified;
    } else {
      if (first_of_unread(reading, text)) ++likeliest;
      if (among_unread(reading, text)) ++likely;
    }
  }
  for (const auto& read_text : reading.texts) {
    if (is_true(truth, read_text.text)) continue;
    ++wrong;
    if (read_text.identified) ++wrong_identified;
  }
  unread_symbols += reading.unread.size();
  if (!reading.failure.empty()) ++failed;
}

void Score::add(const Score& other) {
  codes += other.codes;
  read += other.read;
  identified += other.identified;
  wrong += other.wrong;
  wrong_identified += other.wrong_identified;
  likeliest += other.likeliest;
  likely += other.likely;
  unread_symbols += other.unread_symbols;
  failed += other.failed;
}

std::string verdict(const TruePicture& truth, const Reading& reading) {
  Score score;
  score.add(truth, reading);
  std::string out = std::to_string(score.read) + "/" + std::to_string(score.codes);
  if (score.identified > 0) out += " identified";
  if (score.likely > 0) out += score.likeliest > 0 ? " likeliest" : " likely";
  if (score.likely == 0 && score.unread_symbols > 0) out += " seen";
  for (const auto& read_text : reading.texts) {
    if (!is_true(truth, read_text.text)) out += " WRONG " + read_text.text;
  }
  if (score.failed > 0) out += " failed";
  return out;
}

std::string recall_table(const std::vector<TruePicture>& pictures,
                         const std::vector<ReaderResults>& results) {
  const auto levels = levels_of(pictures);
  TextTable table;
  TextTable::Row names{""}, heads{"set", "codes"};
  names.push_back("");
  std::vector<Scores> scores;
  for (const auto& reader : results) {
    scores.push_back(scores_of(pictures, reader));
    for (const int level : levels) {
      names.push_back(level == *levels.begin() ? reader.name : "");
      heads.push_back("L" + std::to_string(level));
    }
    names.push_back("");
    heads.push_back("all");
  }
  table.add(names);
  table.add(heads);
  auto sets = sets_in_order(pictures);
  sets.push_back("");
  for (const auto& set : sets) {
    TextTable::Row row{set.empty() ? "all" : set};
    row.push_back(std::to_string(scores.empty() ? 0 : scores.front()[{set, 0}].codes));
    for (auto& of_reader : scores) {
      for (const int level : levels) {
        const Score score = of_reader[{set, level}];
        row.push_back(percent(score.read, score.codes, 0));
      }
      row.push_back(percent(of_reader[{set, 0}].read, of_reader[{set, 0}].codes));
    }
    table.add(row);
  }
  return table.text();
}

std::string summary_table(const std::vector<TruePicture>& pictures, const std::vector<ReaderResults>& results,
                          bool with_times) {
  TextTable table;
  TextTable::Row heads{"reader",   "codes",      "read",         "%",
                       "decoded",  "identified", "wrong",        "of them identified",
                       "not read", "true first", "among likely", "seen only",
                       "failed"};
  if (with_times) heads.insert(heads.end(), {"median ms", "95 % ms", "CPU median", "CPU 95 %"});
  table.add(heads);
  for (const auto& reader : results) {
    Score all;
    for (std::size_t i = 0; i < pictures.size(); ++i) all.add(pictures[i], reader.readings[i]);
    TextTable::Row row{reader.name,
                       std::to_string(all.codes),
                       std::to_string(all.read),
                       percent(all.read, all.codes),
                       std::to_string(all.read - all.identified),
                       std::to_string(all.identified),
                       std::to_string(all.wrong),
                       std::to_string(all.wrong_identified),
                       std::to_string(all.codes - all.read),
                       std::to_string(all.likeliest),
                       std::to_string(all.likely),
                       std::to_string(all.unread_symbols),
                       std::to_string(all.failed)};
    if (with_times) {
      for (const auto part : {&Reading::seconds, &Reading::cpu_seconds}) {
        const auto times = milliseconds(reader, part);
        row.push_back(fixed(percentile(times, 0.5), 0));
        row.push_back(fixed(percentile(times, 0.95), 0));
      }
    }
    table.add(row);
  }
  return table.text();
}

std::string pass_table(const ReaderResults& results) {
  std::map<std::string, std::size_t> counts;
  for (const auto& reading : results.readings) {
    for (const auto& text : reading.texts) ++counts[text.pass];
  }
  std::vector<std::pair<std::string, std::size_t>> order(counts.begin(), counts.end());
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  TextTable table;
  table.add({"pass", "codes"});
  for (const auto& [pass, count] : order) table.add({pass, std::to_string(count)});
  return table.text();
}

Json results_json(const std::vector<TruePicture>& pictures, const std::vector<ReaderResults>& results,
                  bool with_times) {
  Json::Array readers;
  for (const auto& reader : results) {
    Json::Array rows;
    for (const auto& [key, score] : scores_of(pictures, reader)) {
      rows.push_back(Json::Object{{"set", key.first.empty() ? "all" : key.first},
                                  {"level", key.second},
                                  {"codes", std::uint64_t{score.codes}},
                                  {"read", std::uint64_t{score.read}},
                                  {"identified", std::uint64_t{score.identified}},
                                  {"wrong", std::uint64_t{score.wrong}},
                                  {"wrong_identified", std::uint64_t{score.wrong_identified}},
                                  {"true_first", std::uint64_t{score.likeliest}},
                                  {"among_likely", std::uint64_t{score.likely}},
                                  {"unread_symbols", std::uint64_t{score.unread_symbols}},
                                  {"failed", std::uint64_t{score.failed}}});
    }
    Json::Object object{{"name", reader.name}, {"sets", std::move(rows)}};
    if (with_times) {
      const auto times = milliseconds(reader, &Reading::seconds);
      object["median_ms"] = percentile(times, 0.5);
      object["p95_ms"] = percentile(times, 0.95);
    }
    Json::Array missed;
    for (std::size_t i = 0; i < pictures.size(); ++i) {
      Score one;
      one.add(pictures[i], reader.readings[i]);
      if (one.read < one.codes || one.wrong > 0) {
        missed.push_back(
            Json::Object{{"path", pictures[i].name}, {"verdict", verdict(pictures[i], reader.readings[i])}});
      }
    }
    object["missed"] = std::move(missed);
    readers.push_back(std::move(object));
  }
  return Json::Object{{"pictures", std::uint64_t{pictures.size()}}, {"readers", std::move(readers)}};
}

}  // namespace counterfoil
