#include "report/findings_json/json_tree.h"
#include "report/findings_json/json_values.h"

#include <gtest/gtest.h>

#include <QJsonDocument>
#include <QJsonObject>
#include <QString>
#include <cmath>
#include <cstdint>
#include <functional>
#include <limits>
#include <random>
#include <string>

using docket::JsonArray;
using docket::JsonObject;
using docket::JsonValue;
using docket::write_json;
using docket::findings_json::number;
using docket::findings_json::put;

namespace {

std::string written_alone(const JsonValue& value) { return write_json(JsonObject{{"v", value}}); }

// RFC 8259 section 7: quotation mark, reverse solidus and U+0000 to U+001F are escaped; other text stands as UTF-8.
TEST(JsonTree, EscapesWhatAStringMayNotHold) {
  EXPECT_EQ(written_alone("say \"no\" \\ a\nb\tc"), "{\n    \"v\": \"say \\\"no\\\" \\\\ a\\nb\\tc\"\n}\n");
  EXPECT_EQ(written_alone("\x01"), "{\n    \"v\": \"\\u0001\"\n}\n");
  EXPECT_EQ(written_alone("W\xC3\xA4rme"), "{\n    \"v\": \"W\xC3\xA4rme\"\n}\n");
}

// 200/3 = 66.6666666666... and 1/3000 = 0.000333333333..., to nine digits.
TEST(JsonTree, WritesNumbersToNineDigits) {
  EXPECT_EQ(written_alone(number(200.0 / 3)), "{\n    \"v\": 66.6666667\n}\n");
  EXPECT_EQ(written_alone(number(1.0 / 3000)), "{\n    \"v\": 0.000333333333\n}\n");
  EXPECT_EQ(written_alone(number(60.0)), "{\n    \"v\": 60\n}\n");
  EXPECT_EQ(written_alone(number(-0.0)), "{\n    \"v\": 0\n}\n");
}

// 2^53 + 1 is the first whole number that a double can not hold.
TEST(JsonTree, WritesACountInFull) {
  EXPECT_EQ(written_alone(number(std::int64_t{9007199254740993})), "{\n    \"v\": 9007199254740993\n}\n");
}

// RFC 8259 section 6: infinity and not-a-number are no numbers.
TEST(JsonTree, WritesNullWithItsReason) {
  JsonObject object;
  put(object, "df", number(std::numeric_limits<double>::infinity()), "infinite: no end");
  put(object, "k", number(std::numeric_limits<double>::quiet_NaN()), "none: no value");
  put(object, "n", number(std::int64_t{3}), "not_given: the input does not say");
  EXPECT_EQ(write_json(object), "{\n    \"df\": null,\n    \"df_why\": \"infinite: no end\",\n    \"k\": null,\n"
                                "    \"k_why\": \"none: no value\",\n    \"n\": 3\n}\n");
}

TEST(JsonTree, WritesKeysInOrderOfTheirLettersAndAListAsGiven) {
  JsonObject object{{"b", true}, {"B", 1}, {"a", "first"}};
  JsonArray list;
  list.append(2);
  list.append("1");
  list.append(JsonObject());
  object["Z"] = list;
  EXPECT_EQ(write_json(object),
            "{\n    \"B\": 1,\n    \"Z\": [\n        2,\n        \"1\",\n        {\n        }\n    ],\n"
            "    \"a\": \"first\",\n    \"b\": true\n}\n");
}

TEST(JsonTree, KeepsTheLaterValueOfAKeyGivenTwice) {
  JsonObject object{{"a", 1}, {"a", 2}};
  object["a"] = 3;
  EXPECT_EQ(object.members.size(), 1U);
  EXPECT_EQ(write_json(object), "{\n    \"a\": 3\n}\n");
}

TEST(JsonTree, WritesRowsThatAreMadeOnTheWayAsItWritesAList) {
  JsonArray list;
  for (int i = 0; i < 3; ++i) list.append(JsonObject{{"row", i}});
  const docket::JsonRows rows{[](const std::function<void(const JsonValue&)>& write) {
    for (int i = 0; i < 3; ++i) write(JsonObject{{"row", i}});
  }};
  EXPECT_EQ(written_alone(rows), written_alone(list));
  EXPECT_EQ(written_alone(docket::JsonRows()), written_alone(JsonArray()));
}

// Another writer of the same form, Qt's, gives the same text of the same values.
TEST(JsonTree, WritesAsAnotherWriterDoes) {
  const auto as_qt = [](const QJsonValue& value) {
    return QJsonDocument(QJsonObject{{"v", value}}).toJson(QJsonDocument::Indented).toStdString();
  };
  std::mt19937_64 draw(1);
  for (int i = 0; i < 20'000; ++i) {
    const double mantissa = static_cast<double>(draw() >> 11) * 0x1p-53 - 0.5;
    const double value = std::ldexp(mantissa, static_cast<int>(draw() % 140) - 70);
    ASSERT_EQ(written_alone(value), as_qt(value));
    ASSERT_EQ(written_alone(number(value)), as_qt(std::stod(QByteArray::number(value, 'g', 9).toStdString())));
  }
  for (const double value : {0.0, 1e15, 1e16, 1e17, 1e20, 1e-4, 1e-5, 9.5e-6, 123456.5, 1234567.5, -1e300})
    ASSERT_EQ(written_alone(value), as_qt(value));
  for (char32_t unit = 0; unit < 0x3000; ++unit) {
    const QString text = "a" + QString::fromUcs4(&unit, 1) + "b";
    ASSERT_EQ(written_alone(text.toStdString()), as_qt(text)) << static_cast<std::uint32_t>(unit);
  }
  const std::string broken = "a\xC3(\xFF z";
  ASSERT_EQ(written_alone(broken), as_qt(QString::fromStdString(broken)));
}

TEST(JsonTree, WritesAListAlone) { EXPECT_EQ(write_json(JsonArray()), "[\n]\n"); }

} // namespace
