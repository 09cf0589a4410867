// How surely soft values bear out bits that were foretold, with a bound on chance that asks nothing of the values.
#pragma once

#include <span>

namespace counterfoil {

// `agreement`: for each bit the weight of its sample, positive where the sample has the foretold value, negative
// where it has the other. Were the foretold bits random to the sample, a sum as great as this one or greater had
// at most the probability exp(-result): the Chernoff bound of sum(w s) with independent signs s of +1 and -1,
// least over t of prod(cosh(t w)) / exp(t sum), which holds whatever the weights are. It is never less than
// Hoeffding's sum^2 / (2 sum(w^2)), and comes to ln 2 for a bit where all agree with the same weight. 0 where the
// sum is not positive.
double evidence_nats(std::span<const float> agreement);

}  // namespace counterfoil
