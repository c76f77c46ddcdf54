// A case as taken in: one struct a table, each row with its origin. Everything here has passed the checks of ingest/:
// names are resolved to indices, units are seconds, shares are 0 to 1. An optional is absent where the cell was blank.
#pragma once

#include "core/marks.h"
#include "core/motion_times.h"
#include "core/provenance.h"
#include "core/quantity.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

enum class YesNo : std::uint8_t { not_given, yes, no, unknown };

/// Where an allowance is counted. method: limit = L / (1 + a) for in_cycle, else L.
enum class AllowanceWhere : std::uint8_t { none, in_cycle, by_relief, in_standard };

/// Table `case`: what the complaint is about and the time the line gives.
struct CaseFacts {
  std::string case_ref, title, station, line;
  std::optional<Seconds> line_cycle, takt;
  std::optional<double> oee;                 ///< [1], 0 to 1
  std::optional<double> working_min_per_day; ///< [min]
  std::optional<double> units_per_day;       ///< [1]
  std::string product;
  std::optional<Date> opened_on, complaint_on, b_told_on, plan_agreed_on, retain_until;
  std::string complaint_shift, complaint_text, data_basis, prepared_by_role, post, standard_revision,
      standard_set_by_role, may_read;
  bool leavers_listed = false;           ///< everybody who left in the time of the data is said to be in `operators`
  std::vector<std::string> complainants; ///< Operator codes.
  std::optional<std::vector<std::string>> b_for;   ///< Absent: the complainants; empty: none.
  std::optional<Seconds> early_start, late_finish; ///< E and D, the work zone. No default.
  double allowance = 0;                            ///< [1]
  AllowanceWhere allowance_where = AllowanceWhere::none;
  std::optional<std::int64_t> cycles_per_shift;
  std::optional<Seconds> line_cycle_asked; ///< another line cycle time, to see what it does to strain and recovery
  std::optional<Seconds> pattern;          ///< of the mean unit in the one motion pattern that takes most of it
  YesNo open_safety_matter = YesNo::not_given;
  std::vector<std::pair<std::string, SourceRow>> origins; ///< Row of each key given.
};

/// Table `settings`. Shares are 0 to 1 here; the table has percent.
struct Settings {
  double confidence = 0.95;           ///< 1 - alpha
  double able = 0.90;                 ///< share of trained people that must be able
  double tolerated_overloads = 0.010; ///< overloads per unit
  double standard_uncertainty = 0.05; ///< U_s, relative
  double pace_uncertainty = 0.05;     ///< relative
  double rating_uncertainty = 0.05;   ///< relative
  double between_people = 0.04;       ///< relative
  std::optional<double> cycle_spread; ///< relative; needed for FITS where no settled operators give it
  double improvement_left = 0.03;     ///< delta, relative
  double equivalence = 0.05;          ///< relative
  std::int64_t settled_after_cycles = 1000;
  std::int64_t gap_days = 14;
  std::uint64_t seed = 1;

  /// One line a setting, in the order of the table; `given` ones carry their reason and row.
  struct Given {
    std::string key, value, reason;
    bool given = false;
    SourceRow origin;
  };
  std::vector<Given> given;
};

enum class ElementClass : std::uint8_t { va, nnva, nva }; ///< value-adding; necessary non-value-adding; waste
enum class ElementKind : std::uint8_t { work, handle, walk, inspect, wait, machine };
enum class TimeSource : std::uint8_t { not_said, motion_times, stopwatch, history, estimate };

/// Table `standard`: one work element of the prescribed content.
struct StandardElement {
  std::string element, description;
  ElementClass element_class = ElementClass::va;
  ElementKind kind = ElementKind::work;
  std::optional<Seconds> time; ///< t_e; as given, else from `motions`; there once the case is read.
  double times_per_unit = 1;   ///< f_e
  /// Options that ask for the element; empty: every unit. `not_option`: every unit without that option.
  std::vector<std::string> any_option;
  std::string not_option;
  std::optional<double> uncertainty; ///< u(t_e)/t_e, relative, one standard uncertainty
  std::string analyst;
  TimeSource time_source = TimeSource::not_said;
  std::string source_note, post;
  std::vector<std::string> after;
  SourceRow origin;
  bool time_from_motions = false;        ///< `time` was not given: it is the sum of the element's motions
  bool uncertainty_from_motions = false; ///< `uncertainty` was not given: it is from two analyses of the motions
};

/// Table `variants`. With no table there is one variant, `all`, with share 1.
struct Variant {
  std::string variant;
  double share = 1; ///< p_v, 0 to 1; the shares sum to 1
  std::vector<std::string> options, also_called;
  std::optional<double> share_in_standard; ///< 0 to 1
  SourceRow origin;
};

/// Table `build_sequence`: the order in which units were or will be built.
struct SequenceUnit {
  std::int64_t position = 0;
  std::int32_t variant = 0; ///< index into Case::variants
  std::string run;          ///< day or shift; the drift starts anew where it changes
  SourceRow origin;
};

