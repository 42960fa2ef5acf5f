"""Layouts of sums: convert, syrup, cost, bottles, label. Facts in, lines out; no arithmetic."""

from bot.core.facts import Answer, BottleFacts, CostFacts, LabelFacts, Result
from bot.reply import numbers, parts, words
from bot.reply.spans import Line, line
from bot.reply.table import aligned, amounts, in_unit, weights
from bot.reply.words_notes import keeps, named
from bot.reply.words_units import full_pours, quantity, typed

_COUNTED = ("pours", "serves")
_NAMED_OUNCES = frozenset(("us_fl_oz", "imp_fl_oz", "bar_oz_30"))
_THE_OUNCE = frozenset(("ounce",))
_SAID_BY_STOCK = frozenset(("enough", "not_enough"))


def convert(a: Answer) -> list[Line]:
    """The value first, big and alone; of a list one a line; of a spec its table."""
    lines: list[Line] = []
    if a.lines and a.results:
        lines += in_unit(a.lines, a.results, a.ounce_ml)
    elif a.lines:
        lines += amounts(a.lines, a.first, a.ounce_ml, total=False)
    else:
        after = (*a.results[1:], None)
        lefts = [nxt.value if nxt is not None and nxt.of == "left" else None for nxt in after]
        lines += [line("amount", _converted(r, left)) for r, left in zip(a.results, lefts, strict=True) if r.of != "left"]
    lines[0:0] = parts.heading(a) if a.lines else []
    named_ounce = any(r.unit in _NAMED_OUNCES for r in a.results)
    return lines + parts.closing(a, _THE_OUNCE if named_ounce else frozenset())


def _converted(r: Result, left_ml: float | None) -> str:
    """One figure: "59.1 mL ≈ 2 oz", "45 full pours + 3.8 mL left"."""
    if r.unit in _COUNTED:
        return full_pours(r.value, left_ml, r.unit) + (f", {_pour_of(r.of)}" if r.of else "")
    if r.unit in ("c", "f"):
        shown = numbers.degrees(r.value) if r.unit == "c" else numbers.degrees_f(r.value)
    else:
        shown = quantity(r.value, r.unit)
    if not r.of:
        return shown
    exact = abs(float(numbers.figure(r.value)) - r.value) <= 1e-9 * abs(r.value)
    return f"{shown} {'=' if exact else '≈'} {typed(r.of)}"


def _pour_of(of: str) -> str:
    """"1.5 oz / 2 l" -> "1.5 oz from 2 L"."""
    pour, _, whole = of.partition(" / ")
    return words.pour_from(typed(pour), typed(whole)) if whole else typed(of)


def syrup(a: Answer) -> list[Line]:
    """What to weigh, what it makes, how sweet it is."""
    lines = weights(a.lines, a.first, a.ounce_ml)
    lines += [line("amount", quantity(r.value, r.unit) + (f" {r.of}" if r.of else "")) for r in a.results]
    lines += parts.heading(a)
    if a.finished_ml is not None:
        lines.append(line("text", words.makes(a.finished_ml, a.ounce_ml, a.first)))
    if a.sugar_g is not None and not any(f.name == "sugar" and f.g is not None for f in a.lines):
        lines.append(line("text", words.sugar_in_it(a.sugar_g)))
    sweet = [] if a.sugar_g_per_l is None else [f"{numbers.figure(a.sugar_g_per_l)} g/L sugar"]
    sweet += [] if a.brix is None else [f"{numbers.figure(a.brix)} Brix"]
    if sweet:
        lines.append(line("text", ", ".join(sweet)))
    return lines + parts.closing(a)


def cost(a: Answer) -> list[Line]:
    """The figure asked for first, then the others, then what each ingredient costs."""
    c = a.cost
    if c is None:
        return parts.heading(a) + parts.closing(a)
    figures = _figures(c, a.serves)
    asked = {"cost": "per_serve"}.get(a.focus, a.focus)
    order = sorted(figures, key=lambda key: key != asked)
    lines = [line("amount" if at == 0 else "text", figures[key]) for at, key in enumerate(order)]
    lines[1:1] = parts.heading(a)
    if len(c.items) > 1:
        lines += aligned([(named(name), (numbers.money(sum_, c.currency),)) for name, sum_ in c.items])
    return lines + parts.closing(a)


