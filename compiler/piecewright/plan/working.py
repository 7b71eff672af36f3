"""How often the steps of a unit are done, and what each time gives."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.kernel.batches import Batch
from piecewright.kernel.build import Made, Settings
from piecewright.kernel.demand import Wanted, set_length
from piecewright.plan.rounding import cut_size
from piecewright.plan.tongue import Tongue
from piecewright.plan.words import listed, plural, sentence, times


def work_text(item: Wanted, tongue: Tongue, prints: Mapping[str, frozenset[str]]) -> str:
    """`Do the steps 6 times; each time gives 2.` Empty where the steps are done once for each.

    `prints` are the chosen prints that each unit is handed. What is handed one is made in batches, and what chooses
    one says so.
    """
    texts = [_batch_text(item, batch, tongue, prints) for batch in item.batches if batch.choosers]
    apart = [batch for batch in item.batches if not batch.choosers]
    if not texts:
        texts = [_whole_text(item, tongue.settings)]
    elif apart:
        texts.insert(0, sentence(f"make {sum(batch.needed[0] for batch in apart)} as they come"))
    if item.made.chosen:
        each = "each time" if item.runs > 1 else "first"
        chosen = [f"one of {of} as {word}" for of, _, word in (name.partition("/") for name in item.made.chosen)]
        texts.append(sentence(f"{each} choose {listed(chosen)}"))
    return " ".join(text for text in texts if text)


def _whole_text(item: Wanted, settings: Settings) -> str:
    made = item.made
    if item.sets:
        return sentence(f"sew {_sets(made, item.sets, settings)}: {plural(item.runs, 'segment')}")
    if len(item.parts) > 1 or made.whole:
        return sentence(f"do the steps {times(item.runs)}") if item.runs > 1 else ""
    if made.copies == 1:
        return ""
    each = f"{'it gives' if item.runs == 1 else 'each time gives'} {made.copies}"
    return sentence(f"do the steps {times(item.runs)}; {each}")


def _batch_text(item: Wanted, batch: Batch, tongue: Tongue, prints: Mapping[str, frozenset[str]]) -> str:
    """`Make 20 batches, one for each quartet, each of its own light and dark: in each make 4.`"""
    own = [name.partition("/")[2] for name in sorted(prints[item.parts[0].key])]
    made, runs = item.made, batch.runs
    if batch.sets:
        inner = f"sew {_sets(made, batch.sets, tongue.settings)}, and cut {plural(runs, 'segment')}"
    elif len(item.parts) > 1 or made.whole:
        inner = f"do the steps {times(runs)}"
    elif made.copies > 1:
        inner = f"do the steps {times(runs)}, which gives {runs * made.copies}"
    else:
        inner = f"make {runs}"
    count = "one batch" if batch.times == 1 else f"{batch.times} batches"
    whom = f"for {'each' if batch.times > 1 else 'the'} {tongue.titles[batch.choosers[-1]]}"
    if batch.times == 1:
        return sentence(f"make {count} {whom}, of its own {listed(own)}: {inner}")
    return sentence(f"make {count}, one {whom}, each of its own {listed(own)}: in each {inner}")


def long_text(made: Made, sets: tuple[int, ...], settings: Settings) -> str:
    """`Each strip is at least 25½ long.`; of full sets and another `Each strip of a full set is at least 40 long, of
    the other 12½.` Empty where no segments are cut."""
    if made.segment is None or not sets:
        return ""
    lengths = [
        cut_size(set_length(made, made.segment, size, settings.squaring), settings).shown
        for size in dict.fromkeys(sets)
    ]
    if len(lengths) == 1:
        return f"Each strip is at least {lengths[0]} long."
    others = f"of {'the other' if len(lengths) == 2 else 'the others'} {listed(lengths[1:])}"
    return f"Each strip of a full set is at least {lengths[0]} long, {others}."


def _sets(made: Made, sets: tuple[int, ...], settings: Settings) -> str:
    """`2 full strip sets and one 12½ long`."""
    full = [size for size in sets if size == made.segments]
    parts = [plural(len(full), "full strip set")] if full else []
    shorter = dict.fromkeys(sets[len(full) :])
    for size in shorter:
        if made.segment is not None:
            count = sets.count(size)
            long = cut_size(set_length(made, made.segment, size, settings.squaring), settings).shown
            name = "" if full else "strip set " if count == 1 else "strip sets "
            parts.append(f"{'one' if count == 1 else count} {name}{'each ' if count > 1 else ''}{long} long")
    return listed(parts)
