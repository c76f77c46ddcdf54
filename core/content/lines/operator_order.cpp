#include "core/content/lines/operator_order.h"

#include <charconv>
#include <tuple>

namespace docket {

bool code_before(const std::string& a, const std::string& b) {
  const auto parts = [](const std::string& code) {
    const std::size_t digits = code.find_first_of("0123456789");
    int number = 0;
    if (digits != std::string::npos) std::from_chars(code.data() + digits, code.data() + code.size(), number);
    return std::make_tuple(code.substr(0, digits), number, code);
  };
  return parts(a) < parts(b);
}

} // namespace docket
