// Time by variant against the limit: one bar a variant on a seconds axis from zero, as thick as its planned share, cut
// by class of work, with its signed margin.
#pragma once

#include "core/quantity.h"
#include "report/figures/drawing.h"

#include <array>
#include <string>
#include <vector>

namespace docket {

struct VariantBar {
  std::string label, note;
  double share = 0;                  ///< [1]; decides the thickness
  std::array<Seconds, 3> by_class{}; ///< va, nnva, nva
  std::string margin;                ///< as printed
  bool set_off = false;              ///< the mean over the mix: a rule above, a fixed thickness
};

struct VariantBars {
  std::vector<VariantBar> bars;
  std::array<std::string, 3> class_names;
  Seconds limit{};
  std::string limit_label, axis_title, margin_header;
};

Drawing draw_variant_bars(const VariantBars& bars);

} // namespace docket
