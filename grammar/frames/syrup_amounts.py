"""Whose an amount in a question about syrup is: the finished syrup's, or that of the honey at hand."""

from grammar.scan import Scan


def weighed_syrup(scan: Scan, i: int) -> bool:
    """Whether the weight at i is that of the finished syrup: "2 kg of syrup", "3 kg of 2:1 syrup", "2 kg finished"."""
    j = i + 1
    while scan.at(j) is not None and (scan.items[j].is_cue("of", "by_weight", "by_volume") or scan.items[j].kind == "ratio"):
        j += 1
    p = scan.at(j)
    return p is not None and (p.is_cue("final", "syrup_word", "scale") or (p.kind in ("name", "context") and "syrup" in p.text))


def sweet_for_water(scan: Scan, i: int) -> bool:
    """Whether the volume at i is of honey or agave at hand: "300 ml honey, how much water"."""
    j = i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1
    p = scan.at(j)
    plain = p is not None and p.kind in ("name", "context") and p.text in ("honey", "agave", "agave nectar", "runny honey")
    asked = [w for w in scan.cues("water") if scan.at(w - 1) is not None and scan.items[w - 1].is_cue("how_much", "what")]
    asked += [w for w in scan.cues("water") if scan.kind_at(w - 1) == "cue:and" and w == j + 2]  # "200 ml agave + water 1:1"
    sweet_asked = any(scan.at(c + 1) is not None and scan.items[c + 1].kind == "name" for c in scan.cues("how_much", "what"))
    wanted = scan.kind_at(i - 1) in ("cue:want", "cue:scale", "cue:make_it")
    return plain and bool(asked) and not sweet_asked and not wanted
