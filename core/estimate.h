// An estimate with its interval, at 1 - alpha unless its name says otherwise.
#pragma once

#include "core/quantity.h"

#include <optional>
#include <string>

namespace docket {

/// A time with its interval. An end that does not exist is absent.
struct TimeEstimate {
  Seconds time{};
  std::optional<Seconds> low;
  std::optional<Seconds> high;
};

/// A reason printed in words, with the stable code findings.json carries. The words are made in report/wording.
struct Reason {
  std::string code;
  std::string detail; ///< What the words need: a number already rounded, a code, a list; empty where nothing.

  bool operator==(const Reason&) const = default;
};

} // namespace docket
