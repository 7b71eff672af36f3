"""`dataclass` as in the standard library, for frozen, slotted, keyword-only classes, cheap to define.

The standard one writes and compiles six methods for every class when it is defined, which for the classes
of this package took a quarter of a whole check. This one compiles `__init__`, `__eq__` and `__hash__` of a
class when one of them is first called, and most runs use half of the classes. `dataclasses.replace`, `fields`
and the like work on the classes as usual, and type checkers see the standard decorator.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import _FIELD as PLAIN  # type: ignore[attr-defined]  # what `dataclasses.fields` looks for
from dataclasses import MISSING, FrozenInstanceError, field
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(*, frozen: bool, slots: bool, kw_only: bool, eq: bool = True) -> Callable[[type], type]:
        """The decorator; frozen, slots and kw_only must be asked for. Defaults are values, never factories.
        With `eq=False` an object equals only itself."""
        assert frozen and slots and kw_only
        return _by_fields if eq else _by_identity


def _by_fields(cls: type) -> Any:
    made = _made(cls)

    def __eq__(self: Any, other: object) -> Any:
        _compile(made)
        return made.__eq__(self, other)

    def __hash__(self: Any) -> Any:
        _compile(made)
        return made.__hash__(self)

    made.__eq__ = __eq__
    made.__hash__ = __hash__
    return made


def _by_identity(cls: type) -> Any:
    made = _made(cls)
    made.__eq__ = object.__eq__
    made.__hash__ = object.__hash__
    return made


def _made(cls: type) -> Any:
    """The class again, with slots for its fields and methods that compile themselves."""
    fields: dict[str, Any] = {}
    for base in reversed(cls.__mro__[1:]):
        fields.update(base.__dict__.get("__dataclass_fields__", {}))
    body = {name: value for name, value in cls.__dict__.items() if name not in ("__dict__", "__weakref__")}
    types = body.get("__annotations__", {})
    for name in types:
        one: Any = field(default=body.pop(name, MISSING), kw_only=True)
        one.name, one.type, one._field_type = name, types[name], PLAIN
        fields[name] = one
    body["__slots__"] = tuple(types)
    body["__match_args__"] = ()
    body["__dataclass_fields__"] = fields

    def __init__(self: Any, **values: Any) -> None:
        _compile(made)
        made.__init__(self, **values)  # the compiled one

    body.update(__init__=__init__, **COMMON)
    made: Any = type(cls)(cls.__name__, cls.__bases__, body)
    return made


def _compile(cls: Any) -> None:
    """Give a class the methods that the standard decorator would have given it."""
    fields = cls.__dataclass_fields__
    names: dict[str, Any] = {"cls": cls}
    heads: list[str] = []
    for name, one in fields.items():
        names[f"set_{name}"] = getattr(cls, name).__set__  # past the frozen `__setattr__`, and faster
        if one.default is MISSING:
            heads.append(name)
        else:
            names[f"default_{name}"] = one.default
            heads.append(f"{name}=default_{name}")
    sets = "".join(f"    set_{name}(self, {name})\n" for name in fields) or "    pass\n"
    mine = "".join(f"self.{name}, " for name in fields)
    others = "".join(f"other.{name}, " for name in fields)
    source = f"def __init__(self{', *, ' if heads else ''}{', '.join(heads)}):\n{sets}"
    methods = ["__init__"]
    if cls.__eq__ is not object.__eq__:
        methods += ["__eq__", "__hash__"]
        source += (
            f"def __eq__(self, other):\n"
            f"    return ({mine}) == ({others}) if other.__class__ is self.__class__ else NotImplemented\n"
            f"def __hash__(self):\n    return hash(({mine}))\n"
        )
    exec(source, names)
    for name in methods:
        names[name].__qualname__ = f"{cls.__qualname__}.{name}"
        setattr(cls, name, names[name])


def _repr(self: Any) -> str:
    shown = ", ".join(f"{name}={getattr(self, name)!r}" for name in self.__dataclass_fields__)
    return f"{type(self).__qualname__}({shown})"


def _set(self: Any, name: str, value: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _delete(self: Any, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _state(self: Any) -> list[Any]:
    return [getattr(self, name) for name in self.__dataclass_fields__]


def _restore(self: Any, state: list[Any]) -> None:
    for name, value in zip(self.__dataclass_fields__, state, strict=True):
        object.__setattr__(self, name, value)


COMMON = {
    "__repr__": _repr,
    "__setattr__": _set,
    "__delattr__": _delete,
    "__getstate__": _state,
    "__setstate__": _restore,
}
