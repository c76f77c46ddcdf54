#include "report/wording/excess.h"

#include "report/wording/wording.h"

#include <algorithm>

namespace docket::wording {
namespace {

constexpr CodeWords absent[] = {
    {"not_assessable_now", not_assessable_line},
    {"no_element_readings",
     "It takes five plain cycles of this operator timed element by element, and there are fewer."},
    {"too_few_peers_timed",
     "It takes three other settled operators timed on the same element, five plain cycles each, and there are fewer."},
    {"one_variant", "It takes twenty plain cycles of each of two variants from this operator, and there are fewer."},
    {"too_few_peers_by_variant",
     "It takes three other settled operators with twenty plain cycles of each variant compared, and there are fewer."},
    {"variants_apart",
     "This operator did no two variants on the same worked day. What a day does to the times can't be told from what a "
     "variant does."},
};

} // namespace

std::span<const CodeWords> excess_absent_table() { return absent; }

std::string excess_absent_in_words(std::string_view code) {
  const auto* const found =
      std::find_if(std::begin(absent), std::end(absent), [&](const CodeWords& row) { return row.code == code; });
  return std::string(found == std::end(absent) ? code : found->words);
}

} // namespace docket::wording
