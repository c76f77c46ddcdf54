// With what probability a value that is known with uncertainty lies within an upper limit.
//
// Model     P = F_t((limit - value)/u), Student's t with df degrees of freedom
// Source    JCGM 106:2012, Evaluation of measurement data: the role of measurement uncertainty in conformity
//           assessment, 7.3 and 7.4 (normal); JCGM 100:2008, annex G (t in its place with few degrees of freedom)
// Method    as it stands
// Spread    none: the spread is what goes in
// Assumes   nothing known beforehand of where the value lies
// Checked   tests/core/statistics/conformity_test.cpp: JCGM 106 examples, ILAC-G8:09/2019 risks of false acceptance
#pragma once

namespace docket {

/// 0 to 1. u >= 0; df > 0, +infinity allowed. With u = 0 a step: 1 where value <= limit, else 0. A lower limit: turn
/// the signs of limit and value.
double probability_within(double limit, double value, double u, double df);

} // namespace docket
