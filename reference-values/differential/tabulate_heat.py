"""Setting and condensation by the prototype mould.py, fat by fat.py, air by PsychroLib, vapour pressure by chemicals.

    pip install -r requirements.txt
    python -B tabulate_heat.py FOLDER_OF_THE_PROTOTYPES

Python 3.11, PsychroLib 2.5.0, chemicals 1.5.2. Writes heat/*.csv and fat/*.csv."""
import psychrolib
from chemicals import Psat_IAPWS

import tables
from tables import six_digits, table

tables.prototypes()
mould, MOULD = tables.prototype("mould")
fat, FAT = tables.prototype("fat")
PSYCHROLIB = tables.registry("PsychroLib")
psychrolib.SetUnitSystem(psychrolib.SI)


def setting(draw):
    layer = {"thickness": draw.between(0.001, 0.01), "conductivity": draw.between(0.15, 0.35), "density": draw.between(1100, 1350),
             "specific_heat": draw.between(1400, 2200), "latent_heat": draw.between(30e3, 80e3), "sets_at": draw.between(24, 30)}
    cold, poured_at, film = draw.between(4, 20), draw.between(30, 34), draw.between(5, 40)
    thickness, conductivity, density, specific_heat, latent_heat, sets_at = layer.values()
    return {**layer, "cold": cold, "poured_at": poured_at, "film": film,
            "on_cold_wall": mould.stefan_time(thickness, conductivity, density, specific_heat, latent_heat, sets_at, cold),
            "in_air": mould.plank_time(thickness, conductivity, density, latent_heat, sets_at, cold, film, specific_heat, poured_at)}


def shrinks(draw):
    linear = draw.between(0, 0.03)
    return {"linear": linear, "by_volume": mould.shrink_linear_to_volume(linear)}


def air(draw):
    celsius, humidity, surface = draw.between(-10, 45), draw.between(0.1, 1), draw.between(-5, 30)
    word = "wet" if mould.condenses(celsius, humidity, surface) else "dry"
    return {"celsius": celsius, "humidity": humidity, "surface": surface, "dew_point": mould.dew_point(celsius, humidity),
            "surface_is": word}


def ashrae_dew_point(draw):
    celsius, humidity = draw.between(18, 30), draw.between(0.5, 0.8)
    return {"celsius": celsius, "humidity": humidity, "dew_point": psychrolib.GetTDewPointFromRelHum(celsius, humidity)}


def ashrae_vapour(draw):
    celsius = draw.between(0.1, 60)
    return {"celsius": celsius, "saturation_pressure": psychrolib.GetSatVapPres(celsius)}


def iapws(draw):
    celsius = draw.between(0.1, 60)
    return {"celsius": celsius, "saturation_pressure": Psat_IAPWS(celsius + 273.15)}


def solid_fat(draw):
    cocoa, milk, oil = (round(draw.uniform(0.0, most), 6) for most in (1.0, 0.4, 0.4))
    if draw.random() < 0.3:
        milk = oil = 0.0
    celsius = draw.between(5, 45)
    return {"cocoa_butter": cocoa, "milk_fat": milk, "oil": oil, "celsius": celsius,
            "solid_percent": fat.sfc_blend(celsius, cocoa, milk, oil)}


def polymorph(draw):
    form, celsius = draw.choice(list(fat.POLYMORPH_MP)), draw.between(15, 40)
    return {"form": form, "celsius": celsius, "melts_at": fat.POLYMORPH_MP[form], "is": "solid" if fat.survives(form, celsius) else "melted"}


def migration(draw):
    """From 0.0003 of the square of the wall: before that the prototype's series would need more terms."""
    diffusivity, wall, number = draw.spread(1e-14, 5e-11), draw.between(0.0005, 0.005), draw.spread(3e-4, 3)
    seconds = six_digits(number * wall ** 2 / diffusivity)
    return {"diffusivity": diffusivity, "wall": wall, "seconds": seconds, "uptake": fat.uptake_fraction(diffusivity, wall, seconds),
            "half_time": fat.half_time(diffusivity, wall)}


table("heat/setting", MOULD, 80, setting)
table("heat/shrinkage", MOULD, 30, shrinks)
table("heat/air", MOULD, 100, air)
table("heat/dew_point_by_psychrolib", PSYCHROLIB, 60, ashrae_dew_point)
table("heat/vapour_by_psychrolib", PSYCHROLIB, 40, ashrae_vapour)
table("heat/vapour_by_chemicals", tables.registry("chemicals"), 40, iapws)
table("fat/solid_fat", FAT, 120, solid_fat)
table("fat/polymorphs", FAT, 40, polymorph)
table("fat/migration", FAT, 80, migration)
