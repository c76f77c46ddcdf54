#include "core/case.h"

#include <algorithm>

namespace docket {

bool carries(const Variant& variant, const StandardElement& element) {
  const auto has = [&](const std::string& option) {
    return std::find(variant.options.begin(), variant.options.end(), option) != variant.options.end();
  };
  if (!element.not_option.empty()) return !has(element.not_option);
  if (element.any_option.empty()) return true;
  return std::any_of(element.any_option.begin(), element.any_option.end(), has);
}

std::int64_t open_referrals(const Case& input) {
  return std::count_if(input.referrals.begin(), input.referrals.end(), [](const Referral& r) { return r.open; });
}

bool safety_matter_is_open(const Case& input) {
  return input.facts.open_safety_matter == YesNo::yes || open_referrals(input) > 0;
}

std::vector<std::string> asked_about(const CaseFacts& facts) { return facts.b_for ? *facts.b_for : facts.complainants; }

} // namespace docket
