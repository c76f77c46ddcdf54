// The tables behind wording.h: codes with their words.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace docket::wording {

/// `words`: "{}" stands for the detail; what is in square brackets is left out where there is no detail.
struct CodeWords {
  std::string_view code, words;
};

struct FaultRow {
  std::string_view code, check, result, direction, affects, remedy;
};

std::span<const CodeWords> reason_table();
std::span<const CodeWords> would_decide_table();
std::span<const CodeWords> flip_table();
std::span<const CodeWords> lean_table();
std::span<const CodeWords> none_why_table();
std::span<const FaultRow> fault_table();
std::span<const CodeWords> setting_table();
std::span<const CodeWords> adaptation_reason_table();
std::span<const CodeWords> would_decide_adaptation_table();
std::span<const CodeWords> bridge_absent_table();
std::span<const CodeWords> no_loss_table();
std::span<const CodeWords> no_earlier_learners_table();

std::string fill_in(std::string_view words, std::string_view detail);

} // namespace docket::wording
