"""Water activity by the prototypes zsr.py and whole_fillings.py, and by the modified UNIFAC of thermo.

The prototypes let sugar dissolve as far as a gram of water takes it up. The model asks when the mixture is saturated, so what it makes of
crystals, and of layers that share their water, is built here anew from the isotherms of zsr.py, by integrals and bisections.

    pip install -r requirements.txt
    python -B tabulate_water.py FOLDER_OF_THE_PROTOTYPES

Python 3.11, thermo 0.6.1. Writes water/*.csv."""
import json
import math
import pathlib

from numpy.polynomial.legendre import leggauss
from thermo.unifac import DOUFIP2006, DOUFSG, UNIFAC

import tables
from tables import parts, table, write

tables.prototypes()
zsr, ZSR = tables.prototype("zsr")
whole, WHOLE = tables.prototype("whole_fillings")

# The prototypes' names for what the crate calls otherwise.
KEYS = {"nacl": "salt", "kcl": "minerals", "citric_acid": "acid", "lactic_acid": "lactic-acid", "dp3": "trisaccharides",
        "dp7plus": "higher-saccharides", "cocoaff": "fat-free-cocoa", "protein": "milk-protein", "msalt": "milk-salts", "fat": "liquid-oil"}
SALTS_AND_ACIDS = {"nacl", "kcl", "citric_acid", "lactic_acid"}
# Below this the prototype stops its isotherms at a mole fraction of 0.97.
DRIEST = 0.3


def of(filling):
    return parts({KEYS.get(key, key): share for key, share in filling.items()})


def solute(draw):
    name = draw.choice(list(zsr.P))
    activity = draw.between(DRIEST, 0.995)
    return {"constituent": KEYS.get(name, name), "activity": activity, "held": zsr.water_held(activity, zsr.P[name])}


def sorbent(draw):
    name = draw.choice(list(whole.GAB))
    activity = draw.between(0.01, 0.99)
    return {"constituent": KEYS.get(name, name), "activity": activity, "held": whole.held(activity, {name: 1.0})}


def solution(draw):
    shares = {"water": draw.uniform(0.15, 3.0)}
    for name in draw.sample(list(zsr.P), draw.randint(1, 5)):
        shares[name] = draw.uniform(0.0, 0.05 if name in SALTS_AND_ACIDS else 1.0)
    mixture = draw.mixture(shares)
    activity = zsr.water_activity(mixture)
    return {"of": of(mixture), "activity": activity} if activity > DRIEST else None


def filling(draw, sucrose):
    """With sorbing solids and the salts of milk and cocoa."""
    shares = {"water": draw.uniform(0.08, 0.35), "fat": draw.uniform(0.0, 0.5), "sucrose": draw.uniform(0.0, sucrose)}
    for name, most in (("glucose", 0.15), ("fructose", 0.1), ("ethanol", 0.05), ("nacl", 0.01), ("starch", 0.1), ("cocoaff", 0.25)):
        if draw.random() < 0.5:
            shares[name] = draw.uniform(0.0, most)
    if draw.random() < 0.6:
        shares |= {"lactose": draw.uniform(0.0, 0.1), "protein": draw.uniform(0.0, 0.08), "msalt": draw.uniform(0.0005, 0.015)}
    return draw.mixture(shares)


def osmoles(mixture):
    milk = sum(mixture.get(key, 0.0) for key in ("lactose", "protein", "msalt")) * ("msalt" in mixture)
    return 1e-3 * (1.15 * milk + mixture.get("cocoaff", 0.0))


def dissolved(draw):
    mixture = filling(draw, 0.4)
    gab = [(mixture[key], *constants) for key, constants in whole.GAB.items() if mixture.get(key)]
    activity = zsr.water_activity(mixture, gab, osmoles(mixture))
    return {"of": of(mixture), "activity": activity} if activity > DRIEST else None


def alone(draw):
    """Sucrose and nothing else that dissolves: here a gram of water and the mixture are saturated at once."""
    shares = {"water": draw.uniform(0.08, 0.35), "fat": draw.uniform(0.0, 0.5), "sucrose": draw.uniform(0.1, 0.7),
              "starch": draw.uniform(0.0, 0.1), "protein": draw.uniform(0.0, 0.08)}
    mixture = draw.mixture(shares)
    return {"of": of(mixture), "sucrose_solubility": 2.04, "activity": whole.activity(mixture)}


# Crystals beside a mixture.

NODES = [(float(node), float(weight)) for node, weight in zip(*leggauss(24))]


def solubility(sugar, celsius):
    """Of the sugar over water: sucrose by Vavrinecz, lactose by Hudson as fitted in the crate."""
    if sugar == "lactose":
        return 0.119 * math.exp(0.0228 * celsius + 5e-5 * celsius ** 2)
    percent = 64.447 + 0.08222 * celsius + 1.6169e-3 * celsius ** 2 - 1.558e-6 * celsius ** 3 - 4.63e-8 * celsius ** 4
    return percent / (100 - percent)


