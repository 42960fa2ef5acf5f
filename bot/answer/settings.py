"""Settings: how a chat wants its answers. Each is shown with its value and a message that changes it."""

from dataclasses import replace
from typing import Any

from bot.answer.notes import Question
from bot.core.facts import Answer, Note
from bot.told import Settings, Told
from grammar.request import Setting

#: setting -> (field of Settings, a message that changes it)
HOW: dict[str, tuple[str, str]] = {
    "ounce": ("ounce", "use imperial ounces"),
    "first": ("first", "oz first"),
    "freezer": ("freezer_c", "freezer -20"),
    "serve": ("serve_ml", "default serve 85 ml"),
    "dash": ("dash_ml", "dash is 0.8 ml"),
    "currency": ("currency", "currency €"),
    "country": ("country", "country uk"),
}
_OUNCES = {"us": "US, 29.57 mL", "imperial": "imperial, 28.41 mL", "30ml": "30 mL"}


def setting(request: Setting, told: Told) -> tuple[Answer, Told]:
    """What to say, and what the chat has told us after it. Raises Question unread for a setting we do not have."""
    if not request.name:
        return Answer("setting", understood=(Note("settings"),), items=shown(told.settings)), told
    if request.name not in HOW:
        raise Question("unread", found=request.name)
    field, _ = HOW[request.name]
    value: Any = request.value
    if field in ("freezer_c", "serve_ml", "dash_ml"):
        value = float(request.value)
    told = replace(told, settings=replace(told.settings, **{field: value}))
    return Answer("setting", understood=(Note("setting_set", (request.name, value)),), actions=("settings",)), told


def shown(settings: Settings) -> tuple[tuple[str, str], ...]:
    """Every setting: its name and value, and how to change it."""
    values = {
        "ounce": _OUNCES[settings.ounce],
        "first": "mL" if settings.first == "ml" else "oz",
        "freezer": f"{settings.freezer_c:g} °C",
        "serve": f"{settings.serve_ml:g} mL undiluted",
        "dash": f"{settings.dash_ml:.2g} mL",
        "currency": settings.currency or "none",
        "country": settings.country.upper() or "none",
    }
    return tuple((name, f"{values[name]} (say: {HOW[name][1]})") for name in HOW)
