"""Reads a DXF with a library that is not ours, audits it, and says as JSON what is in it.

Usage: dxf_audit.py FILE [FOLDER]; with a folder, model and layouts are drawn into it as PNG.
"""

import json
import sys

import ezdxf
from ezdxf import bbox


def found(path):
    document = ezdxf.readfile(path)
    audit = document.audit()
    model = document.modelspace()
    box = bbox.extents(e for e in model if e.dxftype() not in ("DIMENSION", "TEXT", "MTEXT"))
    kinds = {}
    for entity in model:
        kinds[entity.dxftype()] = kinds.get(entity.dxftype(), 0) + 1
    layouts = {}
    for name in document.layouts.names_in_taborder():
        if name == "Model":
            continue
        layout = document.layouts.get(name)
        layouts[name] = {
            "paper": [layout.dxf.paper_width, layout.dxf.paper_height],
            "texts": [t.dxf.text for t in layout.query("TEXT")] + [t.plain_text() for t in layout.query("MTEXT")],
            "viewports": [
                [v.dxf.width, v.dxf.height, v.dxf.view_height] for v in layout.query("VIEWPORT") if v.dxf.id > 1
            ],
            "places": [
                [list(v.get_transformation_matrix().transform(p))[:2] for p in [(0, 0, 0), (100, 0, 0), (0, 100, 0)]]
                for v in layout.query("VIEWPORT")
                if v.dxf.id > 1
            ],
            "lines": len(layout.query("LINE LWPOLYLINE")),
        }
    return document, {
        "errors": [e.message for e in audit.errors],
        "fixes": [f.message for f in audit.fixes],
        "version": document.dxfversion,
        "units": document.header.get("$INSUNITS"),
        "layers": [layer.dxf.name for layer in document.layers],
        "line_types": {layer.dxf.name: layer.dxf.linetype for layer in document.layers},
        "extents": [list(box.extmin)[:2], list(box.extmax)[:2]] if box.has_data else None,
        "kinds": kinds,
        "texts": [t.dxf.text for t in model.query("TEXT")] + [t.plain_text() for t in model.query("MTEXT")],
        "dimensions": [
            {
                "words": d.dxf.text,
                "measured": d.get_measurement() if not hasattr(d.get_measurement(), "x") else None,
                "block": len(document.blocks.get(d.dxf.geometry)),
            }
            for d in model.query("DIMENSION")
        ],
        "hatches": [
            {"name": h.dxf.pattern_name, "lines": len(h.pattern.lines) if h.pattern else 0, "rings": len(h.paths)}
            for h in model.query("HATCH")
        ],
        "layouts": layouts,
    }


def draw(document, folder):
    import matplotlib

    matplotlib.use("Agg")
    import matplotlib.pyplot as plt
    from ezdxf.addons.drawing import Frontend, RenderContext
    from ezdxf.addons.drawing.matplotlib import MatplotlibBackend

    for name in document.layouts.names_in_taborder():
        layout = document.layouts.get(name)
        figure = plt.figure(figsize=(16, 11))
        axes = figure.add_axes([0, 0, 1, 1])
        context = RenderContext(document)
        context.set_current_layout(layout)
        Frontend(context, MatplotlibBackend(axes)).draw_layout(layout)
        figure.savefig(f"{folder}/{name.replace(' ', '-').lower()}.png", dpi=110)
        plt.close(figure)


if __name__ == "__main__":
    document, answer = found(sys.argv[1])
    if len(sys.argv) > 2:
        draw(document, sys.argv[2])
    json.dump(answer, sys.stdout)
