"""A command line to a verb and its options; what cannot be read is refused with what was meant."""

from __future__ import annotations

import argparse
import re
from collections.abc import Callable, Iterator, Sequence
from difflib import get_close_matches
from importlib import import_module
from typing import NoReturn

from drafting.cli.arguments import VERBS
from drafting.errors import Fault, Refused
from drafting.records import dataclass

MEANT = {
    "draw": "make plot render generate build export print drawing pdf dxf step",
    "new": "init create start template starter",
    "check": "validate verify test report calculate strength",
    "identify": "thread threads gauge",
    "measure": "reading readings",
    "worksheet": "form",
    "size": "sizing duty choose select",
    "compare": "diff",
    "match": "find stock",
    "fit": "machine",
    "request": "quote rfq",
    "batch": "bulk many sweep",
}
"""What people type for a verb, besides what is spelt nearly like it."""
EXAMPLES = {
    "SPEC": "mine.toml",
    "FILE": "mine.toml",
    "MOUNT": "clevis",
    "STOCK": "stock.csv",
    "TABLE": "table.csv",
}
"""What stands for a word of help in an example; another is a file of that name."""
SHELLS = ("bash", "zsh")
_CHOICE = re.compile(r"invalid choice: '(.*?)' \(choose from (.*)\)")


@dataclass(frozen=True, slots=True)
class Wanted:
    """A parsed command line: the verb and its options."""

    verb: str
    options: argparse.Namespace

    def run(self) -> Callable[[argparse.Namespace], int]:
        """Import the verb's module and give its ``run``."""
        module = import_module(f"drafting.cli.{self.verb}")
        run: Callable[[argparse.Namespace], int] = module.run
        return run


class Parser(argparse.ArgumentParser):
    """argparse, with the nearest option named when one is mistyped."""

    def error(self, message: str) -> NoReturn:
        """Refuse the command line: what is wrong, and what would do."""
        raise refused("usage", f"{message}{self._hint(message)}; {self.prog} --help tells all")

    def _hint(self, message: str) -> str:
        if message.startswith("the following arguments are required"):
            return f"; as in: {self.prog} {' '.join(self._needed())}"
        choice = _CHOICE.search(message)
        if choice:
            near = get_close_matches(choice[1].casefold(), re.findall("'([^']*)'", choice[2]), 1)
        else:
            known = [o for action in self._actions for o in action.option_strings]
            words = message.rpartition(": ")[2].replace(",", " ").split()
            typed = [w.partition("=")[0] for w in words if w[:1] == "-"]
            near = [n for w in typed if w not in known for n in get_close_matches(w, known, 1)]
        return f" (did you mean {' '.join(near)}?)" if near else ""

    def _needed(self) -> Iterator[str]:
        """Give the least that would do, with names as examples."""
        for action in self._actions:
            if action.required:
                name = str(action.metavar or action.dest.upper())
                example = EXAMPLES.get(name, f"{name.lower()}.toml")
                yield " ".join([*action.option_strings[-1:], example])


def parse(argv: Sequence[str]) -> Wanted:
    """Parse a command line that begins with a verb; ends with 0 after help. Raises Refused."""
    first, *rest = argv
    if first.casefold() in VERBS:
        first = first.casefold()
    if first == "help" and rest:
        first, rest = rest[0], ["--help"]
    if first in ("help", "-h", "--help"):
        whole_parser().print_help()
        raise SystemExit(0)
    if first in ("-V", "--version", "version"):
        from drafting import __version__

        print(f"cylinder-drafting {__version__}")
        raise SystemExit(0)
    if first == "--completion" or first.startswith("--completion="):
        _print_completion(first.partition("=")[2] or "".join(rest[:1]))
    if first not in VERBS:
        raise refused("unknown-verb", _unknown(first, rest))
    # Options may stand between specs: draw a.toml -o out b.toml.
    return Wanted(first, verb_parser(first).parse_intermixed_args(rest))


def verb_parser(verb: str) -> Parser:
    """Give the parser of one verb."""
    help_line, add = VERBS[verb]
    parser = Parser(prog=f"drafting {verb}", description=help_line)
    _fill(parser, add)
    return parser


def whole_parser(options: bool = False) -> argparse.ArgumentParser:
    """Give a parser of all verbs, for help; with their ``options``, for completion in a shell."""
    parser = argparse.ArgumentParser(
        prog="drafting",
        description="From a short spec file to a dimensioned drawing and a STEP envelope of a "
        "hydraulic cylinder.",
        epilog="The options of a verb: drafting VERB --help.",
    )
    parser.add_argument("-V", "--version", action="store_true", help="print the version")
    parser.add_argument(
        "--completion", choices=SHELLS, help="print what completes verbs and options in a shell"
    )
    verbs = parser.add_subparsers(dest="verb", metavar="VERB")
    for word, (help_line, add) in VERBS.items():
        sub = verbs.add_parser(word, help=help_line, description=help_line)
        if options:
            _fill(sub, add)
    return parser


def _fill(parser: argparse.ArgumentParser, add: Callable[[argparse.ArgumentParser], None]) -> None:
    parser.add_argument("--json", action="store_true", help="print one JSON document on stdout")
    add(parser)


def _print_completion(shell: str) -> NoReturn:
    if shell not in SHELLS:
        said = f'no completion for "{shell}"' if shell else "--completion names no shell"
        raise refused("unknown-word", f"{said}; known: {', '.join(SHELLS)}")
    import shtab

    print(shtab.complete(whole_parser(options=True), shell=shell))
    raise SystemExit(0)


def _unknown(first: str, rest: Sequence[str]) -> str:
    """Say what a word that is no verb may have been meant for."""
    if first.startswith("-") and first != "-":
        verb = next((w for w in rest if w in VERBS), "draw")
        return f'the verb comes first: "drafting {verb} {first} ..."; drafting --help names all'
    if first == "-" or any(sign in first for sign in "./\\*"):
        return f'a verb comes first: "drafting draw {first}" or "drafting check {first}"'
    word = first.casefold()
    near = [v for v, words in MEANT.items() if v in VERBS and word in words.split()]
    near = near or get_close_matches(word, VERBS, 1)
    what = f'did you mean "drafting {near[0]}"?' if near else f"known are: {', '.join(VERBS)}"
    return f'no verb "{first}"; {what}'


def refused(code: str, message: str) -> Refused:
    """Give the refusal of a command line."""
    return Refused([Fault("command line", 1, 1, code, "", message)])
