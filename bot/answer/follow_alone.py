"""A figure that stands alone after a request without a recipe: "27.5" after a share of water, "at 1.5?" after a pour.

What it can be is found from how near it is to the figures of that request; where it can be two of them, it is asked about.
"""

from dataclasses import replace

from bot.answer.follow_ask import rough
from bot.answer.notes import Question
from grammar.request import Convert, Cut, Dilution, FollowUp, Freezer, Label, Measure, Request, Syrup

__all__ = ["fitted"]

#: common practice, no source:
_FAR = 4.0  # times: a volume or pour is changed to one not farther from it: common practice, no source
_LEAST_WATER, _MOST_WATER = 5.0, 60.0  # % of water that is asked for: common practice, no source
_LEAST_STRONG = 10.0  # % that something is cut to: common practice, no source
_BOTTLE_ML = (180.0, 5000.0)  # what a bottle holds, in mL: common practice, no source


def fitted(change: FollowUp, last: Request) -> FollowUp:
    """The follow-up with a figure that stood alone made a strength, a share or an amount. Raises two_readings, unclear_number."""
    bare = _alone(change)
    if isinstance(last, Cut) and len(change.percents) == 1 and change.water.how == "unsaid" and change.from_abv is None:
        start = last.lots[0].abv if last.lots else None
        if start is not None and change.percents[0] > start:
            return replace(change, percents=(), from_abv=change.percents[0])  # "what if it's 60%": no water brings it there
    if bare is None:
        return change
    rest = replace(change, amounts=(), makes=replace(change.makes, serves=None))
    match last:
        case Cut(lots=lots) if lots:
            held = lots[0].measure or Measure(0.0)
            if bare > 100.0 or (bare < _LEAST_STRONG and _near(bare, held.value)):
                return replace(rest, amounts=(Measure(bare, "ml" if bare > 100.0 else held.unit),))  # "sorry, 750"
            if lots[0].abv is not None and bare / 100.0 > lots[0].abv:
                return replace(rest, from_abv=bare / 100.0)  # no water brings it there: it starts there
            return replace(rest, percents=(bare / 100.0,))
        case Dilution(serves=None, share=share, volume=volume) if share is not None and volume is not None:
            wet = _LEAST_WATER <= bare <= _MOST_WATER
            more = _near(bare, volume.value)
            if wet and more:
                raise Question("two_readings", f"{bare:g}% water or {bare:g} {volume.unit}")
            if not wet and not more:
                raise Question("unclear_number", found=f"{bare:g}")
            return replace(rest, percents=(bare / 100.0,)) if wet else replace(rest, amounts=(Measure(bare, volume.unit),))
        case Convert(pour=pour) if pour is not None and last.items:
            if _bottled(bare) and pour.unit != "ml":
                return replace(rest, amounts=(Measure(bare, "ml"),))
            litres = (rough(last.items[0]) or 0.0) / 1000.0
            if not change.at and pour.unit != "ml" and litres >= 0.5 and _near(bare, litres):
                raise Question("two_readings", f"pours of {bare:g} {pour.unit} or a bottle of {bare:g} L")
            return replace(rest, amounts=(Measure(bare, pour.unit),))
        case Freezer() if 0.0 < bare <= 100.0:
            return replace(rest, percents=(bare / 100.0,))
        case Label(volume=volume) if change.at and volume is not None and rest.makes.vessel_ml is None:
            return replace(rest, amounts=(Measure(bare, volume.unit),))  # "and a 100" after a 50 ml pour
        case Label(abv=abv, volume=volume) if abv is not None and volume is not None and bare < 100.0:
            if bare == int(bare):
                raise Question("two_readings", f"{bare:g}% or {bare:g} of them")
            return replace(rest, percents=(bare / 100.0,))
        case Syrup():
            was = last.sugar or last.volume or last.water
            if was is None or not (_bottled(bare) or _near(bare, was.value)):
                raise Question("unclear_number", found=f"{bare:g}")
            return replace(rest, amounts=(Measure(bare, "ml" if last.sugar is None and _bottled(bare) else was.unit),))
        case _:
            return change


def _bottled(figure: float) -> bool:
    """Whether a bare figure is what a bottle holds in mL."""
    return _BOTTLE_ML[0] <= figure <= _BOTTLE_ML[1]


def _alone(change: FollowUp) -> float | None:
    """The figure without a unit, when the follow-up says no more than that."""
    if change.percents or change.counted or change.from_abv is not None or change.water.how != "unsaid" or change.parts:
        return None
    if change.makes.serves is not None:
        return change.makes.serves if not change.amounts else None
    return change.amounts[0].value if len(change.amounts) == 1 and not change.amounts[0].unit else None


def _near(figure: float, held: float) -> bool:
    return held > 0.0 and held / _FAR <= figure <= held * _FAR
