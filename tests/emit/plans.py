"""Plans for the emitters: small patterns, and one in which every text of the designer's is hostile."""

from __future__ import annotations

from dataclasses import replace

from piecewright.plan.make import plan
from piecewright.plan.model import Plan
from plan import builds

ATTACKS = (
    "<script>alert(1)</script>",
    "\"><img src=x onerror=alert(1)>'",
    "</style></title><svg onload=alert(1)>",
    "[link](javascript:alert(1)) ![x](http://example.org/x.png) `code` **bold** | cell",
    "&lt;b&gt; &amp; {{ 7 * 7 }} {% raw %}",
    "# heading",
    "1. item",
    "- item",
    "a\n\n## heading\n\n<b>line</b>",
    "]]><!--",
    "\x00\x1b[31m\u202e",
)


def lantern() -> Plan:
    made = (*builds.lantern(), *builds.lantern("glow", "dusk"))
    return plan(builds.build(made, ("lantern(dusk, glow)", 12), ("lantern(glow, dusk)", 12)))


def several() -> dict[str, Plan]:
    return {
        "lantern": lantern(),
        "nine-patch": plan(builds.build(builds.nine_patch(), ("nine-patch(glow, dusk)", 12))),
        "cabin": plan(builds.build(builds.cabin(), ("cabin(glow, dusk)", 4))),
        "crossed": plan(builds.build(builds.crossed(), ("crossed(dusk)", 5))),
        "centimetres": centimetres(),
    }


def centimetres() -> Plan:
    build = builds.build(builds.cabin(), ("cabin(glow, dusk)", 4))
    return plan(replace(build, settings=replace(build.settings, units="cm")))


def hostile(attack: str) -> Plan:
    """A plan whose title, fabric descriptions, notes, file names, arguments and names are all the attack."""
    made = list(builds.lantern())
    for i, one in enumerate(made):
        steps = tuple(replace(step, notes=(attack,), says=attack if i == 0 else None) for step in one.steps)
        made[i] = replace(
            one,
            description=attack,
            steps=steps,
            file=attack,
            name=f"{one.name}{attack}",
            arguments=(("plain", attack),),
        )
    build = builds.build(tuple(made), ("lantern(dusk, glow)", 2))
    fabrics = tuple(replace(fabric, text=attack, directional=True, stand_in=True) for fabric in build.fabrics)
    return plan(replace(build, fabrics=fabrics, settings=replace(build.settings, title=attack, edition=attack)))
