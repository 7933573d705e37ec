"""Random inputs and tables of what another implementation makes of them.

A table draws from a generator seeded with its own name, so that each comes out the same, whatever else is run. Inputs are rounded to six
digits before anything is computed from them; results are written with ten."""
import csv
import hashlib
import importlib
import importlib.metadata
import math
import pathlib
import random
import sys

HERE = pathlib.Path(__file__).parent


def prototypes():
    """The folder that the command line names: it holds water/ and flow/prototypes/."""
    if len(sys.argv) != 2:
        sys.exit(f"usage: python -B {pathlib.Path(sys.argv[0]).name} FOLDER_OF_THE_PROTOTYPES")
    folder = pathlib.Path(sys.argv[1])
    sys.path[:0] = [str(folder / "water"), str(folder / "flow" / "prototypes")]


def prototype(name):
    """A prototype, with its name and version: as it has no number, the beginning of the digest of all code and constants of its folder."""
    module = importlib.import_module(name)
    files = [file for file in sorted(pathlib.Path(module.__file__).parent.iterdir()) if file.suffix in (".py", ".json")]
    digest = hashlib.sha256(b"".join(file.read_bytes() for file in files)).hexdigest()
    return module, (f"{name}.py", digest[:8])


def registry(name):
    """Name and version of an installed library."""
    return name, importlib.metadata.version(name)


def six_digits(value):
    return float(f"{value:.6g}")


class Draw(random.Random):
    def between(self, low, high):
        return six_digits(self.uniform(low, high))

    def spread(self, low, high):
        """Evenly over orders of magnitude."""
        return six_digits(math.exp(self.uniform(math.log(low), math.log(high))))

    def mixture(self, shares):
        """Mass fractions from weights: water takes what rounding leaves."""
        whole = sum(shares.values())
        parts = {key: round(share / whole, 4) for key, share in shares.items() if key != "water"}
        return {"water": round(1 - sum(parts.values()), 4), **parts}


def parts(mixture):
    """A composition in one cell."""
    return ";".join(f"{key}={share:g}" for key, share in mixture.items())


def numbers(values):
    """A list in one cell."""
    return ";".join(f"{value:.6g}" for value in values)


def table(name, source, count, row):
    """`row` makes a dict of inputs and results in the order of the columns, or nothing if the draw is not one to compare."""
    draw = Draw(name)
    rows = []
    while len(rows) < count:
        made = row(draw)
        if made:
            rows.append(made)
    write(name, source, rows)


def write(name, source, rows):
    file = HERE / f"{name}.csv"
    file.parent.mkdir(exist_ok=True)
    library, version = source
    with file.open("w", newline="") as out:
        lines = csv.writer(out, lineterminator="\n")
        lines.writerow([*rows[0], "library", "version"])
        for row in rows:
            cells = [f"{cell:.10g}" if isinstance(cell, float) else cell for cell in row.values()]
            lines.writerow([*cells, library, version])
    print(f"{name}: {len(rows)} rows, {library} {version}")
