// Question A in detail: the settled operators and the restudy. Operators in the order of their codes, never of times.
#include "report/case_document/pages.h"
#include "report/figures/dot_plot.h"
#include "report/format.h"
#include "report/wording/wording.h"

#include <algorithm>

namespace docket {
namespace {

Figure operator_figure(const CaseView& view) {
  const TimeAvailable& time = view.findings.time;
  DotPlot plot;
  plot.limit = time.limit;
  plot.limit_label = "limit " + format_seconds(time.limit);
  plot.axis_title = "Seconds a unit for the planned mix, at own pace";
  plot.value_header = "s (from, to)";
  Figure figure;
  figure.title = "Operators in the order of their codes";
  figure.description = "Dots with ranges, one row an operator, in the order of the codes. ";
  for (const OperatorLevel& level : view.findings.content.settled.per_operator) {
    const std::string code = operator_code(view.input, level.op);
    const bool said = level.status != OperatorStatus::not_said;
    const std::string n = said ? ", n = " + format_count(level.n) : std::string();
    const std::string note = wording::status_of(level) + n;
    const std::string in_short = wording::status_in_short(level) + n;
    DotRow row{code, in_short, std::nullopt, level.status != OperatorStatus::settled, false};
    if (level.n > 0 && level.level.time.count() > 0) row.estimate = level.level;
    figure.description += code + ": " + note;
    if (row.estimate) {
      figure.description +=
          ", " + format_seconds(level.level.time) + ", " + format_interval(level.level.low, level.level.high);
    }
    figure.description += ". ";
    plot.rows.push_back(std::move(row));
  }
  figure.description += "The limit is " + format_seconds(time.limit) + ".";
  figure.caption =
      runs("Filled: settled, counted in the line of evidence. Hollow: not counted. The order is that of the "
           "codes and says nothing. Own pace is not normal pace: a dot beyond the limit "
           "is no finding about the person.");
  figure.drawing = draw_dot_plot(plot);
  return figure;
}

Table operator_table(const CaseView& view) {
  Table table;
  table.caption = "Operators in the order of their codes";
  table.dense = true;
  table.columns = {
      {"Operator", Align::left, true},   {"Status", Align::left}, {"Plain cycles", Align::right},
      {"Looked at", Align::right},       {"Days", Align::right},  {"Counts as", Align::right},
      {"Fall (could be)", Align::right}, {"r", Align::right},     {"Own level, s (from, to)", Align::left, true}};
  for (const OperatorLevel& level : view.findings.content.settled.per_operator) {
    Runs name{plain(operator_code(view.input, level.op))};
    const auto index = static_cast<std::size_t>(level.op);
    if (level.op >= 0 && index < view.input.operators.size()) {
      name.push_back(reference_to(view.input, view.input.operators[index].origin));
    }
    std::string fall = "not tried";
    if (level.fall) {
      fall = format_percent(*level.fall);
      if (level.fall_bound) fall += " (" + format_percent(*level.fall_bound) + ")";
    }
    std::string own = "none", ratio;
    if (level.n > 0 && level.level.time.count() > 0) {
      own =
          format_bare_seconds(level.level.time) + " (" + format_bare_interval(level.level.low, level.level.high) + ")";
      if (level.bridged || level.bridged_by_others) own += ", bridged";
      ratio = format_fixed(level.ratio, 5);
    }
    if (level.status == OperatorStatus::not_said) {
      table.rows.push_back({name, runs(wording::status_of(level)), {}, {}, {}, {}, {}, {}, {}});
      continue;
    }
    table.rows.push_back({name, runs(wording::status_of(level)), runs(format_count(level.plain_seen)),
                          runs(format_count(level.n)), runs(std::to_string(level.days)),
                          runs(format_fixed(level.n_eff, 0)), runs(fall), runs(ratio), runs(own)});
  }
  return table;
}

// Whose level took a ratio that is not the person's own, for which variants, and whose ratio.
void add_bridged(CasePages& pages, const CaseView& view) {
  List list;
  std::int32_t before = -1;
  for (const BridgedVariant& one : view.findings.content.again.bridged) {
    const std::string variant = variant_name(view.input, one.variant) + " (" +
                                counted(one.own, "own cycle", "own cycles") + "), " +
                                std::string(one.by_others ? wording::by_others : wording::by_the_standard);
    if (one.op == before) {
      list.items.back().push_back(plain("; " + variant));
    } else {
      list.items.push_back({strong(operator_code(view.input, one.op)), plain(": " + variant)});
    }
    before = one.op;
  }
  if (list.items.empty()) {
    pages.paragraph("No level is bridged: everybody looked at has 20 plain cycles or more of every variant.",
                    ParagraphRole::small);
    return;
  }
  pages.paragraph(wording::what_bridged_is);
  pages.add(list);
}

void add_share_able(CasePages& pages, const CaseView& view) {
  const ShareAble& able = view.findings.content.share_able;
  const SettledOperators& line = *view.findings.content.settled.line;
  if (able.estimate) {
    std::string text = "An estimated " + format_chance(*able.estimate) +
                       " of trained people have an own mean within the limit at normal pace";
    if (able.low && able.high) text += " (" + format_percent(*able.low) + " to " + format_percent(*able.high) + ")";
    text += "; " + format_percent(able.required) + " is asked for.";
    if (able.p_able) text += " The chance that this many are able is " + format_chance(*able.p_able) + ".";
    if (able.p_zone)
      text += " The chance that this many also keep within the work zone is " + format_chance(*able.p_zone) +
              "; FITS asks for 80 %, and DOES NOT FIT does not look at it.";
    pages.paragraph({strong("Share able. "), plain(wording::what_share_able_is), plain(" " + text)});
  } else {
    pages.paragraph({strong("Share able. "), plain(wording::what_share_able_is),
                     plain(" It is not known from these data: it takes two settled operators or more.")});
  }
  std::string count = "At their own pace, " + format_count(line.within_limit) + " of " +
                      counted(line.operators, "settled operator is", "settled operators are") + " within the limit.";
  if (line.within_limit > 0) {
    count += " From that count alone the share of people within is at least " +
             format_percent(line.within_limit_lower) + " (wrong in at most " +
             format_percent((1 - view.input.settings.confidence) / 2) + ").";
  }
  pages.paragraph({strong("Share counted. "), plain(wording::what_share_counted_is), plain(" " + count)});
  pages.paragraph(wording::how_shares_differ, ParagraphRole::small);
}

// Help, as counted: whoever was helped knows that it happened and looks for it here.
void add_help_counted(CasePages& pages, const CaseView& view) {
  std::int64_t helped = 0, with_seconds = 0, cut_short = 0;
  for (const PersonCycle& cycle : view.findings.evidence.cycles) {
    if (cycle.marks.has(Mark::helped)) ++helped;
    if (cycle.marks.has(Mark::helped) && cycle.helped_given) ++with_seconds;
    if (cycle.marks.has(Mark::cut_short)) ++cut_short;
  }
  const auto all = static_cast<std::int64_t>(view.findings.evidence.cycles.size());
  if (all == 0) return;
  pages.paragraph({strong("Help counted. "),
                   plain("Of " + counted(all, "cycle", "cycles") + " known of persons, " + format_count(helped) +
                         " were helped (seconds of help recorded in " + format_count(with_seconds) + ") and " +
                         format_count(cut_short) +
                         " were cut short. The person alone would have needed at least the time seen, so these cycles "
                         "are not in the levels below.")});
}

/// Mean of the ratings of a session's readings, each weighted by its time; the session's own where readings have none.
/// Cycles of a session that the restudy counts: plain, rated, of a trained operator.
std::int64_t cycles_used(const CaseView& view, const Session& session) {
  const auto index = static_cast<std::int32_t>(&session - view.input.sessions.data());
  const std::vector<PersonCycle>& cycles = view.findings.evidence.restudy;
  return std::count_if(cycles.begin(), cycles.end(), [&](const PersonCycle& cycle) {
    return cycle.session == index && cycle.marks.plain() && cycle.condition < 0 && cycle.rating && cycle.op >= 0 &&
           view.input.operators[static_cast<std::size_t>(cycle.op)].trained == YesNo::yes;
  });
}

} // namespace

void add_settled_operators(CasePages& pages, const CaseView& view) {
  const SettledResult& settled = view.findings.content.settled;
  pages.part("Settled operators");
  add_factor_note(pages, view);
  pages.paragraph(wording::settled_rule);
  if (!settled.line)
    pages.paragraph({strong("No line of evidence. "), plain(wording::none_why_in_words(settled.none_why))});
  add_help_counted(pages, view);
  if (settled.per_operator.empty()) return;
  pages.add(operator_figure(view));
  pages.add(operator_table(view));
  const std::vector<Adaptation>& asked = view.findings.adaptation;
  if (std::any_of(asked.begin(), asked.end(),
                  [](const Adaptation& one) { return one.word == AdaptationWord::not_assessable_now; }))
    pages.paragraph(wording::listed_though_closed);
  pages.paragraph(
      "Looked at: past the own count asked for, and in the last worked days. Fall: how much the times fell "
      "over the window, and how much it could be. A minus: they rose. Counts as: how many independent cycles the "
      "record is worth, since a cycle resembles the one "
      "before it. r: own level over that of the standard. Own level: r \u00D7 S, from r \u00D7 S \u00D7 e^(\u2212t v / "
      "\u221An) to r \u00D7 S \u00D7 e^(t v / \u221An), n what it counts as, v the SD of the "
      "person's cycles over the standard divided by their mean, t at " +
          format_percent(0.5 + view.input.settings.confidence / 2) +
          " for n \u2212 1 degrees of freedom. Where five days or more differ by more than their cycles would, n is "
          "what the days leave of it, with one degree of freedom fewer than days. "
          "It says how sure the person's own mean is, and nothing of pace.",
      ParagraphRole::small);
  if (settled.line) add_bridged(pages, view);
  pages.paragraph("Plain cycles that are not in this line: " + format_count(settled.before_count) +
                  " before the own count of " + format_count(view.input.settings.settled_after_cycles) + ", " +
                  format_count(settled.outside_window) + " before the last worked days looked at, " +
                  format_count(settled.not_settled) + " of people who do not count as settled.");
  if (!settled.line) return;
  const SettledOperators& line = *settled.line;
  std::string level = counted(line.operators, "settled operator takes", "settled operators take") + " " +
                      format_percent(line.ratio) + " of the standard's time for the planned mix, on average. ";
  if (line.operators > 1) level += "Spread between people: " + format_percent(line.sd_between) + ". ";
  level += "Spread of one person's cycles: " + format_percent(line.sd_within) +
           "; likeness of a cycle to the one before: " + format_fixed(line.lag1, 2) + " (0 none, 1 full).";
  pages.paragraph(level);
  if (line.variant_test_p) {
    pages.paragraph(
        "Do the times by variant follow the standard's ratios? If they did, a difference as large as the one "
        "seen would come by chance in " +
        format_chance(*line.variant_test_p) + " of cases.");
  }
  add_share_able(pages, view);
  add_settled_rows_pages(pages, view);
}

void add_restudy(CasePages& pages, const CaseView& view) {
  const RestudyResult& restudy = view.findings.content.restudy;
  pages.part("Restudy");
  add_factor_note(pages, view);
  if (!restudy.line) {
    pages.paragraph({strong("No line of evidence. "), plain(wording::none_why_in_words(restudy.none_why))});
    return;
  }
  const Restudy& line = *restudy.line;
  const LineAgainstLimit& against = line.level.against;
  std::string codes;
  for (const std::int32_t op : line.operators) codes += (codes.empty() ? "" : ", ") + operator_code(view.input, op);
  Table table;
  table.caption = "Stopwatch readings of trained operators";
  table.columns = {{"What", Align::left}, {"Value", Align::left}};
  table.rows = {
      {runs("Operators"), runs(codes)},
      {runs("Whole cycles"), runs("n = " + format_count(line.cycles))},
      {runs("As read, for the planned mix"), runs(format_seconds(line.observed))},
      {runs("At normal pace (reading \u00D7 rating)"), runs(format_seconds(line.normal))},
      {runs("Compared with the limit"),
       runs(format_seconds(line.level.time) + ", margin " + format_signed_seconds(against.margin) + " (" +
            format_signed_interval(against.margin_low, against.margin_high) + ")")},
  };
  if (line.needed_cycles) {
    table.rows.push_back({runs("Independent cycles for \u00B15 % of one person's mean"),
                          runs("about " + format_fixed(*line.needed_cycles, 0) + ", from the spread seen")});
  }
  pages.add(table);
  Table sessions;
  sessions.caption = "Sessions of observation";
  sessions.dense = true;
  sessions.columns = {{"Session", Align::left},
                      {"Day", Align::left},
                      {"Shift", Align::left},
                      {"Operator", Align::left, true},
                      {"Observer", Align::left},
                      {"n used", Align::right},
                      {"Method as standard", Align::left},
                      {"Blind rating", Align::left}};
  static constexpr std::string_view answers[] = {"not given", "yes", "no", "unknown"};
  for (const Session& session : view.input.sessions) {
    sessions.rows.push_back({{plain(session.session), reference_to(view.input, session.origin)},
                             runs(format_date(session.date)),
                             runs(session.shift),
                             runs(operator_code(view.input, session.op)),
                             runs(or_not_given(session.observer)),
                             runs(format_count(cycles_used(view, session))),
                             runs(answers[static_cast<std::size_t>(session.method_as_standard)]),
                             runs(answers[static_cast<std::size_t>(session.blind_rating)])});
  }
  if (!sessions.rows.empty()) pages.add(sessions);
  pages.paragraph(
      "n used: plain, rated cycles of a trained operator; a cycle timed by two observers counts once, by the "
      "first sheet. The level is the mean over operators of their mean rated time against the standard (an "
      "arithmetic mean; that of the settled operators is a geometric one).",
      ParagraphRole::small);
}

} // namespace docket
