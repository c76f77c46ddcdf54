#include "tests/bench/decision_error/station.h"

#include "core/content/lines/standard_time.h"
#include "core/statistics/random.h"
#include "tests/bench/cycles.h"
#include "tests/core/made_case.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace docket::bench {

namespace {

/// Addresses of the draws of one station: which kind of number is drawn.
enum Purpose : std::uint64_t {
  systematic = 1, ///< one a station
  element_error,
  own_pace,
  leaves,
  day_effect,
  cycle_spread,
  variant_built,
  who_is_helped,
  restudy_spread,
  restudy_variant,
  restudy_day,
};

constexpr double pace_error = 0.05, rating_error = 0.05, level_error = 0.05; // the defaults of the settings
constexpr double condition_excess = 0.08, condition_share_of_days = 0.75;
constexpr double leaving_share = 0.5; // of those above the mean
constexpr int leaver_days = 6, restudy_cycles = 30, restudy_day_of_log = 10;
constexpr double element_s = 4;

struct VariantContent {
  const char* name;
  const char* option; // of the elements that only some variants carry
  double share;
  int elements; // of element_s each
};

constexpr int common_elements_of_one = 15;
constexpr int common_elements = 13;
constexpr VariantContent three[] = {{"plain", "", 0.5, 13}, {"pump", "P", 0.3, 15}, {"tank", "T", 0.2, 17}};

/// What the standard says a variant holds, before any error, over the mean of the mix.
std::vector<double> relative_content(const StationShape& shape) {
  if (shape.variants == 1) return {1};
  double mean = 0;
  for (const VariantContent& v : three) mean += v.share * v.elements;
  std::vector<double> out;
  for (const VariantContent& v : three) out.push_back(v.elements / mean);
  return out;
}

struct Person {
  std::string code;
  double ln_pace = 0;
  bool left = false;
};

/// People as they came, until enough have stayed.
std::vector<Person> draw_people(const StationShape& shape, const Draws& draws) {
  std::vector<Person> people;
  int stayed = 0;
  for (std::uint64_t i = 0; stayed < shape.operators; ++i) {
    Person person{"W" + std::to_string(i + 1), shape.between * draws.normal(own_pace, i, 0), false};
    const bool slow = person.ln_pace > 0;
    person.left = shape.leavers != Leavers::none && slow && draws.uniform(leaves, i, 0) < leaving_share;
    stayed += person.left ? 0 : 1;
    people.push_back(person);
  }
  return people;
}

void add_standard(Case& c, const StationShape& shape, Seconds level, double ln_level_error, const Draws& draws) {
  int number = 0;
  const auto add = [&](int count, Seconds time, const char* option) {
    for (int i = 0; i < count; ++i, ++number) {
      StandardElement e = made::element("E" + std::to_string(number + 1), time.count(), 0);
      e.uncertainty.reset();
      const double u = element_uncertainty(e) / time;
      const double error = u * draws.normal(element_error, static_cast<std::uint64_t>(number), 0);
      e.time = time * (std::max(0.1, 1 + error) * std::exp(ln_level_error));
      if (*option != '\0') e.any_option = {option};
      if (shape.rating_in_standard) e.time_source = TimeSource::stopwatch;
      c.standard.push_back(e);
    }
  };
  if (shape.variants == 1) {
    add(common_elements_of_one, level / common_elements_of_one, "");
    c.variants.push_back(made::variant("all", 1));
    return;
  }
  const Seconds one = level * (relative_content(shape).front() / common_elements);
  add(common_elements, one, "");
  for (const VariantContent& v : three) {
    if (*v.option != '\0') add(v.elements - common_elements, one, v.option);
    std::vector<std::string> options;
    if (*v.option != '\0') options.emplace_back(v.option);
    c.variants.push_back(made::variant(v.name, v.share, options));
  }
}

std::size_t pick(const std::vector<double>& shares, double uniform) {
  double sum = 0;
  for (std::size_t v = 0; v + 1 < shares.size(); ++v)
    if (uniform < (sum += shares[v])) return v;
  return shares.size() - 1;
}

/// What people of this shift build.
std::vector<double> built_shares(const StationShape& shape, std::size_t person) {
  if (shape.variants == 1 || shape.mix == BuiltMix::as_planned) return planned_shares(shape);
  if (person % 2 == 0) return {0.7, 0.3, 0.0};
  return {0.3, 0.3, 0.4};
}

/// What every cycle of the station has in it.
struct Simulation {
  const StationShape& shape;
  const Draws& draws;
  std::vector<Seconds> times;
  double ln_pace; // of the people there against normal
};

void add_log_of(Case& c, const Simulation& station, const Person& person, std::size_t index, int days,
                std::int64_t& row) {
  const StationShape& shape = station.shape;
  const Draws& draws = station.draws;
  const std::vector<double> shares = built_shares(shape, index);
  const auto op = static_cast<std::int32_t>(c.operators.size()) - 1;
  for (int d = 0; d < days; ++d) {
    const auto block = static_cast<std::uint64_t>(index) * 1000 + static_cast<std::uint64_t>(d);
    const double of_day = shape.day_effect * draws.normal(day_effect, block, 0);
    const bool differs = shape.condition && d >= static_cast<int>(condition_share_of_days * shape.days);
    Spread spread{shape.within, shape.lag1};
    for (int i = 0; i < shape.cycles_a_day; ++i) {
      const auto at = static_cast<std::uint64_t>(i);
      const std::size_t v = pick(shares, draws.uniform(variant_built, block, at));
      const double w = spread.next(draws.normal(cycle_spread, block, at), i == 0);
      const double ln = station.ln_pace + person.ln_pace + of_day + w - shape.within * shape.within / 2;
      const double seconds = station.times[v].count() * std::exp(ln) * (differs ? 1 + condition_excess : 1);
      LoggedCycle cycle = made::logged(op, made::at(d, 6 + 0.02 * i), seconds, ++row, static_cast<std::int32_t>(v));
      if (shape.helped > 0 && is_helped(shape.helped, w / shape.within, draws.normal(who_is_helped, block, at)))
        help(cycle, helped_takes);
      c.cycle_log.push_back(cycle);
    }
  }
}

void add_session_of(Case& c, const Simulation& station, const Person& person, std::size_t index, std::int32_t op,
                    double rating, std::int64_t& row) {
  const StationShape& shape = station.shape;
  const Draws& draws = station.draws;
  const auto number = static_cast<std::int32_t>(c.sessions.size());
  c.sessions.push_back(made::session("S" + std::to_string(number + 1), op, restudy_day_of_log, rating));
  const double of_day = shape.day_effect * draws.normal(restudy_day, index, 0);
  Spread spread{shape.within, shape.lag1};
  for (int i = 0; i < restudy_cycles; ++i) {
    const auto at = static_cast<std::uint64_t>(i);
    const std::size_t v = pick(planned_shares(shape), draws.uniform(restudy_variant, index, at));
    const double w = spread.next(draws.normal(restudy_spread, index, at), i == 0);
    const double ln = station.ln_pace + person.ln_pace + of_day + w - shape.within * shape.within / 2;
    Reading reading = made::whole_reading(number, i + 1, station.times[v].count() * std::exp(ln), ++row);
    reading.variant = static_cast<std::int32_t>(v);
    c.readings.push_back(reading);
  }
}

void add_facts(Case& c, const StationShape& shape, std::uint64_t station) {
  c.facts.case_ref = "bench";
  c.facts.station = "HP-10";
  c.facts.line = "1";
  c.facts.line_cycle = line_cycle;
  c.facts.early_start = shape.early;
  c.facts.late_finish = shape.late;
  c.facts.cycles_per_shift = shape.cycles_per_shift;
  c.settings.able = shape.able;
  c.settings.seed = station + 1;
  // What the document asks for where no log tells it; the best anyone could state.
  if (!shape.settled) c.settings.cycle_spread = shape.within;
  for (const std::int32_t v : build_order(shape)) {
    SequenceUnit unit;
    unit.position = static_cast<std::int64_t>(c.build_sequence.size()) + 1;
    unit.variant = v;
    unit.run = "1";
    c.build_sequence.push_back(unit);
  }
  if (shape.condition) {
    Condition condition;
    condition.check = "tool";
    condition.state = ConditionState::differs;
    condition.from = Instant{made::day(static_cast<int>(condition_share_of_days * shape.days))};
    c.conditions.push_back(condition);
  }
}

} // namespace

