"""Help by example: short, one topic at a time. Every example is run by the tests."""

from bot.core.facts import Answer
from grammar.request import Help

#: topic -> messages that work, each answered by the kind of its name
EXAMPLES: dict[str, tuple[str, ...]] = {
    "batch": (
        "20 serves: 50 gin, 20 dry vermouth, 25% water", "fill a 750 with 3:1 rye and sweet vermouth, 20% water",
        "2 oz rum 1 oz lime 1 oz simple x 12",
    ),
    "strength": ("abv of 50 gin 46%, 25 dry vermouth, 20 water", "what proof is 500ml of 50% and 500ml of 40%"),
    "cut": ("cut 1 L of 60% to 45%", "make 2 L of 40% from 63%", "add 200 ml water to 1 L of 50%, abv?"),
    "convert": ("1½ oz in ml", "3 dashes in ml", "how many 45 ml pours in a 700", "86 proof in abv"),
    "freezer": ("will 25% freeze at -18?", "min abv to stay liquid at -20", "most water for 60 gin 10 dry vermouth at -18"),
    "dilution": ("25% water on 90 ml, 16 serves", "30 ml water on 90 ml, what %", "stirring dilution at 30% abv"),
    "syrup": ("1 L of 2:1 syrup", "honey syrup 3:1 from 500 g honey", "100 ml of 20% saline", "brix of 2:1"),
    "cost": ("cost of 50 ml gin at 28 for 700 ml", "cost 2.80, price 14, pour cost?", "price for 75% gp on 2.10"),
    "bottles": ("bottles of gin for 60 serves at 50 ml, 700 ml bottles", "3 x 750 rye on shelf, enough for 40 at 2 oz?"),
    "label": ("label for 500 ml at 23.4%", "standard drinks in 90 ml at 28%", "allergens in 50 gin 20 dry vermouth"),
    "house": ("save fog bell: 50 gin 20 dry vermouth 5 dry sherry", "20 fog bells", "list specs", "export specs"),
    "shelf": ("my gin is 46.2%, 700 ml, 28", "shelf", "forget my gin"),
    "settings": ("settings", "freezer -20", "use imperial ounces", "oz first", "dash is 0.8 ml"),
    "follow": ("make it 12", "no water", "same but 2:1", "in oz", "per serve?", "gin is 47%"),
}  # fmt: skip
FIRST: tuple[str, ...] = (
    "batch",
    "strength",
    "cut",
    "convert",
    "freezer",
    "syrup",
    "cost",
    "bottles",
    "label",
    "house",
    "follow",
)


def help(request: Help) -> Answer:
    """One example a topic, or all of one topic's. A topic we do not have gets the general help."""
    if request.topic in EXAMPLES:
        items = tuple(("", example) for example in EXAMPLES[request.topic])
        return Answer("help", title=request.topic, items=items)
    items = tuple((topic, EXAMPLES[topic][0]) for topic in FIRST)
    return Answer("help", items=items, actions=("help syrup",))
