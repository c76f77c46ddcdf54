// A1, the standard: station time by variant and over the planned mix, with its uncertainty.
//
// Model     S_v = sum of f_e t_e over the elements of v;  S = sum of p_v S_v
//           u^2(S) = sum of (w_e f_e u(t_e))^2 + (U_s S)^2,  w_e the share of units that carry e
//           u(t_e) = as given, else from two analyses of its motions, else 0.10 sqrt(3.6 s x t_e)
// Source    JCGM 100:2008, 5.1.2 (law of propagation); element spread growing with the square root of time: the
//           balancing argument for independent errors of motions (common practice, 3.6 s = 100 TMU)
// Assumes   one error an element, shared by its repeats and variants, independent between elements; the level of the
//           whole standard is one further error
// Checked   tests/core/content/lines/standard_time_test.cpp
#pragma once

#include "core/case.h"
#include "core/content/lines/line_of_evidence.h"
#include "core/content/motions/standard_motions.h"

#include <array>
#include <vector>

namespace docket {

struct ElementTime {
  std::int32_t element = -1; ///< index into Case::standard
  Seconds time{};            ///< t_e
  double times_per_unit = 1; ///< f_e
  double share_of_units = 0; ///< w_e
  Seconds u{};               ///< u(t_e)
};

struct VariantTime {
  std::int32_t variant = -1; ///< index into Case::variants
  double share = 0;
  Seconds time{};                    ///< S_v
  std::array<Seconds, 3> by_class{}; ///< va, nnva, nva
};

struct StandardTime {
  LineLevel level;
  Seconds mean{}; ///< S
  Seconds u_random{}, u_systematic{};
  double efficiency = 0, utilisation = 0; ///< S / L, VA time / L [1]
  std::array<Seconds, 3> by_class{};      ///< over the mix
  std::vector<VariantTime> variants;      ///< in the order of Case::variants
  std::vector<ElementTime> elements;      ///< in the order of Case::standard
  std::vector<std::string> unmatched;     ///< elements seen at the station that are not in the standard
  Seconds unmatched_per_unit{};           ///< their observed seconds a unit, one-sided
  std::vector<ElementMotions> motions;    ///< elements with motions, in the order of Case::standard
};

/// u(t_e), one standard uncertainty.
Seconds element_uncertainty(const StandardElement& element);

StandardTime build_standard_time(const Case& input, Seconds line_cycle);

} // namespace docket
