#!/usr/bin/python3 -B
"""Question A of every sample case computed again, from the ratios of people to the chances, with nothing of ours: the
levels, what is not sure of them, weights, margin, P, P_seq and the share able from findings.json's own inputs; and the page
prints what comes out. Student's t and the normal distribution are computed here and tried on published values first.

Formulas: JCGM 100:2008, 5.1.2, 5.2, G.4.1; JCGM 106:2012, 7.2; generalised least squares (Aitken 1935) by elimination."""
import html
import json
import math
import re
import statistics
import sys
import tempfile
from pathlib import Path

from inputs import brief, sample_cases

wrong = []


def near(what, got, wanted, share=2e-6, floor=2e-9):
    """findings.json carries nine digits; what is made from several of them loses some."""
    if not math.isclose(got, wanted, rel_tol=share, abs_tol=floor):
        wrong.append(f"{what}: computed {got!r}, given {wanted!r}")


def incomplete_beta(x, a, b):
    """I_x(a, b) by its continued fraction (Abramowitz & Stegun 26.5.8), evaluated forwards (Lentz)."""
    if x <= 0 or x >= 1:
        return float(x >= 1)
    if x > (a + 1) / (a + b + 2):
        return 1 - incomplete_beta(1 - x, b, a)
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)) / a
    c, d = 1.0, 1 / (1 - (a + b) * x / (a + 1))
    total = d
    for m in range(1, 2000):
        for step in (m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
                     -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))):
            d = 1 / (1 + step * d)
            c = 1 + step / c
            total *= c * d
        if abs(c * d - 1) < 1e-15:
            break
    return front * total


NORMAL = statistics.NormalDist()


def t_cdf(x, df):
    """Student's t (Abramowitz & Stegun 26.7.1); from a million degrees of freedom on, the normal."""
    if df > 1e6:
        return NORMAL.cdf(x)
    tail = incomplete_beta(df / (df + x * x), df / 2, 0.5) / 2
    return 1 - tail if x > 0 else tail


def t_quantile(p, df):
    low, high = -1e4, 1e4
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if t_cdf(middle, df) < p else (low, middle)
    return (low + high) / 2


def try_distributions():
    # Closed forms: 1, 2 and 4 degrees of freedom (Abramowitz & Stegun 26.7.3, 26.7.4); quantiles: their table 26.10.
    for x in (-3.0, -0.4, 0.7, 2.5):
        near("t, 1", t_cdf(x, 1), 0.5 + math.atan(x) / math.pi, 1e-12)
        near("t, 2", t_cdf(x, 2), 0.5 + x / (2 * math.sqrt(2 + x * x)), 1e-12)
        sine = x / math.sqrt(4 + x * x)
        near("t, 4", t_cdf(x, 4), 0.5 + sine / 2 * (1 + (1 - sine * sine) / 2), 1e-12)
    for df, quantile in ((1, 12.706), (5, 2.571), (10, 2.228), (30, 2.042), (120, 1.980)):
        near("quantile of t", t_quantile(0.975, df), quantile, 0, 0.0006)
    near("t, many", t_cdf(1.3, 9e5), NORMAL.cdf(1.3), 1e-6)


def solve(matrix, right):
    """Gauss, with the largest pivot."""
    rows = [list(row) + [value] for row, value in zip(matrix, right)]
    for i in range(len(rows)):
        pivot = max(range(i, len(rows)), key=lambda r: abs(rows[r][i]))
        rows[i], rows[pivot] = rows[pivot], rows[i]
        for r in range(i + 1, len(rows)):
            factor = rows[r][i] / rows[i][i]
            rows[r] = [a - factor * b for a, b in zip(rows[r], rows[i])]
    out = [0.0] * len(rows)
    for i in reversed(range(len(rows))):
        out[i] = (rows[i][-1] - sum(rows[i][j] * out[j] for j in range(i + 1, len(rows)))) / rows[i][i]
    return out


def weigh(covariance):
    """Weights of least variance that add up to 1; a line with one below 0 goes out, the lowest first."""
    used = list(range(len(covariance)))
    while True:
        raw = solve([[covariance[i][j] for j in used] for i in used], [1.0] * len(used))
        weights = [w / sum(raw) for w in raw]
        if min(weights) >= 0:
            break
        used.pop(weights.index(min(weights)))
    return [weights[used.index(i)] if i in used else 0.0 for i in range(len(covariance))]


def root(*parts):
    return math.sqrt(sum(p * p for p in parts))


def setting(found, key):
    """The settings are given as they were entered: a percentage."""
    return float(next(s["value"] for s in found["settings"] if s["key"] == key)) / 100


