// Non-linear mixed effects: one curve for several groups, whose parameters vary between the groups.
//
// Model     y_ij = f(phi_i, x_ij) + e_ij / sqrt(w_ij),  phi_i = beta + E b_i,  b_i ~ N(0, Psi),  e_ij ~ N(0, sigma^2);
//           E picks the parameters that vary; Psi diagonal or full
// Source    M. J. Lindstrom, D. M. Bates, Nonlinear mixed effects models for repeated measures data, Biometrics 46
//           (1990), 673-687; J. C. Pinheiro, D. M. Bates, Mixed-Effects Models in S and S-PLUS, Springer 2000, 2.2
//           (profiled likelihood by triangular factors) and 7.2 (the alternating algorithm); uncertainty of a group:
//           C. R. Henderson, Biometrics 31 (1975), 423-447; BFGS: J. Nocedal, S. J. Wright, Numerical Optimization,
//           Springer 2006, 6.1 (chapters and pages from memory)
// Method    in turn: penalised least squares for beta and all b_i with Psi/sigma^2 held, then Psi/sigma^2 from the
//           linearised model, beta and sigma profiled out, by BFGS. Psi = sigma^2 L L', L the relative covariance
//           factor: the inverse of the relative precision factor of the source, finite where an effect vanishes. No
//           chance in it
// Spread    beta: sigma^2 (sum of X_i' V_i^-1 X_i)^-1 of the linearised model, Psi taken as known and sigma^2 by
//           maximum likelihood (restricted: over N - p); a group: the error of beta + E b_i as a prediction, with that
//           of beta in it
// Assumes   normal effects and errors; errors independent; the curve nearly linear in b_i over their spread. Standard
//           deviations of few groups are themselves vague, and by maximum likelihood too small
// Checked   tests/core/statistics/fitting/nonlinear_mixed_test.cpp: R nlme on Orange, Loblolly, Indometh and on
//           invented practice data; the one-way table in closed form; recovery
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// The values of one group: single ones, or means with weights.
struct MixedGroup {
  std::vector<double> x, y;
  std::vector<double> weight; ///< above 0; empty: 1 each
  /// Where values are means of `weight` observations: how many there are in all (0: one a value), and the squared
  /// deviations from those means. The likelihood is then that of the observations.
  double observations = 0;
  double within_ss = 0;
};

struct MixedModel {
  std::size_t parameter_count = 1;
  /// f(p, x), and its derivatives by p into `gradient`. A value that is not finite: there is no model at p.
  std::function<double(std::span<const double> p, double x, std::span<double> gradient)> value;
  std::vector<std::size_t> random; ///< parameters that vary between groups, rising; may be empty
  bool correlated = false;         ///< Psi full; else diagonal
  std::vector<std::string> names;  ///< as the reasons call the parameters; empty: parameter 1, parameter 2 ..
};

struct MixedOptions {
  bool restricted = false; ///< REML in place of ML
  int most_rounds = 200;   ///< of the alternation
  double tolerance = 1e-7; ///< change of a round: of beta in standard errors, of L in its own scale
};

enum class MixedOutcome : std::uint8_t {
  converged,
  singular,       ///< converged, with a random effect set to zero, or a correlation at its limit
  flat_direction, ///< the groups do not determine all parameters
  not_converged,  ///< the alternation did not come to rest
  not_finite      ///< no model at the start
};

std::string_view name_of(MixedOutcome outcome);

/// One group's own curve, drawn towards the others.
struct GroupEstimate {
  bool found = false;                  ///< the search came to rest
  std::vector<double> parameters;      ///< beta + E b_i
  std::vector<double> standard_errors; ///< of that as a prediction of the group's true parameters
  std::vector<double> covariance;      ///< row by row
};

struct MixedFit {
  MixedOutcome outcome = MixedOutcome::not_finite;
  std::string reason; ///< a sentence, for every outcome
  std::vector<double> fixed, fixed_se;
  std::vector<double> fixed_covariance;   ///< row by row
  std::vector<double> random_sd;          ///< one a random parameter, 0 where set to zero
  std::vector<double> random_covariance;  ///< Psi, row by row
  std::vector<double> random_correlation; ///< row by row; 0 beside a vanished effect
  double residual_sd = 0;                 ///< of a value of weight 1
  double log_likelihood = 0;              ///< of the linearised model; restricted where asked for
  std::vector<GroupEstimate> groups;
  int rounds = 0;

  /// The numbers may be used.
  bool usable() const { return outcome == MixedOutcome::converged || outcome == MixedOutcome::singular; }
};

/// Two groups or more, with more observations than parameters in all; `start` are the fixed effects. The other fields
/// are meaningful where usable().
MixedFit fit_nonlinear_mixed(const MixedModel& model, std::span<const MixedGroup> groups, std::span<const double> start,
                             const MixedOptions& options = {});

/// From one start or more: the alternation can come to rest in more than one place, above all where an effect is left
/// out. Of the usable ends the highest likelihood wins, of equal ones (1e-6) the earlier start.
MixedFit fit_nonlinear_mixed(const MixedModel& model, std::span<const MixedGroup> groups,
                             std::span<const std::vector<double>> starts, const MixedOptions& options = {});

/// A group that was not in a usable `fit`, with the fit as prior knowledge N(beta, Psi + cov beta) and its residual SD;
/// the group may be empty.
GroupEstimate estimate_new_group(const MixedModel& model, const MixedFit& fit, const MixedGroup& group);

} // namespace docket
