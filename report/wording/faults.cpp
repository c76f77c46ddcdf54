#include "report/wording/tables.h"

namespace docket::wording {
namespace {

// code, check, result, direction of bias, affects, remedy
constexpr FaultRow faults[] = {
    {"log_without_marks", "Marks in the cycle log",
     "The cycle log carries no mark at all. Help, stops and skipped steps cannot be seen in it.",
     "either way: unseen help and skipped steps make times shorter, unseen stops longer", "settled operators, sequence",
     "let the log record help, stops and skipped steps, or count them by eye on a few shifts"},
    {"log_is_line_time", "Whose time the log holds",
     "More than half of the logged cycles lie within 1 % of the line cycle time[ ({})]. They are the line's time, not "
     "a "
     "person's, and are not used as work time.",
     "would hide any margin, in both directions", "settled operators",
     "log when the person starts and finishes the work, or time by stopwatch"},
    {"line_time_rows", "Rows given as line time",
     "[{} ]rows are station entry to exit. Counted, not used as work time.", "none: not used", "settled operators",
     "log work time beside line time"},
    {"other_station_rows", "Rows of another station", "[{} ]rows belong to another station. Counted and set apart.",
     "none: not used", "settled operators", "none needed if the station names are right"},
    {"no_operator_rows", "Rows without an operator",
     "[{} ]rows name nobody, and no roster row fits. Counted, not used.", "not known: who is missing may matter",
     "settled operators", "fill the operator or the roster"},
    {"no_variant_rows", "Rows without a variant", "[{} ]rows name no variant, where several exist. Counted, not used.",
     "not known: heavy variants may be the ones left out", "settled operators, restudy", "fill the variant"},
    {"readings_beside_the_log", "Readings as cycles",
     "{} readings are of times that the log does not have. They count as a person's cycles too.", "none",
     "settled operators and restudy share them", "none needed"},
    {"readings_in_the_log", "Cycles seen twice",
     "[{} ]readings were taken while the log covers the same operator. The log is used for them, so that no cycle "
     "counts "
     "twice.",
     "none", "settled operators", "none needed"},
    {"cycles_per_shift_assumed", "Cycles in a shift",
     "The number of cycles in a shift is not given and not in the log. Assumed[: {}].",
     "small; longer shifts let a person drift further", "sequence", "give cycles_per_shift in the table case"},
    {"one_operator_only", "How many people", "The measured cycles come from one operator[ ({})].",
     "either way: one person may be faster or slower than others", "settled operators, restudy",
     "record more trained operators on other shifts"},
    {"one_cycle_only", "How many cycles", "There is one cycle only[ ({})]. It has no spread.", "either way",
     "settled operators, restudy", "record more cycles"},
    {"every_cycle_marked", "Plain cycles", "Every cycle carries a mark[ ({})]. No plain cycle is left.", "not known",
     "settled operators, restudy", "record cycles without help, stops or defects, or check the marks"},
    {"identical_values", "Spread of the values",
     "All values are the same[ ({})]. Measured times vary; these may be copied or typed from a target.", "not known",
     "the line of evidence they feed", "find out how the values were taken"},
    {"intake_warning", "Intake: taken with a warning", "{}", "see the text", "see the text", "see the text"},
    {"intake_question", "Intake: a question", "{}", "see the text", "see the text", "answer it"},
    {"not_used_yet", "Tables not used yet", "Taken in and checked[: {}]. No number in this file uses them yet.", "none",
     "nothing in this version", "none needed"},
    {"elements_incomplete", "Readings by element",
     "[{} ]cycles have readings of some elements only. They do not add up to a whole cycle and are not used as one.",
     "none: not used", "restudy", "read every element of a cycle, or the whole cycle"},
    {"condition_not_checked", "Conditions not checked",
     "Not checked[: {}]. Whether it is as the standard assumes is open.", "not known", "every measured line",
     "check it, and write the state and the dates"},
    {"no_trained_given", "Who is trained", "No operator is given as trained[ ({})]. Nobody can count as settled.",
     "not known", "settled operators, restudy", "fill trained in the table operators"},
    {"build_sequence_absent", "Real build order",
     "No build order is given. The order of units is drawn from the planned mix.",
     "drawn orders can be kinder or harder than the real one", "sequence", "give the table build_sequence"},
    {"cycles_after_leaving", "People who left",
     "Cycles go on after the day on which somebody is said to have left[: {}]. They are counted as still there.",
     "who left is not counted among those who left", "settled operators, share able",
     "correct left_station, or whose cycles they are"},
    {"settled_and_still_learning", "The two questions on one person",
     "Question A counts an operator as settled whom question B finds still learning[: {}]. The two look at "
     "different stretches of cycles with different rules.",
     "if still learning, the level of the settled operators looks longer than it will be", "settled operators",
     "look at both sections; let the operator's later cycles decide"},
};

} // namespace

std::span<const FaultRow> fault_table() { return faults; }

} // namespace docket::wording
