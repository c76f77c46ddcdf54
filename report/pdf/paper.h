// Pages printed as PDF by Qt Gui, with the bundled letters: the only place that knows the library.
//
// Assumes   nothing of the machine: no screen, no font, no setting of fonts and no clock of it is used. While a page is
//           made the process has three settings of its own (XDG_RUNTIME_DIR, FONTCONFIG_SYSROOT, FONTCONFIG_FILE); they are put back
// Checked   tests/report/pdf_test.cpp; tests/outside/pdf_by_others.py
#pragma once

#include "report/pdf/letters.h"
#include "report/pdf/pages.h"

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace docket::pdf {

/// Points of the printed page in a unit of the drawings.
inline constexpr int dots_per_unit = 10, dots_per_inch = 981;
inline constexpr double points_per_unit = 72.0 * dots_per_unit / dots_per_inch;

/// Lays out with the widths of the bundled letters, and prints. The bytes are as the library makes them, with its clock
/// in them. Throws Error (could_not_be_done) where the library can't be started.
std::string print_pages(const std::string& title, const std::function<Pages(const MeasureText&)>& lay_out);

/// The signs of a text (UTF-8) for which the bundled letters, plain and strong, have no shape; each once.
std::vector<std::string> signs_without_letter(std::string_view text);

} // namespace docket::pdf
