"""Fresh random points against CoolProp, a general-purpose property library from PyPI, and a bench beside it.

Run by ./run beside this file, which makes the Python environment and builds the programs it drives. The seed is
printed; FARSIDING_SEED=N repeats a run. Ends with 1 when a point is outside its tolerance:
1e-6 for pure fluids and residue (promised: 0.05 %), 1e-4 for mixes (promised: 1 %), 0.001 °F for temperatures.
"""

import json
import os
import random
import subprocess
import sys
import time

import CoolProp
import CoolProp.CoolProp as CP

LINES, BENCH = sys.argv[1], sys.argv[2] if len(sys.argv) > 2 else None
PSI, LB, FT3, GAL = 6894.757293168361, 0.45359237, 0.028316846592, 0.003785411784
NAMES = {
    "propane": "n-Propane",
    "n_butane": "n-Butane",
    "isobutane": "IsoButane",
    "propylene": "Propylene",
    "ethane": "Ethane",
}
# CoolProp publishes no interaction for this pair; the tool estimates it and says so.
UNPUBLISHED = {"n_butane", "propylene"}

seed = int(os.environ.get("FARSIDING_SEED") or time.time_ns() % 10**9)
rng = random.Random(seed)
print(f"FARSIDING_SEED={seed}  CoolProp {CoolProp.__version__}")
failures = 0


def kelvin(fahrenheit):
    return (fahrenheit + 459.67) / 1.8


def ask(formula, requests):
    text = "".join(json.dumps(request) + "\n" for request in requests)
    done = subprocess.run([LINES, formula], input=text, capture_output=True, text=True, check=True)
    answers = [json.loads(line) for line in done.stdout.splitlines()]
    assert len(answers) == len(requests), "one answer a line"
    return answers


def compare(name, tolerance, cases):
    """cases: (request, answer, expected); relative difference, or absolute for temperatures."""
    global failures
    worst, count = 0.0, 0
    for request, answer, expected in cases:
        if not answer["ok"]:
            print(f"FAILED {name}: {request} -> {answer}")
            failures += 1
            continue
        difference = answer["value"] - expected
        relative = abs(difference) if name.startswith("tsat") else abs(difference / expected)
        worst, count = max(worst, relative), count + 1
        if relative > tolerance:
            print(f"FAILED {name}: {request} -> {answer['value']}, CoolProp {expected}")
            failures += 1
    assert count > 0, name
    print(f"{name:24} {count:5} points, largest difference {worst:.1e} (allowed {tolerance:.0e})")


def state(mix):
    parts = [(key, x) for key, x in mix.items() if x > 0]
    fluid = CP.AbstractState("HEOS", "&".join(NAMES[key] for key, _ in parts))
    if len(parts) > 1:
        fluid.set_mole_fractions([x for _, x in parts])
    return fluid


def random_mix():
    """A commercial-looking mix: one main fluid, one to three others, ethane at most 8 %."""
    while True:
        main = rng.choice([key for key in NAMES if key != "ethane"])
        others = rng.sample([key for key in NAMES if key != main], rng.randint(1, 3))
        if UNPUBLISHED <= {main, *others}:
            continue
        parts = {key: rng.uniform(0.005, 0.08 if key == "ethane" else 0.3) for key in others}
        parts[main] = 1.0 - sum(parts.values())
        if parts[main] < 0.2:
            continue
        return {key: round(x, 4) for key, x in parts.items()}


def normal(mix):
    total = sum(mix.values())
    return {key: x / total for key, x in mix.items()}


# Pure fluids: saturation and superheated vapour, -40 to 130 °F.
for key, name in NAMES.items():
    highest = 75.0 if key == "ethane" else 130.0
    requests, expected, vapours, densities, ratios = [], [], [], [], []
    base = CP.PropsSI("D", "T", kelvin(60), "Q", 0, name)
    for _ in range(150):
        fahrenheit = rng.uniform(-40, highest)
        pressure = CP.PropsSI("P", "T", kelvin(fahrenheit), "Q", 0, name) / PSI
        requests.append({"temp_f": fahrenheit, "mix": {key: 1}})
        expected.append(pressure)
        ratios.append(CP.PropsSI("D", "T", kelvin(fahrenheit), "Q", 0, name) / base)
        psia = rng.uniform(0.05, 0.995) * pressure
        if psia > 1:
            vapours.append({"temp_f": fahrenheit, "psia": psia, "mix": {key: 1}})
            si = CP.PropsSI("D", "T", kelvin(fahrenheit), "P", psia * PSI, name)
            densities.append(si * FT3 / LB)
    compare(f"psat {key}", 1e-6, zip(requests, ask("psat", requests), expected))
    backwards = [{"psia": p, "mix": key} for p in expected]
    degrees = [request["temp_f"] for request in requests]
    compare(f"tsat {key} °F", 1e-3, zip(backwards, ask("tsat", backwards), degrees))
    compare(f"vapour {key}", 1e-6, zip(vapours, ask("vapour_density", vapours), densities))
    compare(f"ratio {key}", 1e-6, zip(requests, ask("density_ratio", requests), ratios))
    # One per cent above saturation there is no vapour alone.
    wet = [{"temp_f": r["temp_f"], "psia": 1.01 * p, "mix": key} for r, p in zip(requests, expected)]
    refused = [answer.get("error") for answer in ask("vapour_density", wet)]
    if set(refused) != {"above_saturation"}:
        print(f"FAILED {key}: vapour above saturation answered {set(refused)}")
        failures += 1

