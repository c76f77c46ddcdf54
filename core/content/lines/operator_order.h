// The order in which operators are printed: by code, letters first, then the number. Never by time.
#pragma once

#include <string>

namespace docket {

/// K2 before K12, K12 before M1.
bool code_before(const std::string& a, const std::string& b);

} // namespace docket
