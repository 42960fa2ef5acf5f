"""Requests and recipes as text, for the memory to hold: written and read here only.

JSON by msgspec, which checks the types on the way back. A text that an older version wrote and this one cannot read
counts as nothing said, never as an error.
"""

from typing import Any

import msgspec

from bot.told import HouseSpec, Told
from grammar.request import (
    Batch,
    Bottles,
    Convert,
    Cost,
    Cut,
    Dilution,
    Freezer,
    Label,
    Recipe,
    Request,
    Strength,
    Syrup,
)  # fmt: skip

KEPT: dict[str, type[Any]] = {
    str(kept.__dataclass_fields__["kind"].default): kept
    for kept in (Batch, Strength, Convert, Cut, Freezer, Dilution, Syrup, Cost, Bottles, Label)
}
_ENCODER = msgspec.json.Encoder()
_DECODERS: dict[str, "msgspec.json.Decoder[Any]"] = {}


def request_to_text(request: Request) -> str:
    """A request that follow-ups can build on, as text that starts with its kind."""
    return request.kind + " " + _ENCODER.encode(request).decode()


def request_kind(text: str) -> str:
    """The kind of a kept request, without reading the rest; "" when it is none of ours."""
    kind = text.partition(" ")[0]
    return kind if kind in KEPT else ""


def request_from_text(text: str) -> Request | None:
    """The kept request, or None when this version cannot read it."""
    kind, _, body = text.partition(" ")
    return _decoded(kind, KEPT[kind], body) if kind in KEPT else None


def recipe_to_text(recipe: Recipe) -> str:
    """A recipe as text."""
    return _ENCODER.encode(recipe).decode()


def recipe_from_text(text: str) -> Recipe | None:
    """The kept recipe, or None when this version cannot read it."""
    kept: Recipe | None = _decoded("recipe", Recipe, text)
    return kept


def _decoded(key: str, kind: type[Any], text: str) -> Any:
    decoder = _DECODERS.get(key)
    if decoder is None:
        decoder = _DECODERS[key] = msgspec.json.Decoder(kind)
    try:
        return decoder.decode(text)
    except (msgspec.MsgspecError, UnicodeError):
        return None


def find_spec(name: str, told: Told) -> HouseSpec | None:
    """The house spec of that name, case and spacing ignored."""
    wanted = " ".join(name.lower().split())
    return next((spec for spec in told.specs if " ".join(spec.name.lower().split()) == wanted), None)


def house_recipe(name: str, told: Told) -> Recipe | None:
    """The recipe of a house spec, or None when the chat saved none of that name."""
    spec = find_spec(name, told)
    return recipe_from_text(spec.body) if spec is not None else None
