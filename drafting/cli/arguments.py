"""The verbs and their arguments."""

from __future__ import annotations

import argparse
from collections.abc import Callable

from drafting.cli.words import ENDS, a_mount, sheet, units

FORMATS = ("dxf", "svg", "pdf", "step", "glb", "png", "csv", "html", "json")
DXF_VERSIONS = ("R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018")
SHEETS = ("auto", "A4", "A3", "A2", "A1", "A0", "A", "B", "C", "D", "E")
DEFAULT_FORMATS = "dxf,svg,pdf,step,json"
PARTS = ("drawing", "dxf", "step", "form", "spec", "json", "csv", "png")
"""What of a package for a quote may be left out."""


def a_scale(text: str) -> str:
    """Read a scale on the command line."""
    from drafting.factors import Misread
    from drafting.spec.kinds import read_scale

    try:
        return read_scale(text, f'"{text}"')
    except Misread as wrong:
        raise argparse.ArgumentTypeError(str(wrong)) from None


def _specs(p: argparse.ArgumentParser) -> None:
    p.add_argument(
        "specs",
        nargs="+",
        metavar="SPEC",
        help='spec file (TOML); "*.toml" for all of a folder, - for standard input',
    )


def _shop(p: argparse.ArgumentParser) -> None:
    p.add_argument(
        "--shop",
        metavar="FILE",
        help="company defaults (default: drafting-shop.toml beside the spec)",
    )


def _draw(p: argparse.ArgumentParser) -> None:
    _specs(p)
    p.add_argument("-o", "--output", default="output", metavar="DIR", help="folder to write to")
    p.add_argument(
        "-f",
        "--formats",
        default=DEFAULT_FORMATS,
        help=f"any of {','.join(FORMATS)} (default {DEFAULT_FORMATS})",
    )
    _shop(p)
    p.add_argument(
        "--against",
        metavar="OLD",
        help="mark and list what changed since OLD: an older spec, or an output made from it",
    )
    p.add_argument(
        "--force", action="store_true", help="write over the files of another drawing too"
    )
    p.add_argument(
        "--keep-going",
        action="store_true",
        help="draw the others where a spec is refused (without it, one refusal writes nothing)",
    )
    p.add_argument(
        "--watch",
        action="store_true",
        help="draw again whenever a spec is saved, until Ctrl-C",
    )
    p.add_argument(
        "--open", action="store_true", help="show the PDF with the program that shows yours"
    )
    p.add_argument(
        "--outline",
        action="store_true",
        help="write the bare outline alone as NAME-outline.dxf, for tracing",
    )
    p.add_argument(
        "--plates",
        action="store_true",
        help="write each plate of the mounts, with its holes, as a DXF ready to cut",
    )
    p.add_argument(
        "--sheet",
        type=sheet,
        choices=SHEETS,
        help="size of the drawing page, whatever the spec says (default: auto, A3 or B first)",
    )
    p.add_argument(
        "--scale",
        type=a_scale,
        metavar="1:N",
        help="scale of the retracted views, whatever the spec says (default: auto)",
    )
    p.add_argument(
        "--at",
        metavar="POSITION",
        help='also the STEP file of a position: "60 %%" of the stroke, or a length between datums',
    )
    p.add_argument(
        "--dxf",
        type=str.upper,
        choices=DXF_VERSIONS,
        default="R2010",
        help="DXF version, older for old machines (default R2010); R12 is for --plates alone",
    )


def _check(p: argparse.ArgumentParser) -> None:
    _specs(p)
    _shop(p)
    p.add_argument(
        "--full", action="store_true", help="all there is: figures, sources, every caution"
    )
    p.add_argument(
        "--plots",
        metavar="DIR",
        help="write force, speed and column as charts (SVG) to this folder",
    )


def _size(p: argparse.ArgumentParser) -> None:
    p.add_argument("duty", metavar="DUTY", help="what the machine needs (TOML)")
    p.add_argument("--take", type=int, metavar="N", help="write candidate N as a spec file")
    p.add_argument("-o", "--output", metavar="FILE", help="the spec file that --take writes")
    p.add_argument("--force", action="store_true", help="overwrite the spec file if it is there")


