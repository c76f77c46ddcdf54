#include "core/content/beside/pace_price.h"

#include "core/rules.h"

namespace docket {

namespace {

PostsNeeded posts_at(const StandardTime& standard, Seconds pace) {
  const Seconds value_adding = standard.by_class[static_cast<std::size_t>(ElementClass::va)];
  return {standard.mean / pace, standard.mean / (rules::target_efficiency * pace),
          value_adding / (rules::target_utilisation * pace)};
}

} // namespace

std::optional<PacePrice> find_pace_price(const StandardTime& standard, const TimeAvailable& time) {
  if (!time.takt) return std::nullopt;
  return PacePrice{1 - time.line_cycle / *time.takt, *time.takt - time.line_cycle, posts_at(standard, time.line_cycle),
                   posts_at(standard, *time.takt)};
}

} // namespace docket
