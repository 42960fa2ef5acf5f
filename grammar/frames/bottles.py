"""Frame for bottles: how many to buy, whether the stock is enough, serves from a bottle, vessels to hold a batch."""

from dataclasses import replace

from grammar.frames.bottle_own import bottles_they_come_in, spare_bottles
from grammar.frames.bottle_sizes import own_sizes, plurals_of, several_ml, size_ml_of
from grammar.frames.bottles_at_hand import put_together
from grammar.frames.limited import pour_at_end, pours_asked
from grammar.frames.some_guests import some_guests
from grammar.frames.spec import numbers_read, read_spec
from grammar.frames.stocked import stocked
from grammar.phrase import Phrase
from grammar.request import Bottles, BottlesAsk, Measure, Part, Recipe, Yield
from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, MOST_BOTTLES, SERVE_LIMIT_ML, Scan, Unclear, bottled, measure, rough_ml
from grammar.vessels import join_vessels


def read_bottles(scan: Scan) -> Bottles:
    """A bottle question. Raises Unclear no_serves, no_amounts, no_volume."""
    some_guests(scan)
    stocks = stocked(scan)
    if stocks:
        found = _read(scan)
        if found.recipe is None or found.ask == "serves":
            raise Unclear("no_amounts", [], "how much goes in each")
        return replace(found, ask="enough", stocks=stocks)
    return _read(scan)


def _read(scan: Scan) -> Bottles:
    spare = spare_bottles(scan)
    join_vessels(scan)
    put_together(scan)
    if pours_asked(scan) or pour_at_end(scan):
        return _serves(scan, None, several_ml(scan), size_ml_of(scan), None)
    big = [i for i in scan.kinds("fold") if scan.kind_at(i + 1) == "amount" and bottled(scan.items[i + 1])]
    alone = len(scan.kinds("amount")) == 2 and not scan.kinds("name", "context", "house", "ratio", "count", "guests", "bare")
    if big and alone and any(p.is_cue("serve_word") for p in scan.items):
        return _serves(scan, None, several_ml(scan), None, None)  # "2 x 1 L at 50 ml pours"
    sizes = bottles_they_come_in(scan)
    plurals = plurals_of(scan)
    sizes.update(own_sizes(scan))
    stock, stock_ml = _stock(scan)
    poured = "?" in scan.text and any(p.kind == "unit" and p.text in ("shots", "measures") for p in scan.items)
    poured = poured or any(p.is_cue("serve_word") and p.text in ("pours", "pour", "glasses") for p in scan.items)
    if stock is None and (poured or scan.has("how_many")) and not scan.kinds("count", "guests"):
        stock_ml = several_ml(scan)
    used = _used(scan)
    size_ml = size_ml_of(scan)
    scan.use(*[i + 1 for i in plurals])
    ask: BottlesAsk = "enough" if stock is not None else "buy"
    pour: Measure | None = None
    vessel_asked = scan.has("fit") or (bool(scan.kinds("vessel")) and not scan.kinds("name", "context", "house", "ratio"))
    names = scan.kinds("name", "context", "house", "ratio", "unknown")
    counted = scan.kinds("count", "guests", "times", "fold") or any(
        scan.kind_at(i - 1) == "cue:for" or scan.kind_at(i + 1) in ("drink",) for i in scan.kinds("bare")
    )
    if (
        scan.has("how_many")
        and any(
            p.is_cue("serve_word") or p.text in ("pours", "pour", "shots") or p.kind == "drink" or _does_it_do(p)
            for p in scan.items
        )
        and not counted
        and not scan.kinds("ratio")
    ):
        return _serves(scan, stock, stock_ml, size_ml, used)
    if used is not None:
        return _serves(scan, stock, stock_ml, size_ml, used, "left")
    if not names and vessel_asked and (scan.kinds("amount") or counted):
        return _hold(scan, size_ml)
    for i in scan.kinds("amount"):  # "a handle of vodka, 1.75 L": the size said twice
        if size_ml is not None and rough_ml(scan.items[i].value, scan.items[i].unit) == size_ml:
            scan.use(i)
    if not names and scan.kinds("amount") and counted:
        return _hold(scan, size_ml)
    recipe, makes = read_spec(scan, need=False)
    parts = list(recipe.parts)
    if len(parts) == 1 and parts[0].measure is None and makes.serve is not None:
        parts = [replace(parts[0], measure=makes.serve)]
        makes = replace(makes, serve=None)
    elif len(parts) == 1 and parts[0].measure is None and makes.volume is not None and not _served(makes):
        parts = [replace(parts[0], measure=makes.volume, whole=True)]
        makes = replace(makes, volume=None)
    elif not parts and not recipe.house and makes.serve is not None:
        parts = [Part("spirit", makes.serve, "spirit")]
        makes = replace(makes, serve=None)
    parts = [
        replace(p, size=sizes.get(p.name) or next((s for n, s in sizes.items() if n in p.name.split()), None)) for p in parts
    ]
    measured = " ".join(p.name for p in parts if p.measure is not None).split()
    boxed = [p for i, p in enumerate(scan.items[:-1]) if p.kind == "name" and scan.items[i + 1].is_cue("in")]
    named = [p for p in boxed if not set(p.name.split()) & set(measured)]
    unpoured = list(dict.fromkeys(p.text for p in named))
    if measured and unpoured and not recipe.house:  # "punch for 50: rum in 1 L, lime 750, bottles of each"
        raise Unclear("no_amounts", [], ", ".join(unpoured), names=", ".join(unpoured))
    recipe = replace(recipe, parts=tuple(p for p in parts if p.measure is not None))
    if not recipe.parts and not recipe.house:
        if makes.volume is not None:
            return Bottles(None, makes, size_ml, None, None, None, None, "hold")
        raise Unclear("no_amounts", [p for p in scan.items if p.kind in ("name", "count", "guests")], "")
    if makes.serves is None and makes.guests is None and makes.volume is None and not any(p.whole for p in recipe.parts):
        total = sum(rough_ml(p.measure.value, p.measure.unit) or 0.0 for p in recipe.parts if p.measure)
        if total < SERVE_LIMIT_ML:
            if len(recipe.parts) == 1 and (stock_ml is not None or size_ml is not None):
                return Bottles(recipe, makes, size_ml, stock, stock_ml, recipe.parts[0].measure, None, "serves")
            raise Unclear("no_serves", [p for p in scan.items if p.kind == "name"], recipe.parts[0].typed)
    numbers_read(scan)
    return Bottles(recipe, makes, size_ml, stock, stock_ml, pour, used, ask, spare)


