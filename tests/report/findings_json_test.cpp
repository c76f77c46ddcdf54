#include "report/findings_json.h"
#include "tests/report/made_findings.h"

#include <gtest/gtest.h>

#include <QByteArray>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <limits>

using docket::Case;
using docket::Findings;
using docket::Seconds;

namespace {

/// A case of one element and one variant with every number set by hand, so that what is read back is known.
struct Made {
  Case input;
  Findings findings;

  Made() {
    input.facts.case_ref = "GC-9";
    input.facts.station = "HP-07";
    input.sources.push_back({"station.xlsx", std::string(64, 'a'), 3});
    input.standard.resize(1);
    input.standard[0].element = "fit_pipes";
    input.standard[0].origin = {0, docket::TableName::standard, 4};
    input.variants.push_back({"all", 1.0, {}, {}, {}, {}});
    findings.time.line_cycle = findings.time.limit = Seconds(60);
    auto& content = findings.content;
    content.standard.mean = content.standard.level.time = Seconds(200.0 / 3);
    content.standard.level.u = 0.05;
    content.standard.level.df = std::numeric_limits<double>::infinity();
    content.standard.variants.push_back({0, 1.0, Seconds(200.0 / 3), {}});
    content.standard.elements.push_back({0, Seconds(200.0 / 3), 1, 1, Seconds(1)});
    content.settled.none_why = "no_cycles";
    content.restudy.none_why = "no_rated_readings";
    content.heaviest = {0, Seconds(200.0 / 3), Seconds(-20.0 / 3), Seconds(-8), Seconds(-5), {}, {}};
    content.combined.emplace();
    content.combined->df = std::numeric_limits<double>::infinity();
    content.combined->time = Seconds(200.0 / 3);
  }

