// Text as it stands inside markup.
#pragma once

#include <string>
#include <string_view>

namespace docket {

/// Escapes < > & " ' and drops the control characters that no markup may hold.
std::string escape_markup(std::string_view text);

/// The same for running text: a number stays on one line with its unit (s, %, h, min).
std::string escape_running_text(std::string_view text);

} // namespace docket
