"""Answers made by hand, one of every layout, for the tests of wording. Invented drinks of an invented bar.

Figures are plausible, not checked: the core's own tests do that.
"""

from bot.core.facts import (
    Answer, BottleFacts, CostFacts, FreezerFacts, LabelFacts, Line, Note, Problem, Result, Vessels,
)  # fmt: skip

OZ = 29.5735295625

SLUSH = FreezerFacts(-18.0, -11.2, "slush", False, 0.341, 31.2, 0.124, 0.334)
LIQUID = FreezerFacts(-18.0, -23.4, "liquid", False, 0.0, 27.0, 0.24, 0.334)
EDGE = FreezerFacts(-18.0, -17.2, "slush", True, 0.05, 20.0, 0.18, 0.334)
HARD = FreezerFacts(-18.0, -4.1, "hard", False, 0.78, 60.0, None, 0.334)

STRENGTHS = (Note("abv", ("gin", 0.4)), Note("abv", ("dry vermouth", 0.18)))

SAMPLES: dict[str, Answer] = {
    "batch": Answer(
        "batch",
        lines=(Line("gin", 480.0, 0.4), Line("dry vermouth", 240.0, 0.18), Line("water", 180.0, 0.0)),
        serves=8.0,
        undiluted_ml=720.0,
        measured_ml=900.0,
        finished_ml=893.2,
        per_serve_ml=111.65,
        spec_ml=90.0,
        abv=0.2645,
        water_share=0.25,
        freezer=SLUSH,
        vessels=Vessels(1000.0, 1, 900.0),
        assumed=STRENGTHS,
        cautions=(Note("freezing"),),
    ),
    "house batch": Answer(
        "batch",
        title="Fog Bell",
        lines=(
            Line("gin", 1000.0, 0.4),
            Line("dry vermouth", 400.0, 0.18),
            Line("dry sherry", 100.0, 0.15),
            Line("orange bitters", 20 * OZ / 32, 0.45),
            Line("lemon peel", count=20.0),
        ),
        serves=20.0,
        undiluted_ml=1518.5,
        measured_ml=1518.5,
        finished_ml=1513.0,
        per_serve_ml=75.65,
        spec_ml=75.9,
        abv=0.325,
        freezer=EDGE,
        vessels=Vessels(1750.0, 1, 1518.5),
        assumed=(*STRENGTHS, Note("dash", (OZ / 32,))),
    ),
    "ounces": Answer(
        "batch",
        lines=(
            Line("bourbon", 28 * OZ, 0.49, typed_unit="oz"),
            Line("sweet vermouth", 14 * OZ, 0.16, typed_unit="oz"),
            Line("water", 10.5 * OZ, 0.0),
        ),
        serves=14.0,
        measured_ml=52.5 * OZ,
        finished_ml=52.1 * OZ,
        per_serve_ml=3.72 * OZ,
        spec_ml=3 * OZ,
        abv=0.304,
        water_share=0.25,
        first="oz",
        freezer=LIQUID,
        assumed=(Note("ounce", ("us",)),),
    ),
    "fill": Answer(
        "batch",
        lines=(Line("gin", 312.5, 0.4), Line("dry vermouth", 312.5, 0.18), Line("water", 125.0, 0.0)),
        undiluted_ml=625.0,
        measured_ml=750.0,
        finished_ml=746.1,
        abv=0.243,
        water_share=0.2,
        vessels=Vessels(750.0, 1, 750.0, True),
        freezer=SLUSH,
        assumed=STRENGTHS,
    ),
    "long names": Answer(
        "batch",
        lines=(
            Line("bitter red aperitif", 12500.0, 0.24),
            Line("blackcurrant liqueur of the house", 12500.0, 0.2),
            Line("elderflower liqueur", 25.0, 0.2),
        ),
        serves=500.0,
        measured_ml=25025.0,
        finished_ml=25010.0,
        per_serve_ml=50.0,
        spec_ml=50.05,
        abv=0.22,
        freezer=HARD,
        vessels=Vessels(9000.0, 3, 25025.0 / 3),
        cautions=(Note("freezing"), Note("keep_cold")),
    ),
    "just the water": Answer(
        "batch",
        lines=(Line("rye", 720.0, 0.45), Line("sweet vermouth", 360.0, 0.16), Line("water", 475.2, 0.0)),
        serves=12.0,
        measured_ml=1555.2,
        finished_ml=1540.0,
        per_serve_ml=128.3,
        spec_ml=90.0,
        water_share=0.44,
        abv=0.246,
        focus="water",
        assumed=(Note("stirred_water", (0.44,)),),
    ),
    "strength": Answer(
        "strength",
        lines=(Line("gin", 60.0, 0.4), Line("dry vermouth", 30.0, 0.18), Line("water", 22.0)),
        measured_ml=112.0,
        finished_ml=111.2,
        abv=0.2627,
    ),
    "cut": Answer(
        "cut",
        lines=(Line("63%", 1000.0, 0.63), Line("water", 383.0, g=382.3)),
        measured_ml=1383.0,
        finished_ml=1366.2,
        abv=0.46,
        focus="water",
        remarks=(Note("contraction", (16.8,)),),
    ),
    "cut lots": Answer(
        "cut",
        lines=(Line("40%", 700.0, 0.4), Line("60%", 700.0, 0.6), Line("water", 357.0)),
        measured_ml=1757.0,
        finished_ml=1748.0,
        abv=0.4,
        focus="water",
    ),
    "strength after water": Answer(
        "cut", lines=(Line("rye", 1000.0, 0.5), Line("water", 200.0)), finished_ml=1192.4, abv=0.4193, focus="abv"
    ),
    "convert": Answer("convert", results=(Result(59.147, "ml", "2 US fl oz"),)),
    "convert list": Answer(
        "convert",
        results=(Result(5.9147, "cl", "2 oz"), Result(2.218, "cl", "¾ oz"), Result(1.4787, "cl", "½ oz")),
        assumed=(Note("ounce", ("us",)),),
    ),
    "pours": Answer("convert", results=(Result(45.085, "pours", "1.5 oz / 2 l"),)),
    "pours and left": Answer("convert", results=(Result(45.085, "pours"), Result(3.8, "ml", "left"))),
    "convert spec to cl": Answer(
        "convert",
        lines=(Line("gin", 60.0), Line("lemon juice", 22.5)),
        results=(Result(6.0, "cl", "gin"), Result(2.25, "cl", "lemon juice")),
    ),
    "guests": Answer(
        "batch",
        understood=(Note("guests", (12.0, 2.0)), Note("serves", (24.0,)), Note("water_of_finished", (0.2,))),
        lines=(Line("rye", 1200.0, 0.45), Line("sweet vermouth", 600.0, 0.16), Line("water", 450.0)),
        serves=24.0,
        undiluted_ml=1800.0,
        measured_ml=2250.0,
        finished_ml=2233.0,
        per_serve_ml=93.0,
        spec_ml=75.0,
        abv=0.286,
        water_share=0.25,
        freezer=SLUSH,
        vessels=Vessels(1000.0, 3, 750.0),
        cautions=(Note("headspace", (31.0,)), Note("raw_egg")),
    ),
    "convert spec": Answer(
        "convert",
        title="negroni",
        lines=(Line("gin", OZ), Line("bitter red aperitif", OZ), Line("sweet vermouth", OZ)),
        assumed=(Note("ounce", ("us",)),),
    ),
    "temperature": Answer("convert", results=(Result(-17.7778, "c", "0 f"),)),
    "freezer slush": Answer(
        "freezer", abv=0.24, water_share=0.25, freezer=SLUSH,
        cautions=(Note("freezing"),),
    ),
    "freezer liquid": Answer("freezer", abv=0.4, freezer=LIQUID, assumed=(Note("freezer", (-18.0,)),)),
    "freezer hard": Answer("freezer", abv=0.05, freezer=HARD),
    "freezer edge": Answer("freezer", abv=0.325, freezer=EDGE, remarks=(Note("near_edge"),)),
    "freezing point": Answer("freezer", abv=0.2, freezer=FreezerFacts(-18.0, -8.6), focus="point"),
    "least strength": Answer("freezer", freezer=FreezerFacts(-18.0, least_abv=0.334), focus="least_abv"),
    "most water": Answer("freezer", abv=0.4, freezer=LIQUID, focus="most_water"),
    "headspace": Answer("freezer", abv=0.12, freezer=HARD, focus="headspace"),
    "ice": Answer("freezer", abv=0.24, freezer=SLUSH, focus="ice", water_share=0.25),
    "dilution": Answer(
        "dilution", lines=(Line("water", 756.0),), undiluted_ml=4200.0, measured_ml=4956.0, water_share=0.18
    ),
    "dilution share": Answer(
        "dilution",
        lines=(Line("water", 30.0),),
        results=(Result(100 / 3, "percent", "undiluted"), Result(25.0, "percent", "finished")),
        undiluted_ml=90.0,
        measured_ml=120.0,
        focus="share",
    ),
    "dilution stirred": Answer(
        "dilution",
        lines=(Line("gin", 60.0), Line("dry vermouth", 10.0), Line("water", 30.8)),
        results=(Result(43.98, "percent", "stirred"), Result(41.2, "percent", "heat balance")),
        serves=1.0,
        assumed=(Note("stirred_water", (0.4398,)),),
    ),
    "syrup": Answer(
        "syrup",
        lines=(Line("sugar", 1047.6, g=885.4), Line("water", 443.5, 0.0, 442.7)),
        finished_ml=1000.0,
        sugar_g=885.4,
        sugar_g_per_l=885.4,
        brix=66.7,
        assumed=(Note("by_weight"),),
    ),
    "cost": Answer(
        "cost",
        title="Second Watch",
        serves=12.0,
        cost=CostFacts(
            "£", 33.0286, 2.75238, 16.5143, 13.76, 0.2, 0.8, 5.0, 0.2, (("rye", 27.4286), ("sweet vermouth", 5.6))
        ),
        focus="price",
    ),
    "pour cost": Answer("cost", cost=CostFacts("", None, 3.0, 15.0, None, 0.2, 0.8), focus="pour_cost"),
    "bottles": Answer(
        "bottles",
        serves=60.0,
        bottles=(BottleFacts("gin", 5, 700.0, 3000.0, 500.0),),
    ),
    "bottles short": Answer("bottles", bottles=(BottleFacts("rye", 1, 750.0, 2366.0, None, 116.0, 3.0),)),
    "bottles enough": Answer("bottles", bottles=(BottleFacts("vodka", 0, 1000.0, 3000.0, 1000.0, 0.0, 4.0),)),
    "left": Answer(
        "bottles",
        results=(Result(4.5, "pours"), Result(25.0, "ml", "left")),
        bottles=(BottleFacts("rye", 0, 750.0, 525.0, 225.0, None, 1.0),),
        focus="left",
    ),
    "vessels": Answer("bottles", vessels=Vessels(750.0, 4, 700.0), results=(Result(4.0, "bottles", "750 ml"),)),
    "label": Answer(
        "label",
        title="Fog Bell",
        abv=0.24371,
        label=LabelFacts(
            "uk", 24.4, 0.3, "retained Reg. (EU) 1169/2011 Annex XII", (), (("us", 9.6), ("uk", 17.06), ("au", 13.5)),
            700.0, ("sulphites", "egg"), "cold", 30,
        ),
        cautions=(Note("standard_drinks"), Note("label")),
    ),
    "drinks": Answer("label", label=LabelFacts(drinks_serve=(("uk", 2.0),)), focus="drinks"),
    "allergens": Answer(
        "label",
        label=LabelFacts(allergens=("milk", "nuts")),
        focus="allergens",
        items=(("cream", "milk"), ("orgeat", "nuts")),
    ),
    "saved": Answer(
        "saved",
        understood=(Note("saved", ("Fog Bell",)),),
        items=(("", "50 gin, 20 dry vermouth, 5 dry sherry, 1 dash orange bitters"),),
        actions=("fog bell for 20",),
    ),
    "listed": Answer(
        "listed", items=(("Fog Bell", "50 gin, 20 dry vermouth"), ("Low Tide", "30 dry sherry, 60 tonic"))
    ),
    "nothing listed": Answer(
        "listed", remarks=(Note("empty_list", ("specs",)),), actions=("save low tide: 30 dry sherry, 60 tonic",)
    ),
    "replaced": Answer(
        "saved",
        understood=(Note("replaced", ("fog bell", "50 gin\n20 dry vermouth")),),
        items=(("fog bell", "55 ml gin\n20 ml dry vermouth"),),
        actions=("20 fog bell", "bring back fog bell"),
    ),
    "forgotten": Answer("forgotten", understood=(Note("forgotten", ("Fog Bell",)),), actions=("bring back fog bell",)),
    "setting": Answer("setting", understood=(Note("setting_set", ("freezer", "-22")),)),
    "help": Answer(
        "help",
        items=(("Batch", "8 serves: 60 gin, 30 dry vermouth, 25% water"), ("Cut", "cut 700 ml from 50% to 40%")),
    ),
    "question": Answer(
        "question",
        understood=(Note("read", ("8 serves",)),),
        problem=Problem("conflict_total", (0, 20), "8 x 70 ml is 560 ml, not 2000 ml"),
    ),
    "question echo": Answer("question", problem=Problem("unclear_number", (0, 8), "total 2 L")),
    "question too large": Answer("question", problem=Problem("too_large", None, "1e+09 serves", "", (("most", "20000"),))),
    "question unread": Answer("question", problem=Problem("unread", (0, 4), "flurble")),
}  # fmt: skip
