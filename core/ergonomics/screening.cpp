#include "core/ergonomics/screening.h"

#include <array>

namespace docket {

namespace {

using Code = std::string_view;

constexpr std::array<Code, 6> lifting_range{"two_hands_standing",         "at_most_8_hours",
                                            "stable_load_in_open_space",  "no_push_pull_carry",
                                            "usual_climate_sure_footing", "short_bouts_not_averaged_over_15_minutes"};
constexpr std::array<Code, 3> composite_range{"as_revised_lifting_equation", "one_load_a_task", "tasks_of_one_job"};
constexpr std::array<Code, 4> effort_range{"upper_limb_repeated_efforts", "few_data_above_half_the_cycle",
                                           "one_kind_of_effort", "models_disagree_widely"};
constexpr std::array<Code, 4> strain_range{"hand_wrist_forearm", "no_vibration_or_contact_stress", "one_task",
                                           "ratings_are_judgement"};
constexpr std::array<Code, 3> revised_strain_range{"hand_wrist_forearm", "no_vibration_or_contact_stress", "one_task"};
constexpr std::array<Code, 2> repetition_range{"defines_exposure_groups_is_no_limit", "hand_and_wrist"};

} // namespace

const ScreeningMethod& revised_lifting_equation() {
  static constexpr ScreeningMethod method{"revised_lifting_equation", "waters_putz_anderson_garg_1994",
                                          "published_in_part", lifting_range};
  return method;
}

const ScreeningMethod& composite_lifting_index() {
  static constexpr ScreeningMethod method{"composite_lifting_index", "waters_putz_anderson_garg_1994", "from_memory",
                                          composite_range};
  return method;
}

const ScreeningMethod& maximum_acceptable_effort_method() {
  static constexpr ScreeningMethod method{"maximum_acceptable_effort", "potvin_2012", "from_memory", effort_range};
  return method;
}

const ScreeningMethod& strain_index_1995() {
  static constexpr ScreeningMethod method{"strain_index", "moore_garg_1995", "published_in_part", strain_range};
  return method;
}

const ScreeningMethod& revised_strain_index_2017() {
  static constexpr ScreeningMethod method{"revised_strain_index", "garg_moore_kapellusch_2017", "from_memory",
                                          revised_strain_range};
  return method;
}

const ScreeningMethod& repetition_definition() {
  static constexpr ScreeningMethod method{"repetition", "silverstein_fine_armstrong_1986", "from_memory",
                                          repetition_range};
  return method;
}

} // namespace docket
