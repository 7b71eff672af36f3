"""What a quilt should hold, as it is printed where it stands."""

from __future__ import annotations

import json

from piecewright import compile_source
from piecewright.emit import emit

QUILT = """
fabric dusk
fabric glow

block lantern (ground, light)
    square 5 1/2 of light
    border 2 of ground

unit lantern-row (a, b)
    lay
        lantern(a, b) | lantern(b, a)

quilt cover
    lay 1 by 3
        | lantern-row(dusk, glow)
    expect 3 of lantern(dusk, glow)
    middle is square 5 1/2 of glow
    expect 3 of middle
"""


def test_every_format_says_what_the_quilt_should_hold() -> None:
    compiled = compile_source(QUILT)
    assert compiled.plan is not None, compiled.diagnostics
    files = {path: text for path, text in emit(compiled.plan, ("html", "md", "json")) if "/" not in path}
    told = ["It should hold 3 lantern blocks in dusk and glow.", "It should hold 3 glow squares 5½."]
    for path in ("pattern.html", "pattern.md"):
        assert all(text in files[path] for text in told), path
    steps = json.loads(files["plan.json"])["steps"]
    assert [step["measures"] for step in steps if step["unit"] == "cover"] == [told]
