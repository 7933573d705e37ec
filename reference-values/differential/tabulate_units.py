"""Every unit of documents that Pint knows, converted to the base unit of its dimension.

    pip install -r requirements.txt
    python -B tabulate_units.py

Python 3.11, Pint 0.25.3. Writes units/conversions.csv. Pint knows no Brix, bloom, dextrose equivalent, pH, strength or humidity."""
import pint

from tables import Draw, registry, write

# Our code, Pint's name and the base unit.
UNITS = [
    ("1", "dimensionless", "dimensionless"), ("%", "percent", "dimensionless"), ("g/kg", "g/kg", "dimensionless"),
    ("mg/kg", "mg/kg", "dimensionless"),
    ("kg", "kilogram", "kg"), ("g", "gram", "kg"), ("mg", "milligram", "kg"), ("[oz_av]", "ounce", "kg"), ("[lb_av]", "pound", "kg"),
    ("m", "meter", "m"), ("cm", "centimeter", "m"), ("mm", "millimeter", "m"), ("um", "micrometer", "m"), ("[in_i]", "inch", "m"),
    ("m3", "meter**3", "m**3"), ("L", "liter", "m**3"), ("cL", "centiliter", "m**3"), ("mL", "milliliter", "m**3"),
    ("cm3", "centimeter**3", "m**3"), ("mm3", "millimeter**3", "m**3"),
    ("s", "second", "s"), ("min", "minute", "s"), ("h", "hour", "s"), ("d", "day", "s"), ("wk", "week", "s"),
    ("Cel", "degree_Celsius", "degC"), ("K", "kelvin", "degC"), ("[degF]", "degree_Fahrenheit", "degC"),
    ("kg/m3", "kg/m**3", "kg/m**3"), ("g/mL", "g/mL", "kg/m**3"),
    ("Pa", "pascal", "Pa"), ("mPa", "millipascal", "Pa"), ("dyn/cm2", "dyne/cm**2", "Pa"),
    ("Pa.s", "Pa*s", "Pa*s"), ("mPa.s", "mPa*s", "Pa*s"), ("P", "poise", "Pa*s"),
    ("deg", "degree", "degree"), ("ΔK", "delta_degree_Celsius", "kelvin"),
    ("m3/kg", "meter**3/kg", "meter**3/kg"), ("L/kg", "liter/kg", "meter**3/kg"), ("L/100kg", "centiliter/kg", "meter**3/kg"),
]
pints = pint.UnitRegistry()
draw = Draw("units/conversions")
rows = []
for code, name, base in UNITS:
    for _ in range(6):
        value = draw.spread(1e-3, 1e3)
        rows.append({"unit": code, "value": value, "base": float(pints.Quantity(value, name).to(base).magnitude)})
write("units/conversions", registry("Pint"), rows)
