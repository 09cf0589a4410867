#include "recovery/identify.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "recovery/evidence.h"
#include "recovery/soft_symbol.h"
#include "recovery/text_rows.h"

namespace counterfoil {
namespace {

constexpr std::size_t kFormatsTried = 4;
constexpr std::size_t kShown = 3;

// What each value of a codeword would agree with its soft bits.
using CodewordScores = std::array<float, 256>;

std::vector<CodewordScores> score_columns(const TextRows& rows, const std::vector<float>& bits) {
  std::vector<CodewordScores> columns(rows.columns);
  for (std::size_t column = 0; column < rows.columns; ++column) {
    const float* bit = bits.data() + static_cast<std::size_t>(rows.places[column]) * 8;
    auto& scores = columns[column];
    scores[0] = 0;
    for (std::size_t i = 0; i < 8; ++i) scores[0] -= bit[i];
    for (std::size_t value = 1; value < scores.size(); ++value) {
      std::size_t lowest = 0;
      while ((value >> lowest & 1) == 0) ++lowest;
      scores[value] = scores[value & (value - 1)] + 2 * bit[7 - lowest];
    }
  }
  return columns;
}

double weight_of_format(const SampledSymbol& symbol) {
  double weight = 0;
  for (const auto& copy : layout_of(symbol.version()).format)
    for (const int module : copy) weight += std::fabs(symbol.darkness[static_cast<std::size_t>(module)]);
  return weight;
}

struct Candidate {
  std::size_t row = 0;
  double score = 0;
};

// One format of the symbol with all texts held against it.
class Hypothesis {
 public:
  Hypothesis(const SampledSymbol& symbol, const FormatGuess& guess, const KnownTexts& known)
      : format_(guess.format),
        version_(symbol.version()),
        rows_(known.rows(symbol.version(), guess.format.level)),
        bits_(soft_bits(symbol, guess.format.mask)) {
    const auto columns = score_columns(*rows_, bits_);
    data_.resize(rows_->rows());
    for (std::size_t row = 0; row < data_.size(); ++row) {
      const std::uint8_t* codewords = rows_->row(row);
      float data = 0, parity = 0;
      std::size_t column = 0;
      for (; column < rows_->data_columns; ++column) data += columns[column][codewords[column]];
      for (; column < rows_->columns; ++column) parity += columns[column][codewords[column]];
      data_[row] = data;
      keep({row, static_cast<double>(data) + parity});
    }
  }

  SymbolFormat format() const { return format_; }
  // The likeliest rows, at most kShown, the best first.
  const std::vector<Candidate>& best() const { return best_; }
  std::size_t text_of(const Candidate& candidate) const { return rows_->texts[candidate.row]; }

  // The weight of all codeword bits that candidates are scored by.
  double weight() const {
    double sum = 0;
    for (const int place : rows_->places)
      for (std::size_t i = 0; i < 8; ++i) sum += std::fabs(bits_[static_cast<std::size_t>(place) * 8 + i]);
    return sum;
  }

  // How many texts the data bear out as well as this one, itself included.
  std::size_t data_rank(const Candidate& candidate) const {
    const float least = data_[candidate.row];
    return static_cast<std::size_t>(
        std::count_if(data_.begin(), data_.end(), [&](float value) { return value >= least; }));
  }

  double needed(const Candidate& candidate, std::size_t tries) const {
    const auto chances = static_cast<double>(data_rank(candidate)) * static_cast<double>(tries);
    return -std::log(kMostFalse) + std::log(chances) +
           std::log(1 + std::log(static_cast<double>(data_.size())));
  }

  // Of the parity in that block which bears the text out least.
  double evidence(const Candidate& candidate) const {
    double least = 0;
    std::size_t first_data = 0;
    const auto& blocks = blocks_of(version_, format_.level).blocks;
    for (std::size_t block = 0; block + 1 < rows_->parity_start.size(); ++block) {
      if (first_data >= rows_->used[candidate.row]) break;  // from here on only padding
      first_data += static_cast<std::size_t>(blocks[block].data);
      const double here =
          evidence_nats(agreement(candidate.row, rows_->parity_start[block], rows_->parity_start[block + 1]));
      least = block == 0 ? here : std::min(least, here);
    }
    return least;
  }

