# Reads a DXF file with ezdxf and prints what a cutter would see, as JSON.
import json
import math
import sys

import ezdxf

doc = ezdxf.readfile(sys.argv[1])
auditor = doc.audit()


def way(points, closed):
    ends = zip(points, points[1:] + points[:1] if closed else points[1:])
    return sum(math.dist(p, q) for p, q in ends)


def area(points):
    return sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(points, points[1:] + points[:1])) / 2


lines = []
for e in doc.modelspace().query("POLYLINE"):
    points = [(v.dxf.location.x, v.dxf.location.y) for v in e.vertices]
    lines.append({
        "Layer": e.dxf.layer, "Closed": bool(e.is_closed), "Points": len(points), "Length": way(points, e.is_closed),
        "Area": area(points), "Low": [min(p[i] for p in points) for i in (0, 1)], "High": [max(p[i] for p in points) for i in (0, 1)],
    })
json.dump({
    "Version": doc.dxfversion,
    "Units": doc.header.get("$INSUNITS", 0),
    "Errors": [e.message for e in auditor.errors],
    "Layers": [layer.dxf.name for layer in doc.layers],
    "Lines": lines,
    "Circles": [{"Layer": e.dxf.layer, "X": e.dxf.center.x, "Y": e.dxf.center.y, "Radius": e.dxf.radius} for e in doc.modelspace().query("CIRCLE")],
    "Texts": [{"Layer": e.dxf.layer, "Text": e.dxf.text} for e in doc.modelspace().query("TEXT")],
}, sys.stdout)
