// The lines of evidence combined on the log scale, with what they share, and set against one another.
//
// Model     z_i = ln(T_i / limit), covariance V; generalised least squares; P = F_t(-z / u)
// Source    JCGM 100:2008 (shared systematic parts, Welch-Satterthwaite); JCGM 106:2012, 7.2 (probability of conformity)
// Assumes   shared: the standard's level and rating where the standard was set by stopwatch or by the observer; the
//           operators that A2 and A3 have in common
// Checked   tests/core/content/lines/combined_test.cpp
#pragma once

#include "core/content/lines/line_of_evidence.h"

#include <array>
#include <optional>
#include <span>
#include <vector>

namespace docket {

/// A line as it enters the combination.
struct LineInput {
  Line line = Line::standard;
  LineLevel level;
};

/// What pairs of lines share, as covariances of their logarithms.
struct SharedParts {
  double standard_restudy = 0, settled_restudy = 0;
  double standard_settled = 0; ///< 0 as the method has it; what_flips tries another
};

struct CombinedLine {
  SharedParts shared;                 ///< what pairs of lines share, as covariances
  double ln_ratio = 0, u = 0, df = 0; ///< z, u(z), degrees of freedom (may be infinite)
  std::array<double, 3> weights{};    ///< by Line
  double p_fits = 0;                  ///< P(T <= limit)
  double p_as_agreed = 0;             ///< the same with the standard's level and pace taken as agreed
  Seconds time{}, margin{}, margin_low{}, margin_high{};
};

struct Clash {
  Line a = Line::standard, b = Line::standard;
  Seconds difference{}; ///< T_a - T_b
  Seconds u{};          ///< of the difference
  bool blocks = false;  ///< on different sides of the limit
};

/// `lines` must not be empty.
CombinedLine combine_against_limit(std::span<const LineInput> lines, const SharedParts& shared, Seconds limit,
                                   double confidence);

/// Every pair further apart than the method allows.
std::vector<Clash> find_clashes(std::span<const LineInput> lines, const SharedParts& shared, Seconds limit);

} // namespace docket