def largest_share(sugar, activity, celsius):
    """Of all dissolved particles, beside its crystals: Gibbs and Duhem's d ln a_s = -w d ln a, integrated over ln(-ln a)."""
    constants = zsr.P[sugar]
    moles = solubility(sugar, celsius) / constants["MW"] * zsr.MW_WATER
    saturated = -zsr.ln_activity(moles / (1 + moles), constants)
    low, high = math.log(saturated), math.log(-math.log(activity))
    middle, half = (high + low) / 2, (high - low) / 2

    def water_per_step(at):
        u = math.exp(at)
        return zsr.water_held(math.exp(-u), constants) * u
    integral = half * sum(weight * water_per_step(middle + half * node) for node, weight in NODES)
    hydrate = -saturated - math.log(activity) if sugar == "lactose" else 0.0
    return math.exp(hydrate - integral)


def held_with_crystals(mixture, activity, celsius):
    moles = {key: share / zsr.P[key]["MW"] for key, share in mixture.items() if key in zsr.P and share > 0}
    particles = {key: amount * zsr.P[key]["nu"] for key, amount in moles.items()}
    shares = {key: largest_share(key, activity, celsius) for key in ("sucrose", "lactose") if key in moles}
    minor = osmoles(mixture)

    def in_solution(whole_of_it):
        return {key: min(amount, shares.get(key, math.inf) * whole_of_it) for key, amount in particles.items()}
    low, high = 0.0, minor + sum(particles.values())
    if sum(in_solution(high).values()) + minor < high:
        for _ in range(100):
            middle = (low + high) / 2
            low, high = (low, middle) if sum(in_solution(middle).values()) + minor < middle else (middle, high)
    solution = {key: amount / zsr.P[key]["nu"] for key, amount in in_solution(high).items()}
    held = sum(amount * zsr.water_held(activity, zsr.P[key]) for key, amount in solution.items()) + minor * activity / (1 - activity)
    return held * zsr.MW_WATER + whole.held(activity, mixture)


def with_crystals(mixture, celsius):
    low, high = 0.05, 1 - 1e-9
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (low, middle) if held_with_crystals(mixture, middle, celsius) > mixture["water"] else (middle, high)
    return {"of": of(mixture), "celsius": celsius, "activity": (low + high) / 2}


def fillings(draw):
    row = with_crystals(filling(draw, 0.7), draw.between(15, 30))
    return row if row["activity"] > DRIEST else None


def measured_fillings():
    """The fillings of the notes: what they leave open to one is inert."""
    for mixture in json.loads((pathlib.Path(whole.__file__).parent / "whole_fillings.json").read_text()).values():
        inert = round(1 - sum(mixture.values()) + mixture.get("inert", 0.0), 6)
        yield with_crystals({**mixture, "inert": max(inert, 0.0)}, 25.0)


def layers(draw):
    """A solution beside a solid with an isotherm of its own: together they are one mixture."""
    mixture = draw.mixture({"water": draw.uniform(0.2, 1.0), "sucrose": draw.uniform(0.05, 0.5), "ethanol": draw.uniform(0.0, 0.1)})
    mass, solid, water = draw.between(2, 12), draw.between(0.5, 5), round(draw.uniform(0.01, 0.1), 4)
    monolayer, c, k = draw.between(0.03, 0.12), draw.between(5, 30), draw.between(0.7, 0.95)
    together = {key: mass * share for key, share in mixture.items()}
    together["water"] += solid * water
    dry = solid * (1 - water)
    activity = zsr.water_activity(together, [(dry, monolayer, c, k)])
    takes = dry * monolayer * c * k * activity / ((1 - k * activity) * (1 - k * activity + c * k * activity)) - solid * water
    return {"of": of(mixture), "grams": mass, "solid_grams": solid, "solid_water": water, "monolayer": monolayer, "c": c, "k": k,
            "activity": activity, "gain": takes}


def dortmund(draw):
    ethanol = draw.between(0.01, 0.6)
    moles = [ethanol / zsr.P["ethanol"]["MW"], (1 - ethanol) / zsr.MW_WATER]
    shares = [part / sum(moles) for part in moles]
    groups = [{1: 1, 2: 1, 14: 1}, {16: 1}]
    phase = UNIFAC.from_subgroups(T=298.15, xs=shares, chemgroups=groups, subgroups=DOUFSG, interaction_data=DOUFIP2006, version=1)
    return {"ethanol": ethanol, "activity": shares[1] * phase.gammas()[1]}


table("water/solutes", ZSR, 240, solute)
table("water/sorbents", WHOLE, 75, sorbent)
table("water/solutions", ZSR, 400, solution)
table("water/dissolved_fillings", ZSR, 220, dissolved)
table("water/sucrose_with_crystals", WHOLE, 50, alone)
table("water/fillings_with_crystals", ZSR, 150, fillings)
write("water/measured_fillings", ZSR, list(measured_fillings()))
table("water/layers", ZSR, 80, layers)
table("water/ethanol_by_unifac", tables.registry("thermo"), 60, dortmund)