  // By how much the best is borne out better than the next, in the bits where the two differ; in all bits when
  // there is no other.
  double lead() const {
    const std::uint8_t* own = rows_->row(best_[0].row);
    const std::uint8_t* other = best_.size() > 1 ? rows_->row(best_[1].row) : nullptr;
    const auto agrees = agreement(best_[0].row, 0, rows_->columns);
    double sum = 0, squares = 0;
    for (std::size_t i = 0; i < agrees.size(); ++i) {
      if (other && ((own[i / 8] ^ other[i / 8]) >> (7 - i % 8) & 1) == 0) continue;
      sum += agrees[i];
      squares += static_cast<double>(agrees[i]) * agrees[i];
    }
    return squares > 0 ? sum / std::sqrt(squares) : 0;
  }

 private:
  void keep(Candidate candidate) {
    if (best_.size() == kShown && candidate.score <= best_.back().score) return;
    const auto after = std::find_if(best_.begin(), best_.end(),
                                    [&](const Candidate& one) { return one.score < candidate.score; });
    best_.insert(after, candidate);
    if (best_.size() > kShown) best_.pop_back();
  }

  std::vector<float> agreement(std::size_t row, std::size_t from, std::size_t to) const {
    std::vector<float> agrees;
    agrees.reserve((to - from) * 8);
    for (std::size_t column = from; column < to; ++column) {
      const std::uint8_t codeword = rows_->row(row)[column];
      for (std::size_t i = 0; i < 8; ++i) {
        const float bit = bits_[static_cast<std::size_t>(rows_->places[column]) * 8 + i];
        agrees.push_back(codeword >> (7 - i) & 1 ? bit : -bit);
      }
    }
    return agrees;
  }

  SymbolFormat format_;
  int version_;
  std::shared_ptr<const TextRows> rows_;
  std::vector<float> bits_;
  std::vector<float> data_;  // for each row, what its data codewords agree
  std::vector<Candidate> best_;
};

struct Ranked {
  double score;  // of codewords and format information together
  const Hypothesis* hypothesis;
  Candidate candidate;
};

}  // namespace

Identification identify_symbol(const SampledSymbol& sampled, const KnownTexts& known, std::size_t tries) {
  Identification identification;
  const auto symbol = sound_sample(sampled);
  if (!symbol || known.size() == 0) return identification;
  const auto guesses = likely_formats(*symbol, kFormatsTried);
  const double format_weight = weight_of_format(*symbol);
  std::vector<Hypothesis> hypotheses;
  hypotheses.reserve(guesses.size());
  for (const auto& guess : guesses) hypotheses.emplace_back(*symbol, guess, known);
  std::vector<Ranked> ranking;
  for (std::size_t i = 0; i < guesses.size(); ++i)
    for (const auto& candidate : hypotheses[i].best())
      ranking.push_back({candidate.score + guesses[i].score * format_weight, &hypotheses[i], candidate});
  if (ranking.empty()) return identification;
  std::stable_sort(ranking.begin(), ranking.end(),
                   [](const Ranked& a, const Ranked& b) { return a.score > b.score; });
  for (const auto& one : ranking) {
    const std::size_t text = one.hypothesis->text_of(one.candidate);
    const bool named = std::any_of(identification.likely.begin(), identification.likely.end(),
                                   [&](const Likeness& other) { return other.text == text; });
    if (named || identification.likely.size() == kShown) continue;
    const double weight = one.hypothesis->weight();
    identification.likely.push_back({text, weight > 0 ? one.candidate.score / weight : 0});
  }

  const Hypothesis& first = *ranking.front().hypothesis;
  const Candidate& best = ranking.front().candidate;
  const std::size_t chances = std::max<std::size_t>(tries, 1) * guesses.size();
  identification.format = first.format();
  identification.evidence_nats = first.evidence(best);
  identification.needed_nats = first.needed(best, chances);
  identification.lead = first.lead();
  identification.certain =
      identification.evidence_nats >= identification.needed_nats && identification.lead >= kLeastLead;
  // Another text that another format bears out would be no less believable.
  for (const auto& other : hypotheses) {
    if (!identification.certain || other.best().empty()) continue;
    const Candidate& rival = other.best().front();
    if (other.text_of(rival) != identification.likely.front().text &&
        other.evidence(rival) >= other.needed(rival, chances))
      identification.certain = false;
  }
  return identification;
}

}  // namespace counterfoil
