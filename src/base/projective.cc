#include "base/projective.h"

#include <cmath>
#include <utility>

namespace counterfoil {
namespace {

using Equations = std::array<std::array<double, 9>, 8>;  // normal equations, right hand side last

// Gauss's elimination with row pivots.
std::optional<std::array<double, 8>> solve(Equations a) {
  for (std::size_t i = 0; i < 8; ++i) {
    std::size_t pivot = i;
    for (std::size_t r = i + 1; r < 8; ++r) {
      if (std::abs(a[r][i]) > std::abs(a[pivot][i])) pivot = r;
    }
    if (std::abs(a[pivot][i]) < 1e-12) return std::nullopt;
    std::swap(a[i], a[pivot]);
    for (std::size_t r = i + 1; r < 8; ++r) {
      const double factor = a[r][i] / a[i][i];
      for (std::size_t c = i; c < 9; ++c) a[r][c] -= factor * a[i][c];
    }
  }
  std::array<double, 8> x{};
  for (std::size_t i = 8; i-- > 0;) {
    double sum = a[i][8];
    for (std::size_t c = i + 1; c < 8; ++c) sum -= a[i][c] * x[c];
    x[i] = sum / a[i][i];
  }
  return x;
}

}  // namespace

bool Projective::is_sane(double side) const {
  const double far = side + 1;
  for (const double u : {-1.0, far}) {
    for (const double v : {-1.0, far}) {
      const double w = m[6] * u + m[7] * v + m[8];
      if (!(w > 0.2 && w < 5)) return false;
    }
  }
  const std::array<PicturePoint, 4> corner = {(*this)(0, 0), (*this)(side, 0), (*this)(side, side),
                                              (*this)(0, side)};
  for (std::size_t i = 0; i < 4; ++i) {
    const auto &a = corner[i], &b = corner[(i + 1) % 4], &c = corner[(i + 2) % 4];
    if ((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x) <= 0) return false;
  }
  return true;
}

std::optional<Projective> fit_projective(std::span<const Anchor> anchors, double rigour) {
  if (anchors.size() < 4) return std::nullopt;
  // Both planes are shifted and scaled to the order of one, without which the equations are badly conditioned.
  double u0 = 0, v0 = 0, x0 = 0, y0 = 0, weights = 0;
  for (const Anchor& a : anchors) {
    u0 += a.weight * a.u;
    v0 += a.weight * a.v;
    x0 += a.weight * a.at.x;
    y0 += a.weight * a.at.y;
    weights += a.weight;
  }
  u0 /= weights, v0 /= weights, x0 /= weights, y0 /= weights;
  double spread_uv = 0, spread_xy = 0;
  for (const Anchor& a : anchors) {
    spread_uv += a.weight * std::hypot(a.u - u0, a.v - v0);
    spread_xy += a.weight * std::hypot(a.at.x - x0, a.at.y - y0);
  }
  if (!(spread_uv > 0 && spread_xy > 0)) return std::nullopt;  // or no anchor weighs anything
  const double su = weights / spread_uv, sx = weights / spread_xy;

  Equations normal{};
  const auto add = [&normal](const std::array<double, 9>& row, double weight) {
    for (std::size_t i = 0; i < 8; ++i) {
      for (std::size_t j = 0; j < 9; ++j) normal[i][j] += weight * row[i] * row[j];
    }
  };
  for (const Anchor& a : anchors) {
    const double u = su * (a.u - u0), v = su * (a.v - v0);
    const double x = sx * (a.at.x - x0), y = sx * (a.at.y - y0);
    add({u, v, 1, 0, 0, 0, -u * x, -v * x, x}, a.weight);
    add({0, 0, 0, u, v, 1, -u * y, -v * y, y}, a.weight);
  }
  // Perspective is weakly known when all anchors lie close together: without reason there is none.
  normal[6][6] += rigour * weights;
  normal[7][7] += rigour * weights;
  const auto h = solve(normal);
  if (!h) return std::nullopt;
  const auto& q = *h;

  // Undo the shifts and scales: T_xy^-1 * H * T_uv.
  std::array<double, 9> m{};
  const std::array<double, 9> k = {q[0], q[1], q[2], q[3], q[4], q[5], q[6], q[7], 1};
  for (std::size_t r = 0; r < 3; ++r) {
    const double a = k[3 * r], b = k[3 * r + 1], c = k[3 * r + 2];
    m[3 * r] = a * su;
    m[3 * r + 1] = b * su;
    m[3 * r + 2] = c - a * su * u0 - b * su * v0;
  }
  for (std::size_t c = 0; c < 3; ++c) {
    m[c] = m[c] / sx + x0 * m[6 + c];
    m[3 + c] = m[3 + c] / sx + y0 * m[6 + c];
  }
  if (std::abs(m[8]) < 1e-12) return std::nullopt;
  Projective out;
  for (std::size_t i = 0; i < 9; ++i) out.m[i] = m[i] / m[8];
  return out;
}

}  // namespace counterfoil
