// The version of the program, as CMakeLists.txt states it.
#pragma once

#include <string_view>

namespace docket {

std::string_view program_version();

} // namespace docket
