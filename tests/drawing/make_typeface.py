"""Make the typeface of the sheets from Liberation Sans 2.x; run by hand, not by the tests.

    python tests/drawing/make_typeface.py LiberationSans-Regular.ttf LiberationSans-Bold.ttf

Liberation Sans 2.x is under the SIL Open Font License 1.1 with the reserved names Liberation,
Arimo, Tinos and Cousine, so a subset needs another name: Drafting Sans. It is metric-compatible
with Arial (equal advance widths), which is what the text styles of a DXF ask for. Needs fontTools.

Writes into drafting/drawing/sheet/data: the two faces as TTF (embedded in a PDF, where the writer
takes only the letters used), their western half and the rest as WOFF (embedded in an SVG), and
letters.json: per face the advance widths of every character in units of the em.
"""

import json
import sys
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

DATA = Path(__file__).parents[2] / "drafting" / "drawing" / "sheet" / "data"
NAME = "Drafting Sans"
SIGNS = "–—‘’“”„†•…‰′″⁄€™←↑→↓↔Ω∆−√∞≈≠≤≥⅛⅜⅝⅞□▲▼"
WESTERN = [*range(0x20, 0x7F), *range(0xA0, 0x100), *map(ord, SIGNS)]
OTHER = [
    *range(0x100, 0x180),  # Latin Extended-A
    *range(0x218, 0x21C),  # Romanian commas below
    *range(0x384, 0x3CF),  # Greek
    *range(0x400, 0x460),  # Cyrillic
    *range(0x490, 0x492),  # Ukrainian
]


def subset(source: str, characters: list[int], bold: bool) -> TTFont:
    """Cut a face down to some characters, without hinting, under its new name."""
    font = TTFont(source, recalcTimestamp=False)
    options = Options()
    options.hinting = False
    options.layout_features = []
    options.name_IDs = [0, 13, 14]
    options.notdef_outline = True
    options.glyph_names = False
    cutter = Subsetter(options)
    cutter.populate(unicodes=characters)
    cutter.subset(font)
    style = "Bold" if bold else "Regular"
    full = NAME + (" Bold" if bold else "")
    post_script = full.replace(" ", "") if not bold else "DraftingSans-Bold"
    names = {1: NAME, 2: style, 3: f"{full} subset", 4: full, 5: "Version 1.000", 6: post_script}
    for number, text in names.items():
        font["name"].setName(text, number, 3, 1, 0x409)
        font["name"].setName(text, number, 1, 0, 0)
    return font


def main(regular: str, bold: str) -> None:
    """Write all files."""
    table: dict[str, object] = {}
    for source, heavy in ((regular, False), (bold, True)):
        stem = "drafting-sans-bold" if heavy else "drafting-sans"
        face = subset(source, WESTERN + OTHER, heavy)
        face.save(DATA / f"{stem}.ttf")
        for half, characters in (("western", WESTERN), ("other", OTHER)):
            part = subset(source, characters, heavy)
            part.flavor = "woff"
            part.save(DATA / f"{stem}-{half}.woff")
        metrics, cmap = face["hmtx"], face.getBestCmap()
        table |= {
            "units_per_em": face["head"].unitsPerEm,
            "cap_height": face["OS/2"].sCapHeight,
            "descent": -face["hhea"].descent,
            "western": "".join(map(chr, sorted(set(WESTERN) & set(cmap)))),
            "bold" if heavy else "regular": {chr(c): metrics[g][0] for c, g in cmap.items()},
        }
    text = json.dumps(table, ensure_ascii=False, sort_keys=True, indent=None)
    (DATA / "letters.json").write_text(text + "\n", encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main(*sys.argv[1:])
