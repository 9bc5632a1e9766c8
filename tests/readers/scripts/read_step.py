"""Run by FreeCAD: import a STEP file and tell its tree, solids and round faces (mm)."""

import json
import os

import FreeCAD

step = FreeCAD.ParamGet("User parameter:BaseApp/Preferences/Mod/Import/hSTEP")
step.SetBool("ReadShapeCompoundMode", False)  # a tree, not one lump

import Import  # noqa: E402  (reads the preferences)

document = FreeCAD.newDocument("read")
Import.insert(os.environ["READ_FILE"], document.Name)
told = []
for thing in document.Objects:
    shape = getattr(thing, "Shape", None)
    if shape is None:
        continue
    bores = []
    for face in shape.Faces:
        if face.Surface.TypeId == "Part::GeomCylinder":
            axis, centre = face.Surface.Axis, face.Surface.Center
            bores.append([face.Surface.Radius, list(axis), list(centre)])
    box = shape.BoundBox
    told.append(
        {
            "label": thing.Label,
            "within": [x.Label for x in thing.InListRecursive],
            "solids": len(shape.Solids),
            "valid": shape.isValid(),
            "volume": shape.Volume,
            "box": [box.XMin, box.YMin, box.ZMin, box.XMax, box.YMax, box.ZMax],
            "cylinders": bores,
            "leaf": thing.TypeId == "Part::Feature",
        }
    )
with open(os.environ["TELL_FILE"], "w", encoding="utf-8") as out:
    json.dump(told, out)
