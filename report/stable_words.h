// The words findings.json uses for enumerators, and points in time in it. They are stable: a program may rely on them. What
// people read is in report/wording/.
#pragma once

#include "core/case.h"
#include "core/content/content.h"
#include "core/evidence.h"

#include <string>
#include <string_view>

namespace docket {

std::string_view word_of(Leaning leans);
std::string_view word_of(Line line);
std::string_view word_of(AllowanceWhere where);
std::string_view word_of(OperatorStatus status);
std::string_view word_of(ConditionState state);
std::string_view word_of(Exclusion why);

/// Which end of the search a sequence margin met: low, high or none.
std::string_view end_of(const SequenceMargin& margin);

/// The names of the marks set, divided by `;`; empty for a plain cycle.
std::string words_of(Marks marks);

/// ISO 8601 without a zone: 2026-03-02T06:00:00.
std::string iso(Instant instant);

} // namespace docket
