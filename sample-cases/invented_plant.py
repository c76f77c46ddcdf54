"""How the invented plant works: shifts and breaks, batches of the planner, people at a paced station.

A cycle's time is  content of the variant x level of the person x the day x what is left to learn x noise,  the noise
running on from cycle to cycle. The person drifts in the work zone: late after a heavy unit, early after a light one.
"""

import datetime
import math
from dataclasses import dataclass, field

BREAK_MINUTES = 12
SHIFT_STARTS = {"early": datetime.time(6, 0), "late": datetime.time(14, 0)}
TURNS = [(0, 150), (162, 300), (312, 480)]  # minutes after the start of the shift; the breaks lie between


@dataclass
class Person:
    code: str
    level: float            # own pace against the plant's level, 1 = the same
    left_to_learn: float = 0.0
    learned_in: float = 1.0  # cycles until a third is left
    cycles: int = 0


@dataclass
class Station:
    name: str
    line_cycle: float
    takt: float
    early: float
    late: float
    content: dict            # seconds by variant
    level: float             # what the plant's people take against the standard
    spread: float = 0.058
    carried_on: float = 0.25
    help_when_late: float = 0.35  # share of late units that get help; for the others the line stands
    stops_elsewhere: float = 0.05  # a unit
    help_unasked: float = 0.004    # share of cycles in which somebody lends a hand though the unit is in time
    seconds_noted: float = 0.8     # share of helped cycles for which somebody wrote down the seconds
    helped_only: tuple = ()        # the people who get help; nobody named: everybody
    people: dict = field(default_factory=dict)


def content_of(standard, variants):
    """Seconds by variant from the rows of the standard."""
    result = {}
    for variant in variants:
        options = set((variant.get("options") or "").split(";"))
        total = 0.0
        for row in standard:
            asked = row.get("option")
            if asked is None:
                carried = True
            elif asked.startswith("not "):
                carried = asked[4:] not in options
            else:
                carried = bool(options & set(asked.split(";")))
            if carried:
                total += row["time_s"] * (row.get("times_per_unit") or 1)
        result[variant["variant"]] = total
    return result


def plan_batches(rng, shares, sizes, units):
    """The planner's order for one shift: batches, the variant furthest behind its share next."""
    order, built, last = [], dict.fromkeys(shares, 0), None
    while len(order) < units:
        behind = {v: shares[v] * (len(order) + 8) - built[v] + rng.gauss(0, 3) for v in shares if v != last}
        last = max(behind, key=behind.get)
        size = min(rng.randint(*sizes[last]), units - len(order))
        order += [last] * size
        built[last] += size
    return order


def at(day, shift, minutes):
    return datetime.datetime.combine(day, SHIFT_STARTS[shift]) + datetime.timedelta(minutes=minutes)


def to_tenth(seconds):
    return round(seconds + 1e-9, 1)


def run_shift(rng, station, day, shift, order, turns, first_unit, level_at=None):
    """One shift of work. `turns` are (from minute, to minute, code). Yields rows of the cycle log.

    `level_at(start, variant)` is a further factor, where something at the station is not as it should be.
    """
    rows, unit = [], first_unit
    queue = list(order)
    day_effect = {}
    for begin, end, code in turns:
        person = station.people[code]
        if code not in day_effect:
            day_effect[code] = math.exp(rng.gauss(0, 0.005))
        noise = rng.gauss(0, station.spread)
        arrival = at(day, shift, begin) + datetime.timedelta(seconds=rng.uniform(5, 40))
        stop = at(day, shift, end)
        offset, in_turn = 0.0, 0
        while queue and arrival + datetime.timedelta(seconds=station.line_cycle + offset) < stop:
            variant = queue.pop(0)
            unit += 1 if rng.random() > 0.004 else 2
            start = arrival + datetime.timedelta(seconds=offset)
            noise = station.carried_on * noise + math.sqrt(1 - station.carried_on**2) * rng.gauss(0, station.spread)
            learning = 1 + person.left_to_learn * math.exp(-person.cycles / person.learned_in)
            warming_up = 1 + 0.02 * math.exp(-in_turn / 6)
            work = station.content[variant] * station.level * person.level * learning * warming_up
            work *= day_effect[code] * math.exp(noise - station.spread**2 / 2)
            if level_at:
                work *= level_at(start, variant)
            person.cycles += 1
            in_turn += 1
            helped = not station.helped_only or code in station.helped_only
            row, offset, stopped = _pass_unit(rng, station, work, offset, helped)
            row.update(started_at=start.replace(microsecond=0), unit=unit, variant=variant, shift=shift, operator=code,
                       station=station.name, work=work)
            rows.append(row)
            arrival += datetime.timedelta(seconds=station.line_cycle + stopped)
            if rng.random() < station.stops_elsewhere:
                arrival += datetime.timedelta(seconds=min(rng.expovariate(1 / 200.0), 1500))
                offset = min(offset, 0.0)
    return rows


