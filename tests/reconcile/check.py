"""Reconcile's figures computed a second time, and planted faults looked for: every one found, nothing else accused.

Run by ./run beside this file. Plays invented months through the real core (one with all faults, one for each fault
alone, several with none), exports each as JSON and works every figure out again from the exported quantities and the
parts of their uncertainty, with numpy and scipy. Ends with 1 when a figure differs by more than 1e-9 of its size (1e-7
for quantiles of distributions) or when a month accuses otherwise than it was planted. FARSIDING_SEED=N repeats a run.
"""

import csv
import io
import json
import math
import os
import re
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime, time as clock_time, timedelta, timezone
from decimal import Decimal
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np
import openpyxl
from scipy import stats

DEMO, FARSIDING = (str(Path(program).resolve()) for program in sys.argv[1:3])
MONTH = "2026-10"
seed = int(os.environ.get("FARSIDING_SEED") or time.time_ns() % 10**6)
print(f"FARSIDING_SEED={seed}")
failures = 0
checked = 0

# An invented tariff with every rule in it.
SETTINGS = {
    "tariffs": {
        "": {
            "name": "invented", "from": ["constructive_placement", "actual_placement"],
            "until": ["carrier_told", "released"], "starts_at": "07:00", "free_hours": 24, "weekends_count": False,
            "holidays": ["2026-10-12"], "holidays_count": False, "all_days_once_over": False, "per_day": "137.50",
            "currency": "invented dollars",
        },
        "Tallow Spur (invented)": {
            "name": "invented, plain", "from": ["actual_placement"], "until": ["carrier_told"], "starts_at": "",
            "free_hours": 48, "weekends_count": True, "holidays": [], "holidays_count": True,
            "all_days_once_over": True, "per_day": "90", "currency": "invented dollars",
            "credits_and_debits": True, "credits_a_car": 1,
        },
    },
    # Invented contracts with those who supply the cars.
    "detention_tariffs": {
        "": {
            "name": "invented, of all", "from": ["shipped", "notice"], "until": ["pulled", "carrier_told"],
            "first_day_counts": True, "last_day_counts": True, "free_days": 1, "credit_days": 1, "per_day": "41.75",
            "currency": "invented dollars",
        },
        "far cavern (invented)": {
            "name": "invented, far", "from": ["actual_placement"], "until": ["pulled"], "first_day_counts": False,
            "last_day_counts": True, "free_days": 0, "credit_days": 0, "per_day": "30", "currency": "invented dollars",
        },
    },
}
KINDS = {
    "biased_gauge": "biased_gauge", "duplicated_seal": "seal_on_two_cars", "lost_entry": "lost_entry",
    "swapped_number": "near_number", "overfilled": "overfilled",
}

# What a workbook says in words where CSV has the core's own code, as the catalogue of English has it.
WORDS = {
    (family, code): text
    for catalogue in sorted(Path(__file__).parents[2].joinpath("core/words/locales/en-US").glob("*.ftl"))
    for family, code, text in re.findall(r"(?m)^(sheet_cell|office-event|billed_by)-(\S+) = (.*)$", catalogue.read_text("utf-8"))
}


def in_words(code):
    """The texts that stand for a code in a workbook's cell."""
    return {text for (_, known), text in WORDS.items() if known == code.replace(" ", "_")}


def fail(words):
    global failures
    failures += 1
    print(f"FAILED {words}")


def same(what, product, here, tolerance=1e-9):
    global checked
    checked += 1
    if not math.isclose(product, here, rel_tol=tolerance, abs_tol=1e-6):
        fail(f"{what}: the product says {product!r}, numpy and scipy {here!r}")


def shared_and_alone(cars):
    """Standard uncertainty of a sum: errors of one key add, the others in squares."""
    keys, alone = {}, []
    for parts in cars:
        for part in parts:
            if part["key"]:
                keys.setdefault(part["key"], []).append(part["standard"])
            else:
                alone.append(part["standard"])
    shared = np.sqrt(np.sum(np.square([np.sum(values) for values in keys.values()]))) if keys else 0.0
    return float(shared), float(np.sqrt(np.sum(np.square(alone)))) if alone else 0.0