# Mixes: bubble pressure and vapour density.
requests, expected, vapours, densities = [], [], [], []
unsolved = 0
while len(requests) < 200:
    mix = random_mix()
    fahrenheit = rng.uniform(-40, 130)
    fluid = state(normal(mix))
    try:
        fluid.update(CP.QT_INPUTS, 0, kelvin(fahrenheit))
        bubble = fluid.p() / PSI
        fluid.update(CP.QT_INPUTS, 1, kelvin(fahrenheit))
        dew = fluid.p() / PSI
        psia = rng.uniform(0.1, 0.95) * dew
        fluid.specify_phase(CP.iphase_gas)
        fluid.update(CP.PT_INPUTS, psia * PSI, kelvin(fahrenheit))
    except ValueError:
        unsolved += 1
        assert unsolved < 100, "CoolProp solves too few of the mixes"
        continue
    requests.append({"temp_f": fahrenheit, "mix": mix})
    expected.append(bubble)
    vapours.append({"temp_f": fahrenheit, "psia": psia, "mix": mix})
    densities.append(fluid.rhomass() * FT3 / LB)
compare("bubble of mixes", 1e-4, zip(requests, ask("psat", requests), expected))
compare("vapour of mixes", 1e-4, zip(vapours, ask("vapour_density", vapours), densities))

# Residue in gallons at 60 °F, ISO 2533 atmosphere.
base = CP.PropsSI("D", "T", kelvin(60), "Q", 0, "n-Propane")
requests, expected = [], []
for _ in range(200):
    fahrenheit, elevation = rng.uniform(-20, 120), rng.uniform(0, 8000)
    atmosphere = 101325 * (1 - 0.0065 * elevation * 0.3048 / 288.15) ** (9.80665 / (0.0065 * 287.05287))
    saturation = CP.PropsSI("P", "T", kelvin(fahrenheit), "Q", 1, "n-Propane")
    psig = rng.uniform(0, 0.98) * (saturation - atmosphere) / PSI
    density = CP.PropsSI("D", "T", kelvin(fahrenheit), "P", psig * PSI + atmosphere, "n-Propane")
    shell = rng.uniform(20000, 35000)
    requests.append({"temp_f": fahrenheit, "psig": psig, "elev_ft": elevation, "shell_gal": shell})
    expected.append(density * shell / base)
compare("residue", 1e-6, zip(requests, ask("residue", requests), expected))

print("all points within tolerance" if failures == 0 else f"{failures} points outside tolerance")
if failures or BENCH is None:
    sys.exit(1 if failures else 0)

# Cost a call, both at the same points, in the same run.
temperatures = [kelvin(rng.uniform(-40, 130)) for _ in range(2000)]
pressures = [rng.uniform(0.1, 0.9) * CP.PropsSI("P", "T", t, "Q", 1, "n-Propane") for t in temperatures]
points = [f"psat {t}" for t in temperatures] + [f"mix {t}" for t in temperatures[:200]]
points += [f"density {t} {p}" for t, p in zip(temperatures, pressures)]
points += [f"ctl {rng.uniform(-50, 130):.1f} {rng.uniform(0.5, 0.68):.4f}" for _ in range(2000)]
done = subprocess.run([BENCH], input="\n".join(points), capture_output=True, text=True, check=True)
ours = json.loads(done.stdout)


def timed(count, call):
    start = time.perf_counter()
    for at in range(count):
        call(at)
    return (time.perf_counter() - start) / count * 1e9


propane = CP.AbstractState("HEOS", "n-Propane")
mixed = state({"propane": 0.95, "ethane": 0.03, "isobutane": 0.02})
theirs = {
    "psat": timed(2000, lambda at: propane.update(CP.QT_INPUTS, 0, temperatures[at])),
    "mix": timed(200, lambda at: mixed.update(CP.QT_INPUTS, 0, temperatures[at])),
    "density": timed(2000, lambda at: propane.update(CP.PT_INPUTS, pressures[at], temperatures[at])),
}
print("cost a call, µs            ours   CoolProp (AbstractState.update)")
for name, label in [
    ("psat", "saturation of propane"),
    ("mix", "bubble point, three fluids"),
    ("density", "vapour density, checked"),
    ("ctl", "table 24E"),
    ("ctl_line", "ctl, one script line"),
    ("residue_line", "residue, one script line"),
]:
    other = f"{theirs[name] / 1000:10.1f}" if name in theirs else "         –"
    print(f"{label:26} {ours[name] / 1000:7.1f} {other}")