def levels(found):
    """z, u, se and degrees of freedom of each line, by name, and what pairs share."""
    a = found["content"]
    limit, standard = a["limit_s"], a["standard"]
    mean = sum(v["share"] * v["time_s"] for v in standard["variants"])
    near("S", mean, standard["mean_s"])
    elements = math.sqrt(sum((e["share_of_units"] * e["times_per_unit"] * e["u_s"]) ** 2 for e in standard["elements"]))
    near("u of the elements", elements, standard["u_random_s"])
    lines = {"standard": (math.log(mean / limit), root(elements / mean, setting(found, "standard_uncertainty_percent")), 0,
                          math.inf)}
    near("u1", lines["standard"][1], standard["u_ln"])
    between = setting(found, "between_people_percent")
    settled, shared = a["settled"], {}
    if settled:
        logs = [math.log(p["ratio"]) for p in settled["per_operator"] if p["status"] == "settled"]
        m = len(logs)
        time = mean * math.exp(statistics.fmean(logs))
        spread = statistics.stdev(logs) if m > 1 else 0
        se, df = (spread / math.sqrt(m), m - 1) if m > 1 else (settled["se_ln"], settled["df"])
        u = root(se, between / math.sqrt(m) if m <= 2 else 0, settled["u_bridged"],
                 setting(found, "pace_uncertainty_percent"))
        near("T2", time, settled["mean_s"])
        near("s of T2", spread, settled["sd_of_operators"], 2e-5)
        near("u2", u, settled["u_ln"])
        lines["settled"] = (math.log(time / limit), u, se, df)
    restudy = a["restudy"]
    if restudy:
        ratios = [p["normal_s"] / mean for p in restudy["per_operator"]]
        m = len(ratios)
        normal = statistics.fmean(ratios) * mean
        near("T3 before the factor", normal, restudy["normal_s"])
        spread = statistics.stdev(map(math.log, ratios)) if m > 1 else 0
        se, df = (spread / math.sqrt(m), m - 1) if m > 1 else (restudy["se_ln"], restudy["df"])
        rating = setting(found, "rating_uncertainty_percent")
        u = root(se, between / math.sqrt(m) if m <= 2 else 0, rating)
        near("u3", u, restudy["u_ln"])
        factor = restudy["mean_s"] / restudy["normal_s"]
        lines["restudy"] = (math.log(normal * factor / limit), u, se, df)
        given = a["combined"]["shared"]
        if given["standard_restudy"]:
            shared["standard", "restudy"] = setting(found, "standard_uncertainty_percent") * rating
            near("shared by standard and restudy", shared["standard", "restudy"], given["standard_restudy"])
        if settled:
            both = {p["operator"] for p in settled["per_operator"] if p["status"] == "settled"} & \
                {p["operator"] for p in restudy["per_operator"]}
            near("people in both lines", len(both), a["combined"]["settled_and_restudied"])
            shared["settled", "restudy"] = len(both) * settled["sd_of_operators"] ** 2 / (settled["operators"] * m)
            near("shared by settled and restudy", shared["settled", "restudy"], given["settled_restudy"])
    return lines, shared


def combine(lines, shared):
    names = list(lines)
    v = [[lines[i][1] ** 2 if i == j else shared.get((i, j), shared.get((j, i), 0)) for j in names] for i in names]
    w = weigh(v)
    z = sum(weight * lines[name][0] for weight, name in zip(w, names))
    u = math.sqrt(sum(w[i] * w[j] * v[i][j] for i in range(len(w)) for j in range(len(w))))
    parts = sum((weight * lines[n][2]) ** 4 / lines[n][3] for weight, n in zip(w, names) if lines[n][2])
    return dict(zip(names, w)), z, u, max(1.0, u ** 4 / parts) if parts else math.inf


