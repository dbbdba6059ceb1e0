"""Sections as DXF, read back with ezdxf (reference library of the format, PyPI).

The files are the golden ones of grounds-draw, which its own tests compare with what it writes now.
Their dimensions are those of the faces they were drawn from: the sums stand beside them.
"""

from pathlib import Path

import ezdxf
from ezdxf import bbox, units

from cases import close

FOLDER = Path(__file__).resolve().parent.parent / "crates/grounds-draw/tests/snapshots"
# File: faces of the layers in millimetres, each the sum of the thicknesses before it; pieces; kind.
FACES = {
    "glass_frame": ([0, 38, 53, 64.5, 67.5], 1, "wall"),
    "ceiling_grille": ([0, 220, 248, 260.5, 273, 275.5, 275.75], 1, "ceiling"),
    "valve_wall": ([0, 139.7, 152.4, 153.6, 159.95, 167.8875, 167.9375], 2, "wall"),
}

compared, differences = 0, []


def check(what, found, wanted):
    global compared
    compared += 1
    if found != wanted:
        differences.append(f"{what}: {found}, not {wanted}")


for name, (faces, pieces, kind) in FACES.items():
    document = ezdxf.readfile(FOLDER / f"fit__{name}.snap.dxf")
    faults = document.audit()
    check(f"{name}: faults", [str(fault.message) for fault in faults.errors], [])
    check(f"{name}: release", document.dxfversion, "AC1009")
    check(f"{name}: units", document.units, units.MM)
    model = document.modelspace()
    used = {entity.dxf.layer for entity in model}
    check(f"{name}: layers without a table entry", used - {one.dxf.name for one in document.layers}, set())
    outlines = [one for one in model.query("POLYLINE") if one.dxf.layer in ("BUILT", "TO-COME")]
    along = "x" if kind == "wall" else "y"
    sign = -1 if kind == "ceiling" else 1
    found = sorted(
        {round(sign * getattr(vertex.dxf.location, along), 4) + 0.0 for one in outlines for vertex in one.vertices}
    )
    check(f"{name}: faces of layers", found, sorted(map(float, faces)))
    check(f"{name}: closed outlines", all(one.is_closed for one in outlines), True)
    check(f"{name}: pieces", len(model.query('POLYLINE[layer=="PIECES"]')), pieces)
    check(f"{name}: finish plane", len(model.query('LINE[layer=="FINISH-PLANE"]')), 1)
    check(f"{name}: has a size", bbox.extents(model).has_data, True)

close(compared, differences)
