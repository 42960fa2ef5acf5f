"""Follow-ups of requests without a recipe: cuts, conversions, syrups and the like; the figure given goes where it fits."""

from dataclasses import replace

from bot.answer.follow_alone import fitted
from bot.answer.follow_ask import rough, taxed, with_share
from bot.answer.follow_other import bottles_of_cut, other_question, refuse_unused
from bot.answer.notes import Question
from bot.core import units
from grammar.request import (
    Bottles,
    Convert,
    Cost,
    Cut,
    Dilution,
    FollowUp,
    Freezer,
    Label,
    Lot,
    Measure,
    Money,
    Request,
    Syrup,
)


def without_spec(change: FollowUp, last: Request) -> Request:
    """Cuts, conversions, syrups and the like: the one figure that the follow-up gives goes where it fits.

    Raises Question no_spec, two_readings, unclear_number, no_last.
    """
    if change in (FollowUp(), FollowUp(ask="show")):
        return last
    if change.counted not in ("", "serves"):
        raise Question("no_spec", change.counted, drink=change.counted)  # "20 negronis" after a figure is a new request
    sized = isinstance(last, Dilution) and last.serves is None
    if change.counted and (sized or isinstance(last, Cut | Convert | Freezer | Syrup)):
        raise Question("no_spec")  # "10 serves" is not a strength of 10 %, nor ten of the litre
    if change.makes.volume is not None and not change.amounts:
        change = replace(change, amounts=(change.makes.volume,))  # "and a 700?"
    if change.makes.serve is not None and not change.amounts:
        change = replace(change, amounts=(change.makes.serve,), at=True)  # "and a 1.5 pour"
    other = other_question(change, last)
    if other is not None:
        return other
    change = bottles_of_cut(change, last)
    refuse_unused(change, last)
    change = fitted(change, last)
    percents, amounts = change.percents, change.amounts
    bare = change.makes.serves
    k = change.times or (1.0 + change.spare if change.spare else None)
    match last:
        case Cut(lots=lots):
            to = (change.water.value,) if change.water.how == "to_strength" else percents  # "bring it down to 40%"
            if len(to) > 1 and change.from_abv is None:
                change = replace(change, from_abv=to[0])  # "57 to 43%": where it starts, and where it is to come to
            target = to[-1] if to else last.target
            if change.from_abv is not None:
                lots = (replace(lots[0], abv=change.from_abv), *lots[1:])
            if amounts:
                lots = (replace(lots[0], measure=amounts[0]), *lots[1:])
            if k is not None:
                lots = tuple(
                    Lot(
                        lot.abv,
                        Measure((lot.measure or Measure(1.0, "l")).value * k, (lot.measure or Measure(1.0, "l")).unit),
                        lot.name,
                    )
                    for lot in lots
                )
            return replace(last, lots=lots, target=target)
        case Convert(pour=pour) if pour is not None and last.items and amounts:
            smaller = (rough(amounts[0]) or 0.0) < _POUR_BELOW * (rough(last.items[0]) or 0.0)
            return replace(last, pour=amounts[0]) if smaller else replace(last, items=(amounts[0],))
        case Convert(items=items) if items:
            if amounts:
                unit = items[-1].unit
                return replace(last, items=tuple(a if a.unit else Measure(a.value, unit) for a in amounts))
            if bare is not None:
                return replace(last, items=(Measure(bare, items[-1].unit),))
            if change.unit:
                return replace(last, to=change.unit)
            if k is not None:
                return replace(last, items=tuple(Measure(i.value * k, i.unit) for i in items))
        case Freezer():
            return replace(
                last,
                at_c=change.at_c if change.at_c is not None else last.at_c,
                abv=percents[0] if percents else bare / 100 if bare is not None else last.abv,
            )
        case Syrup():
            grams = bool(amounts) and amounts[0].unit in units.G_PER
            new = replace(last, ratio=(change.ratio[0], change.ratio[1]) if len(change.ratio) == 2 else last.ratio)
            if amounts:
                new = replace(new, sugar=amounts[0] if grams else None, volume=None if grams else amounts[0], water=None)
            if k is not None:
                new = replace(new, volume=_scaled(new.volume, k), sugar=_scaled(new.sugar, k), water=_scaled(new.water, k))
            return new
        case Dilution():
            water = change.water
            share = water.value if water.how in ("of_undiluted", "of_finished") else percents[0] if percents else last.share
            new_dilution = replace(
                last,
                share=share,
                of_finished=water.how == "of_finished" or change.of_finished or (water.how == "unsaid" and last.of_finished),
            )
            if amounts:
                new_dilution = replace(new_dilution, volume=amounts[0])
            if bare is not None:
                new_dilution = replace(new_dilution, serves=bare)
            return new_dilution
        case Cost():
            last = taxed(last, change)
            if change.money and change.of_cost:
                return replace(last, cost=change.money[0])
            if change.money:
                return replace(last, price=change.money[0]) if last.cost is not None else replace(last, cost=change.money[0])
            if percents:
                made = with_share(last, percents[0], change.margin)
                return made if last.cost is not None else replace(made, price=last.price)
            if bare is not None and last.cost is not None:
                return replace(last, price=Money(bare, last.cost.currency))
            if change.tax is not None or change.tax_in is not None:
                return last
        case Label():
            return replace(
                last,
                abv=percents[0] if percents else last.abv,
                volume=amounts[0] if amounts else last.volume,
                count=bare or last.count,
                country=change.country or last.country,
            )
        case Bottles() if bare is not None:
            return replace(last, makes=replace(last.makes, serves=bare))
    raise Question("no_last")


_POUR_BELOW = 0.25  # share of the volume below which a new figure is the pour: common practice, no source


def _scaled(measure: Measure | None, k: float) -> Measure | None:
    return Measure(measure.value * k, measure.unit) if measure is not None else None
