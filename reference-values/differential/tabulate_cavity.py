"""Cavities and their shells by the prototype mould.py.

    python -B tabulate_cavity.py FOLDER_OF_THE_PROTOTYPES

Python 3.11. Writes cavity/*.csv, in millimetres."""
import tables
from tables import six_digits, table

tables.prototypes()
mould, MOULD = tables.prototype("mould")


def hemisphere(draw):
    diameter, wall = draw.between(10, 60), draw.between(0.5, 4)
    volume, wetted = mould.hemisphere(diameter / 2)
    cap = six_digits(draw.uniform(0, diameter / 2 - wall))
    return {"diameter": diameter, "wall": wall, "cap": cap, "volume": volume, "wetted": wetted,
            "shell": mould.hemisphere_shell(diameter / 2, wall), "cap_volume": mould.hemisphere_cap_volume(diameter / 2 - wall, cap)}


def segment(draw):
    diameter, wall = draw.between(10, 60), draw.between(0.5, 3)
    depth = six_digits(draw.uniform(wall + 1, diameter / 2))
    radius = ((diameter / 2) ** 2 + depth ** 2) / (2 * depth)
    volume, wetted, opening = mould.sphere_segment(radius, depth)
    return {"diameter": diameter, "depth": depth, "wall": wall, "volume": volume, "wetted": wetted, "opening": 2 * opening,
            "shell": mould.segment_shell(radius, depth, wall)}


def cone(draw):
    opening, depth, wall = draw.between(15, 60), draw.between(8, 30), draw.between(0.5, 4)
    base = six_digits(opening * draw.uniform(0.3, 1.0))
    inner = mould.cone_inner(opening / 2, base / 2, depth, wall)
    if inner[1] <= 0:  # the walls meet above the bottom, which the prototype does not see
        return None
    volume, wetted = mould.cone_frustum(opening / 2, base / 2, depth)
    return {"opening": opening, "base": base, "depth": depth, "wall": wall, "volume": volume, "wetted": wetted,
            "shell": mould.cone_shell(opening / 2, base / 2, depth, wall)}


def box(draw):
    length, width, depth = draw.between(10, 60), draw.between(10, 60), draw.between(6, 30)
    volume, wetted = mould.cuboid(length, width, depth)
    return {"length": length, "width": width, "depth": depth, "volume": volume, "wetted": wetted}


def pyramid(draw):
    length, width, depth, wall = draw.between(15, 60), draw.between(15, 60), draw.between(8, 30), draw.between(0.5, 4)
    base = [six_digits(side * draw.uniform(0.3, 1.0)) for side in (length, width)]
    inner = mould.pyramid_inner(length, width, *base, depth, wall)
    if min(inner[2:4]) <= 0:
        return None
    volume, wetted = mould.pyramid_frustum(length, width, *base, depth)
    return {"length": length, "width": width, "base_length": base[0], "base_width": base[1], "depth": depth, "wall": wall,
            "volume": volume, "wetted": wetted, "shell": mould.pyramid_shell(length, width, *base, depth, wall)}


table("cavity/hemispheres", MOULD, 70, hemisphere)
table("cavity/segments", MOULD, 70, segment)
table("cavity/cone_frusta", MOULD, 80, cone)
table("cavity/boxes", MOULD, 40, box)
table("cavity/pyramid_frusta", MOULD, 80, pyramid)
