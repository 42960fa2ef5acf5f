"""Label -> Answer: strength as a label states it, standard drinks, allergens, keeping.

Lives here: whose rules hold and which volume is meant. Must never: know the rules (bot.core.label), give advice.
"""

from typing import Literal

from bot.answer.amounts import check_volume, first_system, ml_of, ounce_ml
from bot.answer.ingredients import know
from bot.answer.notes import Notes, Question, percent
from bot.answer.resolve import known_spec
from bot.answer.spec import Spec, per_litre, with_house
from bot.core.facts import Answer, LabelFacts
from bot.core.ingredient import Ingredient
from bot.core.label import RULES, allergens, keeping, label_strength, standard_drinks
from bot.told import Told
from grammar.request import Label, Part

__all__ = ["answer_label"]

_Market = Literal["us", "eu", "uk"]
_Drink = Literal["spirit", "wine", "beer", "cider", "macerated"]
_MARKETS: dict[str, _Market] = {"us": "us", "eu": "eu", "uk": "uk"}
_PLACES = ("us", "uk", "au", "who")
_WINES = frozenset(["wine", "vermouth", "aromatised wine", "fortified wine"])
_ONE_SERVE_ML = 400.0  # a volume above is a bottle's, not a pour's: common practice, no source


def answer_label(request: Label, told: Told) -> Answer:
    """What was asked: label, drinks or allergens. Raises Question no_strength, no_volume, out_of_range, as resolve."""
    notes = Notes()
    if request.ask == "allergens":
        return _allergens(request, told, notes)
    country = request.country or told.settings.country
    if request.recipe is not None and (request.recipe.parts or request.recipe.house) and request.abv is None:
        return _of_recipe(request, country, told, notes)
    abv = request.abv
    if abv is None:
        raise Question("no_strength")
    if not 0.0 <= abv <= 1.0:
        raise Question("out_of_range", percent(abv), strength=percent(abv))
    if not 0.0 < request.count < 1e6:
        raise Question("out_of_range", f"{request.count:g} bottles")
    volume_ml = None
    if request.volume is not None:
        volume_ml = check_volume(ml_of(request.volume, told.settings, notes) * request.count)
    elif request.ask == "drinks":
        raise Question("no_volume", percent(abv))
    drinks = _drinks(volume_ml, abv, country)
    poured = _drinks(None if request.pour is None else ml_of(request.pour, told.settings, notes), abv, country)
    of_bottle = volume_ml is not None and (volume_ml > _ONE_SERVE_ML or bool(poured))
    serve, bottle = (poured, drinks) if of_bottle else (drinks, ())
    facts = _facts(request, abv, country, "spirit", serve, bottle, volume_ml, (), notes)
    units = [request.volume.unit] if request.volume is not None else []
    return _answer(request, abv, facts, first_system(units, told.settings), told, notes)


def _drinks(volume_ml: float | None, abv: float, country: str) -> tuple[tuple[str, float], ...]:
    """Standard drinks in a volume: of the country said, else of all four."""
    if volume_ml is None:
        return ()
    found = standard_drinks(volume_ml, abv)
    everywhere = {"us": found.us, "uk": found.uk, "au": found.au, "who": found.who}
    places = (country,) if country in everywhere else _PLACES
    return tuple((place, everywhere[place]) for place in places)


def _kind(ingredients: tuple[Ingredient, ...]) -> _Drink:
    """Which row of the rules a mix falls under: wine, beer or cider when nothing else in it holds alcohol."""
    families = {i.family for i in ingredients if i.abv > 0.0}
    if families and families <= _WINES:
        return "wine"
    if families == {"beer"}:
        return "beer"
    return "cider" if families == {"cider"} else "spirit"


