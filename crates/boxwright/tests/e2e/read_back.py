"""Opens files for machines with general readers: read_back.py FILE…

Prints one line of JSON for each file: what a reader finds in it, in mm.
DXF is read with ezdxf and audited, STL with trimesh, SVG as XML.
"""

import collections
import json
import math
import sys
import xml.etree.ElementTree as tree

import ezdxf
import ezdxf.bbox
import trimesh


def polyline(entity):
    """Corners of a polyline with the bulge of the stretch after each."""
    return [[v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)] for v in entity.vertices]


def dxf(path):
    document = ezdxf.readfile(path)
    audit = document.audit()
    found = []
    for entity in document.modelspace():
        one = {"kind": entity.dxftype(), "layer": entity.dxf.layer}
        if entity.dxftype() == "CIRCLE":
            one["at"] = [entity.dxf.center.x, entity.dxf.center.y]
            one["diameter"] = 2 * entity.dxf.radius
        elif entity.dxftype() == "POLYLINE":
            one["closed"] = entity.is_closed
            one["corners"] = polyline(entity)
            box = ezdxf.bbox.extents([entity])
            one["low"], one["high"] = list(box.extmin)[:2], list(box.extmax)[:2]
        found.append(one)
    return {
        "version": document.dxfversion,
        "faults": [str(error) for error in audit.errors + audit.fixes],
        "layers": sorted(layer.dxf.name for layer in document.layers),
        "entities": found,
    }


def closed(mesh):
    """Whether every edge is run along as often one way as the other.

    Solids that touch share edges, so that more than two faces meet there.
    """
    count = collections.Counter()
    for a, b, c in mesh.faces.tolist():
        for edge in ((a, b), (b, c), (c, a)):
            count[edge] += 1
    return all(count[b, a] == number for (a, b), number in count.items())


def stl(path):
    mesh = trimesh.load_mesh(path, file_type="stl")
    return {
        "closed": closed(mesh),
        "watertight": bool(mesh.is_watertight),
        "wound": bool(mesh.is_winding_consistent),
        "volume": float(mesh.volume),
        "low": mesh.bounds[0].tolist(),
        "high": mesh.bounds[1].tolist(),
    }


def svg(path):
    root = tree.parse(path).getroot()
    name = lambda element: element.tag.rsplit("}", 1)[-1]
    circles = []
    for group in root.iter():
        if name(group) != "g":
            continue
        for element in group:
            if name(element) == "circle":
                at = [float(element.get("cx")), float(element.get("cy"))]
                circles.append({"layer": group.get("id"), "at": at, "diameter": 2 * float(element.get("r"))})
    return {
        "width": root.get("width"),
        "height": root.get("height"),
        "view": [float(part) for part in root.get("viewBox").split()],
        "layers": [element.get("id") for element in root if name(element) == "g"],
        "texts": sum(name(element) == "text" for element in root.iter()),
        "circles": circles,
    }


def main():
    readers = {"dxf": dxf, "stl": stl, "svg": svg}
    for path in sys.argv[1:]:
        found = readers[path.rsplit(".", 1)[-1]](path)
        assert all(math.isfinite(x) for x in found.get("low", []))
        print(json.dumps(found))


main()
