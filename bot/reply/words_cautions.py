"""One sentence for each caution, and which of several is said. Never advice on health or law beyond "follow it"."""

from collections.abc import Sequence

from bot.core.facts import Note

#: cautions, the weightiest first; a reply carries one
CAUTIONS: dict[str, str] = {
    "raw_egg": "Raw egg: make it today, use pasteurised, keep it at 4 °C or less, follow your food code.",
    "egg": "Egg: make it today, keep it at 4 °C or less, follow your food code.",
    "dairy": "Dairy: date it today, keep it at 4 °C or less, follow your food code.",
    "nuts": "Contains nuts: tell the guest before you pour.",
    "label": "Measure it with a hydrometer or a lab before you print, and follow local law.",
    "keep_cold": "Date it today, keep it at 4 °C or less, follow your food code.",
    "freezing": "A full sealed glass bottle can burst in the freezer.",
    "measure_first": "Measure it with a hydrometer or a lab before you print, and follow local law.",
    "headspace": "A full sealed glass bottle can burst in the freezer.",
    "flammable": "Strong spirit: keep it away from flame.",
    "juice": "Fresh juice: date it today, keep it at 4 °C or less, follow your food code.",
    "fresh": "Date it today, keep it at 4 °C or less, follow your food code.",
    "low_strength": "Too weak to keep warm: hold it at 4 °C or less.",
    "fizz": "Add the fizz when you pour, not in a closed bottle.",
    "standard_drinks": "Serve by your local responsible-service rules.",
    "mix_ahead": "Mixing ahead has rules of its own: check local law.",
    "wine": "Keep it cold once mixed.",
    "syrup": "Keep it cold and dated.",
    "spirit": "Keep it closed and dated.",
}  # fmt: skip
_WEIGHT = {code: at for at, code in enumerate(CAUTIONS)}


def caution(note: Note) -> str:
    """The sentence of a caution; of an unknown one the words it carries."""
    return CAUTIONS.get(note.code) or " ".join(str(arg) for arg in note.args) or note.code.replace("_", " ")


def weightiest(notes: Sequence[Note]) -> Note:
    """The one caution a reply has room for."""
    return min(notes, key=lambda note: _WEIGHT.get(note.code, len(_WEIGHT)))