def _facts(
    request: Label, abv: float, country: str, drink: _Drink, serve: tuple[tuple[str, float], ...],
    bottle: tuple[tuple[str, float], ...], volume_ml: float | None, ingredients: tuple[Ingredient, ...], notes: Notes,
) -> LabelFacts:  # fmt: skip
    """Everything a label wants; of drinks alone no rule is stated."""
    if request.ask == "drinks":
        if volume_ml is not None:
            ethanol = per_litre(abv, 0.0).scaled(volume_ml / 1000.0)
            notes.remark("pure_alcohol", ethanol.ethanol_ml, ethanol.ethanol_g)
        return LabelFacts(country, drinks_serve=serve, drinks_bottle=bottle, volume_ml=volume_ml)
    market = _MARKETS.get(country)
    if market is None:
        market = "eu"
        notes.assume("country", market)
    if drink == "spirit" and not ingredients:
        notes.assume("spirit_label")
    stated = label_strength(abv, market, drink)
    assert market in RULES
    place, days = "", None
    if ingredients:
        kept = keeping(ingredients, abv)
        place, days = kept.place, kept.days
    return LabelFacts(
        market,
        stated.percent,
        stated.tolerance,
        stated.source,
        serve,
        bottle,
        volume_ml,
        allergens(ingredients),
        place,
        days,
    )


def _of_recipe(request: Label, country: str, told: Told, notes: Notes) -> Answer:
    assert request.recipe is not None
    spec, _, finished = known_spec(request.recipe, request.makes, told, notes)
    abv, finished_ml = finished.abv, finished.volume_ml
    serve: tuple[tuple[str, float], ...] = ()
    bottle: tuple[tuple[str, float], ...] = ()
    volume_ml = None
    if request.volume is not None:
        volume_ml = ml_of(request.volume, told.settings, notes)
        bottle = _drinks(volume_ml, abv, country)
    elif spec.sized and request.makes.vessel_ml is not None:
        volume_ml = request.makes.vessel_ml
        bottle = _drinks(volume_ml, abv, country)
    elif spec.sized and not spec.serves:
        volume_ml = finished_ml
        bottle = _drinks(volume_ml, abv, country)
    if spec.sized and spec.serves:
        serve = _drinks(finished_ml / spec.serves, abv, country)
    if request.ask == "drinks" and not serve and not bottle:
        raise Question("no_volume", percent(abv))
    facts = _facts(request, abv, country, _kind(spec.ingredients), serve, bottle, volume_ml, spec.ingredients, notes)
    return _answer(request, abv, facts, spec.first, told, notes, spec)


def _answer(
    request: Label,
    abv: float,
    facts: LabelFacts,
    first: Literal["ml", "oz"],
    told: Told,
    notes: Notes,
    spec: Spec | None = None,
) -> Answer:
    if request.ask == "label":
        notes.caution("measure_first")
    return Answer(
        "label",
        title=spec.title if spec is not None else "",
        understood=tuple(notes.understood),
        serves=spec.serves if spec is not None and spec.sized else None,
        abv=abv,
        label=facts,
        first=first,
        ounce_ml=ounce_ml(told.settings),
        focus=request.ask,
        assumed=tuple(notes.assumed),
        remarks=tuple(notes.remarks),
        cautions=tuple(notes.cautions),
    )


def _allergens(request: Label, told: Told, notes: Notes) -> Answer:
    """What the ingredients typically carry; no amounts are needed."""
    if request.recipe is None or not (request.recipe.parts or request.recipe.house):
        raise Question("no_spec", "")
    recipe = with_house(request.recipe, told)
    notes.take(recipe.notes)
    names = tuple(part.name for part in recipe.parts)
    known = [know(_unproved(part), names, told, notes, strength=False) for part in recipe.parts]
    found = tuple(k.ingredient for k in known if k.ingredient is not None)
    strangers = [k.name for k in known if k.ingredient is None and k.abv is None]
    if not found:
        raise Question("unread", ", ".join(strangers or names), names=", ".join(strangers or names))
    for name in strangers:
        notes.remark("unknown_allergens", name)
    facts = LabelFacts(allergens=allergens(found))
    return Answer(
        "label",
        title=recipe.drink,
        label=facts,
        focus="allergens",
        items=tuple((i.name, ", ".join(i.allergens)) for i in found if i.allergens),
        assumed=tuple(notes.assumed),
        remarks=tuple(notes.remarks),
    )


def _unproved(part: Part) -> Part:
    """A nameless liquid is a spirit of some strength: it carries no allergen."""
    return part if part.name else Part("spirit", part.measure, part.typed)
