// One point of the bench: many stations of one true shape and level, and what was said of them.
//
// Model     false FITS: the true mean above the limit, or the average trained person's true rate above the tolerated
//           one. False DOES NOT FIT: none of mean, that rate and share truly over. At a boundary both count as false
// Source    JCGM 106:2012, 9.3 (a specific consumer's and producer's risk)
// Method    stations in any order on any thread, added up in their order; what passes: rates.h
// Checked   tests/bench/decision_error/decision_error_test.cpp
#pragma once

#include "tests/bench/decision_error/truth.h"
#include "tests/bench/rates.h"

#include <array>
#include <cstdint>
#include <string>

namespace docket::bench {

/// Where the true mean lies: at a given margin, or exactly at the boundary of a wrong word.
enum class Place { margin, fits_boundary, unfit_boundary };

struct Point {
  std::string name;
  StationShape shape;
  Place place = Place::margin;
  double margin = 0; ///< [1] of the limit, for Place::margin
};

/// ln(T / limit) of the point.
double true_ln_ratio(const Point& point, const TrueBoundaries& truth);

struct Tally {
  std::int64_t stations = 0;
  double ln_ratio = 0;  ///< true
  TrueBoundaries truth; ///< ln(T / limit) of each boundary
  std::int64_t fits = 0, only_if = 0, does_not_fit = 0, not_shown = 0;
  std::array<std::int64_t, 7> rows{}; ///< by number
  std::int64_t covered = 0;           ///< ln T true within the interval of the combined line
  std::int64_t people = 0, settled = 0;
  std::int64_t over_by_mean = 0, over_by_rate = 0, over_by_share = 0; ///< of DOES NOT FIT: which P was small
  std::int64_t mean_ok = 0, rate_ok = 0, zone_ok = 0, rows_ok = 0;    ///< of all: what FITS asks for, each alone
  Moments level_error, u, reach_error;                                ///< ln T, its u, ln(k* T) less the true boundary
  Moments within;                                                     ///< SD within as estimated

  bool fits_is_false() const;
  bool unfit_is_false() const;
  bool people_over() const; ///< people-averaged rate above the tolerated one
  bool share_below() const; ///< true share below the one that must be able
  std::int64_t said_fits() const { return fits + only_if; }
  std::int64_t false_fits() const { return fits_is_false() ? said_fits() : 0; }
  std::int64_t false_unfit() const { return unfit_is_false() ? does_not_fit : 0; }
};

/// What the point misses, in words with blanks between; empty: nothing.
std::string misses_of(const Tally& tally);

Tally run_point(const Point& point, const TrueBoundaries& truth, std::int64_t stations, std::uint64_t seed,
                unsigned threads);

} // namespace docket::bench
