"""A spec and the company defaults under it as one text, and taken apart again byte for byte.

The defaults stand behind the spec as comment lines, so that the whole is a spec too.
"""

from __future__ import annotations

import re
from base64 import b64decode, b64encode
from hashlib import sha256
from json import dumps, loads

from drafting.records import dataclass

_HEAD = "#company defaults "
_LINE = "#> "
_WIDE = 96
_BEHIND = re.compile(rf'\n{_HEAD}("[^\n]*")\n((?:{_LINE}[A-Za-z0-9+/=]+\n)*)\Z')


def bundle(spec: str, shop_file: str, shop: str) -> str:
    """Put the defaults behind the spec; ``shop_file`` is their name without its folder."""
    packed = b64encode(shop.encode("utf-8", "surrogatepass")).decode("ascii")
    lines = (f"{_LINE}{packed[i : i + _WIDE]}\n" for i in range(0, len(packed), _WIDE))
    return f"{spec}\n{_HEAD}{dumps(shop_file)}\n{''.join(lines)}"


def unbundle(text: str) -> tuple[str, str, str]:
    """Give spec, name and text of the defaults; the last two are empty where there are none."""
    found = _BEHIND.search(text)
    if not found:
        return text, "", ""
    packed = found[2].replace(_LINE, "").replace("\n", "")
    shop = b64decode(packed).decode("utf-8", "surrogatepass")
    return text[: found.start()], str(loads(found[1])), shop


@dataclass(frozen=True, slots=True)
class Carried:
    """A spec as it travels in a file, with the defaults under it, and the hash stated beside it.

    ``sha256`` is empty where the file states none.
    """

    text: str
    sha256: str = ""

    @property
    def untouched(self) -> bool:
        """Tell whether text and hash belong together; so they do where none is stated."""
        spec, _, shop = unbundle(self.text)
        return not self.sha256 or self.sha256 in {
            both_hashed(a, b) if shop else a for a in _hashes(spec) for b in _hashes(shop)
        }


def both_hashed(spec: str, shop: str) -> str:
    """Give the hash of a spec and of the defaults under it from the hashes of the two."""
    return sha256(f"{spec} {shop}".encode()).hexdigest()


def _hashes(text: str) -> tuple[str, str]:
    """Give the hash of a text's file, without and with a mark at its beginning."""
    data = text.encode("utf-8", "surrogatepass")
    return sha256(data).hexdigest(), sha256(b"\xef\xbb\xbf" + data).hexdigest()