def again(found):
    """What the page should say, from the inputs of the lines on."""
    a = found["content"]
    given, limit = a["combined"], a["limit_s"]
    lines, shared = levels(found)
    weights, z, u, df = combine(lines, shared)
    for name, weight in weights.items():
        near(f"weight of {name}", weight, given["weights"][name], 1e-5)
    near("z", z, given["ln_ratio"], 1e-5)
    near("u", u, given["u"])
    if given["df"] is None or not math.isfinite(df):
        near("no end of degrees of freedom", float(given["df"] is None), float(not math.isfinite(df)))
    else:
        near("nu", df, given["df"], 1e-4)
    confidence = setting(found, "confidence_percent")
    quantile = t_quantile(0.5 + confidence / 2, df)
    time = limit * math.exp(z)
    margins = [limit - time, limit - time * math.exp(quantile * u), limit - time * math.exp(-quantile * u)]
    for margin, key in zip(margins, ("margin_s", "margin_low_s", "margin_high_s")):
        near(key, margin, given[key], 1e-5, 1e-5)
    out = {"nu": df, "margins": margins, "P": t_cdf(-z / u, df)}
    near("P", out["P"], given["p_fits"], 1e-5, 1e-9)
    if given["ln_k_star"] is not None:
        out["P_seq"] = t_cdf(given["ln_k_star"] / u, df)
        near("P_seq", out["P_seq"], a["sequence"]["p"], 1e-5, 1e-9)
        near("k*", given["ln_k_star"], math.log(min((s["p"], s["k_star"]) for s in (
            a["sequence"]["given"], a["sequence"]["drawn"]) if s)[1]), 1e-5, 1e-8)
    if a["settled"] and a["settled"]["share_able"]["p_able"] is not None:
        able, s, m = a["settled"]["share_able"], a["settled"]["sd_of_operators"], a["settled"]["operators"]
        q = NORMAL.inv_cdf(setting(found, "able_percent"))
        spread = abs(q) * s / math.sqrt(2 * (m - 1))
        both = root(u, spread)
        df_able = both ** 4 / ((u ** 4 / df if math.isfinite(df) else 0) + spread ** 4 / (m - 1))
        out["P_able"] = t_cdf((-z - q * s) / both, df_able)
        near("share able", NORMAL.cdf(-z / s), able["estimate"], 1e-5)
        near("P_able", out["P_able"], able["p_able"], 1e-5, 1e-9)
        zone = given["ln_k_star"] if given["ln_k_star"] is not None else -z
        out["P_zone"] = t_cdf((zone - q * s) / both, df_able)
        near("P_zone", out["P_zone"], able["p_zone"], 1e-5, 1e-9)
    for view in given["decision_views"]:
        if view["what"] == "without_leaning" and view["p"] is not None:
            _, z2, u2, df2 = combine({n: l for n, l in lines.items() if n not in view["without"]}, shared)
            near("P without " + str(view["without"]), t_cdf(-z2 / u2, df2), view["p"], 1e-5, 1e-9)
            if view["p_seq"] is not None:
                moved = given["ln_k_star"] + z - z2
                near("P_seq without " + str(view["without"]), t_cdf(moved / u2, df2), view["p_seq"], 1e-5, 1e-9)
    return out


def as_chance(p):
    if p > 0.999 or p < 0.001:
        return "more than 99.9 %" if p > 0.5 else "less than 0.1 %"
    return f"{100 * p:.{1 if p > 0.9 or p < 0.1 else 0}f} %"


def step_of(page, title):
    """The text of a numbered step, minus signs as in a program."""
    text = re.search(rf"<li><strong>{re.escape(title)}\. </strong>(.*?)</li>", page, re.S)
    if not text:
        wrong.append(f"no step is called {title}")
        return ""
    return html.unescape(re.sub(r"<[^>]*>", "", text[1])).replace("\u2212", "-").replace("\u00a0", " ")


def printed(what, text, *patterns):
    for pattern in patterns:
        if pattern not in text:
            wrong.append(f"{what}: the page does not print {pattern}: {text}")


def look_at_page(page, out):
    printed("nu", step_of(page, "All lines together"),
            f"= {out['nu']:.1f} (at least 1)" if math.isfinite(out["nu"]) else "without end")
    printed("margin", step_of(page, "Margin and its range"), *(f"= {margin:.3f} s" for margin in out["margins"]))
    printed("P", step_of(page, "Chance that the mean is within, P"), f") = {as_chance(out['P'])}")
    if "P_seq" in out:
        printed("P_seq", step_of(page, "Chance that the order of units holds, P_seq"), f") = {as_chance(out['P_seq'])}")
    if "P_able" in out:
        share = step_of(page, "Chance that enough people are able")
        for name in ("P_able", "P_zone"):
            text = share[share.index(name):]
            printed(name, text[:text.index("%")] + "%", as_chance(out[name]))


def main():
    try_distributions()
    with tempfile.TemporaryDirectory() as place:
        for name, book in sample_cases().items():
            folder = Path(brief(book, Path(place) / name))
            before = len(wrong)
            look_at_page((folder / "casefile.html").read_text(), again(json.loads((folder / "findings.json").read_text())))
            wrong[before:] = [f"{name}: {line}" for line in wrong[before:]]
    print("\n".join(wrong) or "question A comes out the same")
    sys.exit(1 if wrong else 0)


main()
