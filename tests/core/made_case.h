// Small cases made by hand for the tests. All data are invented.
#pragma once

#include "core/case.h"

#include <chrono>
#include <string>
#include <vector>

namespace docket::made {

inline Date day(int d) { return Date{std::chrono::year{2026} / 3 / 1} + std::chrono::days{d}; }

inline Instant at(int d, double hours) {
  return Instant{day(d)} + std::chrono::milliseconds{static_cast<std::int64_t>(hours * 3'600'000)};
}

inline StandardElement element(const std::string& name, double seconds, double relative_uncertainty,
                               ElementClass element_class = ElementClass::va) {
  StandardElement e;
  e.element = name;
  e.description = name;
  e.time = Seconds{seconds};
  e.uncertainty = relative_uncertainty;
  e.element_class = element_class;
  e.time_source = TimeSource::motion_times;
  return e;
}

inline Variant variant(const std::string& name, double share, std::vector<std::string> options = {}) {
  Variant v;
  v.variant = name;
  v.share = share;
  v.options = std::move(options);
  return v;
}

inline Operator trained(const std::string& code, std::int64_t prior_cycles = 5000) {
  Operator op;
  op.code = code;
  op.trained = YesNo::yes;
  op.prior_cycles = prior_cycles;
  return op;
}

/// One variant, one element of `standard_s` seconds, line cycle time `line_cycle_s`.
inline Case one_element_case(double line_cycle_s, double standard_s, double relative_uncertainty = 0) {
  Case c;
  c.facts.case_ref = "T-1";
  c.facts.title = "made for a test";
  c.facts.station = "HP-10";
  c.facts.line = "1";
  c.facts.line_cycle = Seconds{line_cycle_s};
  c.standard.push_back(element("E1", standard_s, relative_uncertainty));
  c.variants.push_back(variant("all", 1));
  return c;
}

inline LoggedCycle logged(std::int32_t op, Instant started_at, double seconds, std::int64_t row,
                          std::int32_t variant = 0) {
  LoggedCycle cycle;
  cycle.op = op;
  cycle.started_at = started_at;
  cycle.cycle = Seconds{seconds};
  cycle.variant = variant;
  cycle.origin = {0, TableName::cycle_log, row};
  return cycle;
}

inline Reading whole_reading(std::int32_t session, std::int64_t number, double seconds, std::int64_t row) {
  Reading reading;
  reading.session = session;
  reading.cycle = number;
  reading.time = Seconds{seconds};
  reading.variant = 0;
  reading.origin = {0, TableName::readings, row};
  return reading;
}

inline Session session(const std::string& name, std::int32_t op, int d, double rating = 1) {
  Session s;
  s.session = name;
  s.op = op;
  s.date = day(d);
  s.rating = rating;
  s.method_as_standard = YesNo::yes;
  return s;
}

} // namespace docket::made