def _figures(c: CostFacts, serves: float | None) -> dict[str, str]:
    """Every figure of a cost as it is said, in the usual order."""
    said: dict[str, str] = {}
    sums = {"per_serve": c.per_serve, "total": c.total, "price": c.price, "price_net": c.price_net}
    if serves is None or serves <= 1.0:
        sums["total"] = None if c.per_serve is not None else c.total
    if c.price_net is not None and c.price is not None and abs(c.price - c.price_net) < 0.005:
        sums["price_net"] = None
    for key, amount in sums.items():
        if amount is not None:
            said[key] = f"{words.COST_LABELS[key]} {numbers.money(amount, c.currency)}"
    if c.was_per_serve is not None and c.per_serve is not None:
        said["per_serve"] += words.moved(c.per_serve, c.was_per_serve, c.currency)
    if c.tax and c.price is not None:
        if c.price_net is not None and abs(c.price - c.price_net) < 0.005:  # a price without its tax
            with_tax = numbers.money(c.price * (1.0 + c.tax), c.currency)
            said["price"] += f" before tax, {with_tax} with {numbers.percent(c.tax)}"
        else:
            said["price"] += f" with {numbers.percent(c.tax)} tax"
    for key, share in {"pour_cost": c.pour_cost, "margin": c.margin}.items():
        if share is not None:
            said[key] = f"{words.COST_LABELS[key]} {numbers.percent(share)}"
    if c.was_pour_cost is not None and c.pour_cost is not None:
        said["pour_cost"] += words.was(numbers.percent(c.was_pour_cost))
    if c.markup is not None:
        said["markup"] = f"{words.COST_LABELS['markup']} × {numbers.figure(c.markup)}"
    return said


def bottles(a: Answer) -> list[Line]:
    """What to buy, or whether the stock is enough, or how much fits."""
    left = next((r.value for r in a.results if r.of == "left"), None)
    counted = [r for r in a.results if r.unit in _COUNTED]
    lines = [line("amount", _converted(r, left)) for r in counted]
    for b in a.bottles:
        if counted and b.left_ml is not None:
            lines.append(line("text", words.left_in(b.name, b.left_ml, b.need_ml)))
        else:
            lines += _bottle(b, alone=len(a.bottles) == 1)
    v = a.vessels
    if v is not None:
        lines.append(line("amount", words.filled(v.count, v.size_ml, v.fill_ml, None)))
    first = 0 if len(a.bottles) > 1 else 1  # above a list, below a single answer
    lines[first:first] = parts.heading(a)
    return lines + parts.closing(a, _SAID_BY_STOCK if a.bottles else frozenset())


def _bottle(b: BottleFacts, alone: bool) -> list[Line]:
    if b.have is None:
        left = "" if b.left_ml is None else f"; {words.left_over(b.left_ml)}"
        needed = None if alone else b.need_ml  # alone it has a line of its own
        lines = [line("amount", words.buy(b.count, b.size_ml, b.name, needed) + left)]
        return lines if b.need_ml is None or not alone else [*lines, line("text", words.need(b.need_ml))]
    verdict, figures = words.stock(b.name, b.need_ml, b.have, b.size_ml, b.short_ml or 0.0, b.left_ml)
    lines = [line("amount", verdict), line("text", figures)]
    return [*lines, line("text", words.buy(b.count, b.size_ml, b.name))] if b.short_ml and b.count else lines


def label(a: Answer) -> list[Line]:
    """Strength as the label rounds it, standard drinks, allergens, keeping."""
    facts = a.label
    lines: list[Line] = []
    if facts is not None:
        of_volume = "" if facts.volume_ml is None else words.in_volume(facts.volume_ml)
        of_serve = words.A_SERVE if facts.drinks_bottle or not of_volume else of_volume
        drinks = [*_drinks(facts.drinks_serve, of_serve), *_drinks(facts.drinks_bottle, of_volume)]
        stated = _stated(facts)
        lines += drinks + stated if a.focus == "drinks" else stated + drinks
        if facts.allergens or a.focus == "allergens":
            at = 0 if a.focus == "allergens" else len(lines)
            lines.insert(at, line("amount" if at == 0 else "text", words.allergens(facts.allergens)))
            lines += [line("text", f"{named(name)}: {groups}") for name, groups in a.items if len(a.items) > 1]
        if facts.keep_place and facts.keep_days is not None:
            lines.append(line("text", keeps(facts.keep_place, facts.keep_days)))
    first = 0 if lines and lines[0].spans[0].kind == "head" else 1  # not between a table and its heading
    lines[first:first] = parts.heading(a)
    if a.abv is not None and (facts is None or facts.percent is None) and a.focus != "allergens":
        lines += parts.abv(a)
    return lines + parts.closing(a)


def _stated(facts: LabelFacts) -> list[Line]:
    if facts.percent is None:
        return []
    volume = "" if facts.volume_ml is None else f", {numbers.size(facts.volume_ml)}"
    lines = [line("amount", f"{facts.percent:.1f}% vol{volume}")]
    allowed = "" if facts.tolerance is None else words.tolerance(facts.tolerance)
    rule = ": ".join([part for part in (allowed, facts.source) if part])
    return [*lines, line("note", rule)] if rule else lines


def _drinks(counts: tuple[tuple[str, float], ...], of: str) -> list[Line]:
    if not counts:
        return []
    if len(counts) == 1:
        return [line("amount", f"{words.drinks(*counts[0])} {of}".rstrip())]
    rows = [(words.PLACES.get(place, place), (numbers.figure(n),)) for place, n in counts]
    return [line("head", f"{words.STANDARD_DRINKS} {of}".rstrip()), *aligned(rows)]
