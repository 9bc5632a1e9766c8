"""Frozen dataclasses that cost little to define.

``dataclasses`` compiles six functions for every frozen class, about half a millisecond; a start of
this program defines more than a hundred. Here one is compiled, when the first object is made; the
others are shared. For a type checker, and for whoever uses the classes, nothing differs.
"""

from __future__ import annotations

import dataclasses
from operator import attrgetter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dataclasses import dataclass
else:

    def dataclass(cls=None, /, **options):
        """Do as ``dataclasses.dataclass`` does; classes with ``frozen`` and ``slots`` fast."""
        if cls is None:
            return lambda found: dataclass(found, **options)
        fast = options.get("frozen") and options.get("slots") and "order" not in options
        if not fast or hasattr(cls, "__post_init__"):
            return dataclasses.dataclass(cls, **options)
        made = dataclasses.dataclass(cls, init=False, repr=False, eq=False, slots=True)
        methods = _methods(made)
        if not options.get("eq", True):
            del methods["__eq__"], methods["__hash__"]
        for name, method in methods.items():
            if name not in cls.__dict__:
                setattr(made, name, method)
        return made

    def _methods(cls):
        own = dataclasses.fields(cls)
        names = [f.name for f in own]
        compared = _values([f.name for f in own if f.compare])
        hashed = _values([f.name for f in own if (f.compare if f.hash is None else f.hash)])

        def first(self, *args, **named):
            cls.__init__ = _compiled(cls)
            cls.__init__(self, *args, **named)

        def equal(self, other):
            same = other.__class__ is self.__class__
            return compared(self) == compared(other) if same else NotImplemented

        def said(self):
            words = ", ".join(f"{n}={getattr(self, n)!r}" for n in names)
            return f"{self.__class__.__qualname__}({words})"

        def filled(self, state):
            for name, value in zip(names, state, strict=True):
                object.__setattr__(self, name, value)

        return {
            "__init__": first,
            "__eq__": equal,
            "__hash__": lambda self: hash(hashed(self)),
            "__repr__": said,
            "__setattr__": _refused,
            "__delattr__": _refused,
            "__getstate__": lambda self: [getattr(self, n) for n in names],
            "__setstate__": filled,
        }

    def _refused(self, name, *_):
        raise dataclasses.FrozenInstanceError(f"cannot assign to or delete field {name!r}")

    def _values(names):
        """Give what reads some fields of an object as a tuple."""
        if len(names) > 1:
            return attrgetter(*names)
        return lambda self: tuple(getattr(self, n) for n in names)

    def _compiled(cls):
        """Make the function that fills an object; it sets slots directly, past __setattr__."""
        scope = {"_MISSING": dataclasses.MISSING}
        taken, lines = [], [" pass"]
        for f in dataclasses.fields(cls):
            value = f.name
            scope[f"_set_{f.name}"] = getattr(cls, f.name).__set__
            if f.default is not dataclasses.MISSING:
                scope[f"_default_{f.name}"] = f.default
                taken.append(f"{f.name}=_default_{f.name}")
            elif f.default_factory is not dataclasses.MISSING:
                scope[f"_default_{f.name}"] = f.default_factory
                taken.append(f"{f.name}=_MISSING")
                value = f"_default_{f.name}() if {f.name} is _MISSING else {f.name}"
            else:
                taken.append(f.name)
            lines.append(f" _set_{f.name}(self, {value})")
        exec(f"def __init__(self, {', '.join(taken)}):\n" + "\n".join(lines), scope)
        return scope["__init__"]


class Frozen(dict):  # type: ignore[type-arg]
    """A mapping that nobody changes, and that can be sent to another process."""

    __slots__ = ()

    def _refused(self, *_, **__):  # type: ignore[no-untyped-def]
        raise TypeError("this mapping cannot be changed")

    __setitem__ = __delitem__ = __ior__ = _refused
    update = pop = popitem = clear = setdefault = _refused

    def __reduce__(self):  # type: ignore[no-untyped-def]
        return Frozen, (dict(self),)


__all__ = ["Frozen", "dataclass"]