def _pass_unit(rng, station, work, offset, helped):
    """What happens to one unit: the log row, the offset of the next, and seconds for which the line stood."""
    row = {"cycle_s": to_tenth(work)}
    stopped = 0.0
    finish = offset + work - station.line_cycle
    over = finish - station.late
    chance = rng.random()
    if helped and over > max(0.5, 0.01 * station.line_cycle) and chance < station.help_when_late:
        seconds = min(over + rng.uniform(0, 2), 0.4 * work)
        row["cycle_s"] = to_tenth(work - seconds)
        if rng.random() < 0.12:
            row["mark"] = "cut_short"
        else:
            row["mark"] = "helped"
            if rng.random() < station.seconds_noted:
                row["helped_s"] = round(2 * seconds) / 2
        finish = station.late
    elif over > 0:  # the line stands until the unit is done
        stopped = over
        finish = station.late
    elif finish < -station.early:
        if rng.random() < 0.4:
            wait = to_tenth(-station.early - finish)
            row["wait_s"] = wait
            row["cycle_s"] = to_tenth(row["cycle_s"] + wait)
        finish = -station.early
    if "mark" not in row:
        _odd_event(rng, row, station.help_unasked)
        added = row["cycle_s"] - work - row.get("wait_s", 0)
        if row.get("mark") not in (None, "instrument") and added > 1:  # the line stands for that too
            stopped += added
    return row, finish, stopped


def _odd_event(rng, row, help_unasked):
    """Now and then something that makes a cycle no plain one."""
    events = [("helped", help_unasked), ("starved", 0.006), ("blocked", 0.004), ("foreign", 0.003), ("defect", 0.004),
              ("skipped", 0.0012), ("instrument", 0.0012)]
    chance = rng.random()
    for mark, share in events:
        if chance >= share:
            chance -= share
            continue
        row["mark"] = mark
        cycle = row["cycle_s"]
        if mark == "helped":
            seconds = rng.uniform(4, 12)
            row["cycle_s"] = to_tenth(max(cycle - seconds, 0.5 * cycle))
            if rng.random() < 0.6:
                row["helped_s"] = round(2 * seconds) / 2
        elif mark in ("starved", "blocked"):
            row["cycle_s"] = to_tenth(cycle + rng.expovariate(1 / 35.0))
        elif mark == "foreign":
            row["cycle_s"] = to_tenth(cycle + rng.uniform(15, 70))
        elif mark == "defect":
            row["cycle_s"] = to_tenth(cycle + rng.uniform(5, 60))
        elif mark == "skipped":
            row["cycle_s"] = to_tenth(cycle - rng.uniform(2, 6))
        else:
            row["cycle_s"] = to_tenth(rng.uniform(1, 6))
            if row.get("wait_s", 0) >= row["cycle_s"]:
                del row["wait_s"]
        return


def split_into_elements(rng, standard, options, work):
    """A cycle as element readings: shares of the standard, each with its own noise, that add up to the cycle."""
    carried = []
    for row in standard:
        asked = row.get("option")
        if asked is None or (asked.startswith("not ") and asked[4:] not in options) or \
                (not asked.startswith("not ") and set(asked.split(";")) & options):
            carried.append(row)
    raw = [row["time_s"] * (row.get("times_per_unit") or 1) * math.exp(rng.gauss(0, 0.12)) for row in carried]
    scale = work / sum(raw)
    return [(row["element"], to_tenth(max(0.3, seconds * scale))) for row, seconds in zip(carried, raw)]


def planned_rating(rng, true_pace, judged=1.0):
    """What an observer writes down: pace as judged, in steps of five."""
    return int(round(100 * true_pace * judged * math.exp(rng.gauss(0, 0.015)) / 5) * 5)
