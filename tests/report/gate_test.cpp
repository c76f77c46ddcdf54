// Nothing gated can be read anywhere: cases that differ only in the times of the person who can't be assessed now.
#include "report/case_document/case_document.h"
#include "report/findings_json.h"
#include "report/html/html.h"
#include "tests/core/adaptation/simulated_learner.h"

#include <gtest/gtest.h>

#include <QByteArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

namespace docket {
namespace {

/// K1 with `curve` and a pause of thirty days, asked about with K2, who can be answered; six others with records from their
/// first cycle on, at 52 s in the end or at `level`.
Case team(const std::function<double(double)>& curve, std::int64_t prior_cycles, double level) {
  Case c = made::one_element_case(60, 52);
  c.facts.early_start = Seconds{10};
  c.facts.late_finish = Seconds{30};
  c.facts.cycles_per_shift = 100;
  c.facts.b_for = std::vector<std::string>{"K1", "K2"};
  c.operators = {made::trained("K1", prior_cycles)};
  c.operators[0].trained = YesNo::no;
  const std::vector<double> times = made::simulated_times(400, 0, 0.02, 1, curve);
  made::log_times(c, 0, {times.begin(), times.begin() + 250}, 50);
  made::log_times(c, 0, {times.begin() + 250, times.end()}, 50, 35);
  for (int o = 1; o <= 7; ++o) {
    c.operators.push_back(made::trained("K" + std::to_string(o + 1), 0));
    const double own = level + 1.5 * std::sin(o);
    const auto learning = [&](double n) { return own + 20 * std::exp(-n / 120); };
    made::log_times(
        c, o, made::simulated_times(o == 1 ? 150 : 500, 0, 0.04, 100 + static_cast<std::uint64_t>(o), learning), 50);
  }
  return c;
}

/// The parts of `from` that belong to B, in the place of those of `to`.
Findings with_b_of(Findings to, const Findings& from) {
  to.adaptation = from.adaptation;
  to.asked_not_in_data = from.asked_not_in_data;
  to.adaptation_band = from.adaptation_band;
  to.beside_adaptation = from.beside_adaptation;
  to.earlier_learners = from.earlier_learners;
  to.earlier_learners_none_why = from.earlier_learners_none_why;
  to.bridges = from.bridges;
  to.excesses = from.excesses;
  to.data_faults = from.data_faults;
  return to;
}

std::string page_of(const Case& input, const Findings& findings) {
  return write_html(build_case_document(input, findings, {}));
}

QByteArray part_of(const std::string& json, const QString& key) {
  const QJsonObject all = QJsonDocument::fromJson(QByteArray::fromStdString(json)).object();
  return QJsonDocument(QJsonObject{{"part", all[key]}}).toJson();
}

void expect_no_difference(const Case& first, const Findings& a, const Case& second, const Findings& b) {
  for (const Findings* findings : {&a, &b})
    ASSERT_EQ(findings->adaptation.at(0).word, AdaptationWord::not_assessable_now);
  // The person's own finding, and every other part but A's, to the byte.
  const std::string json_a = write_findings_json(first, a), json_b = write_findings_json(second, b);
  for (const QString& key : QJsonDocument::fromJson(QByteArray::fromStdString(json_a)).object().keys())
    if (key != "content") {
      EXPECT_EQ(part_of(json_a, key), part_of(json_b, key)) << key.toStdString();
    }
  // A shows what A uses of these times, and nothing more than where B is not asked at all: less, where the person is not
  // counted.
  Case unasked = first;
  unasked.facts.b_for = std::vector<std::string>{};
  Findings open = find_all(unasked);
  for (const Adaptation& one : a.adaptation)
    if (one.word == AdaptationWord::not_assessable_now) withhold_level(open.content, unasked, one.op);
  EXPECT_EQ(part_of(json_a, "content"), part_of(write_findings_json(unasked, open), "content"));
  // The page is the same with what B found in the other case.
  EXPECT_EQ(page_of(first, a), page_of(first, with_b_of(a, b)));
  EXPECT_EQ(json_a, write_findings_json(first, with_b_of(a, b)));
}

TEST(Gate, UnderAnOpenMatterATimeLeavesNoTrace) {
  Case learner = team([](double n) { return 50 + 40 * std::exp(-n / 100); }, 0, 52);
  Case level = team([](double) { return 55.0; }, 0, 52);
  Case set_back = team([](double n) { return n > 250 ? 70.0 : 52 + 30 * std::exp(-n / 80); }, 0, 52);
  for (Case* c : {&learner, &level, &set_back}) c->facts.open_safety_matter = YesNo::yes;
  const Findings first = find_all(learner);
  expect_no_difference(learner, first, level, find_all(level));
  expect_no_difference(learner, first, set_back, find_all(set_back));
}

// K2 is answered, with a band of earlier learners and an estimate borrowed from them; what is shown of these is the same,
// whoever K1 is.
TEST(Gate, ASettledLevelAboveTheLimitLeavesNoTraceWhereTheContentIsNotShownToFit) {
  const Case slow = team([](double) { return 70.0; }, 3000, 64), slower = team([](double) { return 82.0; }, 3000, 64);
  AdaptationBasis basis;
  basis.limit = Seconds{60};
  basis.relative_content = {1};
  std::vector<Findings> found;
  for (const Case* c : {&slow, &slower}) {
    const Findings& findings = found.emplace_back(find_all(*c));
    EXPECT_EQ(assess_adaptation(*c, findings.evidence, basis, 0, AdaptationDetail::headline).word,
              AdaptationWord::settled_above);
    EXPECT_NE(findings.content.word, ContentWord::fits);
    ASSERT_EQ(findings.adaptation.size(), 2U);
    EXPECT_NE(findings.adaptation[1].word, AdaptationWord::not_assessable_now);
    EXPECT_TRUE(findings.earlier_learners);
    EXPECT_TRUE(findings.beside_adaptation[1].borrowed);
    EXPECT_FALSE(findings.beside_adaptation[0].borrowed);
    EXPECT_FALSE(findings.beside_adaptation[0].others_above);
  }
  expect_no_difference(slow, found[0], slower, found[1]);
}

} // namespace
} // namespace docket
