// Table `settings`: what an agreement may set otherwise.
#include "ingest/declarations/topics.h"

#include <array>

namespace docket::declarations {

namespace {

using Kind = ColumnKind;

constexpr std::array settings_keys{
    ColumnDeclaration{
        .name = "confidence_percent",
        .kind = Kind::percent,
        .least = 50,
        .most = 99.9,
        .usual_least = 80,
        .preset = "95",
        .note = "How sure a word must be, in percent. 95: wrong at most 1 time in 40 on each side. Blank: 95."},
    ColumnDeclaration{.name = "able_percent",
                      .kind = Kind::percent,
                      .least = 50,
                      .most = 99.9,
                      .preset = "90",
                      .note = "Share of trained people who must be able to keep the time, in percent. Blank: 90."},
    ColumnDeclaration{.name = "tolerated_overloads_per_1000",
                      .kind = Kind::number,
                      .least = 0.1,
                      .most = 500,
                      .preset = "10",
                      .note = "Units in 1,000 that may end outside the work zone. Blank: 10."},
    ColumnDeclaration{
        .name = "standard_uncertainty_percent",
        .kind = Kind::percent,
        .least = 0,
        .most = 50,
        .preset = "5",
        .note = "Uncertainty of the level of the whole standard, in percent. Below 3 it needs a reason. Blank: "
                "5."},
    ColumnDeclaration{.name = "pace_uncertainty_percent",
                      .kind = Kind::percent,
                      .least = 0,
                      .most = 50,
                      .preset = "5",
                      .note = "Uncertainty of the pace at which logged cycles were worked, in percent. Blank: 5."},
    ColumnDeclaration{.name = "rating_uncertainty_percent",
                      .kind = Kind::percent,
                      .least = 0,
                      .most = 50,
                      .preset = "5",
                      .note = "Uncertainty of pace ratings, in percent. Blank: 5."},
    ColumnDeclaration{.name = "between_people_percent",
                      .kind = Kind::percent,
                      .least = 0,
                      .most = 50,
                      .preset = "4",
                      .note = "Spread between trained people, in percent, where only one or two were timed. Blank: 4."},
    ColumnDeclaration{
        .name = "cycle_spread_percent",
        .kind = Kind::percent,
        .least = 0,
        .most = 100,
        .least_excluded = true,
        .note = "Spread from cycle to cycle of one person, in percent, for example 6. Needed for FITS where no "
                "settled operators give it. Blank: none."},
    ColumnDeclaration{.name = "improvement_left_percent",
                      .kind = Kind::percent,
                      .least = 0,
                      .most = 50,
                      .least_excluded = true,
                      .preset = "3",
                      .note = "Improvement below which a person counts as settled, in percent. Blank: 3."},
    ColumnDeclaration{.name = "equivalence_percent",
                      .kind = Kind::percent,
                      .least = 0,
                      .most = 50,
                      .least_excluded = true,
                      .preset = "5",
                      .note = "Difference up to which two shifts count as equal, in percent. Blank: 5."},
    ColumnDeclaration{.name = "settled_after_cycles",
                      .kind = Kind::count,
                      .most = 10000000,
                      .preset = "1000",
                      .note = "Own cycles a person must have before they can count as settled. Blank: 1000."},
    ColumnDeclaration{.name = "gap_days",
                      .kind = Kind::count,
                      .least = 1,
                      .most = 3650,
                      .preset = "14",
                      .note = "Days away from the station after which practice counts as interrupted. Blank: 14."},
    ColumnDeclaration{.name = "seed",
                      .kind = Kind::count,
                      .preset = "1",
                      .note = "Number that fixes the random draws, so that everyone gets the same result. Blank: 1."},
};

} // namespace

TableDeclaration settings() {
  return {.table = TableName::settings,
          .key_value = true,
          .heading = "Leave as they are unless your agreement says otherwise; every change is printed",
          .purpose = "What an agreement may set otherwise.",
          .absent = "Without it the usual settings hold.",
          .columns = settings_keys};
}

} // namespace docket::declarations
