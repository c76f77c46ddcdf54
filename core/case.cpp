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

std::int32_t add_log_word(Case& input, std::string_view word) {
  if (word.empty()) return -1;
  const auto found = std::find(input.log_words.begin(), input.log_words.end(), word);
  const auto place = static_cast<std::int32_t>(found - input.log_words.begin());
  if (found == input.log_words.end()) input.log_words.emplace_back(word);
  return place;
}

const std::string& log_word(const Case& input, std::int32_t index) {
  static const std::string none;
  return index < 0 ? none : input.log_words[static_cast<std::size_t>(index)];
}

bool is_of_this_station(const Case& input, const LoggedCycle& cycle) {
  return cycle.station < 0 || log_word(input, cycle.station) == input.facts.station;
}

std::int64_t open_referrals(const Case& input) {
  return std::count_if(input.referrals.begin(), input.referrals.end(), [](const Referral& r) { return r.open; });
}

bool safety_matter_is_open(const Case& input) {
  return input.facts.open_safety_matter == YesNo::yes || open_referrals(input) > 0;
}

std::vector<std::string> asked_about(const CaseFacts& facts) { return facts.b_for ? *facts.b_for : facts.complainants; }

} // namespace docket
