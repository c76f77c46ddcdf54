// What to look at on a walk to the station: the words of the check list of `docket template --walk`. Each check is one
// row of `conditions`, a question that "as the standard assumes" answers.
#pragma once

#include <array>
#include <span>
#include <string_view>

namespace docket {

struct WalkTopic {
  std::string_view topic;
  std::array<std::string_view, 3> checks; ///< fewer: the rest is empty
};

/// In the order of a walk.
std::span<const WalkTopic> walk_topics();

/// Stands above the list: how it is used, and what is never noted in it.
std::span<const std::string_view> walk_introduction();

} // namespace docket
