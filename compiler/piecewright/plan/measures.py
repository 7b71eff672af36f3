"""What the designer proved, as it is printed where it stands: "It should measure 9 by 9."."""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.build import Expect, Settings
from piecewright.plan.places import place_words
from piecewright.plan.rounding import given_size, written_size
from piecewright.plan.tongue import Tongue
from piecewright.plan.words import sentence


def measure_text(expect: Expect, tongue: Tongue) -> str:
    """One sentence for one expectation."""
    if expect.source is not None:
        return sentence(f"it should hold {tongue.counted(expect.source, _count(expect))}")
    say = _SAYINGS.get(expect.measure, _edge)
    return sentence(say(expect, tongue.settings))


def _length(value: Exact, settings: Settings) -> str:
    return written_size(value, settings, measured=True).shown


def _within(expect: Expect, settings: Settings) -> str:
    return f", within {given_size(expect.within, settings).shown}" if expect.within is not None else ""


def _verb(expect: Expect) -> str:
    about = " about" if expect.within is not None else ""
    return ("it will finish" if expect.finished else "it should measure") + about


def _size(expect: Expect, settings: Settings) -> str:
    across, down = (_length(value, settings) for value in expect.values[:2])
    return f"{_verb(expect)} {across} by {down}{_within(expect, settings)}"


def _across(expect: Expect, settings: Settings) -> str:
    return f"{_verb(expect)} {_length(expect.values[0], settings)} across{_within(expect, settings)}"


def _down(expect: Expect, settings: Settings) -> str:
    return f"{_verb(expect)} {_length(expect.values[0], settings)} from top to bottom{_within(expect, settings)}"


def _edge(expect: Expect, settings: Settings) -> str:
    name = expect.words[0] if expect.measure == "edge" and expect.words else expect.measure
    edge = name.replace("-edge", "").replace("-", " ")
    will = "will finish" if expect.finished else "should measure"
    about = " about" if expect.within is not None else ""
    return f"its {edge} edge {will}{about} {_length(expect.values[0], settings)}{_within(expect, settings)}"


def _copies(expect: Expect, settings: Settings) -> str:
    count = _count(expect)
    return f"you should now have {count}, all alike" if count > 1 else "you should now have 1"


def _shows(expect: Expect, settings: Settings) -> str:
    fabric, place = (*expect.words, "", "")[:2]
    return f"{fabric} should show {place_words(place)}"


def _count(expect: Expect) -> int:
    return expect.values[0].floor()


_SAYINGS = {
    "size": _size,
    "width": _across,
    "height": _down,
    "copies": _copies,
    "shows": _shows,
}
