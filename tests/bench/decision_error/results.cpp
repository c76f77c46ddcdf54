#include "tests/bench/decision_error/results.h"

#include "tests/bench/rates.h"

#include <cmath>

namespace docket::bench {

namespace {

constexpr std::size_t name_width = 34, cell_width = 7;

} // namespace

std::string csv_header() {
  return "point,seed,stations,true_ln_ratio,boundary_mean,boundary_rate,boundary_people,boundary_share,"
         "fits,fits_only_if,does_not_fit,not_shown,row_1,row_2,row_3,row_4,row_5,row_6,"
         "false_fits,false_does_not_fit,fits_with_people_over,fits_with_share_below,covered,settled,people,"
         "over_by_mean,over_by_rate,over_by_share,mean_allows_fits,rate_allows_fits,zone_allows_fits,rows_allow_fits,"
         "level_error_mean,level_error_sd,u_mean,reach_error_mean,reach_error_sd,within_mean,misses";
}

std::string csv_line(const Result& result) {
  const Tally& t = result.tally;
  std::string line = result.name + "," + std::to_string(result.seed);
  const auto add_count = [&](std::int64_t count) { line += "," + std::to_string(count); };
  const auto add_number = [&](double value) { line += "," + number(value); };
  add_count(t.stations);
  for (const double value : {t.ln_ratio, t.truth.mean, t.truth.rate, t.truth.people, t.truth.share}) add_number(value);
  for (const std::int64_t count : {t.fits, t.only_if, t.does_not_fit, t.not_shown}) add_count(count);
  for (std::size_t row = 1; row < t.rows.size(); ++row) add_count(t.rows[row]);
  for (const std::int64_t count : {t.false_fits(), t.false_unfit(), t.people_over() ? t.said_fits() : 0,
                                   t.share_below() ? t.said_fits() : 0, t.covered, t.settled, t.people, t.over_by_mean,
                                   t.over_by_rate, t.over_by_share, t.mean_ok, t.rate_ok, t.zone_ok, t.rows_ok})
    add_count(count);
  for (const double value : {t.level_error.mean(), t.level_error.sd(), t.u.mean(), t.reach_error.mean(),
                             t.reach_error.sd(), t.within.mean()})
    add_number(value);
  return line + "," + misses_of(t);
}

std::string table_header() {
  std::string line = padded("point", name_width);
  for (const char* title : {"N", "T/L", "FITS", "IF", "NOT", "silent", "row 1", "row 3", "row 6", "f.FITS", "f.NOT",
                            "people", "share", "cover", "settld"})
    line += padded(title, cell_width);
  return line + "  misses";
}

std::string table_line(const Result& result) {
  const Tally& t = result.tally;
  const auto n = static_cast<double>(t.stations);
  std::string line = padded(result.name, name_width);
  const auto add_cell = [&](const std::string& text) { line += padded(text, cell_width); };
  const auto add_share = [&](std::int64_t part) { add_cell(percent(static_cast<double>(part), n)); };
  add_cell(std::to_string(t.stations));
  add_cell(percent(std::exp(t.ln_ratio), 1));
  for (const std::int64_t part : {t.fits, t.only_if, t.does_not_fit, t.not_shown, t.rows[1], t.rows[3], t.rows[6]})
    add_share(part);
  add_cell(t.fits_is_false() ? percent(static_cast<double>(t.false_fits()), n) : "-");
  add_cell(t.unfit_is_false() ? percent(static_cast<double>(t.false_unfit()), n) : "-");
  add_cell(t.people_over() ? percent(static_cast<double>(t.said_fits()), n) : "-");
  add_cell(t.share_below() ? percent(static_cast<double>(t.said_fits()), n) : "-");
  add_share(t.covered);
  add_cell(percent(static_cast<double>(t.settled), static_cast<double>(t.people)));
  return line + "  " + misses_of(t);
}

} // namespace docket::bench