def _compare(p: argparse.ArgumentParser) -> None:
    what = "spec, any output made from one, or readings (TOML)"
    p.add_argument("original", metavar="ORIGINAL", help=f"the old cylinder: {what}")
    p.add_argument("candidate", metavar="CANDIDATE", help="the one to take its place, alike")
    p.add_argument(
        "--machine", metavar="MACHINE", help="where it goes (TOML): its distances, ears and supply"
    )
    _shop(p)
    p.add_argument("--full", action="store_true", help="every size, and who says so")
    p.add_argument(
        "--draw", action="store_true", help="draw one over the other (SVG, PDF, DXF) into -o"
    )
    p.add_argument("-o", "--output", default="output", metavar="DIR", help="folder to write to")


def _match(p: argparse.ArgumentParser) -> None:
    what = "spec, any output made from one, or readings (TOML)"
    p.add_argument("original", metavar="ORIGINAL", help=f"the old cylinder: {what}")
    p.add_argument("stock", metavar="STOCK", help="the list: CSV, XLSX, XLS or ODS, a row each")
    p.add_argument(
        "--machine", metavar="MACHINE", help="where it goes (TOML): its distances, ears and supply"
    )
    p.add_argument(
        "--columns",
        metavar="MAP",
        help='what its headings mean (TOML): "Eye width" = "rod_mount.width"; "" leaves one out',
    )
    p.add_argument("-o", "--output", metavar="FILE", help="all rows, ranked, as .csv or .xlsx")
    p.add_argument("--force", action="store_true", help="overwrite FILE if it is there")
    p.add_argument(
        "--draw",
        type=int,
        default=0,
        metavar="N",
        help="draw the best N over the original, beside FILE or into output/",
    )
    _shop(p)


def _identify(p: argparse.ArgumentParser) -> None:
    p.add_argument("bare", nargs="*", metavar="", help=argparse.SUPPRESS)
    p.add_argument("--female", metavar="SIZE", help="inside of a hole's thread, over the crests")
    p.add_argument("--male", metavar="SIZE", help="outside of a fitting's thread")
    p.add_argument("--pitch", metavar="SIZE", help="from one crest to the next")
    p.add_argument("--tpi", type=float, metavar="N", help="threads per inch (11.5 will do)")
    p.add_argument("--taper", choices=("yes", "no"), help="does the diameter change along it?")
    p.add_argument("--seat", metavar="ANGLE", help='angle of the sealing seat ("37 deg")')
    p.add_argument(
        "--units",
        type=units,
        choices=("in", "mm"),
        default="in",
        help="what a bare size means (default in)",
    )
    p.add_argument("--full", action="store_true", help="all that is known of each thread")


def _measure(p: argparse.ArgumentParser) -> None:
    p.add_argument("readings", metavar="READINGS", help="what was read (TOML)")
    p.add_argument("--ask", action="store_true", help="ask for what the file does not say yet")
    p.add_argument("-o", "--output", metavar="FILE", help="write the spec to this file")
    p.add_argument("--force", action="store_true", help="overwrite the spec file if it is there")


def _worksheet(p: argparse.ArgumentParser) -> None:
    for end in ENDS:
        p.add_argument(
            f"--{end}",
            type=a_mount(end),
            metavar="MOUNT",
            help=f"mount on the {end}",
        )
    p.add_argument(
        "--machine", action="store_true", help="of the machine that it goes into, instead"
    )
    p.add_argument(
        "--units",
        type=units,
        choices=("in", "mm", "both"),
        default="both",
        help="what the boxes ask for",
    )
    p.add_argument(
        "--paper",
        type=str.capitalize,
        choices=("A4", "Letter"),
        help="default: Letter with --units in, else A4",
    )
    p.add_argument(
        "-o",
        "--output",
        default="worksheet.pdf",
        metavar="FILE",
        help="PDF to write, or SVG: one for each page",
    )
    p.add_argument("--force", action="store_true", help="overwrite the file if it is there")


def _new(p: argparse.ArgumentParser) -> None:
    from drafting.model.catalog import mount_words

    p.add_argument("file", metavar="FILE", help="the spec file to write")
    p.add_argument("--units", type=units, choices=("in", "mm"), default="in", help="default: in")
    for end in ENDS:
        p.add_argument(
            f"--{end}",
            type=a_mount(end),
            choices=mount_words(end),
            default="clevis",
            help="default: clevis",
        )
    p.add_argument("--short", action="store_true", help="only what must be typed")
    other = p.add_mutually_exclusive_group()
    other.add_argument("--duty", action="store_true", help="a duty file instead, for size")
    other.add_argument(
        "--readings", action="store_true", help="a readings file instead, for measure"
    )
    p.add_argument(
        "--from", dest="source", metavar="OUTPUT", help="take the spec out of a drawing or solid"
    )
    p.add_argument(
        "--name",
        metavar="NUMBER",
        help="with --from: number or title of the one that is meant, where a file has several",
    )
    p.add_argument(
        "--shop", metavar="FILE", help="with --from: write the company defaults to this file too"
    )
    p.add_argument("--force", action="store_true", help="overwrite the file if it is there")


