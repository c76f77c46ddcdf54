#include "core/content/word/what_decides.h"

#include "core/rules.h"
#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>

namespace docket {

namespace {

std::string_view code_of(Line line) {
  constexpr std::string_view codes[] = {"standard", "settled", "restudy"};
  return codes[static_cast<std::size_t>(line)];
}

void add_for_leaning(std::vector<Reason>& list, const LineLevel& level) {
  for (const Reason& lean : level.leans) {
    if (lean.code == "bridged_levels_differ") list.push_back({"time_the_station", {}});
    if (lean.code == "help_without_seconds") list.push_back({"seconds_of_help", {}});
    if (lean.code == "leavers_row_not_computed") list.push_back({"leavers_row", lean.detail});
    if (lean.code == "elements_missing") list.push_back({"complete_the_standard", lean.detail});
    if (lean.code == "method_not_known") list.push_back({"method_as_standard", lean.detail});
  }
}

/// True where the systematic part alone keeps P between alpha/2 and 1 - alpha/2: more cycles can't change that.
bool systematic_part_hides_it(const Weighing& weighing) {
  double random = 0;
  for (const LineInput& line : weighing.lines)
    random += std::pow(weighing.combined.weights[static_cast<std::size_t>(line.line)] * line.level.se, 2);
  const double systematic = std::sqrt(std::max(0.0, weighing.combined.u * weighing.combined.u - random));
  return std::abs(weighing.combined.ln_ratio) < normal_quantile(0.5 + weighing.facts.confidence / 2) * systematic;
}

bool is_decided(const Weighing& weighing) { return weighing.decision.word != ContentWord::not_shown; }

constexpr std::int64_t most_people = 60; ///< more are nowhere to be found at one station
constexpr std::int64_t most_studied = 20;

/// The same level and spread between people, had `operators` been settled.
SettledOperators of_size(SettledOperators line, std::int64_t operators) {
  LineLevel& level = line.level;
  const double pace2 = level.u * level.u - level.u_as_agreed * level.u_as_agreed;
  line.operators = operators;
  level.se = line.s / std::sqrt(static_cast<double>(operators));
  level.df = static_cast<double>(operators - 1);
  level.u_as_agreed = std::hypot(level.se, line.u_bridged);
  level.u = std::sqrt(level.u_as_agreed * level.u_as_agreed + std::max(0.0, pace2));
  std::erase_if(level.leans, [](const Reason& lean) {
    return lean.code == "fewer_than_three_operators" || lean.code == "exactly_two_operators";
  });
  return line;
}

/// Settled operators in all with whom the table would say a word, at the level and spread seen; absent: no number will.
std::optional<std::int64_t> operators_that_decide(const WeighingBasis& seen) {
  if (!seen.settled || seen.settled->s <= 0) return std::nullopt;
  for (std::int64_t m = std::max(seen.settled->operators + 1, rules::least_operators); m <= most_people; ++m) {
    WeighingBasis basis = seen;
    basis.settled = of_size(*seen.settled, m);
    for (SettledOperators& row : basis.must_agree) row = of_size(row, m + row.operators - seen.settled->operators);
    if (is_decided(weigh(basis))) return m;
  }
  return std::nullopt;
}

/// Trained operators of a rated restudy that came out at the level of the lines there are; absent: no number will.
std::optional<std::int64_t> restudied_that_decide(const WeighingBasis& seen, const Case& input, Seconds level) {
  for (std::int64_t m = rules::least_operators; m <= most_studied; ++m) {
    WeighingBasis basis = seen;
    LineLevel line;
    line.time = level;
    line.se = input.settings.between_people / std::sqrt(static_cast<double>(m));
    line.df = static_cast<double>(m - 1);
    line.u = line.u_as_agreed = std::hypot(line.se, input.settings.rating_uncertainty);
    basis.restudy = line;
    basis.restudied = m;
    if (is_decided(weigh(basis))) return m;
  }
  return std::nullopt;
}

/// With all lines FITS would hold; with the help or the leavers counted in it does not.
void add_rows_that_disagree(std::vector<Reason>& reasons, const Evaluation& pass, double half_alpha) {
  std::size_t i = 0;
  for (const SettledRow& row : pass.settled.rows) {
    if (row.code != "with_help" && row.code != "with_leavers") continue;
    if (!surely_within(pass.weighing.facts.must_agree[i++], half_alpha))
      reasons.push_back({row.code + "_not_sure", std::to_string(row.added)});
    if (row.code == "with_help" && pass.weighing.facts.help_of_unknown_length)
      reasons.push_back({"help_of_unknown_length", std::to_string(row.unseen)});
  }
}

std::string number_or_nothing(const std::optional<std::int64_t>& number) {
  return number ? std::to_string(*number) : std::string{};
}

std::string too_short_codes(const Case& input, const SettledResult& settled) {
  std::string codes;
  for (const OperatorLevel& level : settled.per_operator)
    if (level.status == OperatorStatus::too_short && level.n > 0)
      codes += (codes.empty() ? "" : ", ") + input.operators[static_cast<std::size_t>(level.op)].code;
  return codes;
}

} // namespace

std::vector<Reason> reasons_for(const Evaluation& pass, const std::string& differing) {
  const DecisionFacts& facts = pass.weighing.facts;
  const double half_alpha = (1 - facts.confidence) / 2;
  std::vector<Reason> reasons;
  const auto leaning_lines = [&] {
    std::string names;
    for (const LineInput& line : pass.weighing.lines)
      if (!line.level.leans.empty()) names += (names.empty() ? "" : ", ") + std::string(code_of(line.line));
    return names;
  };
  switch (pass.weighing.decision.row) {
  case 1:
    for (const Clash& clash : pass.weighing.clashes)
      if (clash.blocks)
        reasons.push_back({"clash", std::string(code_of(clash.a)) + ", " + std::string(code_of(clash.b))});
    if (!facts.usable_line) reasons.push_back({"no_usable_line", {}});
    break;
  case 2:
    if (facts.all.p <= half_alpha) reasons.push_back({"mean_over", {}});
    if (facts.all.p_seq && *facts.all.p_seq <= half_alpha) reasons.push_back({"sequence_over", {}});
    if (facts.all.p_able && *facts.all.p_able <= half_alpha) reasons.push_back({"too_few_able", {}});
    break;
  case 3:
    if (!facts.zone_given) reasons.push_back({"zone_not_given", {}});
    if (!facts.spread_known) {
      reasons.push_back({"spread_not_known", {}});
      if (!pass.settled.line) reasons.push_back({pass.settled.none_why, {}});
    }
    if (facts.identical_values) reasons.push_back({"identical_values", {}});
    break;
  case 4:
  case 5:
    reasons.push_back({"mean_fits", {}});
    reasons.push_back({"sequence_fits", {}});
    reasons.push_back({facts.all.p_zone ? "enough_able" : "average_person_only", {}});
    if (facts.condition_differs_now) reasons.push_back({"condition_differs", differing});
    break;
  default:
    if (facts.all.p < 1 - half_alpha && facts.all.p > half_alpha) reasons.push_back({"mean_not_sure", {}});
    if (facts.all.p_seq && *facts.all.p_seq<1 - half_alpha&& * facts.all.p_seq> half_alpha)
      reasons.push_back({"sequence_not_sure", {}});
    if (facts.all.p_zone && *facts.all.p_zone < rules::zone_able) reasons.push_back({"too_few_within_zone", {}});
    if (facts.help_of_unknown_length || reasons.empty()) add_rows_that_disagree(reasons, pass, half_alpha);
    // With all lines together a row would hold; a line that leans stands in the way.
    if (reasons.empty() && !facts.without_leaning.empty()) reasons.push_back({"leaning_line_needed", leaning_lines()});
    if (reasons.empty() && facts.others) reasons.push_back({"others_object", {}});
    if (reasons.empty() && facts.condition_differs_now) reasons.push_back({"no_evidence_of_restored_state", differing});
    break;
  }
  return reasons;
}

std::vector<Reason> what_would_decide(const Evaluation& pass, const Case& input, const std::string& differing) {
  std::vector<Reason> list;
  const Weighing& weighing = pass.weighing;
  const ContentWord word = weighing.decision.word;
  if (word == ContentWord::fits || word == ContentWord::does_not_fit) return list;
  if (weighing.facts.clash) list.push_back({"clear_the_clash", {}});
  if (!differing.empty()) list.push_back({"restore_conditions", differing});
  if (!weighing.facts.zone_given) list.push_back({"give_work_zone", {}});
  if (!weighing.facts.spread_known) list.push_back({"give_cycle_spread", {}});
  for (const LineInput& line : weighing.lines) add_for_leaning(list, line.level);

  // Numbers of people say nothing while something else stands in the way.
  const bool numbers_can = word == ContentWord::not_shown && weighing.decision.row == 6;
  bool some_number_will = false;
  if (pass.settled.line) {
    const std::optional<std::int64_t> people = numbers_can ? operators_that_decide(pass.basis) : std::nullopt;
    some_number_will = people.has_value();
    const std::string who = too_short_codes(input, pass.settled);
    const bool few = pass.settled.line->operators < rules::least_operators;
    if (people || few) list.push_back({"more_settled_operators", number_or_nothing(people)});
    if ((people || few) && !who.empty()) list.push_back({"longer_records", who});
  } else {
    list.push_back({"time_the_station", {}});
  }
  if (!pass.restudy.line) {
    const std::optional<std::int64_t> people =
        numbers_can ? restudied_that_decide(pass.basis, input, weighing.combined.time) : std::nullopt;
    some_number_will = some_number_will || people.has_value();
    list.push_back({"rated_restudy", number_or_nothing(people)});
  }
  const bool alone = weighing.lines.size() == 1;
  if (alone) list.push_back({"second_line", {}});
  if (!weighing.facts.clash && systematic_part_hides_it(weighing)) {
    if (alone) list.push_back({"no_number_will", {}});
    if (!alone && !some_number_will) list.push_back({"no_number_of_these_will", {}});
  }

  std::vector<Reason> once;
  for (const Reason& reason : list)
    if (std::find(once.begin(), once.end(), reason) == once.end()) once.push_back(reason);
  return once;
}

} // namespace docket