def compared(car, kind, settings):
    """A car's difference and its parts, from the quantities: liquid against liquid, and a difference of weights against
    everything that came, in pounds, less the heel, which is on neither side."""
    scale = car["billed_by"] == "scale"
    weighed = car["billed"]["unit"] != "gal"
    density = car["found"]["density"]
    pounds = car["found"]["pounds_per_gallon"] if weighed else 1.0
    rows = [car["found"]] if kind == "found" else [car["received"]]
    signs = [1]
    if scale and kind == "found":
        rows, signs = rows + [car["vapour"], car["left"]], [1, 1, -1]
    elif kind == "received":
        # The vapor that came above the liquid passes no liquid meter; a scale has weighed it.
        rows, signs = rows + [car["vapour"] if scale else car["left"]], [1, 1]
    other = sum(sign * row["value"] * pounds for sign, row in zip(signs, rows)) / pounds
    billed = car["billed"]["value"] / pounds
    parts = [part for row in rows for part in row["parts"]]
    if weighed or scale:
        key = density["key"] if weighed else "density/" + car["shipper"].lower()
        parts.append({"key": key, "standard": density["standard"] * billed})
    share = billed * settings["billed_percent"] / 100 / 2
    parts = parts + [{"key": "billed/" + car["shipper"].lower(), "standard": share}]
    return other - billed, billed, other, parts


def check_cars(report):
    bases = {car["billed_by"] for car in report["cars"]}
    if bases != {"table", "meter", "scale"}:
        fail(f"the month has bills by {bases}: the check would not notice a basis")
    for car in report["cars"]:
        for comparison in car["comparisons"]:
            difference, billed, other, parts = compared(car, comparison["compared"], report["settings"])
            standard = math.hypot(*shared_and_alone([parts]))
            what = f"{car['car']} {comparison['compared']}"
            same(what + " difference", comparison["difference"], difference)
            same(what + " percent", comparison["percent"], 100 * difference / billed)
            same(what + " standard", comparison["standard"], standard)
            same(what + " ±", comparison["plus_minus"], 2 * standard)
            if comparison["within"] != (abs(difference) <= 2 * standard):
                fail(what + " within")


def groups(report, by, kind):
    found = {}
    for at, car in enumerate(report["cars"]):
        if not any(c["compared"] == kind for c in car["comparisons"]):
            continue
        if by == "gauge":
            name = (car["site"], (car["found"] if kind == "found" else car["received"])["instrument"].upper())
        elif by == "month":
            name = report["selection"]["month"]
        else:
            name = car[by]
        found.setdefault(name, []).append(at)
    return found


def check_totals(report):
    for total in report["totals"]:
        places = groups(report, total["by"], total["compared"])[total["name"]]
        rows = [compared(report["cars"][at], total["compared"], report["settings"]) for at in places]
        shared, alone = shared_and_alone([row[3] for row in rows])
        what = f"total of {total['by']} {total['name']} {total['compared']}"
        same(what, total["difference"], float(np.sum([row[0] for row in rows])))
        same(what + " ±", total["plus_minus"], 2 * math.hypot(shared, alone))
        same(what + " shared", total["shared"], shared)


def check_biases(report):
    settings = report["settings"]
    for bias in report["biases"]:
        name = (bias["site"], bias["name"]) if bias["by"] == "gauge" else bias["name"]
        places = groups(report, bias["by"], bias["compared"])[name]
        rows = [compared(report["cars"][at], bias["compared"], settings) for at in places]
        x = np.array([row[0] for row in rows])
        what = f"bias of {bias['by']} {bias['name']} {bias['compared']}"
        same(what + " mean", bias["mean"], float(np.mean(x)))
        same(what + " error", bias["error"], float(stats.sem(x)))
        low, high = stats.t.interval(0.95, len(x) - 1, loc=np.mean(x), scale=stats.sem(x))
        same(what + " low", bias["low"], float(low), 1e-7)
        same(what + " high", bias["high"], float(high), 1e-7)
        shared, alone = shared_and_alone([row[3] for row in rows])
        same(what + " shared", bias["shared"], shared / len(x))
        if bias["cusum"]:
            check_cusum(what, bias["cusum"], x, shared, alone, settings)


def check_cusum(what, chart, x, shared, alone, settings):
    n = len(x)
    sigma = max(float(np.mean(np.abs(np.diff(x)))) / 1.128, alone / math.sqrt(n))
    reference = 2 * shared / n + settings["cusum_reference"] * sigma
    interval = settings["cusum_interval"] * sigma
    same(what + " σ", chart["sigma"], sigma)
    same(what + " K", chart["reference"], reference)
    same(what + " H", chart["interval"], interval)
    # The sums as the largest climb since the last restart: another way to the same recursion.
    signals, since = [], 0
    for at in range(n):
        steps = x[since : at + 1]
        climbs = [0.0] + [float(np.sum(steps[k:] - reference)) for k in range(len(steps))]
        falls = [0.0] + [float(np.sum(-steps[k:] - reference)) for k in range(len(steps))]
        upper, lower = max(climbs), max(falls)
        same(f"{what} upper {at}", chart["points"][at]["upper"], upper, 1e-8)
        same(f"{what} lower {at}", chart["points"][at]["lower"], lower, 1e-8)
        if upper > interval or lower > interval:
            signals.append(at)
            since = at + 1
    if signals != chart["signals"]:
        fail(f"{what} signals: {chart['signals']} against {signals}")


