// Tables `case`, `statements`, `referrals`, `steps`, `checklist`: the complaint and its review.
#include "ingest/declarations/topics.h"

#include <array>

namespace docket::declarations {

namespace {

using Kind = ColumnKind;
using Words = std::string_view;

constexpr std::array<Words, 2> yes_no{"yes", "no"};
constexpr std::array<Words, 3> allowance_places{"in_cycle", "by_relief", "in_standard"};
constexpr std::array<Words, 1> none{"none"};
constexpr std::array<Words, 2> open_closed{"open", "closed"};
constexpr std::array<Words, 4> checklist_answers{"yes", "no", "unknown", "not_applicable"};

constexpr std::array case_keys{
    ColumnDeclaration{.name = "case_ref",
                      .kind = Kind::text,
                      .required = true,
                      .note = "Your own reference for this case, for example C-2026-014."},
    ColumnDeclaration{.name = "title",
                      .kind = Kind::text,
                      .required = true,
                      .note =
                          "One line that says what the case is about, for example: Compressor mounting, late shift."},
    ColumnDeclaration{.name = "station",
                      .kind = Kind::name,
                      .required = true,
                      .note = "The station, written as the line writes it, for example ST-07."},
    ColumnDeclaration{.name = "line", .kind = Kind::name, .required = true, .note = "The line, for example Line 2."},
    ColumnDeclaration{.name = "line_cycle_s",
                      .kind = Kind::seconds,
                      .most = 86400,
                      .note = "Line cycle time in seconds: how often the line moves one unit on, for example 55. "
                              "Or give takt_s with oee_percent. Or give working_min_per_day, units_per_day and "
                              "oee_percent. If you give more than one, they must agree."},
    ColumnDeclaration{.name = "takt_s",
                      .kind = Kind::seconds,
                      .least = 0,
                      .most = 86400,
                      .least_excluded = true,
                      .note = "Takt time in seconds: working time divided by units wanted, for example 68.4."},
    ColumnDeclaration{.name = "oee_percent",
                      .kind = Kind::percent,
                      .least = 0,
                      .most = 100,
                      .least_excluded = true,
                      .usual_least = 30,
                      .note = "OEE of the line in percent, for example 80.4."},
    ColumnDeclaration{.name = "working_min_per_day",
                      .kind = Kind::number,
                      .least = 0,
                      .most = 1440,
                      .least_excluded = true,
                      .note = "Working minutes a day, breaks taken out, all shifts together, for example 912."},
    ColumnDeclaration{.name = "units_per_day",
                      .kind = Kind::number,
                      .least = 0,
                      .least_excluded = true,
                      .note = "Units the line must build a day, for example 800."},
    ColumnDeclaration{
        .name = "product", .kind = Kind::text, .note = "What is built, for example heat pump, outdoor unit."},
    ColumnDeclaration{
        .name = "opened_on", .kind = Kind::date, .note = "Day the case was opened, for example 2026-11-03."},
    ColumnDeclaration{
        .name = "complaint_on", .kind = Kind::date, .note = "Day the complaint was made, for example 2026-11-02."},
    ColumnDeclaration{
        .name = "complaint_shift", .kind = Kind::name, .note = "Shift the complaint is about, for example late."},
    ColumnDeclaration{
        .name = "complaint_text", .kind = Kind::text, .note = "The complaint, in the words it was made in."},
    ColumnDeclaration{.name = "complainants",
                      .kind = Kind::codes,
                      .note =
                          "Operator codes of those who complain, divided by ; for example A1;B3. Codes, never names. "
                          "May stay blank."},
    ColumnDeclaration{.name = "b_for",
                      .kind = Kind::codes,
                      .words = none,
                      .note = "Operator codes for whom practice (question B) is looked at. Blank: the complainants. "
                              "none: nobody."},
    ColumnDeclaration{.name = "b_told_on",
                      .kind = Kind::date,
                      .note = "Day those people were told that their practice is looked at."},
    ColumnDeclaration{.name = "data_basis",
                      .kind = Kind::text,
                      .note = "Agreement or notice under which times of single people may be used. Blank is printed as "
                              "\"not given\"."},
    ColumnDeclaration{
        .name = "plan_agreed_on", .kind = Kind::date, .note = "Day both sides agreed what would be measured and how."},
    ColumnDeclaration{.name = "prepared_by_role",
                      .kind = Kind::text,
                      .note = "Role of whoever prepares this file, for example industrial engineer. No name."},
    ColumnDeclaration{.name = "post",
                      .kind = Kind::name,
                      .note =
                          "One person's place, where the station has several, for example left. One file is one post."},
    ColumnDeclaration{.name = "standard_revision",
                      .kind = Kind::text,
                      .note = "Revision of the standard that holds, for example rev 4 of 2026-03."},
    ColumnDeclaration{.name = "standard_set_by_role",
                      .kind = Kind::text,
                      .note = "Role that set the standard, for example work study. No name."},
    ColumnDeclaration{.name = "early_start_s",
                      .kind = Kind::seconds,
                      .least = 0,
                      .most = 86400,
                      .note = "How many seconds before a unit is due the person may start on it, for example 3. If "
                              "never, write 0. Blank: the work zone is not known."},
    ColumnDeclaration{.name = "late_finish_s",
                      .kind = Kind::seconds,
                      .least = 0,
                      .most = 86400,
                      .note = "How many seconds after the unit moves on the person may still finish it, for example 9. "
                              "If never, write 0. Blank: the work zone is not known."},
    ColumnDeclaration{.name = "allowance_percent",
                      .kind = Kind::percent,
                      .least = 0,
                      .most = 100,
                      .usual_most = 40,
                      .preset = "0",
                      .note = "Allowance for rest and personal needs in percent, for example 8. Then say in "
                              "allowance_where how it is given. Blank: 0."},
    ColumnDeclaration{.name = "allowance_where",
                      .kind = Kind::choice,
                      .words = allowance_places,
                      .note = "in_cycle: time left in every cycle. by_relief: a relief person steps in. in_standard: "
                              "already inside the times of the standard."},
    ColumnDeclaration{.name = "cycles_per_shift",
                      .kind = Kind::count,
                      .least = 1,
                      .most = 100000,
                      .note = "Cycles one person works in a shift, for example 420. Blank: taken from the log."},
    ColumnDeclaration{.name = "line_cycle_asked_s",
                      .kind = Kind::seconds,
                      .least = 0,
                      .most = 86400,
                      .least_excluded = true,
                      .note =
                          "Another line cycle time that is asked about, in seconds, for example 50: what it would do "
                          "to lifts, efforts, repetition and recovery. It changes no finding."},
    ColumnDeclaration{.name = "pattern_s",
                      .kind = Kind::seconds,
                      .least = 0,
                      .most = 86400,
                      .note =
                          "Seconds of the average unit spent on the same motions again and again, all repeats of the "
                          "most frequent pattern together, for example 18."},
    ColumnDeclaration{.name = "leavers_listed",
                      .kind = Kind::choice,
                      .words = yes_no,
                      .note =
                          "yes: everybody who had the job in the time of the data is in the sheet operators, also who "
                          "left (left_station). Blank or no: the case file asks."},
    ColumnDeclaration{.name = "open_safety_matter",
                      .kind = Kind::choice,
                      .words = yes_no,
                      .note =
                          "yes or no: is any safety or health matter at this station open? Blank is printed as \"not "
                          "answered\". Report such a matter at once; do not wait for this file."},
    ColumnDeclaration{.name = "retain_until",
                      .kind = Kind::date,
                      .note = "Day until which this file is kept, for example 2028-12-31."},
    ColumnDeclaration{.name = "may_read",
                      .kind = Kind::text,
                      .note = "Roles that may read this file, for example supervisor; workers' representative."},
};

constexpr std::array statement_columns{
    ColumnDeclaration{.name = "who",
                      .kind = Kind::text,
                      .required = true,
                      .note = "Role, not name: for example operator, supervisor, workers' representative."},
    ColumnDeclaration{.name = "on", .kind = Kind::date, .required = true, .note = "Day, for example 2026-11-03."},
    ColumnDeclaration{.name = "text",
                      .kind = Kind::text,
                      .required = true,
                      .note = "What they say, in their own words. It is printed as it stands; leave names out."},
};

// A drop-down list holds 255 characters in all, and its words no comma (ISO/IEC 29500-1, 18.3.1.42 formula1).
constexpr std::array<Words, 12> referral_triggers{
    "serious danger",         "pain numbness or swelling", "symptoms overnight",  "reported injury",
    "near miss from rushing", "bypassed guard or tool",    "working out of zone", "unsafe lift or reach",
    "heat illness signs",     "no prompt toilet access",   "restriction not met", "same pain in several people",
};

constexpr std::array referral_columns{
    ColumnDeclaration{.name = "trigger",
                      .kind = Kind::text,
                      .required = true,
                      .may_be_blank = true,
                      .words = referral_triggers,
                      .note = "What was reported. Choose from the list or write your own. No name, no diagnosis."},
    ColumnDeclaration{.name = "reported_on",
                      .kind = Kind::date,
                      .required = true,
                      .may_be_blank = true,
                      .note = "Day it was reported, for example 2026-11-02."},
    ColumnDeclaration{.name = "referred_on", .kind = Kind::date, .note = "Day it was passed on."},
    ColumnDeclaration{
        .name = "to_role", .kind = Kind::text, .note = "Role it was passed to, for example health service. No name."},
    ColumnDeclaration{.name = "state",
                      .kind = Kind::choice,
                      .words = open_closed,
                      .preset = "open",
                      .note = "open or closed. Blank: open."},
};

constexpr std::array step_columns{
    ColumnDeclaration{.name = "step",
                      .kind = Kind::text,
                      .required = true,
                      .note = "A milestone of the review, for example conditions check."},
    ColumnDeclaration{.name = "due", .kind = Kind::date, .note = "Day it is due by your own agreement."},
    ColumnDeclaration{.name = "done_on", .kind = Kind::date, .note = "Day it was done. Blank: not yet."},
    ColumnDeclaration{
        .name = "document", .kind = Kind::text, .note = "The paper it left, for example conditions sheet 12."},
    ColumnDeclaration{.name = "by_role", .kind = Kind::text, .note = "Role that did it. No name."},
};

constexpr std::array checklist_columns{
    ColumnDeclaration{.name = "question",
                      .kind = Kind::count,
                      .required = true,
                      .least = 1,
                      .most = 22,
                      .note = "Number of the reviewer's question, 1 to 22."},
    ColumnDeclaration{.name = "answer",
                      .kind = Kind::choice,
                      .required = true,
                      .words = checklist_answers,
                      .note = "yes, no, unknown or not_applicable."},
    ColumnDeclaration{.name = "evidence", .kind = Kind::text, .note = "Where the answer can be seen."},
};

} // namespace

TableDeclaration case_facts() {
  return {.table = TableName::case_facts,
          .required = true,
          .key_value = true,
          .purpose = "What the complaint is about, and the time the line gives.",
          .columns = case_keys};
}

TableDeclaration statements() {
  return {.table = TableName::statements,
          .purpose = "What each side says, in its own words.",
          .absent = "Without it nobody's own words stand in the case file.",
          .columns = statement_columns};
}

TableDeclaration referrals() {
  return {.table = TableName::referrals,
          .purpose =
              "Safety and health matters that were reported. They go on the first page whatever the numbers say.",
          .absent = "Without it the file cannot say whether a safety or health matter was reported.",
          .columns = referral_columns};
}

TableDeclaration steps() {
  return {.table = TableName::steps,
          .used_now = false,
          .purpose = "The milestones of the review: what is due, what is done.",
          .absent = "Without it nobody can see which steps of the review were taken.",
          .columns = step_columns};
}

TableDeclaration checklist() {
  return {.table = TableName::checklist,
          .used_now = false,
          .purpose = "Answers to the questions a neutral reviewer asks.",
          .absent = "Without it the reviewer's questions stay without a mark.",
          .columns = checklist_columns};
}

} // namespace docket::declarations