enum class Role : std::uint8_t { not_given, regular, relief, leader };

/// Table `operators`. A code, never a name.
struct Operator {
  std::string code;
  YesNo trained = YesNo::unknown;
  std::string shift;
  std::optional<std::int64_t> prior_cycles;
  std::optional<Date> on_station_since;
  std::optional<std::int64_t> shifts_before;
  Role role = Role::not_given;
  std::optional<Date> left_station;
  SourceRow origin;
};

/// Table `roster`: who stood at the station when. Times of day are minutes after midnight; `to` at or before `from` is
/// the next day.
struct RosterEntry {
  Date date{};
  std::string shift;
  std::int32_t op = -1; ///< index into Case::operators
  std::optional<std::chrono::minutes> from, to;
  SourceRow origin;
};

/// Table `sessions`: one spell of stopwatch observation.
struct Session {
  std::string session;
  Date date{};
  std::int32_t op = -1; ///< index into Case::operators
  std::optional<Instant> start, end;
  std::string shift, observer, same_as;
  std::optional<std::int64_t> planned_cycles, first_cycle;
  std::optional<double> rating; ///< 1 = normal pace
  YesNo method_as_standard = YesNo::not_given, blind_rating = YesNo::not_given;
  SourceRow origin;
};

/// Table `readings`: one reading, of a whole cycle or of one element of it.
struct Reading {
  std::int32_t session = -1; ///< index into Case::sessions
  std::int64_t cycle = 0;
  Seconds time{};
  /// Index into Case::standard; -1: the whole cycle. `seen_element` is set instead where the sheet says `+name`: an
  /// element seen at the station that is not in the standard.
  std::int32_t element = -1;
  std::string seen_element;
  Seconds wait{}, helped{};
  bool helped_given = false;
  std::optional<double> rating; ///< 1 = normal pace
  std::int32_t variant = -1;    ///< index into Case::variants; -1: not given
  Marks marks;
  std::string note;
  SourceRow origin;
};

/// Table `cycle_log`: one cycle from a log. There may be millions, so words are indices. The unit only serves to find a
/// cycle that is there twice, and is not kept.
struct LoggedCycle {
  Instant started_at{};
  Seconds cycle{}, wait{}, helped{};
  SourceRow origin;
  std::int32_t variant = -1;             ///< index into Case::variants; -1: not given
  std::int32_t op = -1;                  ///< index into Case::operators; -1: not given
  std::int32_t station = -1, shift = -1; ///< indices into Case::log_words; -1: not given
  Marks marks;
  bool is_line_time = false; ///< `cycle_is` = line: station entry to exit, not a person's work
  bool helped_given = false;
};

enum class ConditionState : std::uint8_t { as_standard, differs, not_checked };

/// Table `conditions`: one thing checked at the station, against what the standard assumes.
struct Condition {
  std::string check;
  ConditionState state = ConditionState::not_checked;
  std::vector<std::int32_t> elements, sessions, variants; ///< what it affects; all empty: the whole station
  std::optional<Instant> from, to;                        ///< `to` is the end of the day where only a day was given
  std::string note;
  SourceRow origin;

  bool whole_station() const { return elements.empty() && sessions.empty() && variants.empty(); }
};

/// Table `referrals`: a safety or health matter that was reported.
struct Referral {
  std::string trigger;
  std::optional<Date> reported_on; ///< absent in a joint copy, as all but the state is
  std::optional<Date> referred_on;
  std::string to_role;
  bool open = true;
  SourceRow origin;
};

/// Table `statements`: what somebody says, in their own words.
struct Statement {
  std::string who;
  std::optional<Date> on;
  std::string text;
  SourceRow origin;
};

/// Table `training`: what training a person was given.
struct Training {
  std::string code;     ///< the operator's, as the sheet `operators` has it
  std::int32_t op = -1; ///< index into Case::operators; -1: the person is in no other table
  Date on{};
  std::string given_by_role, what;
  std::vector<std::int32_t> variants; ///< indices into Case::variants; empty: not said
  YesNo signed_off = YesNo::not_given;
  SourceRow origin;
};

enum class Hand : std::uint8_t { not_given, left, right, both };

/// Table `motions`: one motion of an element. Rows with one step number are done at the same time.
struct MotionStep {
  std::string code;
  std::int64_t step = 0;
  double per_element = 1; ///< how often in the element; may be a share
  Hand hand = Hand::not_given;
  std::optional<double> stated_tmu; ///< [TMU] of the motion done once; only compared, never used
  SourceRow origin;
  std::int32_t element = -1; ///< index into Case::standard
  std::string analyst;       ///< role code; rows of one element by two analysts are two analyses
};

/// Table `motion_table`: one code of the plant's own table.
struct PlantMotion {
  std::string code;
  double tmu = 0;
  SourceRow origin;
};

