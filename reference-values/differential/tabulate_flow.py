"""How chocolate and fillings flow, by the prototypes flow.py, emulsifier.py, shell.py, leak.py, fillings.py and improved.py, and by CoolProp.

    pip install -r requirements.txt
    python -B tabulate_flow.py FOLDER_OF_THE_PROTOTYPES

Python 3.11, CoolProp 8.0.0. Writes flow/*.csv. Takes about a minute."""
import math

from CoolProp.CoolProp import PropsSI

import tables
from tables import numbers, six_digits, table

tables.prototypes()
flow, FLOW = tables.prototype("flow")
emulsifier, EMULSIFIER = tables.prototype("emulsifier")
shell, SHELL = tables.prototype("shell")
leak, LEAK = tables.prototype("leak")
fillings, FILLINGS = tables.prototype("fillings")
improved, IMPROVED = tables.prototype("improved")
# The prototype's defaults, 0.597 and 0.041, let 0.5 % of lecithin spare 2.6 % of fat, where 3 to 4 % is published.
improved.PACK_BARE, improved.PACK_GAIN = 0.589, 0.049
COOLPROP = tables.registry("CoolProp")


# Chocolate.

def casson(draw):
    yield_value, viscosity, rate = draw.spread(0.5, 60), draw.spread(0.3, 15), draw.spread(0.1, 100)
    stress = six_digits(yield_value * draw.uniform(0.5, 10))
    five, forty = flow.quality_pair(yield_value, viscosity)
    return {"yield_value": yield_value, "viscosity": viscosity, "at_rate": rate, "at_stress": stress,
            "stress": flow.casson_stress(yield_value, viscosity, rate), "rate": flow.casson_rate(yield_value, viscosity, stress),
            "stress_at_5": five, "viscosity_at_40": forty}


def herschel_bulkley(draw):
    yield_value, consistency, index, rate = draw.spread(0.5, 60), draw.spread(0.3, 30), draw.between(0.15, 1.2), draw.spread(0.1, 100)
    stress = six_digits(yield_value * draw.uniform(0.5, 10))
    return {"yield_value": yield_value, "consistency": consistency, "index": index, "at_rate": rate, "at_stress": stress,
            "stress": flow.herschel_bulkley_stress(yield_value, consistency, index, rate),
            "rate": flow.herschel_bulkley_rate(yield_value, consistency, index, stress)}


def measured(draw):
    """A Casson curve with scatter that rises all the same."""
    while True:
        yield_value, viscosity = draw.spread(3, 40), draw.spread(0.5, 10)
        rates = sorted(draw.spread(1, 60) for _ in range(draw.randint(5, 9)))
        stresses = [six_digits(flow.casson_stress(yield_value, viscosity, rate) * draw.uniform(0.97, 1.03)) for rate in rates]
        if all(low < high for low, high in zip(stresses, stresses[1:])):
            return rates, stresses


def casson_fit(draw):
    rates, stresses = measured(draw)
    yield_value, viscosity, _ = flow.casson_fit(rates, stresses)
    made = {"rates": numbers(rates), "stresses": numbers(stresses), "yield_value": yield_value, "viscosity": viscosity}
    return made if yield_value > 0 else None


def herschel_bulkley_fit(draw):
    rates, stresses = measured(draw)
    tau, consistency, index = flow.herschel_bulkley_fit(rates, stresses)
    squares = [(flow.herschel_bulkley_stress(tau, consistency, index, rate) - stress) ** 2 for rate, stress in zip(rates, stresses)]
    made = {"rates": numbers(rates), "stresses": numbers(stresses), "misfit": math.sqrt(sum(squares) / len(squares))}
    return made if 0.1 < index < 1.9 else None


def lecithin(draw):
    dose, active = draw.between(0.01, 0.6), draw.between(50, 98)
    return {"dose_percent": dose, "acetone_insoluble_percent": active, "fluid_percent": emulsifier.fluid_equivalent(dose, active)}


def yield_factor(most_pgpr):
    def row(draw):
        dose, pgpr = draw.between(0, 1), draw.between(0, most_pgpr)
        return {"lecithin_percent": dose, "pgpr_percent": pgpr, "factor": emulsifier.yield_factor(dose, pgpr)}
    return row


