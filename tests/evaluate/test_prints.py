"""In messages a chosen print is called as the pattern calls it, also where one fabric's name ends another's."""

from __future__ import annotations

import pytest
from evaluate.pattern import found

TEXT = """\
fabric sky, assorted, value light
fabric dusk-sky, assorted, value dark

unit tile (size, cloth)
    square size of cloth

unit framed (inner, cloth)
    take inner
    border 2 of cloth

block one (a, b)
    choose lamp from a
    choose lamp2 from b
    {}

make 3 of one(sky, dusk-sky)
"""


@pytest.mark.parametrize(
    ("steps", "message"),
    [
        (
            ("square 4 of lamp", "join square 4 of lamp2 on right", "expect lamp at right"),
            "lamp2 shows at `right`, not lamp",
        ),
        (
            ("square 4 of lamp2", "join square 4 of lamp on right", "expect lamp2 at right"),
            "lamp shows at `right`, not lamp2",
        ),
        (("square 4 of lamp", "expect sky at left", "expect b at left"), "lamp shows at `left`, not dusk-sky"),
        (
            ("square 4 of lamp2", "choose more from lamp2"),
            "`lamp2` is one print already, and there is nothing to choose",
        ),
        (("square 5 1/16 of lamp2", "expect 5 1/16 by 5 1/16"), "the lamp2 square of 5 1/16 lies between the ruler's"),
        (
            ("square 4 of lamp", "flip rectangle 2 by 3 of lamp2 at top-left"),
            "lamp2 rectangle is no square that lies straight",
        ),
        (("take tile(4, lamp2)", "expect 2 of tile(4, lamp2)"), "there is 1 of `tile(4, lamp2)` in it so far, not 2"),
        (
            ("take framed(tile(4, lamp) turned left, lamp2)", "expect 3 of framed(tile(4, lamp) turned left, lamp2)"),
            "there is 1 of `framed(tile(4, lamp) turned left, lamp2)` in it so far, not 3",
        ),
        (
            ("take framed(rectangle 4 by 3 of lamp2, lamp)", "expect 2 of framed(rectangle 4 by 3 of lamp2, lamp)"),
            "there is 1 of `framed(rectangle 4 by 3 of lamp2, lamp)` in it so far, not 2",
        ),
        (("square 4 of lamp2", "expect 3 of post", "post"), "there is 1 of `square 4 of lamp2` in it so far, not 3"),
    ],
)
def test_a_print_is_called_by_its_word(steps: tuple[str, ...], message: str) -> None:
    lines = [line for line in steps if line != "post"]
    if len(lines) < len(steps):
        lines.insert(0, "post is square 4 of lamp2")
    told = [one.message for one in found(TEXT.format("\n    ".join(lines)))[1] if one.code != "W540"]
    assert len(told) == 1, told
    assert told[0].startswith(message)
    assert "/" not in told[0].replace("1/16", "").replace("1/8", "")
    hints = [one.hint or "" for one in found(TEXT.format("\n    ".join(lines)))[1]]
    assert not [one for one in hints if "sky/" in one]
