"""Reading vessels and volumes: bottles to fill, "2 x 750", "total 2 L", sizes of a serve.

The parts of grammar.makes that deal with sizes; counts of serves and guests are read there.
"""

from dataclasses import replace

from grammar.loads import cases_of
from grammar.phrase import Phrase
from grammar.pours import said_again
from grammar.request import Measure, Yield
from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, MOST_BOTTLES, Scan, rough_ml
from grammar.sized import OWNS_AMOUNT, bottles_counted

_CL_SIZES = frozenset([35, 70, 75])  # of those, the ones said in cL
BIG_UNITS = frozenset(["l", "gallon", "quart", "imp_gallon", "pint", "imp_pint", "imp_quart", "cup", "dl"])


def join_vessels(scan: Scan) -> None:
    """ "3 one litre bottles", "4 bottles of 700", "bottle (1L)": a count, a size and a noun become one vessel."""
    cases_of(scan)
    for i in scan.kinds("vessel"):
        v = scan.items[i]
        before, after = scan.at(i - 1), scan.at(i + 1)
        if (
            v.size is not None
            and not v.amounts
            and before is not None
            and before.kind in ("bare", "fold")
            and not scan.used[i - 1]
        ):
            two_before = scan.at(i - 2)
            named = two_before is not None and two_before.kind in ("name", "context")
            priced = scan.text[before.end : v.start].strip() in ("a", "an", "per")  # "24.50 a 700 ml bottle"
            if named and (scan.kinds("ratio") or scan.has("equal")) and before.value > 1:
                named = False  # "equal parts gin and fino 6 70 cl bottles"
            if before.value <= MOST_BOTTLES and not named and not priced:
                v.amounts, v.value = (before.value,), before.value
                v.start = before.start
                scan.use(i - 1)
        elif v.size is not None and not v.amounts and scan.kind_at(i - 1) == "cue:of" and scan.kind_at(i - 2) == "bare":
            many = scan.items[i - 2]
            if 1 < many.value <= MOST_BOTTLES and scan.kind_at(i - 3) not in ("name", "context"):
                v.amounts, v.value, v.start = (many.value,), many.value, many.start  # "three of the 750s"
                scan.use(i - 2, i - 1)
        elif v.size is None and before is not None and before.kind == "fold" and not scan.used[i - 1]:
            v.amounts, v.value = (before.value,), before.value
            scan.use(i - 1)
        said = scan.at(i + 2)
        bracket = after is not None and after.kind == "sep" and after.name == "("
        again = rough_ml(said.value, said.unit) if bracket and said is not None and said.kind in ("amount", "bare") else None
        if v.size is not None and again is not None and again == rough_ml(*v.size):
            scan.use(i + 1, i + 2)  # "a fifth (750 ml)"
        if v.size is None and v.amounts and v.amounts[0] > 1:
            j = i + 2 if after is not None and after.kind == "sep" and after.name in ",(" else i + 1
            q = scan.at(j)
            if _size_of_each(scan, j) and q is not None:
                v.size = (q.value, q.unit or "ml")  # "6 flasks, 8 oz each"
                scan.use(*range(i + 1, j + 2))
                continue
        if v.size is None and after is not None and not scan.used[i + 1]:
            j = i + 2 if after.is_cue("of", "at", "fit") or (after.kind == "sep" and after.name == "(") else i + 1
            if v.amounts and after.kind == "sep" and scan.kind_at(i + 3) == "cue:each":
                j = i + 2  # "6 swing tops, 500 each"
            elif v.amounts and after.is_cue("each"):
                j = i + 2  # "6 swing tops each 500 ml"
            q = scan.at(j)
            if (
                q is not None
                and q.kind == "bare"
                and q.value in _CL_SIZES
                and scan.kind_at(i + 1) == "cue:of"
                and scan.kind_at(j + 1) in ("", "sep", "ratio", "cue:of", "cue:with", "cue:scale", "cue:rest")
            ):
                q.unit = "cl"  # "bottle of 70"
            if (
                q is not None
                and not scan.used[j]
                and (
                    (
                        q.kind == "bare"
                        and (q.unit or q.value in BOTTLE_SIZES_ML)
                        and scan.kind_at(j + 1) not in ("name", "context", "unknown")
                    )
                    or (
                        q.kind == "amount"
                        and 90 <= (rough_ml(q.value, q.unit) or 0) <= (60000 if v.amounts else 3000)
                        and (j == i + 2 or scan.kind_at(j + 1) not in OWNS_AMOUNT or bottles_counted(scan, v))
                    )
                )
            ):
                v.size = (q.value, q.unit or "ml")
                v.end = q.end
                scan.use(*range(i + 1, j + 1))


