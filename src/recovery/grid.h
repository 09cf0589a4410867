// The places of a symbol's modules on a picture that is bent: the flat map of its framing, and on it a lattice of
// nodes that are moved until the modules between them are as clearly dark or light as can be, and those whose
// colour is given (finder, timing and alignment patterns) are right. Coarse lattices come first.
// Source: free-form deformation as in Rueckert et al., IEEE Transactions on Medical Imaging 18 (1999) 712-721,
// with bilinear in place of cubic patches, from memory.
#pragma once

#include <array>

#include "recovery/flattened.h"
#include "recovery/sampled_symbol.h"

namespace counterfoil {

class Grid {
 public:
  // Fits; takes some milliseconds.
  explicit Grid(const Flattened& flattened);

  // How clear the modules are: 1 when each is wholly dark or light and all that are given are right.
  float clearness() const { return clearness_; }
  // The same of the given modules alone: 0 for any picture that is not of this symbol's layout.
  float fidelity() const { return fidelity_; }
  SampledSymbol sample(const Flattened& flattened) const;
  // From a place in modules to where it lies in the flat map, in modules.
  PicturePoint operator()(double u, double v) const;

 private:
  struct Node {
    float u = 0, v = 0;  // moved by, in modules
  };
  enum class Weighed { given, all };  // modules
  float at_middle(const Flattened& flattened, int x, int y) const;
  float gain(const Flattened& flattened, Weighed weighed, int left, int top, int right, int bottom) const;
  float stiffness(int column, int row) const;
  void place_middles();
  void judge(const Flattened& flattened);
  void refine(int nodes);
  void settle(const Flattened& flattened, Weighed weighed, float first_step, float last_step);
  // Where a place along one side lies between the nodes.
  struct Between {
    int node = 0;        // the one before
    float fraction = 0;  // of the way to the next
  };
  Between between(float at) const;
  Node moved(Between x, Between y) const;

  int modules_;
  int nodes_ = 2;                // along one side
  std::vector<Node> node_;       // row by row
  std::vector<Between> middle_;  // of each module
  float clearness_ = 0, fidelity_ = 0;
};

}  // namespace counterfoil
