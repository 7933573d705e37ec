"""Densities by the prototypes density.py and fillings.py, by CoolProp and by chemicals.

    pip install -r requirements.txt
    python -B tabulate_density.py FOLDER_OF_THE_PROTOTYPES

Python 3.11, CoolProp 8.0.0, chemicals 1.5.2. Writes density/*.csv."""
from chemicals import iapws95_rho
from CoolProp.CoolProp import PropsSI

import tables
from tables import parts, table

tables.prototypes()
density, DENSITY = tables.prototype("density")
fillings, FILLINGS = tables.prototype("fillings")
COOLPROP, CHEMICALS = tables.registry("CoolProp"), tables.registry("chemicals")
ATMOSPHERE, ZERO = 101325.0, 273.15


def coolprop(fluid, celsius):
    return PropsSI("D", "T", celsius + ZERO, "P", ATMOSPHERE, fluid)


def ethanol_water(draw):
    strength, celsius = draw.between(0, 1), draw.between(-20, 40)
    return {"strength": strength, "celsius": celsius, "density": density.ethanol_water_density(strength, celsius)}


def strengths(draw):
    by_volume = draw.between(0, 1)
    return {"by_volume": by_volume, "by_mass": density.abw_from_abv(by_volume), "contraction": density.mixing_contraction(by_volume) / 100}


def sucrose(draw):
    share, celsius = draw.between(0, 0.85), draw.between(0, 80)
    return {"sucrose": share, "celsius": celsius, "density": density.sucrose_density(share, celsius)}


def glycerol(draw):
    share, celsius = draw.between(0, 1), draw.between(15, 30)
    return {"glycerol": share, "celsius": celsius, "density": fillings.glycerol_water_density(share, celsius)}


def chocolate(draw):
    fat, carbohydrate, protein = (round(draw.uniform(*span), 6) for span in ((0.22, 0.5), (0.2, 0.45), (0.0, 0.05)))
    celsius = draw.between(27, 60)
    liquid = 1 / (0.08 / 980 + 0.92 / (890 + 0.75 * (40 - celsius)))
    return {"fat": fat, "carbohydrate": carbohydrate, "protein": protein, "celsius": celsius,
            "set": density.chocolate_density(fat, carbohydrate, protein),
            "tempered": density.chocolate_density(fat, carbohydrate, protein, fat_density=liquid)}


def filling(draw):
    """Spirit first, sugar as in its own solution, volumes added: the rule of the notes from the pieces of the prototype."""
    shares = {"water": draw.uniform(0.1, 0.6), "sucrose": draw.uniform(0.01, 0.5)}
    for key, most in (("ethanol", 0.3), ("liquid-oil", 0.5), ("protein", 0.1), ("fibre", 0.1)):
        if draw.random() < 0.5:
            shares[key] = draw.uniform(0.0, most)
    mixture, celsius = draw.mixture(shares), draw.between(0, 40)
    water, sugar, ethanol = mixture["water"], mixture["sucrose"], mixture.get("ethanol", 0.0)
    solvent = water + ethanol
    solvent_density = density.ethanol_water_density(ethanol / solvent, celsius) if ethanol else density.water_density(celsius)
    share = sugar / (sugar + solvent)
    per_kilogram = (1 / density.sucrose_density(share, celsius) - (1 - share) / density.water_density(celsius)) / share
    others = [("liquid-oil", 915 - 0.75 * (celsius - 20)), ("protein", density.PROTEIN), ("fibre", density.REST)]
    phases = [(solvent, solvent_density), (sugar, 1 / per_kilogram), *((mixture.get(key, 0.0), weighs) for key, weighs in others)]
    return {"of": parts(mixture), "celsius": celsius, "density": density.mix_density(phases)}


def brine(draw):
    strength, celsius = draw.between(0.01, 0.59), draw.between(0, 40)
    return {"strength": strength, "celsius": celsius, "density": coolprop(f"INCOMP::MEA[{strength}]", celsius)}


def ethanol(draw):
    celsius = draw.between(-20, 40)
    return {"celsius": celsius, "density": coolprop("Ethanol", celsius)}


def glycerol_brine(draw):
    share, celsius = draw.between(0.01, 0.59), draw.between(15, 30)
    return {"glycerol": share, "celsius": celsius, "density": coolprop(f"INCOMP::MGL[{share}]", celsius)}


def water(of):
    def row(draw):
        celsius = draw.between(0.1, 80)
        return {"celsius": celsius, "density": of(celsius)}
    return row


def iapws(celsius):
    return iapws95_rho(celsius + ZERO, ATMOSPHERE)


table("density/ethanol_water", DENSITY, 160, ethanol_water)
table("density/strengths", DENSITY, 60, strengths)
table("density/sucrose_solution", DENSITY, 120, sucrose)
table("density/glycerol_water", FILLINGS, 60, glycerol)
table("density/chocolate", DENSITY, 100, chocolate)
table("density/fillings", DENSITY, 180, filling)
table("density/ethanol_water_by_coolprop", COOLPROP, 80, brine)
table("density/ethanol_by_coolprop", COOLPROP, 40, ethanol)
table("density/glycerol_water_by_coolprop", COOLPROP, 60, glycerol_brine)
table("density/water_by_coolprop", COOLPROP, 40, water(lambda celsius: coolprop("Water", celsius)))
table("density/water_by_chemicals", CHEMICALS, 40, water(iapws))
