"""The cheap data classes are as the standard library's."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from typing import Any

import pytest
from piecewright.dataclass import dataclass
from piecewright.diagnostics.model import Label
from piecewright.source import Source, Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Ours:
    """A class of ours."""

    width: int
    height: int = 3
    names: tuple[str, ...] = ()

    @property
    def area(self) -> int:
        return self.width * self.height


@dataclasses.dataclass(frozen=True, slots=True, kw_only=True)
class Theirs:
    """The same by the standard library."""

    width: int
    height: int = 3
    names: tuple[str, ...] = ()

    @property
    def area(self) -> int:
        return self.width * self.height


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Single:
    width: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Wider(Ours):
    depth: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Empty:
    pass


BOTH = pytest.mark.parametrize("kind", [Ours, Theirs])


@BOTH
def test_values_defaults_and_text(kind: Any) -> None:
    one = kind(width=2, names=("a",))
    assert (one.width, one.height, one.names, one.area) == (2, 3, ("a",), 6)
    assert repr(one) == f"{kind.__qualname__}(width=2, height=3, names=('a',))"
    assert kind.__doc__ and kind.__match_args__ == () and kind.__slots__ == ("width", "height", "names")


@BOTH
def test_equal_by_their_fields(kind: Any) -> None:
    assert kind(width=2) == kind(width=2) and hash(kind(width=2)) == hash(kind(width=2))
    assert kind(width=2) != kind(width=3) and kind(width=2) != (2, 3, ())
    assert len({kind(width=2), kind(width=2, height=3)}) == 1


@BOTH
@pytest.mark.parametrize("arguments", [{}, {"width": 1, "depth": 2}])
def test_wrong_arguments(kind: Any, arguments: dict[str, int]) -> None:
    with pytest.raises(TypeError):
        kind(**arguments)
    with pytest.raises(TypeError):
        kind(1)


@BOTH
def test_frozen(kind: Any) -> None:
    one = kind(width=2)
    for change in (lambda: setattr(one, "width", 3), lambda: setattr(one, "other", 3), lambda: delattr(one, "width")):
        with pytest.raises((dataclasses.FrozenInstanceError, TypeError)):
            change()
    assert not hasattr(one, "__dict__")


@BOTH
def test_the_functions_of_the_standard_library(kind: Any) -> None:
    one = kind(width=2)
    assert dataclasses.replace(one, height=5) == kind(width=2, height=5)
    assert dataclasses.asdict(one) == {"width": 2, "height": 3, "names": ()}
    assert dataclasses.astuple(one) == (2, 3, ())
    assert [(field.name, field.type, field.kw_only) for field in dataclasses.fields(one)] == [
        ("width", "int", True),
        ("height", "int", True),
        ("names", "tuple[str, ...]", True),
    ]
    assert dataclasses.is_dataclass(kind)


@BOTH
def test_copies(kind: Any) -> None:
    one = kind(width=2, names=("a",))
    assert copy.copy(one) == copy.deepcopy(one) == one


def test_pickles() -> None:
    label = Label(span=Span(Source("a", "b"), 0, 1), text="here")
    assert pickle.loads(pickle.dumps(label)).text == "here"


def test_by_identity_where_that_is_asked_for() -> None:
    one = Single(width=1)
    assert one != Single(width=1) and one == one and len({one, Single(width=1)}) == 2


def test_inherited_fields_come_first() -> None:
    assert Wider(width=2, depth=4) == Wider(width=2, depth=4) != Wider(width=2)
    assert repr(Wider(width=2)).endswith("(width=2, height=3, names=(), depth=1)")
    assert Ours(width=2) != Wider(width=2)


def test_without_fields() -> None:
    assert Empty() == Empty() and hash(Empty()) == hash(Empty()) and repr(Empty()) == "Empty()"
