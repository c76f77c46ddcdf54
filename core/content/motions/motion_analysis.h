// An element's time from its motions.
//
// Model     rows with one step number are done at the same time, steps follow one another:
//           element = sum over steps of the longest of its rows (per_element x time of the motion)
// Source    textbooks of work measurement: the principle of the limiting motion, for motions of one hand (combined) and
//           of two hands (simultaneous); two hands that cannot work at once: one after the other
// Method    the plant's own table comes first: where it is given, a code that it does not hold has no time and is
//           reported; it is never filled from the shipped table. Which two motions two hands can do together is printed
//           in handbooks, but no copy was at hand, so the program has no such table: every pair but two equal, simple
//           motions (reach A, B, E; move A, B; release; contact grasp) is reported as not checked, with the time that
//           holds if the two are done one after the other
// Assumes   trained people, normal pace, no allowances; the longest row of a step is compared as count x time
// Checked   tests/core/content/motions/motion_analysis_test.cpp, tests/ingest/motion_data_test.cpp
#pragma once

#include "core/case.h"
#include "core/content/motions/motion_table.h"

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// The plant's own table. A code is looked up as given but for blanks and capitals (usual_spelling).
struct PlantMotionTable {
  struct Row {
    double tmu = 0;
    SourceRow origin;
  };
  std::map<std::string, Row> by_code; ///< by usual_spelling; fill with add_motion
};

/// False where the table holds the code already; the first row stays.
bool add_motion(PlantMotionTable& table, std::string_view code, double tmu, SourceRow origin);

/// Something about a row that somebody should look at. Codes:
///   no time:   unreadable_code, beyond_table, below_table, weight_beyond_table, not_in_table,
///              not_in_plant_table, count_not_positive
///   timed:     stated_differs, distance_over_30, value_from_memory, pair_not_checked, counts_differ
struct MotionProblem {
  std::string code;
  std::size_t row = 0;                             ///< index into the rows given
  std::string wrong;                               ///< a sentence
  std::string right;                               ///< a sentence: what would be right, or what to do
  std::optional<std::size_t> other = std::nullopt; ///< of a pair: the row it is done with
};

/// What became of one row.
struct MotionStepTime {
  std::optional<double> tmu;  ///< [TMU] of the motion done once; absent where it has no time
  double per_element_tmu = 0; ///< count x tmu, whether it counts or not
  bool counts = false;        ///< false: another row of the step is longer, or it has no time
  std::string code;           ///< in its usual spelling
  std::string formula;
  std::vector<MotionValueUsed> used;  ///< of the shipped table
  std::optional<SourceRow> plant_row; ///< of the plant's own table
};

struct ElementMotionTime {
  std::optional<double> tmu;           ///< [TMU] absent where any row has no time, and where there are no rows
  double tmu_one_after_another = 0;    ///< [TMU] the same with every unchecked pair done one after the other
  std::vector<MotionStepTime> rows;    ///< in the order given
  std::vector<MotionProblem> problems; ///< by row, in the order given
};

/// `rows` are those of one element, in any order of steps.
ElementMotionTime analyse_element(std::span<const MotionStep> rows, const MotionTimes& shipped,
                                  const PlantMotionTable* plant = nullptr);

/// One standard uncertainty of one analysis, from two analysts who analysed the same element apart, in the unit given.
/// The experimental standard deviation of two values, |difference| / sqrt 2, with one degree of freedom
/// (JCGM 100:2008, 4.2.2, equation 4).
double element_uncertainty_from_second_analysis(double first, double second);

} // namespace docket
