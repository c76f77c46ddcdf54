#include "tests/bench/curve_coverage/curve_results.h"

namespace docket::bench {

namespace {

constexpr std::size_t name_width = 44, cell_width = 7;

} // namespace

std::string curve_csv_header() {
  return "point,seed,runs,kind,among_models,true_today_s,true_settled_s,true_left,true_cycles_to_limit,"
         "at_level,still_learning,settled_above,learning_interrupted,not_shown,not_assessable,"
         "not_shown_row_1,not_shown_row_2,not_shown_row_3,not_shown_row_4,not_shown_row_5,not_shown_row_6,"
         "not_shown_row_7,not_shown_row_8,not_shown_row_9,not_shown_row_10,"
         "wrong_at_level,wrong_settled_above,wrong_still_learning,wrong_side,with_estimates,"
         "settled_covered,settled_truth_below,settled_truth_above,settled_error_mean,settled_error_sd,settled_width,"
         "today_covered,today_truth_below,today_truth_above,today_error_mean,today_error_sd,today_width,"
         "left_covered,left_truth_below,left_truth_above,left_error_mean,left_error_sd,left_width,"
         "to_limit_covered,to_limit_truth_below,to_limit_truth_above,misses";
}

std::string csv_line(const CurveResult& result) {
  const CurveTally& t = result.tally;
  std::string line = result.name + "," + std::to_string(result.seed);
  const auto add_count = [&](std::int64_t count) { line += "," + std::to_string(count); };
  const auto add_number = [&](double value) { line += "," + number(value); };
  add_count(t.runs);
  line += "," + std::string(name_of(t.shape.kind));
  add_count(is_among_models(t.shape.kind) ? 1 : 0);
  for (const double value : {t.truth.today, t.truth.settled, t.truth.left}) add_number(value);
  line += "," + (t.truth.cycles_to_limit ? number(*t.truth.cycles_to_limit) : std::string());
  for (const std::int64_t count :
       {t.at_level, t.still_learning, t.settled_above, t.interrupted, t.not_shown, t.not_assessable})
    add_count(count);
  for (std::size_t row = 1; row < t.not_shown_by_row.size(); ++row) add_count(t.not_shown_by_row[row]);
  for (const std::int64_t count :
       {t.wrong_at_level, t.wrong_settled_above, t.wrong_learning, t.wrong_side, t.settled.n})
    add_count(count);
  for (const Covering* c : {&t.settled, &t.today, &t.left}) {
    for (const std::int64_t count : {c->covered, c->truth_below, c->truth_above}) add_count(count);
    if (c->n > 0)
      for (const double value : {c->error.mean(), c->error.sd(), c->width.mean()}) add_number(value);
    else
      line += ",,,";
  }
  for (const std::int64_t count : {t.to_limit.covered, t.to_limit.truth_below, t.to_limit.truth_above})
    add_count(count);
  return line + "," + misses_of(t);
}

std::string curve_table_header() {
  std::string line = padded("point", name_width);
  for (const char* title : {"N", "left", "LEARN", "LEVEL", "ABOVE", "silent", "row 2", "row 3", "row 6", "row 9",
                            "row10", "w.SETL", "w.LRN", "settld", "today", "G", "cycles", "ms"})
    line += padded(title, cell_width);
  return line + "  misses";
}

std::string table_line(const CurveResult& result) {
  const CurveTally& t = result.tally;
  const auto n = static_cast<double>(t.runs);
  std::string line = padded(result.name, name_width);
  const auto add_cell = [&](const std::string& text) { line += padded(text, cell_width); };
  const auto add_share = [&](std::int64_t part) { add_cell(percent(static_cast<double>(part), n)); };
  add_cell(std::to_string(t.runs));
  add_cell(percent(t.truth.left, 1));
  for (const std::int64_t part : {t.still_learning, t.at_level, t.settled_above, t.not_shown}) add_share(part);
  for (const std::size_t row : {2U, 3U, 6U, 9U, 10U}) add_share(t.not_shown_by_row[row]);
  add_share(t.wrong_at_level + t.wrong_settled_above);
  add_share(t.wrong_learning);
  for (const Covering* c : {&t.settled, &t.today, &t.left, &t.to_limit})
    add_cell(percent(static_cast<double>(c->covered), static_cast<double>(c->n)));
  add_cell(number(result.milliseconds));
  const std::string misses = misses_of(t);
  if (misses.empty()) return line;
  return line + "  " + misses + (is_among_models(t.shape.kind) ? "" : " (not among the models)");
}

} // namespace docket::bench
