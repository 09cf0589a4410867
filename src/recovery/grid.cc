#include "recovery/grid.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "recovery/layout.h"

namespace counterfoil {
namespace {

// 1 dark, -1 light, 0 not given by the version.
const std::vector<std::int8_t>& given(int modules) { return layout_of((modules - 17) / 4).colour; }

constexpr float kGivenWeight = 1.5F;
constexpr float kFlat = 0.9F;  // clearness with which to stop
// Fidelity below which to stop, with 2, 3, 5 nodes a side and so on. Of 95 symbols that were mended none had
// less than 0.44, 0.45 and 0.53; of frames in which no symbol was, half had less than 0.25, 0.30 and 0.32.
constexpr std::array kHopeless = {0.28F, 0.28F, 0.36F, 0.36F};
constexpr int kMostNodes = 17;        // along one side
constexpr float kLastStep = 0.0625F;  // modules; half a pixel of the flat map
constexpr float kStiffness =
    1.5F;  // what a node that strays by one module from its neighbours' mean costs, in modules

}  // namespace

Grid::Grid(const Flattened& flattened) : modules_(flattened.modules()) {
  node_.resize(4);
  place_middles();
  // By the given modules first: they are few, and tell whether this is a symbol at all.
  settle(flattened, Weighed::given, 1, 0.125F);
  judge(flattened);
  if (fidelity_ < kHopeless.front()) return;
  settle(flattened, Weighed::all, 1, kLastStep);
  judge(flattened);
  std::size_t level = 0;
  for (int nodes = 3; (nodes - 1) * 4 <= modules_ + 4 && nodes <= kMostNodes;
       nodes = 2 * nodes - 1, ++level) {
    if (fidelity_ < kHopeless[level] || clearness_ > kFlat) return;
    refine(nodes);
    settle(flattened, Weighed::all, 0.5, kLastStep);
    judge(flattened);
  }
}

void Grid::judge(const Flattened& flattened) {
  float all_given = 0, given_right = 0, other = 0, other_clear = 0;
  const auto& colour_of = given(modules_);
  std::size_t i = 0;
  for (int y = 0; y < modules_; ++y) {
    for (int x = 0; x < modules_; ++x, ++i) {
      const float dark = at_middle(flattened, x, y);
      const auto colour = static_cast<float>(colour_of[i]);
      if (colour != 0) {
        given_right += colour * dark;
        ++all_given;
      } else {
        other_clear += std::abs(dark);
        ++other;
      }
    }
  }
  fidelity_ = given_right / all_given;
  clearness_ = (given_right + other_clear) / (all_given + other);
}

Grid::Between Grid::between(float at) const {
  const float in_cells = at * static_cast<float>(nodes_ - 1) / static_cast<float>(modules_);
  const int node = std::clamp(static_cast<int>(in_cells), 0, nodes_ - 2);
  return {node, in_cells - static_cast<float>(node)};
}

Grid::Node Grid::moved(Between x, Between y) const {
  const Node* p = node_.data() + static_cast<std::ptrdiff_t>(y.node) * nodes_ + x.node;
  const Node* q = p + nodes_;
  const float right = x.fraction, left = 1 - right, low = y.fraction, high = 1 - low;
  const float a = left * high, b = right * high, c = left * low, d = right * low;
  return {a * p[0].u + b * p[1].u + c * q[0].u + d * q[1].u,
          a * p[0].v + b * p[1].v + c * q[0].v + d * q[1].v};
}

PicturePoint Grid::operator()(double u, double v) const {
  const Node by = moved(between(static_cast<float>(u)), between(static_cast<float>(v)));
  return {u + static_cast<double>(by.u), v + static_cast<double>(by.v)};
}

float Grid::at_middle(const Flattened& flattened, int x, int y) const {
  const Node by = moved(middle_[static_cast<std::size_t>(x)], middle_[static_cast<std::size_t>(y)]);
  return flattened.darkness(static_cast<float>(x) + 0.5F + by.u, static_cast<float>(y) + 0.5F + by.v);
}

float Grid::gain(const Flattened& flattened, Weighed weighed, int left, int top, int right,
                 int bottom) const {
  const auto& colour_of = given(modules_);
  left = std::max(left, 0);
  right = std::min(right, modules_ - 1);
  const int first = middle_[static_cast<std::size_t>(left)].node,
            last = middle_[static_cast<std::size_t>(right)].node + 1;
  std::array<Node, kMostNodes> line;  // the nodes of one row, between those above and those below
  float sum = 0;
  for (int y = std::max(top, 0); y <= std::min(bottom, modules_ - 1); ++y) {
    const Between down = middle_[static_cast<std::size_t>(y)];
    const Node* above = node_.data() + static_cast<std::ptrdiff_t>(down.node) * nodes_;
    const Node* below = above + nodes_;
    for (int i = first; i <= last; ++i) {
      line[static_cast<std::size_t>(i)] = {above[i].u + down.fraction * (below[i].u - above[i].u),
                                           above[i].v + down.fraction * (below[i].v - above[i].v)};
    }
    const float v = static_cast<float>(y) + 0.5F;
    const std::int8_t* colours = colour_of.data() + static_cast<std::ptrdiff_t>(y) * modules_;
    for (int x = left; x <= right; ++x) {
      const int known = colours[x];
      if (known == 0 && weighed == Weighed::given) continue;
      const Between across = middle_[static_cast<std::size_t>(x)];
      const Node p = line[static_cast<std::size_t>(across.node)],
                 q = line[static_cast<std::size_t>(across.node) + 1];
      const float dark =
          flattened.darkness(static_cast<float>(x) + 0.5F + p.u + across.fraction * (q.u - p.u),
                             v + p.v + across.fraction * (q.v - p.v));
      sum += known != 0 ? kGivenWeight * static_cast<float>(known) * dark : std::abs(dark);
    }
  }
  return sum;
}

// How far the node strays from the mean of its neighbours, and they from theirs, squared.
float Grid::stiffness(int column, int row) const {
  if (nodes_ == 2) return 0;
  const auto at = [&](int x, int y) -> const Node& {
    return node_[static_cast<std::size_t>(y * nodes_ + x)];
  };
  float sum = 0;
  const auto bend = [&](const Node& a, const Node& b, const Node& c) {
    const float u = a.u - 2 * b.u + c.u, v = a.v - 2 * b.v + c.v;
    sum += u * u + v * v;
  };
  for (int x = std::max(column - 1, 1); x <= std::min(column + 1, nodes_ - 2); ++x)
    bend(at(x - 1, row), at(x, row), at(x + 1, row));
  for (int y = std::max(row - 1, 1); y <= std::min(row + 1, nodes_ - 2); ++y)
    bend(at(column, y - 1), at(column, y), at(column, y + 1));
  return sum;
}

void Grid::refine(int nodes) {
  std::vector<Node> finer;
  const float cell = static_cast<float>(modules_) / static_cast<float>(nodes - 1);
  for (int y = 0; y < nodes; ++y) {
    for (int x = 0; x < nodes; ++x) {
      finer.push_back(moved(between(static_cast<float>(x) * cell), between(static_cast<float>(y) * cell)));
    }
  }
  node_ = std::move(finer);
  nodes_ = nodes;
  place_middles();
}

void Grid::place_middles() {
  middle_.clear();
  for (int i = 0; i < modules_; ++i) middle_.push_back(between(static_cast<float>(i) + 0.5F));
}

void Grid::settle(const Flattened& flattened, Weighed weighed, float first_step, float last_step) {
  const float cell = static_cast<float>(modules_) / static_cast<float>(nodes_ - 1);
  const float weight = kStiffness * cell;
  for (float step = first_step; step >= last_step; step /= 2) {
    for (int sweep = 0; sweep < 3; ++sweep) {
      bool better = false;
      for (int row = 0; row < nodes_; ++row) {
        for (int column = 0; column < nodes_; ++column) {
          const int left = static_cast<int>(static_cast<float>(column - 1) * cell) - 1;
          const int right = static_cast<int>(static_cast<float>(column + 1) * cell) + 1;
          const int top = static_cast<int>(static_cast<float>(row - 1) * cell) - 1;
          const int bottom = static_cast<int>(static_cast<float>(row + 1) * cell) + 1;
          Node& node = node_[static_cast<std::size_t>(row * nodes_ + column)];
          const auto value = [&] {
            return gain(flattened, weighed, left, top, right, bottom) - weight * stiffness(column, row);
          };
          float best = value();
          for (const auto& [du, dv] :
               {std::pair{1, 0}, std::pair{-1, 0}, std::pair{0, 1}, std::pair{0, -1}, std::pair{1, 1},
                std::pair{-1, -1}, std::pair{1, -1}, std::pair{-1, 1}}) {
            const Node before = node;
            node.u += step * static_cast<float>(du);
            node.v += step * static_cast<float>(dv);
            const float now = value();
            if (now > best + 1e-3F) {
              best = now;
              better = true;
            } else {
              node = before;
            }
          }
        }
      }
      if (!better) break;
    }
  }
}

SampledSymbol Grid::sample(const Flattened& flattened) const {
  SampledSymbol out;
  out.modules = modules_;
  for (int y = 0; y < modules_; ++y) {
    for (int x = 0; x < modules_; ++x) out.darkness.push_back(at_middle(flattened, x, y));
  }
  return out;
}

}  // namespace counterfoil
