"""Pieces that several layouts share: what was understood, strength, bottle, freezer, and the closing lines."""

from bot.core.facts import Answer, FreezerFacts
from bot.reply import numbers, words, words_freezer
from bot.reply.spans import Line, Span, line
from bot.reply.words_cautions import caution, weightiest
from bot.reply.words_notes import clip, named

MIXED_DIFFERS = 0.005  # share from which the true volume after mixing is worth a line


_IN_THE_HEAD = frozenset(("serves", "fill", "water_of_undiluted", "water_rest", "ratio"))  # facts say them shorter
_FULL = 0.98  # share of a bottle from which it counts as filled: common practice, no source
_ROOMY = 2.0  # times the headspace: then there is nothing to mind


def understood(a: Answer) -> str:
    """Everything that was understood, in one sentence; "" when nothing was."""
    said = [words.said(note) for note in a.understood]
    return ", ".join([named(a.title), *said] if a.title else said) or head(a)


def head(a: Answer) -> str:
    """What was understood, in a few words: "8 serves · 90 mL spec + 25% water"."""
    said: list[str] = [named(a.title)] if a.title else []
    if a.problem is not None:
        said += [clip(text, 80) for key, text in a.problem.facts if key == "understood"]
    said += [words.said(note) for note in a.understood if note.code == "guests"]
    if a.serves is not None and a.serves != 1.0:
        said.append(words.serves(a.serves))
    if a.kind == "batch":
        _size(a, said)
    return " · ".join(said + [words.said(n) for n in a.understood if n.code not in _IN_THE_HEAD and n.code != "guests"])


def _size(a: Answer, said: list[str]) -> None:
    """Add to a batch's head how much it makes and how much water goes in."""
    of_finished = any(note.code == "water_of_finished" for note in a.understood)
    water = None if of_finished else a.water_share
    roomy = a.vessels is not None and a.serves is None and a.vessels.fill_ml < _FULL * a.vessels.size_ml
    if a.vessels is not None and a.vessels.asked and not roomy:
        said.append(words.vessels(a.vessels.count, a.vessels.size_ml))
    elif a.serves is None and a.measured_ml is not None:
        said.append(numbers.size(a.measured_ml))
    if a.spec_ml is not None and a.serves is not None:
        said.append(words.spec(a.spec_ml, water, a.ounce_ml, a.first))
    elif said:
        said[-1] += words.with_water(water)


def heading(a: Answer) -> list[Line]:
    """The line that says what was understood, if anything was."""
    text = head(a)
    return [line("head", text)] if text else []


def makes(a: Answer) -> list[Line]:
    """The true volume after mixing, where it is off the measured one by half a percent and a millilitre."""
    if a.finished_ml is None or a.measured_ml is None:
        return []
    if abs(a.finished_ml - a.measured_ml) < max(1.0, MIXED_DIFFERS * a.measured_ml):
        return []
    return [line("text", words.mixes_to(a.finished_ml, a.ounce_ml, a.first))]


def pour(a: Answer) -> list[Line]:
    """One pour of the finished drink now."""
    if a.per_serve_ml is None or (a.serves is not None and a.serves <= 1.0):
        return []
    amount = words.both(a.per_serve_ml, a.ounce_ml, a.first)
    of_it = words.EACH if a.fills is None else words.each_of(a.fills)
    return [Line((Span("text", words.POUR), Span("amount", amount), Span("text", of_it)))]


def bottle(a: Answer) -> list[Line]:
    """Which vessel it fits, how full, and the room it needs to freeze; nothing where that was all said already."""
    v = a.vessels
    if v is None:
        return []
    f = a.freezer
    swells = f is not None and f.state in ("slush", "hard")
    free_ml = f.headspace_ml / v.count if f is not None and swells and f.headspace_ml else None
    if free_ml is not None and v.fill_ml + free_ml > v.size_ml * 1.002:
        free_ml = None  # there is no such room; a remark says so
    if free_ml is not None and v.size_ml - v.fill_ml > _ROOMY * free_ml:
        free_ml = None  # the bottle leaves that by itself
    total = a.measured_ml if a.measured_ml is not None else a.finished_ml
    lines: list[Line] = []
    if v.count > 1 or total is None or abs(v.fill_ml - total) >= 0.5:
        lines.append(line("text", words.filled(v.count, v.size_ml, v.fill_ml, free_ml)))
    elif not v.asked or free_ml is not None or v.fill_ml < _FULL * v.size_ml:
        lines.append(line("text", words.fits(v.size_ml, free_ml)))
    if total is not None and total >= 10000.0:
        lines.append(line("text", words.in_all(total)))
    return lines


def abv(a: Answer) -> list[Line]:
    """"ABV 23.4% (47 proof)"."""
    return [] if a.abv is None else [line("amount", words.strength(a.abv))]


def freezer(f: FreezerFacts | None, water: float | None) -> list[Line]:
    """The verdict at its temperature, and a way out."""
    if f is None or not f.state:
        return []
    spans = [Span("text", words_freezer.freezer_at(f.at_c)), Span("verdict", words_freezer.verdict(f.state, f.near_edge))]
    if f.state != "liquid" and f.ice is not None and f.ice >= 0.01:
        spans.append(Span("text", f", {words_freezer.about_ice(f.ice)}"))
    lines = [Line(tuple(spans))]
    out = words_freezer.way_out(f.most_water, water, f.least_abv) if f.state != "liquid" else ""
    return [*lines, line("text", out)] if out else lines


def closing(a: Answer, skip: frozenset[str] = frozenset()) -> list[Line]:
    """Remarks, assumptions in one line, at most one caution."""
    lines = [line("text", words.said(note)) for note in a.remarks if note.code not in skip]
    strong = {note.args[0] for note in a.assumed if note.code == "shelf" and len(note.args) > 1}
    assumed = dict.fromkeys(
        words.said(note)
        for note in a.assumed
        if note.code not in skip and not (note.code == "shelf" and len(note.args) == 1 and note.args[0] in strong)
    )
    if assumed:
        lines.append(line("note", words.ASSUMED + "; ".join(assumed)))
    cautions = [note for note in a.cautions if note.code not in skip]
    if cautions:
        lines.append(line("warn", caution(weightiest(cautions))))
    return lines