def check_demurrage(report):
    """Minute by minute on the site's wall clock."""
    charged, accounts = 0, {}
    for car in report["cars"]:
        tariff = SETTINGS["tariffs"].get(car["site"], SETTINGS["tariffs"][""])
        zone = ZoneInfo(car["zone"])
        events = dict(car["clock"], released=car["released"])
        begin = next(events[name] for name in tariff["from"] if name in events)
        end = next(events[name] for name in tariff["until"] if events.get(name) is not None)
        start = datetime.fromtimestamp(begin / 1000, timezone.utc).astimezone(zone)
        if tariff["starts_at"]:
            at = clock_time.fromisoformat(tariff["starts_at"])
            morning = datetime.combine(start.date(), at, zone)
            start = morning if morning >= start else datetime.combine(start.date() + timedelta(days=1), at, zone)
        stop = datetime.fromtimestamp(end / 1000, timezone.utc).astimezone(zone)

        def counts(moment):
            weekend = moment.weekday() >= 5 and not tariff["weekends_count"]
            holiday = moment.date().isoformat() in tariff["holidays"] and not tariff["holidays_count"]
            return not weekend and not holiday

        moment, free, over = start, tariff["free_hours"] * 60, 0
        while moment < stop:
            if free > 0:
                free -= counts(moment)
            elif tariff["all_days_once_over"] or counts(moment):
                over += 1
            moment += timedelta(minutes=1)
        clock = car["demurrage"]
        days = -(-over // 1440)
        charged += days
        same(f"{car['car']} hours over", clock["over_hours"], over / 60)
        if tariff.get("credits_and_debits"):
            account = accounts.setdefault(car["site"], [0, 0, tariff])
            account[0] += days
            account[1] += tariff["credits_a_car"]
            right = clock["charge"] == ""
        else:
            right = Decimal(clock["charge"]) == days * Decimal(tariff["per_day"])
        if clock["days"] != days or not right:
            fail(f"{car['car']}: {clock['days']} days, {clock['charge']} against {days}")
    told = {one["site"]: (one["debits"], one["credits"], Decimal(one["charge"])) for one in report["accounts"]}
    here = {site: (debits, credits, max(0, debits - credits) * Decimal(tariff["per_day"]))
            for site, (debits, credits, tariff) in accounts.items()}
    if told != here:
        fail(f"accounts of credits and debits: {told} against {here}")
    if charged == 0:
        fail("no car of the month was charged: the check would not notice anything")


def check_detention(report):
    """Day by day on the calendar of the site."""
    charged = missing = 0
    for car in report["cars"]:
        tariffs = SETTINGS["detention_tariffs"]
        tariff = tariffs.get(car["shipper"].lower(), tariffs[""])
        zone = ZoneInfo(car["zone"])
        events = {name: datetime.fromtimestamp(at / 1000, timezone.utc).astimezone(zone).date()
                  for name, at in dict(car["clock"], released=car["released"]).items() if at is not None}
        begin = next((events[name] for name in tariff["from"] if name in events), None)
        end = next((events[name] for name in tariff["until"] if name in events), None)
        clock = car["detention"]
        if begin is None or end is None:
            missing += 1
            if clock is not None or not car["no_detention"]:
                fail(f"{car['car']}: a clock without its events: {clock}")
            continue
        days, day = 0, begin
        while day <= end:
            days += (day != begin or tariff["first_day_counts"]) and (day != end or tariff["last_day_counts"])
            day += timedelta(days=1)
        if begin == end:
            days = int(tariff["first_day_counts"] or tariff["last_day_counts"])
        over = max(0, days - tariff["free_days"] - tariff["credit_days"])
        charged += over
        if (clock["away"], clock["days"]) != (days, over) or Decimal(clock["charge"]) != over * Decimal(tariff["per_day"]):
            fail(f"{car['car']}: away {clock['away']}, {clock['days']} days, {clock['charge']} against {days}, {over}")
    if charged == 0 or missing == 0:
        fail("no car was charged, or none lacked an event: the check would not notice anything")


# The tables in the order of the workbook's sheets, whose names are in words.
TABLES = ["cars", "totals", "bias", "cusum", "demurrage", "demurrage_accounts", "detention", "findings", "notes"]


def exports_of(folder):
    """The other forms of the same report: the workbook, and each of its tables as CSV."""

    def export(*words):
        command = [FARSIDING, "export", "reconcile", "--data", f"{folder}/office", "--month", MONTH,
                   "--settings", f"{folder}/settings.json", *words]
        return subprocess.run(command, capture_output=True, check=True).stdout

    book = openpyxl.load_workbook(io.BytesIO(export("--format", "xlsx")))
    if len(book.worksheets) != len(TABLES):
        fail(f"the workbook has {len(book.worksheets)} sheets")
    return [(name, sheet, export("--format", "csv", "--table", name).decode("utf-8"))
            for name, sheet in zip(TABLES, book.worksheets)]


def check_exports(exports, report):
    """Each table as CSV and as a sheet, opened by libraries of everybody's: the same cells, and the JSON's figures."""
    rows_of = {}
    for name, sheet, text in exports:
        as_csv = list(csv.reader(io.StringIO(text, newline=""), strict=True))
        as_cells = list(sheet.iter_rows())
        if len(as_csv) != len(as_cells) or any(len(a) != len(b) for a, b in zip(as_csv, as_cells)):
            fail(f"{sheet.title}: CSV and sheet have other rows or columns")
        for cell in as_cells[0]:
            if not cell.value or "sheet_column" in cell.value:
                fail(f"{sheet.title} {cell.coordinate} has no heading in words: {cell.value!r}")
        for line, cells in zip(as_csv[1:], as_cells[1:]):
            for text, cell in zip(line, cells):
                if cell.data_type == "f":
                    fail(f"{sheet.title} {cell.coordinate} is a formula: {cell.value!r}")
                elif isinstance(cell.value, (int, float)):
                    same(f"{sheet.title} {cell.coordinate}", float(text), float(cell.value), 1e-12)
                elif text.removeprefix("'") != (cell.value or "") and cell.value not in in_words(text):
                    fail(f"{sheet.title} {cell.coordinate}: {text!r} against {cell.value!r}")
        rows_of[name] = [dict(zip(as_csv[0], line)) for line in as_csv[1:]]
    wanted = {"cars": len(report["cars"]), "findings": len(report["findings"]), "notes": len(report["notes"])}
    for name, count in wanted.items():
        if len(rows_of.get(name, [])) != count:
            fail(f"the table {name} has {len(rows_of.get(name, []))} rows, the JSON {count}")
    for row, car in zip(rows_of["cars"], report["cars"]):
        if row["car"] != car["car"]:
            fail(f"the CSV has {row['car']} where the JSON has {car['car']}")
        same(f"CSV {car['car']}", float(row["found_less_billed_gal"]), car["comparisons"][0]["difference"], 1e-12)


def play(faults, with_seed):
    """Plays a month and exports it; what it said, for `judge`."""
    with tempfile.TemporaryDirectory() as folder:
        began = time.monotonic()
        subprocess.run(
            [DEMO, "--month", f"{folder}/month", "--seed", str(with_seed), "--faults", faults],
            check=True, capture_output=True,
        )
        played_at = time.monotonic()
        folder = f"{folder}/month"
        Path(folder, "settings.json").write_text(json.dumps(SETTINGS))
        done = subprocess.run(
            [FARSIDING, "export", "reconcile", "--data", f"{folder}/office", "--month", MONTH, "--format", "json",
             "--settings", f"{folder}/settings.json"],
            check=True, capture_output=True,
        )
        times = f"played in {played_at - began:.1f} s, exported in {time.monotonic() - played_at:.1f} s"
        report = json.loads(done.stdout)
        planted = json.loads(Path(folder, "planted.json").read_text())["planted"]
        exports = exports_of(folder) if faults == "all" else []
        return faults, with_seed, report, planted, exports, times


def judge(faults, with_seed, report, planted, exports, times):
    began = time.monotonic()
    wanted = sorted((KINDS[fault["fault"]], fault["about"]) for fault in planted)
    accused = sorted((finding["kind"], finding["about"]) for finding in report["findings"])
    if len(report["cars"]) != 120:
        fail(f"{len(report['cars'])} cars, 120 were played")
    if wanted != accused:
        fail(f"seed {with_seed}, {faults}: planted {wanted}, accused {accused}")
    if any(car["not_compared"] for car in report["cars"]):
        fail(f"seed {with_seed}, {faults}: some cars were not compared")
    check_cars(report)
    check_totals(report)
    check_biases(report)
    check_demurrage(report)
    check_detention(report)
    if exports:
        check_exports(exports, report)
    print(f"{faults}, seed {with_seed}: {len(report['cars'])} cars, accused {accused}; {times}, "
          f"checked in {time.monotonic() - began:.1f} s", flush=True)


months = [("all", seed)] + [(word, seed + 1) for word in KINDS] + [("none", seed + 10 + other) for other in range(2)]
with ThreadPoolExecutor(os.cpu_count()) as pool:
    for played in pool.map(lambda month: play(*month), months):
        judge(*played)
print(f"{checked} figures compared, {failures} failures")
sys.exit(1 if failures else 0)
