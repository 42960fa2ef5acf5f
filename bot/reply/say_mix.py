"""Layouts of mixed drinks: batch, strength, cut, dilution, freezer. Facts in, lines out; no arithmetic."""

from bot.core.facts import Answer, FreezerFacts
from bot.reply import numbers, parts, words, words_freezer
from bot.reply.spans import Line, Span, line
from bot.reply.table import amounts, in_unit
from bot.reply.words_notes import named
from bot.reply.words_units import quantity

_SMALLEST_BOTTLED_ML = 200.0  # less is a drink, not something to bottle: common practice, no source


def batch(a: Answer) -> list[Line]:
    """What was understood, the table, the pour, the bottle, the strength, the freezer."""
    focus = _focus(a)
    too_much = [line("text", words.said(note)) for note in a.remarks if note.code in _FIRST]
    lines = [*focus, *parts.heading(a), *too_much, *_table(a)]
    for thing in a.garnish:
        lines.append(line("text", words.garnish(thing)))
    lines += parts.makes(a)
    if not focus:
        lines += parts.pour(a)
    lines += [*parts.bottle(a), *(parts.abv(a) if a.focus != "abv" else [])]
    if a.serves != 1.0:  # one drink is not kept in a freezer
        lines += parts.freezer(a.freezer, a.water_share)
    return lines + parts.closing(a, _FIRST)


_FIRST = frozenset(("does_not_fit",))  # nobody should measure before reading that


def _table(a: Answer) -> list[Line]:
    if a.results:  # the message asked for another unit: it leads
        return in_unit(a.lines, a.results, a.ounce_ml)
    return amounts(a.lines, a.first, a.ounce_ml)


def _focus(a: Answer) -> list[Line]:
    """The one figure asked for, before everything else."""
    if a.focus == "serves" and a.fills is not None:
        return parts.pour(a)
    if a.focus in ("serve", "pour") and a.per_serve_ml is not None:
        return [Line((Span("text", words.ONE_SERVE), Span("amount", words.both(a.per_serve_ml, a.ounce_ml, a.first))))]
    if a.focus == "abv":
        return parts.abv(a)
    if a.focus == "sugar" and a.sugar_g is not None:
        return [line("amount", words.sugar_of(a.sugar_g, a.serves))]
    asked = next((f for f in a.lines if f.name == a.focus and f.ml is not None), None) if a.focus else None
    if asked is None or asked.ml is None:
        return []
    name = named(asked.name)
    return [line("amount", f"{name[0].upper()}{name[1:]}: {words.both(asked.ml, a.ounce_ml, a.first)}")]


_OF_THE_FREEZER = frozenset(("headspace", "freezing", "no_headspace"))  # nobody asked


def strength(a: Answer) -> list[Line]:
    """The strength, then what it is of."""
    lines = [*parts.abv(a), *parts.heading(a)]
    lines += amounts(a.lines, a.first, a.ounce_ml) + parts.makes(a)
    if a.freezer is not None and a.freezer.asked:
        lines += parts.freezer(a.freezer, a.water_share)
    return lines + parts.closing(a, _OF_THE_FREEZER)


def cut(a: Answer) -> list[Line]:
    """The water to add (or the strength asked for) first, what it goes into, then what it makes."""
    water = next((f for f in a.lines if f.name == "water"), None)
    lots = [f for f in a.lines if f is not water and f.ml is not None]
    lines: list[Line] = parts.abv(a) if a.focus == "abv" else []
    if water is not None and water.ml is not None:
        said = words.add_water(water.ml, a.ounce_ml, a.first)
        lines.append(line("text" if lines else "amount", said))
    lines += parts.heading(a)
    if len(lots) > 1:
        lines += amounts(a.lines, a.first, a.ounce_ml)
    if len(lots) == 1 and lots[0].ml is not None:
        lines.append(line("text", words.to_lot(lots[0].ml, lots[0].name, lots[0].abv, a.ounce_ml, a.first)))
    if a.finished_ml is not None:
        strong = a.abv if a.focus != "abv" else None
        lines.append(line("text", words.makes(a.finished_ml, a.ounce_ml, a.first, strong)))
    elif a.focus != "abv":
        lines += parts.abv(a)
    if water is not None and water.g is not None:
        lines.append(line("text", words.by_weight(water.g)))
    return lines + parts.closing(a)