def _served(makes: Yield) -> bool:
    """Whether serves are counted, and the volume is too small to be all of them."""
    serves = makes.serves or makes.guests
    volume = rough_ml(makes.volume.value, makes.volume.unit) if makes.volume is not None else None
    return serves is not None and volume is not None and volume < SERVE_LIMIT_ML


def _does_it_do(p: Phrase) -> bool:
    return p.is_cue("how_many") and p.text.split()[-1] in ("do", "get", "make")


def _stock(scan: Scan) -> tuple[float | None, float | None]:
    """ "3 x 750 rye on shelf", "have 2 bottles", "we have 1.5 L": bottles and mL at hand. Marks them."""
    for c in scan.cues("stock", "left", "enough"):
        near = sorted(range(max(0, c - 5), min(len(scan), c + 6)), key=lambda k: abs(k - c))
        for i in near:
            p = scan.items[i]
            if scan.used[i]:
                continue
            nxt = scan.at(i + 1)
            if (
                p.kind == "fold"
                and nxt is not None
                and nxt.kind in ("bare", "amount")
                and (rough_ml(nxt.value, nxt.unit) or 0) < 200
            ):
                continue  # "poured 9 x 45 ml"
            if (
                p.kind == "bare"
                and p.value <= 24
                and nxt is not None
                and nxt.kind == "bare"
                and nxt.value in BOTTLE_SIZES_ML
                and nxt.value >= 200
            ):
                scan.use(i, i + 1, c)  # "have one 750 of mezcal"
                return p.value, p.value * nxt.value
            whole = p.kind == "bare" and p.value == int(p.value) and 0 < p.value <= MOST_BOTTLES
            if whole and i == c + 1 and scan.items[c].name == "stock" and scan.kind_at(i + 1) in ("", "sep"):
                scan.use(i, c)
                return p.value, None  # "120 martinis, 700s of gin, i have 3 already"
            if p.kind == "vessel" and p.amounts:
                scan.use(i, c)
                size = rough_ml(*p.size) if p.size else None
                for k in range(i + 1, min(len(scan), i + 4)):  # "2.5 bottles of mezcal 750 ml"
                    q = scan.items[k]
                    if size is None and q.kind == "amount" and not scan.used[k] and bottled(q):
                        size = rough_ml(q.value, q.unit)
                        scan.use(k)
                return p.amounts[0], p.amounts[0] * size if size else None
            if p.kind == "fold" and scan.kind_at(i + 1) in ("bare", "amount", "vessel") and scan.items[c].name != "enough":
                q = scan.items[i + 1]
                size = rough_ml(q.value, q.unit) if q.kind != "vessel" else rough_ml(*q.size) if q.size else None
                scan.use(i, i + 1, c)
                return p.value, p.value * size if size else None
            if (
                p.kind == "fold"
                and scan.kind_at(i + 1) in ("bare", "amount")
                and (rough_ml(scan.items[i + 1].value, scan.items[i + 1].unit) or 0) >= 200
            ):
                q = scan.items[i + 1]
                size = rough_ml(q.value, q.unit)
                scan.use(i, i + 1, c)
                return p.value, p.value * size if size else None
            of_it = scan.kind_at(i + 1) in ("cue:of", "name")
            asked = scan.items[c].name == "enough" and i < c and of_it and len(scan.kinds("amount")) > 1
            if (
                p.kind == "amount"
                and scan.kind_at(i - 1) != "fold"  # "3 x 1 L of rum": the three come next
                and (scan.items[c].name == "stock" or asked)
                and bottled(p)
                and abs(i - c) <= (3 if asked else 2)
            ):
                scan.use(i, c)
                return 1.0, rough_ml(p.value, p.unit)
    return None, None


