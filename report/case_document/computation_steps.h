// What the steps of question A share: the numbered list they stand in, and numbers with the digits to work on.
#pragma once

#include "report/case_document/pages.h"

#include <initializer_list>
#include <string>
#include <string_view>

namespace docket {

/// A numbered list of steps, each with its source.
class Steps {
public:
  void step(std::string_view title, std::string_view text, std::string_view source);
  List take();

private:
  List list_;
};

inline constexpr std::size_t most_in_a_row = 12; ///< more numbers than that stand in a table of their own

std::string in_brackets(double value, int decimals); ///< where it is below 0
std::string log_of(double value);
std::string square(double value);
std::string seconds3(Seconds time);
std::string seconds2(Seconds time);
/// Where what is printed is worked on further: a quotient by a small u comes out to its four decimals.
std::string worked_on(double value);
std::string df_in_words(double df);
/// "√(0.01833² + 0.05000²) = 0.05325"
std::string root_of_squares(std::initializer_list<double> parts, double sum);
/// "z1 = ln(50.000 s / 60.000 s) = -0.18232"
std::string level_as_z(std::string_view name, Seconds time, Seconds limit);

// The steps, in order.
void add_limit_step(Steps& steps, const CaseView& view);
void add_standard_steps(Steps& steps, const CaseView& view);
void add_settled_steps(Steps& steps, const CaseView& view);
void add_restudy_steps(Steps& steps, const CaseView& view);
void add_room_steps(Steps& steps, const CaseView& view); ///< of the order of units and the heaviest variant
void add_chance_steps(Steps& steps, const CaseView& view);

} // namespace docket