_FROM_ICE = frozenset(("stirred_water", "shaken_water"))


def dilution(a: Answer) -> list[Line]:
    """The share asked for, or the water."""
    lines = [line("amount", result(r.value, r.unit, r.of)) for r in a.results if r.unit == "percent"]
    shown = bool(lines)
    water = next((f for f in a.lines if f.name == "water" and f.ml is not None), None)
    of_finished = any(note.code == "water_of_finished" for note in a.understood)
    if water is not None and water.ml is not None:
        share = None if shown or of_finished else a.water_share
        amount = words.water(words.both(water.ml, a.ounce_ml, a.first), share, more=a.focus == "more_water")
        lines.append(line("text" if shown else "amount", amount))
    elif a.water_share is not None and not shown:
        lines.append(line("amount", words.water_share(a.water_share)))
    lines += parts.heading(a)
    if len(a.lines) > 1:
        lines += amounts(a.lines, a.first, a.ounce_ml)
    elif a.measured_ml is not None and a.undiluted_ml is not None:
        lines.append(line("text", words.becomes(a.undiluted_ml, a.measured_ml, a.ounce_ml, a.first)))
    lines += parts.pour(a) + parts.abv(a)
    return lines + parts.closing(a, _FROM_ICE if shown else frozenset())


def result(value: float, unit: str, of: str) -> str:
    """"25% of the undiluted volume"."""
    return f"{quantity(value, unit)} {words.SHARE_OF.get(of, of)}".rstrip()


def freezer(a: Answer) -> list[Line]:
    """The verdict, or the figure asked for, first."""
    f = a.freezer
    lines: list[Line] = []
    if f is not None:
        lines += _asked(a, f)
        if f.state and a.focus not in ("verdict", ""):
            lines.append(_verdict(f, a.focus != "ice"))
        if f.freezing_point_c is not None and a.focus != "point":
            lines.append(line("text", words_freezer.freezes_from(f.freezing_point_c)))
        bottled = a.finished_ml is None or a.finished_ml >= _SMALLEST_BOTTLED_ML
        if f.state in ("slush", "hard") and f.headspace_ml and a.focus != "headspace" and bottled:
            lines.append(line("text", words_freezer.headspace(numbers.ml(f.headspace_ml), a.finished_ml is None)))
    lines += parts.heading(a)
    lines += amounts(a.lines, a.first, a.ounce_ml) if len(a.lines) > 1 else []
    lines += parts.abv(a) if a.focus != "least_abv" else []
    return lines + parts.closing(a)


def _verdict(f: FreezerFacts, with_ice: bool = True) -> Line:
    text = words_freezer.verdict(f.state, f.near_edge)
    icy = with_ice and f.state != "liquid" and f.ice is not None and f.ice >= 0.01
    ice = f", {words_freezer.about_ice(f.ice)}" if icy and f.ice is not None else ""
    said = Span("verdict", text[0].upper() + text[1:])
    return Line((said, Span("text", f" at {words_freezer.both_temperatures(f.at_c)}{ice}")))


def _asked(a: Answer, f: FreezerFacts) -> list[Line]:
    """The first line or two: what was asked about the freezer."""
    match a.focus:
        case "point" if f.freezing_point_c is not None:
            return [line("amount", words_freezer.freezes_from(f.freezing_point_c))]
        case "least_abv" if f.least_abv is not None:
            figure, meaning = words_freezer.least_strength(f.least_abv, f.at_c)
            return [line("amount", figure), line("text", meaning)]
        case "most_water" if f.most_water is not None:
            ml = next((r.value for r in a.results if r.unit == "ml"), None)
            return [line("amount", words_freezer.most_water(f.most_water, ml))]
        case "headspace" if f.headspace_ml is not None:
            amount = words.both(f.headspace_ml, a.ounce_ml, a.first)
            return [line("amount", words_freezer.headspace(amount, a.finished_ml is None))]
        case "ice" if f.ice is not None:
            about = words_freezer.about_ice(f.ice)
            return [line("amount", about[0].upper() + about[1:])]
    if not f.state:
        return []
    out = words_freezer.way_out(f.most_water, a.water_share, f.least_abv) if f.state != "liquid" else ""
    return [_verdict(f), line("text", out)] if out else [_verdict(f)]