def _used(scan: Scan) -> float | None:
    """ "12 pours gone": pours already taken from a bottle. Marks them."""
    for c in scan.cues("left"):
        for i in (c - 1, c - 2, c + 1, c + 2, c - 3):
            p = scan.at(i)
            if p is not None and not scan.used[i] and p.kind in ("count", "times", "fold", "bare") and p.value < 100:
                if p.kind == "bare" and scan.kind_at(i + 1) in ("name", "unit"):
                    continue
                scan.use(i, c)
                return p.value
    return None


def _serves(
    scan: Scan,
    stock: float | None,
    stock_ml: float | None,
    size_ml: float | None,
    used: float | None,
    ask: BottlesAsk = "serves",
) -> Bottles:
    """ "how many 45 ml serves from a 700": a pour and a bottle."""
    amounts = sorted(scan.kinds("amount", "bare"), key=lambda i: rough_ml(scan.items[i].value, scan.items[i].unit) or 0.0)
    pour: Measure | None = None
    for i in amounts:
        ml = rough_ml(scan.items[i].value, scan.items[i].unit)
        if ml is None:
            continue
        if pour is None and ml < 400:
            pour = Measure(scan.items[i].value, scan.items[i].unit or "ml")
            scan.use(i)
        elif size_ml is None and stock_ml is None and ml >= LEAST_BOTTLE_ML:
            size_ml = ml
            scan.use(i)
    names = [scan.items[i] for i in scan.kinds("name", "context")]
    scan.use(*scan.kinds("name", "context", "drink", "unknown"))
    if pour is None:
        raise Unclear("no_amounts", names or [p for p in scan.items if p.kind in ("vessel", "drink")], "")
    if size_ml is None and stock_ml is None:
        raise Unclear("no_volume", names, "the size of the bottle")
    part = Part(names[0].name, pour, names[0].text) if names else Part("spirit", pour, "")
    numbers_read(scan)
    return Bottles(Recipe((part,)), Yield(), size_ml, stock, stock_ml, pour, used, ask)


def _hold(scan: Scan, size_ml: float | None) -> Bottles:
    """ "how many 1 L bottles for 24 x 110 ml": vessels for a volume."""
    serves: float | None = None
    each: float | None = None
    for i in scan.kinds("count", "guests", "times", "fold"):
        guests = scan.items[i].kind == "guests"
        if guests:
            serves, each = scan.items[i].value, serves
        elif serves is not None:
            each = scan.items[i].value
        else:
            serves = scan.items[i].value
        scan.use(i)
    if serves is not None and each is not None:
        serves *= each  # "150 people, 2 glasses each"
    serve: Measure | None = None
    volume: Measure | None = None
    for i in scan.kinds("amount", "bare"):
        p = scan.items[i]
        ml = rough_ml(p.value, p.unit)
        if ml is None:
            continue
        if serves is None and p.kind == "bare" and scan.kind_at(i - 1) == "cue:for":
            serves = p.value
        elif serves is not None and ml < 400 and serve is None:
            serve = measure(p) if p.unit else Measure(p.value, "ml")
        elif volume is None:
            volume = measure(p) if p.unit else Measure(p.value, "ml")
        else:
            continue
        scan.use(i)
    if volume is None and (serves is None or serve is None):
        raise Unclear("no_volume", [p for p in scan.items if p.kind == "vessel"], "the volume to hold")
    numbers_read(scan)
    return Bottles(None, Yield(serves=serves, serve=serve, volume=volume), size_ml, None, None, None, None, "hold")
