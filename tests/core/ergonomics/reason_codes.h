// Reasons as short texts, to be compared with a list: "code", or "code:detail" where there is one.
#pragma once

#include "core/estimate.h"

#include <string>
#include <vector>

namespace docket {

using Codes = std::vector<std::string>;

inline Codes codes_of(const std::vector<Reason>& reasons) {
  Codes codes;
  for (const Reason& reason : reasons)
    codes.push_back(reason.code + (reason.detail.empty() ? "" : ":" + reason.detail));
  return codes;
}

} // namespace docket