def couverture(low, high):
    def row(draw):
        fat, dose, crystals, celsius = draw.between(0.28, 0.45), draw.between(0, 0.8), draw.between(0, 0.1), draw.between(low, high)
        viscosity = improved.plastic_viscosity(fat, dose, celsius, crystals)
        made = {"fat": fat, "lecithin_percent": dose, "crystals": crystals, "celsius": celsius, "viscosity": viscosity}
        return made if math.isfinite(viscosity) else None
    return row


def solids(draw):
    fat, water = draw.between(0.22, 0.5), draw.between(0, 2.5)
    return {"fat": fat, "water_percent": water, "solid_volume": improved.solids_fraction(fat),
            "fat_tied_up_percent": flow.moisture_factor(water)}


def spared(draw):
    fat, dose = draw.between(0.27, 0.4), draw.between(0, 0.8)
    made = {"fat": fat, "lecithin_percent": dose, "spared_percent": improved.cocoa_butter_equivalent(dose, fat)}
    return made if math.isfinite(improved.plastic_viscosity(fat, dose)) else None


def draining(draw):
    yield_value, viscosity, density = draw.spread(0.5, 30), draw.spread(0.5, 15), draw.between(1100, 1350)
    consistency, index = draw.spread(0.5, 15), draw.between(0.3, 1.0)
    above, seconds, slope = draw.between(0.002, 0.03), draw.between(2, 60), draw.between(20, 90)
    alpha = math.radians(slope)

    def law(stress):
        return flow.herschel_bulkley_rate(yield_value, consistency, index, stress)
    return {"yield_value": yield_value, "viscosity": viscosity, "consistency": consistency, "index": index, "density": density,
            "above": above, "seconds": seconds, "slope": slope,
            "casson_film": shell.casson_film(yield_value, viscosity, density, above, seconds, alpha),
            "newton_film": shell.jeffreys_film(viscosity, density, above, seconds, alpha),
            "herschel_bulkley_film": shell.draining_film(law, density, above, seconds, alpha),
            "left": shell.yield_film(yield_value, density, alpha)}


# The cap.

def arrest(draw):
    cap, filling = draw.between(1190, 1320), draw.between(400, 1180)
    opening, depth = draw.between(0.008, 0.045), draw.between(0.0005, 0.004)
    gentle, safe = leak.needed_yield(cap, filling, opening, depth)
    return {"cap": cap, "filling": filling, "opening": opening, "depth": depth, "needed": gentle, "needed_safe": safe}


def verdict(draw):
    """Without the prototype's race between a cap that falls through and one that sets."""
    cap, filling = draw.between(1190, 1320), draw.between(900, 1350)
    tau, cap_tau = draw.spread(0.1, 100), draw.spread(0.5, 30)
    opening, depth = draw.between(0.008, 0.045), draw.between(0.0005, 0.004)
    word = leak.verdict(cap, filling, tau, 1.0, opening, depth, cap_tau, 3.0, math.inf)["verdict"]
    return {"cap": cap, "filling": filling, "yield_value": tau, "cap_yield_value": cap_tau, "opening": opening, "depth": depth, "verdict": word}


def exchange(draw):
    filling, cap = draw.spread(0.05, 60), draw.spread(0.5, 30)
    excess, opening, tension = draw.between(5, 800), draw.between(0.005, 0.045), draw.between(0.005, 0.03)
    return {"filling": filling, "cap": cap, "excess": excess, "opening": opening, "tension": tension,
            "margin": leak.exchange_margin(filling, cap, excess, opening, 20000),
            "capillary_opening": leak.capillary_stable_diameter(tension, excess)}


# Fillings.

def syrup(draw):
    brix, celsius = draw.between(0, 74), draw.between(0, 80)
    return {"brix": brix, "celsius": celsius, "viscosity": fillings.sucrose_viscosity(brix, celsius)}


def glycerol(draw):
    share, celsius = draw.between(0, 1), draw.between(0, 100)
    return {"glycerol": share, "celsius": celsius, "viscosity": fillings.glycerol_water_viscosity(share, celsius)}


