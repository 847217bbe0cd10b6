"""Reads back the drawings that the headless main job wrote, with nothing of the program's own: the DXF
with ezdxf (MIT licence), the SVG as XML. Hoses, ports and extents are those of the bay file."""

import json
import math
import pathlib
import sys
import xml.etree.ElementTree as tree

import ezdxf
from ezdxf import bbox

out, bays = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])

# Across and up, as the contract of the bay file has the views: X, Y; X, Z; Y, Z.
AXES = {"plan": (0, 1), "side": (0, 2), "front": (1, 2)}
LAYERS = {
    "HOSES", "HOSE_SIDES", "ENDS", "LIE", "PORTS", "CLAMPS", "OBSTACLES_PLAIN", "OBSTACLES_HOT",
    "OBSTACLES_MOVING", "OBSTACLES_SHARP", "MIN_CLEARANCE", "FINDINGS", "TEXT",
}  # fmt: skip
SVG = "{http://www.w3.org/2000/svg}"


def extents(points):
    return [f(p[k] for p in points) for f in (min, max) for k in (0, 1)]


def near(a, b, tolerance=1e-6):
    return len(a) == len(b) and all(math.isclose(x, y, abs_tol=tolerance) for x, y in zip(a, b))


def check_dxf(file, bay, routing, axes):
    document = ezdxf.readfile(file)
    audit = document.audit()
    assert not audit.errors and not audit.fixes, (file, audit.errors, audit.fixes)
    assert document.dxfversion == "AC1009", file
    assert LAYERS <= {layer.dxf.name for layer in document.layers}, file
    space = document.modelspace()
    hoses = [entity for entity in space if entity.dxf.layer == "HOSES"]
    assert len(hoses) == len(routing["runs"]), f"{file}: a line for each hose"
    circles = space.query('CIRCLE[layer=="PORTS"]')
    drawn = [(circle.dxf.center.x, circle.dxf.center.y) for circle in circles]
    ports = [tuple(port["at"][k] for k in axes) for port in bay["ports"]]
    assert len(drawn) == len(ports), f"{file}: a circle for each port"
    assert near(extents(drawn), extents(ports)), f"{file}: extents of the ports"
    for obstacle in bay.get("obstacles", []):
        if obstacle["kind"] != "box":
            continue
        want = extents([[obstacle[end][k] for k in axes] for end in ("min", "max")])
        layer = "OBSTACLES_" + obstacle["nature"].upper()
        outlines = space.query(f'POLYLINE[layer=="{layer}"]')
        found = (extents([(p.x, p.y) for p in outline.points()]) for outline in outlines)
        assert any(near(want, one) for one in found), f"{file}: {obstacle['id']}"
    box = bbox.extents(space, fast=True)
    low, high = document.header["$EXTMIN"], document.header["$EXTMAX"]
    # Words come out as wide as the reader's letters are: only lines are held against the header.
    lines = bbox.extents((e for e in space if e.dxftype() != "TEXT"), fast=True)
    assert box.has_data and lines.extmin.x >= low[0] - 0.1 and lines.extmax.x <= high[0] + 0.1, file
    assert lines.extmin.y >= low[1] - 0.1 and lines.extmax.y <= high[1] + 0.1, file
    return len(hoses)


def check_svg(file, bay, axes):
    root = tree.parse(file).getroot()
    assert root.tag == SVG + "svg" and root.get("version") == "1.1", file
    x, y, width, height = map(float, root.get("viewBox").split())
    assert root.get("width") == f"{root.get('viewBox').split()[2]}mm", file
    assert root.get("height") == f"{root.get('viewBox').split()[3]}mm", file
    groups = {group.get("id"): group for group in root.findall(SVG + "g")}
    assert set(groups) == LAYERS, file
    circles = groups["PORTS"].findall(SVG + "circle")
    drawn = [(float(circle.get("cx")), -float(circle.get("cy"))) for circle in circles]
    ports = [tuple(port["at"][k] for k in axes) for port in bay["ports"]]
    assert near(extents(drawn), extents(ports), 1e-3), f"{file}: extents of the ports"
    assert all(x <= px <= x + width and y <= -py <= y + height for px, py in ports), file


hoses = 0
for path in sorted(bays.glob("*.bay.json")):
    bay = json.loads(path.read_text())
    for routing in bay["routings"]:
        for view, axes in AXES.items():
            stem = f"{path.name.removesuffix('.bay.json')}-{routing['id']}.{view}"
            hoses += check_dxf(out / f"{stem}.dxf", bay, routing, axes)
            check_svg(out / f"{stem}.svg", bay, axes)
assert hoses >= 102, "the demo bays were drawn"
print(f"{hoses} hoses read back from DXF and SVG")