def _fit(p: argparse.ArgumentParser) -> None:
    p.add_argument("spec", metavar="SPEC", help="the cylinder (TOML)")
    p.add_argument("machine", metavar="MACHINE", help="where it goes (TOML)")
    p.add_argument("-o", "--output", metavar="DIR", help="write files to this folder")
    p.add_argument("--suggest", action="store_true", help="say where the base pin could go")
    p.add_argument("--shop", metavar="FILE", help="company defaults of the spec")
    p.add_argument("--full", action="store_true", help="every row with its source, all positions")


def _schema(p: argparse.ArgumentParser) -> None:
    p.add_argument("--shop", action="store_true", help="of the company defaults instead")
    p.add_argument("-o", "--output", metavar="FILE", help="write it to this file")


def _request(p: argparse.ArgumentParser) -> None:
    p.add_argument("specs", nargs="*", metavar="SPEC", help="spec file (TOML)")
    p.add_argument(
        "--answers",
        nargs="+",
        metavar="FORM",
        help="read the quote forms that came back instead: who changed and answered what",
    )
    p.add_argument("-o", "--output", default="output", metavar="DIR", help="folder to write to")
    p.add_argument(
        "--without",
        default="",
        metavar="PARTS",
        help=f"leave parts out: any of {','.join(PARTS)}",
    )
    _shop(p)
    p.add_argument("--force", action="store_true", help="write over what lies there already")


def _batch(p: argparse.ArgumentParser) -> None:
    p.add_argument(
        "source", metavar="TABLE", help="CSV, XLSX or ODS: a row a cylinder; or a folder of specs"
    )
    p.add_argument("--base", metavar="SPEC", help="the spec that the rows of the table change")
    p.add_argument("-o", "--output", default="batch", metavar="DIR", help="folder to write to")
    p.add_argument(
        "-f",
        "--formats",
        default="pdf,svg",
        help=f"any of {','.join(FORMATS)} (default pdf,svg)",
    )
    p.add_argument("--workers", type=int, default=1, metavar="N", help="drawn at once (default 1)")
    p.add_argument("--on", metavar="ADDRESS", help="workers of a Dask scheduler that is running")
    p.add_argument(
        "--again", action="store_true", help="try once more what failed, besides what changed"
    )
    _shop(p)
    p.add_argument("--force", action="store_true", help="write over files of other runs too")


def _page(p: argparse.ArgumentParser) -> None:
    p.add_argument("file", nargs="?", metavar="FILE", help="spec to work on; saved where it lies")
    p.add_argument("--port", type=int, default=0, metavar="N", help="default: any that is free")
    p.add_argument("--no-open", action="store_true", help="print the address, open no browser")


VERBS: dict[str, tuple[str, Callable[[argparse.ArgumentParser], None]]] = {
    "new": ("a commented spec that draws without edits", _new),
    "draw": ("spec files to drawing and solids", _draw),
    "check": ("everything that can be said of a cylinder without drawing it", _check),
    "schema": ("the JSON Schema of the spec file, for editors", _schema),
    "identify": ("which thread is it?", _identify),
    "measure": ("tape and caliper readings to a spec, and what to measure again", _measure),
    "worksheet": ("a printable sheet of what to measure on a cylinder", _worksheet),
    "compare": ("will this one do for that one, and what has to be adapted", _compare),
    "request": ("the package for a quote, in one ZIP, and what comes back", _request),
    "match": ("a stock list ranked against an old cylinder", _match),
    "fit": ("the cylinder in its machine: lengths, ears, forces over the travel", _fit),
    "batch": ("a table or a folder of cylinders at once, and a page to look through them", _batch),
    "page": ("the same on a page in the browser, on this machine alone", _page),
    "size": ("what the machine needs to bores and rods that do it, ranked", _size),
}