def spirit(draw):
    percent, celsius = draw.between(0, 100), draw.between(0, 60)
    return {"ethanol_percent": percent, "celsius": celsius, "viscosity": fillings.ethanol_water_viscosity(percent, celsius)}


def honey(draw):
    celsius = draw.between(10, 72)
    return {"celsius": celsius, "viscosity": fillings.honey_viscosity(celsius)}


def corn_syrup(draw):
    celsius = draw.between(23.5, 46)
    return {"celsius": celsius, "viscosity": improved.corn_syrup_77_viscosity(celsius)}


def warmth(draw):
    material = draw.choice(list(improved.EA))
    start, end = draw.between(10, 70), draw.between(10, 70)
    return {"filling": material.replace(" ", "-"), "from": start, "to": end, "ratio": improved.arrhenius_ratio(material, end, start)}


def xanthan(draw):
    percent, grade = draw.between(0.05, 1.5), draw.between(0.7, 2.2)
    scale = improved.xanthan_grade_factor(grade)
    return {"percent": percent, "grade": grade, "yield_value": fillings.xanthan_yield(percent) * scale}


def xanthan_viscosity(draw):
    percent, rate = draw.between(0.05, 1.5), draw.spread(1, 100)
    return {"percent": percent, "rate": rate, "viscosity": fillings.xanthan_consistency(percent) * rate ** (0.22 - 1)}


def drink(draw):
    viscosity = draw.spread(0.005, 10)
    return {"viscosity": viscosity, "class": fillings.thickness_class(viscosity)}


def coolprop(fluid, share, celsius):
    return PropsSI("V", "T", celsius + 273.15, "P", 101325.0, f"INCOMP::{fluid}[{share}]" if share else fluid)


def spirit_brine(draw):
    strength, celsius = draw.between(0.01, 0.59), draw.between(0, 40)
    return {"strength": strength, "celsius": celsius, "viscosity": coolprop("MEA", strength, celsius)}


def glycerol_brine(draw):
    share, celsius = draw.between(0.01, 0.5), draw.between(10, 40)
    return {"glycerol": share, "celsius": celsius, "viscosity": coolprop("MGL", share, celsius)}


def water(draw):
    celsius = draw.between(0.1, 70)
    return {"celsius": celsius, "viscosity": coolprop("Water", 0, celsius)}


table("flow/casson", FLOW, 80, casson)
table("flow/herschel_bulkley", FLOW, 80, herschel_bulkley)
table("flow/casson_fits", FLOW, 40, casson_fit)
table("flow/herschel_bulkley_fits", FLOW, 30, herschel_bulkley_fit)
table("flow/fluid_lecithin", EMULSIFIER, 40, lecithin)
table("flow/yield_factor_of_lecithin", EMULSIFIER, 40, yield_factor(0))
table("flow/yield_factor_of_blends", EMULSIFIER, 80, yield_factor(0.5))
table("flow/couverture_at_40", IMPROVED, 80, couverture(40, 40))
table("flow/couverture", IMPROVED, 80, couverture(27, 50))
table("flow/solids", IMPROVED, 60, solids)
table("flow/cocoa_butter_spared", IMPROVED, 60, spared)
table("flow/draining", SHELL, 110, draining)
table("flow/arrest", LEAK, 80, arrest)
table("flow/verdicts", LEAK, 200, verdict)
table("flow/exchange", LEAK, 80, exchange)
table("flow/syrup", FILLINGS, 80, syrup)
table("flow/glycerol", FILLINGS, 80, glycerol)
table("flow/spirit", FILLINGS, 100, spirit)
table("flow/honey", FILLINGS, 40, honey)
table("flow/corn_syrup", IMPROVED, 40, corn_syrup)
table("flow/warmth", IMPROVED, 60, warmth)
table("flow/xanthan_yield_value", IMPROVED, 60, xanthan)
table("flow/xanthan_viscosity", FILLINGS, 60, xanthan_viscosity)
table("flow/drink_classes", FILLINGS, 60, drink)
table("flow/spirit_by_coolprop", COOLPROP, 80, spirit_brine)
table("flow/glycerol_by_coolprop", COOLPROP, 60, glycerol_brine)
table("flow/water_by_coolprop", COOLPROP, 40, water)
