"""An adapter between an old hose end and a new port, told by the thread at each of its ends."""

from __future__ import annotations

from drafting.records import dataclass
from drafting.standards.bands import KnownThread
from drafting.standards.ports import PortThread

ALWAYS = (
    "an adapter adds length, a joint that can leak and a pressure limit of its own: check its "
    "rating at the highest pressure of the line, shocks included",
)
PIPE_MIX = (
    "NPT and the British pipe threads start into each other and never seal; both ends of the "
    "adapter must be of the kind named"
)


@dataclass(frozen=True, slots=True)
class Adapter:
    """``hose_end`` meets the old hose, ``port_end`` the new port; None where none is needed."""

    hose_end: str | None
    port_end: str | None
    words: str
    cautions: tuple[str, ...]


def adapter(old: KnownThread, old_is_male: bool, port: PortThread) -> Adapter:
    """Give the adapter that joins a hose end with a thread of its own to a port.

    A port is a hole, so the adapter's end in it is male; towards the hose it is the other kind
    than the hose's own.
    """
    name = old.male_name if old_is_male else old.thread
    if old_is_male and old.port == port.spelling:
        return Adapter(None, None, f"no adapter: the male {name} goes into {port.echo}", ())
    hose = f"{'female' if old_is_male else 'male'} {old.thread if old_is_male else old.male_name}"
    end = f"head for {port.spelling}" if port.is_flange else f"male {port.spelling}"
    kinds = {old.family, port.family}
    mixed = "NPT" in kinds and kinds & {"BSPP", "BSPT", "G", "Rc"}
    return Adapter(
        hose,
        end,
        f"{hose} to {end}; the hose end seals {old.seals}",
        (PIPE_MIX, *ALWAYS) if mixed else ALWAYS,
    )