/// How well the hands hold a load.
enum class Coupling : std::uint8_t { good, fair, poor };

/// Where a load is taken up, or set down with control.
struct LiftSpot {
  double h = 0, v = 0;     ///< [cm] hands from the middle between the ankles, level; hands above the floor
  double d = 0;            ///< [cm] way of the load, up or down
  std::optional<double> a; ///< [degree] turn to the side
  std::optional<Coupling> coupling;
};

/// Table `lifts`: one lifting task.
struct Lift {
  std::string task;
  double load = 0; ///< [kg]
  LiftSpot from;
  std::optional<LiftSpot> to;           ///< only where control is needed there
  std::optional<double> per_min;        ///< [1/min] over all units, at the line cycle time
  std::optional<double> times_per_unit; ///< on a unit that has it; used where `per_min` is absent
  std::optional<double> hours;          ///< [h] of it a shift
  std::optional<double> recovery_hours; ///< [h] rest or light work that follows
  std::int32_t element = -1;            ///< index into Case::standard; -1: every unit has it
  SourceRow origin;
};

enum class EffortPosture : std::uint8_t { not_given, neutral, bent, far };

/// The five words of each rating of the strain index of 1995, from the least strain to the most.
enum class ExertionIntensity : std::uint8_t { light, somewhat_hard, hard, very_hard, near_maximal };
enum class WristPosture : std::uint8_t { very_good, good, fair, bad, very_bad };
enum class WorkSpeed : std::uint8_t { very_slow, slow, fair, fast, very_fast };

/// Table `efforts`: one effort of hand or arm.
struct Effort {
  std::string task;
  Hand hand = Hand::both;
  double force_n = 0; ///< [N]
  Seconds time{};     ///< held, each time
  double times_per_unit = 0;
  std::optional<double> strength_n; ///< [N]
  std::string strength_source;
  EffortPosture posture = EffortPosture::not_given;
  std::string speed; ///< free words
  std::optional<double> hours;
  std::int32_t element = -1;       ///< index into Case::standard; -1: every unit has it
  std::optional<double> wrist_deg; ///< [degree] from straight
  bool wrist_flexion = true;       ///< towards the palm; else extension
  std::optional<ExertionIntensity> rated_intensity;
  std::optional<WristPosture> rated_posture;
  std::optional<WorkSpeed> rated_speed;
  SourceRow origin;
};

/// What happened to the rows of one table: read = used + with_issue.
struct TableCounts {
  TableName table = TableName::case_facts;
  std::int64_t read = 0, used = 0, with_issue = 0;
  bool used_now = true; ///< false: checked and kept, not yet used by any computation
};

/// A row that was not taken because of a fault, on request.
struct SetAsideRow {
  SourceRow origin;
  std::string column; ///< Of its first fault.
  std::string wrong;  ///< What was wrong there, as a sentence.
  std::string raw;    ///< The whole row as it stands in the file.
};

struct Case {
  CaseFacts facts;
  Settings settings;
  std::vector<StandardElement> standard;
  std::vector<Variant> variants;
  std::vector<SequenceUnit> build_sequence;
  std::vector<Operator> operators;
  std::vector<RosterEntry> roster;
  std::vector<Session> sessions;
  std::vector<Reading> readings;
  std::vector<LoggedCycle> cycle_log; ///< in the order of the input
  std::vector<std::string> log_words; ///< stations and shifts of the log, each word once
  std::vector<Condition> conditions;
  std::vector<Referral> referrals;
  std::vector<Statement> statements;
  std::vector<Training> training;
  std::vector<MotionStep> motions;       ///< in the order of the input
  std::vector<PlantMotion> motion_table; ///< empty: the shipped values are used
  MotionTimes shipped_motion_times;      ///< filled only where `motions` is given without `motion_table`
  std::vector<Lift> lifts;               ///< in the order of the input
  std::vector<Effort> efforts;           ///< in the order of the input

  std::vector<Source> sources;
  std::vector<TableCounts> counts;    ///< one a table present, in the order of TableName
  std::vector<SetAsideRow> set_aside; ///< in the order of the input
};

/// The index of a word in `Case::log_words`, which gets it where it is new; -1 for no word.
std::int32_t add_log_word(Case& input, std::string_view word);

/// The word an index of a logged cycle stands for; empty for -1.
const std::string& log_word(const Case& input, std::int32_t index);

/// True where the cycle is of the case's station, or the log does not say.
bool is_of_this_station(const Case& input, const LoggedCycle& cycle);

/// Does variant `v` carry the element? By the options of both. See design of table `standard`, column `option`.
bool carries(const Variant& variant, const StandardElement& element);

std::int64_t open_referrals(const Case& input);

/// True where a safety or health matter is open: said so in `case`, or a referral that is not closed.
bool safety_matter_is_open(const Case& input);

/// The operators question B is asked about: `b_for`, or the complainants.
std::vector<std::string> asked_about(const CaseFacts& facts);

} // namespace docket