std::vector<double> planned_shares(const StationShape& shape) {
  if (shape.variants == 1) return {1};
  std::vector<double> shares;
  for (const VariantContent& v : three) shares.push_back(v.share);
  return shares;
}

std::vector<Seconds> true_times(const StationShape& shape, Seconds level) {
  std::vector<double> content = relative_content(shape);
  if (shape.variants > 1) {
    // The mean of the mix stays: what the heaviest takes more, the first takes less.
    const double more = content.back() * shape.heavy_excess;
    content.back() += more;
    content.front() -= more * three[2].share / three[0].share;
  }
  std::vector<Seconds> times;
  for (const double v : content) times.push_back(v * level);
  return times;
}

std::vector<std::int32_t> build_order(const StationShape& shape) {
  if (shape.order == BuildOrder::none) return {};
  const std::vector<std::int32_t> even{0, 1, 0, 2, 0, 1, 0, 2, 0, 1}, pairs{0, 0, 1, 2, 2, 1, 0, 0, 0, 1};
  std::vector<std::int32_t> order;
  for (std::int64_t i = 0; i < shape.cycles_per_shift; ++i)
    order.push_back(
        shape.variants == 1 ? 0 : (shape.order == BuildOrder::even ? even : pairs)[static_cast<std::size_t>(i % 10)]);
  return order;
}

Case simulate_station(const StationShape& shape, Seconds level, std::uint64_t seed, std::uint64_t stream,
                      std::uint64_t station) {
  const Draws draws(Draws(seed).below(~std::uint64_t{0}, stream, station, 0));
  const double ln_pace = pace_error * draws.normal(systematic, 0, 0);
  const double ln_rating = rating_error * draws.normal(systematic, 1, 0);
  // A standard set by stopwatch shares the error of whoever rates.
  const double ln_level =
      shape.rating_in_standard ? ln_rating * level_error / rating_error : level_error * draws.normal(systematic, 2, 0);

  Case c;
  add_facts(c, shape, station);
  add_standard(c, shape, level, ln_level, draws);
  const std::vector<Person> people = draw_people(shape, draws);
  const Simulation simulation{shape, draws, true_times(shape, level), ln_pace};
  std::int64_t log_row = 1, reading_row = 1;
  int restudied = 0;
  for (std::size_t i = 0; i < people.size(); ++i) {
    const Person& person = people[i];
    if (person.left && shape.leavers == Leavers::not_named) continue;
    c.operators.push_back(made::trained(person.code));
    const auto op = static_cast<std::int32_t>(c.operators.size()) - 1;
    if (person.left) c.operators.back().left_station = made::day(leaver_days);
    const bool seen = !person.left || shape.leavers == Leavers::named_seen;
    if (shape.settled && seen) add_log_of(c, simulation, person, i, person.left ? leaver_days : shape.days, log_row);
    if (!person.left && restudied < shape.restudied) {
      ++restudied;
      add_session_of(c, simulation, person, i, op, std::exp(ln_rating - ln_pace), reading_row);
    }
  }
  return c;
}

} // namespace docket::bench
