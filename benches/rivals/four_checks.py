"""The four checks in numpy: reads columns and what plain f64 says of them, checks every row, prints the shortest time of a round in seconds."""

import sys
import time

import numpy as np

columns = np.fromfile(sys.argv[1], dtype="<f8").reshape(12, -1)
dose, yield_value, density, cap_density, headroom, water = columns[:6]
solutes, wanted = columns[6:11], columns[11].astype(np.uint32)
SOLUTES = [(342.297, 6.8379, -4.3022), (180.156, 2.379, -0.3801), (180.156, 2.1058, -2.7444), (182.172, 1.65, 0.0), (92.094, 1.4253, -1.9102)]


def margins():
    moles = water / 18.0153
    dilution, pull = np.ones_like(water), np.zeros_like(water)
    for mass, (molar_mass, k1, k2) in zip(solutes, SOLUTES):
        dissolved = mass * (1.0 / molar_mass)
        x = dissolved / (dissolved + moles)
        dilution *= 1.0 - x
        pull += x * x * (k1 + k2 * x)
    activity = dilution * np.exp(-pull)
    support = (2.0 + np.pi) * yield_value / (np.maximum(cap_density - density, 0.0) * 9.80665 * headroom)
    found = [0.01 - dose, support - 1.0, headroom - 0.001, 0.85 - activity]
    return found, sum((margin < 0.0).astype(np.uint32) for margin in found)


with np.errstate(divide="ignore"):
    found, _ = margins()
    broken = sum((margin < 0.0).astype(np.uint32) << check for check, margin in enumerate(found))
    assert (broken == wanted).all(), f"{(broken != wanted).sum()} rows differ"
    shortest = float("inf")
    for _ in range(300):
        start = time.perf_counter()
        margins()
        shortest = min(shortest, time.perf_counter() - start)
print(shortest)
