"""The JSON answer: how people script the bot. Its shape may be extended, never broken.

Numbers are unrounded, strengths in percent, absent facts absent keys. Sentences are those of the reply.
"""

from typing import TypeAlias

from bot.core.facts import Answer, BottleFacts, CostFacts, FreezerFacts, LabelFacts, Line
from bot.reply import parts, words
from bot.reply.numbers import US_FL_OZ_ML
from bot.reply.render_text import to_text
from bot.reply.spans import Reply
from bot.reply.words_cautions import caution

Json: TypeAlias = "str | float | int | bool | list[Json] | dict[str, Json] | None"


def to_json(answer: Answer, reply: Reply) -> dict[str, Json]:
    """An answer and the reply made of it as one JSON object."""
    a = answer
    json = _present(
        kind=a.kind,
        text=to_text(reply),
        title=a.title or None,
        understood=parts.understood(a) or None,
        assumed=[words.said(note) for note in a.assumed],
        lines=[_line(line) for line in a.lines],
        serves=a.serves,
        undiluted_ml=a.undiluted_ml,
        measured_ml=a.measured_ml,
        finished_ml=a.finished_ml,
        per_serve_ml=a.per_serve_ml,
        fills=a.fills,
        spec_ml=a.spec_ml,
        abv=_percent(a.abv),
        proof_us=None if a.abv is None else a.abv * 200.0,
        water_percent=_percent(a.water_share),
        sugar_g=a.sugar_g,
        sugar_g_per_l=a.sugar_g_per_l,
        brix=a.brix,
        freezer=None if a.freezer is None else _freezer(a.freezer),
        results=[_present(value=r.value, unit=r.unit, of=r.of or None) for r in a.results],
        cost=None if a.cost is None else _cost(a.cost),
        bottles=[_bottle(b) for b in a.bottles],
        items=[{"name": name, "text": text} for name, text in a.items],
        garnish=list(a.garnish),
        remarks=[words.said(note) for note in a.remarks],
        cautions=[caution(note) for note in a.cautions],
        actions=list(a.actions),
    )
    if a.vessels is not None:
        json["vessels"] = {"count": a.vessels.count, "size_ml": a.vessels.size_ml, "fill_ml": a.vessels.fill_ml}
    if a.label is not None:
        json |= _label(a.label)
    if a.problem is not None:
        at: Json = None if a.problem.at is None else list(a.problem.at)
        json["problem"] = _present(code=a.problem.code, at=at, found=a.problem.found or None)
    return json


def _present(**facts: Json) -> dict[str, Json]:
    """The facts that are there."""
    return {key: value for key, value in facts.items() if value is not None and value != []}


def _percent(fraction: float | None) -> float | None:
    return None if fraction is None else fraction * 100.0


def _line(line: Line) -> dict[str, Json]:
    ounces = None if line.ml is None else line.ml / US_FL_OZ_ML
    return _present(
        name=line.name, ml=line.ml, us_fl_oz=ounces, abv=_percent(line.abv), g=line.g, count=line.count
    )


def _freezer(f: FreezerFacts) -> dict[str, Json]:
    return _present(
        at_c=f.at_c,
        freezing_point_c=f.freezing_point_c,
        state=f.state or None,
        near_edge=f.near_edge or None,
        ice_percent=_percent(f.ice),
        headspace_ml=f.headspace_ml,
        most_water_percent=_percent(f.most_water),
        least_abv=_percent(f.least_abv),
    )


def _cost(c: CostFacts) -> dict[str, Json]:
    return _present(
        currency=c.currency or None,
        total=c.total,
        per_serve=c.per_serve,
        price=c.price,
        price_net=c.price_net,
        pour_cost_percent=_percent(c.pour_cost),
        margin_percent=_percent(c.margin),
        markup=c.markup,
        tax_percent=_percent(c.tax),
        was_per_serve=c.was_per_serve,
        was_pour_cost_percent=_percent(c.was_pour_cost),
        items=[{"name": name, "cost": cost} for name, cost in c.items],
    )


def _bottle(b: BottleFacts) -> dict[str, Json]:
    return _present(
        name=b.name,
        count=b.count,
        size_ml=b.size_ml,
        need_ml=b.need_ml,
        left_ml=b.left_ml,
        short_ml=b.short_ml,
        have=b.have,
    )


def _label(facts: LabelFacts) -> dict[str, Json]:
    """standard_drinks are of the volume asked about where there is one, else of a serve."""
    drinks: dict[str, Json] = dict(facts.drinks_bottle or facts.drinks_serve)
    stated = _present(
        market=facts.market or None,
        percent=facts.percent,
        tolerance_points=facts.tolerance,
        source=facts.source or None,
        volume_ml=facts.volume_ml,
        keep_place=facts.keep_place or None,
        keep_days=facts.keep_days,
    )
    out: dict[str, Json] = {"standard_drinks": drinks} if drinks else {}
    if facts.allergens:
        out["allergens"] = list(facts.allergens)
    return out | ({"label": stated} if stated else {})
