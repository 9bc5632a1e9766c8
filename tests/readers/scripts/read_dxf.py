"""Run by FreeCAD: import a DXF and tell the dimensions, texts and the box of the shapes (mm)."""

import json
import os

import FreeCAD

draft = FreeCAD.ParamGet("User parameter:BaseApp/Preferences/Mod/Draft")
draft.SetBool("dxfUseLegacyImporter", False)  # the other one wants a download
draft.SetBool("dxfShowDialog", False)
draft.SetBool("dxftext", True)

import importDXF  # noqa: E402  (reads the preferences)

importDXF.open(os.environ["READ_FILE"])
told = {"distances": [], "texts": [], "shapes": 0, "box": None}
box = FreeCAD.BoundBox()
for thing in FreeCAD.ActiveDocument.Objects:
    kind = getattr(getattr(thing, "Proxy", None), "Type", thing.TypeId)
    if kind == "LinearDimension":
        told["distances"].append(float(thing.Distance))
    elif kind == "Text":
        told["texts"] += list(thing.Text)
    elif thing.TypeId == "Part::Feature":
        told["shapes"] += 1
        box.add(thing.Shape.BoundBox)
told["box"] = [box.XMin, box.YMin, box.XMax, box.YMax]
with open(os.environ["TELL_FILE"], "w", encoding="utf-8") as out:
    json.dump(told, out)