  QJsonObject written() const {
    return QJsonDocument::fromJson(QByteArray::fromStdString(write_findings_json(input, findings))).object();
  }
};

// RFC 8259 has no infinity: the schema asks for null and the reason.
TEST(FindingsJson, WritesNullWithItsReasonWhereAValueHasNoEnd) {
  const QJsonObject combined = Made().written()["content"].toObject()["combined"].toObject();
  EXPECT_TRUE(combined["df"].isNull());
  EXPECT_TRUE(combined["df_why"].toString().startsWith("infinite: "));
}

TEST(FindingsJson, NamesWhyALineOfEvidenceIsAbsent) {
  const QJsonObject content = Made().written()["content"].toObject();
  EXPECT_TRUE(content["settled"].isNull());
  EXPECT_TRUE(content["settled_why"].toString().startsWith("no_cycles: "));
  EXPECT_TRUE(content["restudy_why"].toString().startsWith("no_rated_readings: "));
}

// What a checker needs of the restudy: every operator's own level, and the line with one thing changed.
TEST(FindingsJson, TheRestudyByOperatorWithoutOneAndByTheSecondSheet) {
  Made made;
  made.input.operators.resize(2);
  made.input.operators[0].code = "K1";
  made.input.operators[1].code = "K2";
  docket::Restudy line;
  line.operators = {0, 1};
  line.cycles = 40;
  line.level.time = line.normal = line.observed = Seconds(54.25);
  line.per_operator = {{0, 15, 1, Seconds(51.35), Seconds(53.15)}, {1, 25, 2, Seconds(56.75), Seconds(55.35)}};
  docket::Restudy one = line;
  one.operators = {1};
  one.level.time = Seconds(55.35);
  one.level.against.p_fits = 0.44;
  made.findings.content.restudy.line = line;
  made.findings.content.restudy.left_out_one = {{0, one}};
  made.findings.content.restudy.rows = {{"second_sheets", line, 12, "S1R"}};
  const QJsonObject restudy = made.written()["content"].toObject()["restudy"].toObject();
  const QJsonObject person = restudy["per_operator"].toArray()[1].toObject();
  EXPECT_EQ(person["operator"].toString(), "K2");
  EXPECT_EQ(person["n"].toInt(), 25);
  EXPECT_DOUBLE_EQ(person["normal_s"].toDouble(), 55.35);
  const QJsonObject without = restudy["left_out_one"].toArray()[0].toObject();
  EXPECT_EQ(without["operator"].toString(), "K1");
  EXPECT_DOUBLE_EQ(without["mean_s"].toDouble(), 55.35);
  EXPECT_DOUBLE_EQ(without["p_fits"].toDouble(), 0.44);
  const QJsonObject row = restudy["rows"].toArray()[0].toObject();
  EXPECT_EQ(row["code"].toString(), "second_sheets");
  EXPECT_EQ(row["changed"].toInt(), 12);
}

// 200/3 = 66.6666666666..., to nine digits.
TEST(FindingsJson, RoundsToNineSignificantDigits) {
  const std::string json = write_findings_json(Made().input, Made().findings);
  EXPECT_NE(json.find("\"mean_s\": 66.6666667,"), std::string::npos);
}

TEST(FindingsJson, LeavesNoReasonBesideAValueThatIsKnown) {
  Made made;
  made.findings.time.takt = Seconds(68.4);
  const QJsonObject facts = made.written()["case"].toObject();
  EXPECT_DOUBLE_EQ(facts["takt_s"].toDouble(), 68.4);
  EXPECT_FALSE(facts.contains("takt_s_why"));
  EXPECT_TRUE(facts["oee_percent"].isNull());
  EXPECT_TRUE(facts["oee_percent_why"].toString().startsWith("not_given: "));
}

TEST(FindingsJson, TracesAnElementToItsRow) {
  const QJsonObject element =
      Made().written()["content"].toObject()["standard"].toObject()["elements"].toArray()[0].toObject();
  EXPECT_EQ(element["file"].toString(), "station.xlsx");
  EXPECT_EQ(element["table"].toString(), "standard");
  EXPECT_EQ(element["row"].toInt(), 4);
  EXPECT_TRUE(element["seen_s"].isNull());
  EXPECT_TRUE(element["seen_s_why"].toString().startsWith("not_seen: "));
}

TEST(FindingsJson, ListsAnExcludedRowWithReasonAndMarks) {
  Made made;
  docket::ExcludedRow row;
  row.origin = {0, docket::TableName::cycle_log, 17};
  row.marks.set(docket::Mark::defect);
  row.marks.set(docket::Mark::helped);
  made.findings.evidence.excluded.push_back(row);
  const QJsonObject excluded = made.written()["excluded"].toArray()[0].toObject();
  EXPECT_EQ(excluded["reason"].toString(), "mark");
  EXPECT_EQ(excluded["mark"].toString(), "helped;defect");
  EXPECT_EQ(excluded["row"].toInt(), 17);
}

TEST(FindingsJson, SaysSharesAsSharesAndPercentAsPercent) {
  Made made;
  made.findings.time.oee = 0.804;
  made.findings.time.allowance = 0.05;
  made.findings.time.allowance_where = docket::AllowanceWhere::in_cycle;
  const QJsonObject facts = made.written()["case"].toObject();
  EXPECT_DOUBLE_EQ(facts["oee_percent"].toDouble(), 80.4);
  EXPECT_DOUBLE_EQ(facts["allowance_percent"].toDouble(), 5);
  EXPECT_DOUBLE_EQ(facts["confidence_percent"].toDouble(), 95);
  EXPECT_EQ(facts["allowance_where"].toString(), "in_cycle");
}

QJsonObject written(const Findings& findings) {
  return QJsonDocument::fromJson(QByteArray::fromStdString(write_findings_json(docket::made_case(), findings)))
      .object();
}

TEST(FindingsJson, WritesBWithEveryEndOrItsReason) {
  const QJsonObject all = written(docket::made_findings_with_b(docket::AdaptationWord::still_learning));
  const QJsonObject b = all["adaptation"].toArray()[0].toObject();
  EXPECT_EQ(b["operator"].toString(), "B-2");
  EXPECT_EQ(b["finding"].toString(), "STILL LEARNING");
  EXPECT_EQ(b["decision_row"].toInt(), 5);
  EXPECT_EQ(b["plain_cycles"].toInt(), 77);
  EXPECT_DOUBLE_EQ(b["settled_low_s"].toDouble(), 50.45);
  EXPECT_DOUBLE_EQ(b["improvement_left_percent"].toObject()["high"].toDouble(), 13.65);
  EXPECT_DOUBLE_EQ(b["cycles_to_line_cycle"].toDouble(), 145);
  EXPECT_TRUE(b["cycles_to_line_cycle_high"].isNull());
  EXPECT_TRUE(b["cycles_to_line_cycle_high_why"].toString().startsWith("never: "));
  const QJsonObject power = b["models"].toArray()[1].toObject();
  EXPECT_EQ(power["model"].toString(), "power");
  EXPECT_TRUE(power["asymptote_s"].isNull());
  EXPECT_DOUBLE_EQ(power["parameters"].toObject()["b"].toDouble(), 0.2);
  EXPECT_EQ(all["adaptation_band"].toObject()["n"].toInt(), 6);
  EXPECT_EQ(all["bridge"].toArray()[0].toObject()["terms"].toArray().size(), 5);
  EXPECT_DOUBLE_EQ(all["bridge"].toArray()[0].toObject()["sum_s"].toDouble(), 6.95);
}

TEST(FindingsJson, WritesBreaksChecksAndWhatStandsBeside) {
  const QJsonObject all = written(docket::made_findings_with_b(docket::AdaptationWord::settled_above));
  const QJsonObject b = all["adaptation"].toArray()[0].toObject();
  ASSERT_EQ(b["segments"].toArray().size(), 2);
  const QJsonObject gap = b["segments"].toArray()[0].toObject(), training = b["segments"].toArray()[1].toObject();
  EXPECT_EQ(gap["kind"].toString(), "gap");
  EXPECT_EQ(gap["days"].toInt(), 21);
  EXPECT_EQ(gap["last_before"].toString(), "2024-10-05"); // 20001 days after 1970-01-01
  EXPECT_EQ(gap["first_after"].toString(), "2024-10-26");
  EXPECT_DOUBLE_EQ(gap["loss_percent"].toObject()["mean"].toDouble(), 8.4);
  EXPECT_NEAR(gap["loss_s"].toObject()["low"].toDouble(), 61.55 * 0.033, 1e-8); // level before, times the share
  EXPECT_TRUE(gap["loss_shown"].toBool());
  EXPECT_TRUE(gap["cycles_lost_high"].isNull());
  EXPECT_TRUE(gap["cycles_lost_high_why"].toString().startsWith("no_end: "));
  EXPECT_EQ(training["what"].toString(), "new driver");
  EXPECT_TRUE(training["loss_s"].isNull());
  EXPECT_TRUE(training["cycles_lost_why"].toString().startsWith("too_few_after: "));
  EXPECT_EQ(b["by_variant"].toArray()[1].toObject()["cycles"].toInt(), 32);
  EXPECT_EQ(b["models"].toArray().size(), 6);
  const QJsonObject two = b["models"].toArray()[5].toObject()["parameters"].toObject();
  EXPECT_DOUBLE_EQ(two["tau2_cycles"].toDouble(), 2250);
  EXPECT_DOUBLE_EQ(two["excess2_s"].toDouble(), 4.5);
  EXPECT_TRUE(b["models"].toArray()[4].toObject()["parameters"].toObject().contains("h_cycles"));
  EXPECT_DOUBLE_EQ(b["course"].toArray()[2].toObject()["counted_as"].toDouble(), 108.6);
  EXPECT_DOUBLE_EQ(b["late_slope"].toObject()["improvement_bound_percent"].toDouble(), 1.75);
  EXPECT_DOUBLE_EQ(b["outlook"].toObject()["settled_width_then_s"].toDouble(), 6.15);
  EXPECT_DOUBLE_EQ(b["p_within_with_helped"].toDouble(), 0.695);
  EXPECT_EQ(b["checks"].toObject()["extremes"].toArray()[0].toObject()["cycle"].toInt(), 133);
  EXPECT_DOUBLE_EQ(b["checks"].toObject()["robust"].toObject()["settled_s"].toDouble(), 53.26);
  EXPECT_EQ(b["others_above_limit"].toObject()["above"].toInt(), 2);
  EXPECT_EQ(b["others_above_limit"].toObject()["of"].toInt(), 5);
  EXPECT_EQ(b["borrowed"].toObject()["note"].toString(), "borrowed from 7 earlier learners, not this person's own");
  EXPECT_TRUE(b["borrowed"].toObject()["cycles_to_line_cycle_high"].isNull());
  EXPECT_EQ(all["earlier_learners"].toObject()["learners"].toInt(), 7);
  EXPECT_EQ(all["earlier_learners"].toObject()["levels"].toArray().size(), 3);
}

TEST(FindingsJson, UnderNotAssessableNowEveryValueIsNullWithOneReason) {
  const QJsonObject all = written(docket::made_findings_with_b_closed());
  const QJsonObject b = all["adaptation"].toArray()[0].toObject();
  EXPECT_EQ(b["finding"].toString(), "NOT ASSESSABLE NOW");
  for (const QString& name : b.keys()) {
    if (name == "operator" || name == "finding" || name == "reasons" || name == "would_decide") continue;
    if (name.endsWith("_why")) {
      EXPECT_EQ(b[name].toString(), b["settled_s_why"].toString()) << name.toStdString();
    } else {
      EXPECT_TRUE(b[name].isNull()) << name.toStdString();
    }
  }
  EXPECT_EQ(b["reasons"].toArray().size(), 1);
  EXPECT_TRUE(b["would_decide"].toArray().isEmpty());
  EXPECT_TRUE(all["bridge"].toArray()[0].toObject()["terms"].isNull());
  EXPECT_TRUE(all["adaptation_band"].isNull());
  EXPECT_TRUE(all["earlier_learners"].isNull());
}

TEST(FindingsJson, WritesWhereTheExcessLiesOrWhyNot) {
  Findings findings = docket::made_findings_with_b(docket::AdaptationWord::still_learning);
  docket::Excess excess;
  excess.op = 1;
  excess.elements.parts = {{0, 24, 4, 96, 1.12, 1.03, 1.22, Seconds{3.6}, Seconds{0.9}, Seconds{6.6}}};
  excess.elements.standing_out = 1;
  excess.elements.by_chance = 0.05;
  excess.variants.absent_why = "one_variant";
  findings.excesses = {excess};
  const QJsonObject row = written(findings)["excess"].toArray()[0].toObject();
  EXPECT_EQ(row["operator"].toString(), "B-2");
  const QJsonObject elements = row["elements"].toObject();
  EXPECT_EQ(elements["standing_out"].toInt(), 1);
  EXPECT_DOUBLE_EQ(elements["by_chance"].toDouble(), 0.05);
  const QJsonObject part = elements["parts"].toArray()[0].toObject();
  EXPECT_EQ(part["name"].toString(), "E1");
  EXPECT_EQ(part["others"].toInt(), 4);
  EXPECT_DOUBLE_EQ(part["ratio_low"].toDouble(), 1.03);
  EXPECT_DOUBLE_EQ(part["high_s"].toDouble(), 6.6);
  EXPECT_TRUE(row["variants"].isNull());
  EXPECT_TRUE(row["variants_why"].toString().startsWith("one_variant: "));
  EXPECT_FALSE(row.contains("elements_why"));
}

TEST(FindingsJson, NobodyAskedIsAnEmptyListAndSaysSo) {
  const QJsonObject all = written(docket::made_findings(docket::ContentWord::fits));
  EXPECT_TRUE(all["adaptation"].toArray().isEmpty());
  EXPECT_TRUE(all["adaptation_band_why"].toString().startsWith("not_asked: "));
}

TEST(FindingsJson, WritesTheSameBytesTwice) {
  EXPECT_EQ(write_findings_json(Made().input, Made().findings), write_findings_json(Made().input, Made().findings));
}

} // namespace
