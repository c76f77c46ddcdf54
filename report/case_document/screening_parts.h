// What the parts on ergonomics share: the method beside its numbers, and remarks on one row of the input.
#pragma once

#include "core/ergonomics/screening.h"
#include "report/case_document/pages.h"

#include <initializer_list>
#include <string>
#include <string_view>

namespace docket {

/// The sentence, the range, the source and how sure its values are: no number stands without them.
void add_screening_method(CasePages& pages, std::initializer_list<std::string_view> what,
                          const ScreeningMethod& method);

/// One small paragraph on a row; none without words.
void add_screening_remarks(CasePages& pages, const CaseView& view, std::string_view task, const SourceRow& origin,
                           const std::string& words);

/// "every unit", "18 %, as E17".
std::string share_of_units_in_words(double share, std::int32_t element, const Case& input);

// The parts, within the section on ergonomics.
void add_lifting(CasePages& pages, const CaseView& view);
void add_efforts(CasePages& pages, const CaseView& view);

} // namespace docket
