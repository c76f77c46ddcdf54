#include "core/content/lines/line_of_evidence.h"

#include "core/statistics/conformity.h"
#include "core/statistics/distributions.h"

#include <cmath>
#include <limits>

namespace docket {

LineAgainstLimit compare_with_limit(const LineLevel& level, Seconds limit, double confidence) {
  const double z = std::log(level.time / limit);
  // Welch-Satterthwaite with one random part (JCGM 100:2008, G.4.1).
  const double df = level.se > 0 && std::isfinite(level.df) ? std::max(1.0, level.df * std::pow(level.u / level.se, 4))
                                                            : std::numeric_limits<double>::infinity();
  const double reach = student_t_quantile(0.5 + confidence / 2, df) * level.u;
  LineAgainstLimit out;
  out.margin = limit - level.time;
  out.margin_low = limit - level.time * std::exp(reach);
  out.margin_high = limit - level.time * std::exp(-reach);
  out.p_fits = probability_within(0, z, level.u, df);
  return out;
}

} // namespace docket