def _size_of_each(scan: Scan, i: int) -> bool:
    """Whether the amount at i is what each of the vessels before it holds."""
    if scan.kind_at(i) not in ("amount", "bare") or scan.kind_at(i + 1) != "cue:each":
        return False
    held = 90 <= (rough_ml(scan.items[i].value, scan.items[i].unit) or 0) <= 20000
    return held and scan.kind_at(i + 2) not in ("name", "context")


def read_folds(scan: Scan, makes: Yield, counts: list[tuple[float, Phrase]]) -> Yield:
    """ "7x45ml gin" makes 7 serves; "2x750 of" fills two vessels; "2x700ml gin" is two bottles poured in."""
    folds = scan.kinds("fold")
    for i in folds:
        p = scan.items[i]
        after = scan.at(i + 1)
        if scan.used[i] or after is None:
            if not scan.used[i]:
                scan.use(i)
                counts.append((p.value, p))
            continue
        rough = rough_ml(after.value, after.unit) if after.kind in ("amount", "bare") else None
        big = rough is not None and rough >= LEAST_BOTTLE_ML
        j = i + 3 if scan.kind_at(i + 2) == "cue:of" else i + 2
        strong = scan.kind_at(j) in ("percent", "proof")
        named = scan.kind_at(i + 2) in ("name", "context", "unknown") or (
            (j > i + 2 or strong) and scan.kind_at(j + strong) in ("name", "context") and not scan.kinds("ratio")
        )
        if big and not (named and (len(folds) > 1 or not scan.kinds("ratio"))):
            scan.use(i, i + 1)
            makes = replace(makes, vessels=p.value, vessel_ml=rough, volume=Measure(after.value * p.value, after.unit or "ml"))
        elif big and named:
            after.value *= p.value
            after.text = f"{p.text} {after.text}"
            after.name = "whole"
            scan.use(i)
        elif after.kind == "vessel":
            continue
        else:
            scan.use(i)
            counts.append((p.value, p))
            a_serve = after.kind == "amount" and rough is not None and rough >= 20 and makes.serve is None
            if a_serve and scan.kind_at(i + 2) in ("drink", "house", "ratio", "cue:equal"):
                scan.use(i + 1)  # "16 x 90 ml negroni, equal parts"
                makes = replace(makes, serve=Measure(after.value, after.unit))
    return makes


def read_vessels(scan: Scan, makes: Yield) -> Yield:
    for i in scan.kinds("vessel"):
        v = scan.items[i]
        if v.size is None:
            continue
        after = i + 1
        while after < len(scan) and scan.used[after]:
            after += 1
        linked = after + 1 if scan.kind_at(after) == "cue:of" else after
        while linked == after + 1 and scan.kind_at(linked) in ("percent", "proof"):
            linked = linked + 1 if scan.kind_at(linked + 1) == "name" else 0
            break
        poured = linked == after and v.size_ml is not None and v.amounts and len(scan.kinds("bare", "amount")) > 0
        if (
            scan.kind_at(linked) == "name"
            and (linked > after or poured)  # "1 handle bourbon, 875 sweet vermouth"
            and (not scan.kinds("ratio") or said_again(scan, linked))
            and scan.kind_at(linked + 1) not in ("name", "context")
            and not scan.has("equal")
        ):
            v.kind, v.name = "amount", "whole"  # "two 700 ml bottles of gin": poured in
            v.value, v.unit = v.size[0] * (v.amounts[0] if v.amounts else 1.0), v.size[1]
            continue
        scan.use(i)
        size_ml = rough_ml(*v.size)
        if size_ml is None:
            continue
        first = makes.volume
        if first is not None and makes.vessel_ml != size_ml and makes.serves is None:
            both = (rough_ml(first.value, first.unit) or 0.0) + size_ml * (v.amounts or (1.0,))[0]  # "a 70 cl and a 1 L bottle"
            makes = replace(makes, volume=Measure(both, "ml"), vessels=None, vessel_ml=None)
            continue
        if makes.volume is None:
            many = v.amounts[0] if v.amounts else 1.0
            makes = replace(makes, vessels=many, vessel_ml=size_ml, volume=Measure(v.size[0] * many, v.size[1]))
        if scan.kind_at(i + 1) == "cue:final":
            scan.use(i + 1)
    return makes
