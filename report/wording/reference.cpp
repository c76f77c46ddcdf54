#include "report/wording/wording.h"

namespace docket::wording {
namespace {

constexpr Term terms[] = {
    {"Line cycle time", "The time from one unit to the next as the line really runs. It is shorter than takt time, "
                        "because a line that sometimes stops must run faster in between."},
    {"Takt time", "Working time divided by the units asked for: the customer's pace."},
    {"OEE", "Overall equipment effectiveness: the share of the working time in which the line turns out good units."},
    {"Limit", "What every time in this file is compared with: the line cycle time, less an allowance where one lies "
              "inside the cycle."},
    {"Mean against every unit",
     "A mean within the limit says that the work fits over many units. It does not say that "
     "every unit fits: heavy ones in a row can still push a person out of the work zone. Both "
     "are checked."},
    {"Margin", "The limit less the time. + is room, \u2212 is time that is missing."},
    {"Wrong at most 1 time in 40 on each side",
     "A range is drawn so wide that the true value lies below it in at most 1 "
     "case of 40, and above it in at most 1 of 40. FITS and DOES NOT FIT must "
     "meet the same test."},
    {"At least this long",
     "Said of a cycle that was helped or cut short. The person alone would have needed that time or "
     "more, so the number is a lower bound."},
    {"Standard", "The plant's own list of work elements and times for the station."},
    {"Value-adding, necessary, waste",
     "Three classes of work in the standard: what the customer's unit needs; what the "
     "work needs although the unit does not; what nobody needs."},
    {"Allowance", "Time added for rest, personal needs and small delays."},
    {"Normal pace", "A pace that trained people can keep up all day without over-exertion."},
    {"Rating", "An observer's judgement of the pace against normal pace, in percent. It is a judgement and carries its "
               "own uncertainty."},
    {"Settled operator", "A trained person in whose times no improvement is left to see."},
    {"Practice curve", "How the times of one person fall with every cycle done at the station. Several curves are laid "
                       "through the cycles and averaged; none is picked as the right one."},
    {"Own count",
     "The cycles a person has done at this station, counted from the first one ever, helped ones too. "
     "Cycles marked starved, blocked or instrument are no practice and not counted. Where what came before "
     "is not known exactly, it says estimated."},
    {"Settled level",
     "Where the curves would be some own cycles after the last one seen: as many again as were seen, or "
     "five shifts if that is more, but never more than three times what was seen. For the planned mix, "
     "at own pace."},
    {"Time bridge", "A picture of where the seconds between the limit and the cycles seen lie. It decides nothing."},
    {"Line of evidence", "One independent answer to question A: the standard, the settled operators, or the restudy."},
    {"Clash", "Two lines of evidence that lie on different sides of the limit, further apart than chance explains. No "
              "finding is made from lines that clash."},
    {"Work zone", "How far along the line a person may work: how early a unit may be started and how late it may be "
                  "finished."},
    {"Overload", "A unit that is not finished when the work zone ends, by at least 0.5 s or 1 % of the line cycle "
                 "time, whichever is "
                 "more."},
    {"Screening", "A first look by a published method: a number with its range, or none and why. It clears nothing and "
                  "grades nothing; "
                  "a qualified ergonomist decides."},
    {"Load over limit",
     "The weight lifted over the weight that nearly all healthy people could lift so (lifting index)."},
    {"Force over acceptable",
     "The force of an effort over the force that is acceptable for as large a part of the cycle as it is held."},
    {"Recovery", "What is left of the line cycle when the work of the average unit is done. It is no break."},
    {"TMU", "The unit of motion times: 0.00001 h, 0.036 s."},
    {"Mark", "Why a cycle is not a plain one: for instance helped, or blocked. Marked cycles are counted and listed."},
    {"Plain cycle", "A cycle without a mark, of this station, with its person and variant known."},
    {"NOT SHOWN",
     "The evidence can't carry a finding. It is a normal result: the complaint stays open, and the file says "
     "what would decide it. It never means that the work fits."},
};

constexpr MethodSource sources[] = {
    {"Uncertainty of the standard, of each line and of the combined line; degrees of freedom",
     "JCGM 100:2008, Guide to the expression of uncertainty in measurement, 5.1.2 and annex G"},
    {"Chance that a time is within the limit, and the decision rule with the same guard on both sides",
     "JCGM 106:2012, The role of measurement uncertainty in conformity assessment; ILAC-G8:09/2019, Guidelines on "
     "decision "
     "rules"},
    {"Lines combined by generalised least squares", "A. C. Aitken, Proc. Roy. Soc. Edinburgh 55 (1935), 42-48; L. "
                                                    "Lyons, D. Gibaut, P. Clifford, Nucl. Instr. Meth. A 270 "
                                                    "(1988), 110-117"},
    {"Fall of the times of an operator (median of slopes)",
     "H. Theil, Proc. Kon. Ned. Akad. v. Wetensch. A 53 (1950), 386-392; P. K. Sen, J. Am. Stat. Assoc. 63 (1968), "
     "1379-1389"},
    {"Spread between and within operators (REML, one-way random effects)",
     "H. D. Patterson, R. Thompson, Biometrika 58 (1971), 545-554; S. R. Searle, G. Casella, C. E. McCulloch, Variance "
     "Components (1992), chapter 3"},
    {"Times by variant, operators as blocks",
     "R. A. Fisher, The Design of Experiments (1935); G. E. P. Box, J. S. Hunter, W. G. Hunter, Statistics for "
     "Experimenters, 2nd ed. (2005), 4.2"},
    {"Lag-1 autocorrelation and effective number of cycles",
     "F. H. C. Marriott, J. A. Pope, Biometrika 41 (1954), 390-402; G. V. Bayley, J. M. Hammersley, Suppl. J. Roy. "
     "Stat. "
     "Soc. 8 (1946), 184-197"},
    {"Two shifts compared, operators as the unit: two one-sided tests",
     "B. L. Welch, Biometrika 34 (1947), 28-35; D. J. Schuirmann, J. Pharmacokinet. Biopharm. 15 (1987), 657-680"},
    {"Share of people within the limit at their own pace",
     "D. B. Owen, A survey of properties and applications of the noncentral t-distribution, Technometrics 10 (1968), "
     "445-478"},
    {"Even order of units",
     "J. Miltenburg, Level schedules for mixed-model assembly lines, Management Science 35 (1989), "
     "192-207"},
    {"Extreme readings", "B. Rosner, Percentage points for a generalized ESD many-outlier procedure, Technometrics 25 "
                         "(1983), 165-172"},
    {"Two observers at once",
     "J. M. Bland, D. G. Altman, Lancet 327 (1986), 307-310; P. E. Shrout, J. L. Fleiss, Psychol. "
     "Bull. 86 (1979), 420-428"},
    {"Times of basic motions",
     "reprinted in textbooks of work measurement; each value used is named with its status in the "
     "part on motion times"},
    {"Exact bound on a share of people", "C. J. Clopper, E. S. Pearson, Biometrika 26 (1934), 404-413"},
    {"Restudy: rating to normal pace, number of readings",
     "International Labour Office, Introduction to Work Study, 4th ed. (G. Kanawaty, 1992)"},
    {"Drift of a person's position along the build order",
     "C. A. Yano, R. Rachamadugu, Management Science 37 (1991), 572-586"},
    {"Drawn shifts: random numbers and normal quantile",
     "J. K. Salmon, M. A. Moraes, R. O. Dror, D. E. Shaw, Proc. SC'11 (2011), article 16; M. J. Wichura, Applied "
     "Statistics 37 (1988), 477-484"},
    {"Practice curves: power; with a floor; exponential, one or two phases; hyperbolic",
     "A. Newell, P. S. Rosenbloom, in Cognitive Skills and their Acquisition (1981), 1-55; J. R. de Jong, Ergonomics 1 "
     "(1957), 51-60; A. Heathcote, S. Brown, D. J. K. Mewhort, Psychonomic Bulletin & Review 7 (2000), 185-207; "
     "J. E. Mazur, R. Hastie, Psychological Bulletin 85 (1978), 1256-1274"},
    {"Helped and cut short cycles as lower bounds", "M. S. Wolynetz, Applied Statistics 28 (1979), 195-206"},
    {"Breaks: back to an earlier cycle of the own curve",
     "M. Y. Jaber, M. Bonney, Applied Mathematical Modelling 20 (1996), 162-174"},
    {"Earlier learners as one band, and estimates from it",
     "M. J. Lindstrom, D. M. Bates, Biometrics 46 (1990), 673-687; C. R. Henderson, Biometrics 31 (1975), 423-447"},
    {"Checks of a practice record",
     "G. M. Ljung, G. E. P. Box, Biometrika 65 (1978), 297-303; P. J. Huber, Annals of Mathematical Statistics 35 "
     "(1964), 73-101"},
    {"Intervals of a practice curve (profile likelihood)",
     "D. J. Venzon, S. H. Moolgavkar, Applied Statistics 37 (1988), 87-94"},
    {"Practice curves weighed and averaged",
     "K. P. Burnham, D. R. Anderson, Model Selection and Multimodel Inference, 2nd ed. (2002), chapters 2 and 4"},
    {"Time bridge: intervals of its parts, taken as independent",
     "An identity, its split this program's own; JCGM 100:2008, 5.1.2, for the intervals"},
    {"One person beside the settled operators: by element, by variant",
     "J. R. Crawford, D. C. Howell, The Clinical Neuropsychologist 12 (1998), 482-486; B. L. Welch, Biometrika 34 "
     "(1947), 28-35; F. Yates, Journal of the American Statistical Association 29 (1934), 51-66"},
    {"Ergonomics cautions: lifting, efforts of hand and arm, strain, repetition",
     "each method's own source, range and how sure its values are stand beside its numbers in the section on "
     "ergonomics"},
    {"Takt time, line cycle time, OEE; the settled rule; the decision tables",
     "Common practice for the times; the rule and the table are this program's own and stand in this file in words"},
};

} // namespace

std::span<const Term> glossary() { return terms; }
std::span<const MethodSource> methods_and_sources() { return sources; }

} // namespace docket::wording
