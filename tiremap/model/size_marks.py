"""What stands behind the rim in a size code: C or LT, reinforced, load range, load index or two, speed symbol.

C comes first where it stands; the others come in any order, but the speed symbol right behind the load index. A letter
right behind the load index is therefore never a load range; ``LR`` or ``load range`` before it leaves no doubt.
"""

from typing import Any

from tiremap.model.load_and_speed import speed_symbols, zr_least_kmh
from tiremap.model.load_range import load_range_letters
from tiremap.model.size_text import SizeText, bounds_of, letters
from tiremap.model.wording import in_short

_REINFORCED = ("EXTRALOAD", "REINFORCED", "REINF", "XL", "RF")
_LOAD_RANGE = ("LOADRANGE", "LR")


def read_marks(typed: SizeText, parts: dict[str, Any]) -> None:
    """Read everything behind the rim into ``parts`` (fields of the size record). Raises ``SizeCodeError``."""
    if typed.sees("C") and not _is_light_truck_or_trailer(parts):
        _refuse_second_kind(typed, parts, "C")
        typed.take("C")
        parts["is_c"] = True
        typed.taken.append("van (C)")
    while not typed.at_end:
        if typed.sees("LT"):
            _read_light_truck(typed, parts)
        elif typed.sees("|".join(_LOAD_RANGE)) or _sees_lone_load_range(typed, parts):
            _read_load_range(typed, parts)
        elif typed.take("|".join(_REINFORCED)):
            parts["reinforced"] = True
            typed.taken.append("reinforced")
        elif typed.sees(r"\(|\d"):
            _read_service(typed, parts)
        elif typed.rest == "L" or any(word.startswith(typed.rest) for word in (*_REINFORCED, *_LOAD_RANGE)):
            raise typed.missing("XL or reinforced, LT, LR E, or the load index and speed symbol such as 91V")
        elif typed.sees(f"[{letters('inside_the_size').replace('Z', '')}]") and not _has_service(parts):
            _take_symbol(typed, parts)
        else:
            rest = in_short(typed.rest)
            raise typed.error(
                f'"{rest}" does not belong here; only C, LT, XL, load range, load index and speed follow.'
            )


def _has_service(parts: dict[str, Any]) -> bool:
    return bool(parts.get("load_indices")) or parts.get("speed_symbol") is not None


def _read_light_truck(typed: SizeText, parts: dict[str, Any]) -> None:
    _refuse_second_kind(typed, parts, "LT")
    typed.take("LT")
    parts["is_lt"] = True
    if parts.get("flotation_diameter_in") is None:
        parts["prefix"] = "LT"
    typed.taken.append("light truck")


def _refuse_second_kind(typed: SizeText, parts: dict[str, Any], mark: str) -> None:
    """C and LT each say a kind of tire; a code says one kind, once."""
    said = "C" if parts.get("is_c") else "LT" if parts["is_lt"] else parts["prefix"]
    if said:
        raise typed.error(f"{mark} does not go with the {said} already read: a tire is one kind.")


def _has_load_range_letters(parts: dict[str, Any]) -> bool:
    """Whether a letter by itself may be a load range: on light truck, trailer, flotation and truck sizes."""
    return _is_light_truck_or_trailer(parts) or _on_half_inch_rim(parts)


def _is_light_truck_or_trailer(parts: dict[str, Any]) -> bool:
    """Whether the size up to here can be no van size: a C behind it is load range C."""
    return parts["is_lt"] or parts["prefix"] == "ST" or parts.get("flotation_diameter_in") is not None


def _on_half_inch_rim(parts: dict[str, Any]) -> bool:
    return bool(parts["rim_code"] % 1 == 0.5)


def _sees_lone_load_range(typed: SizeText, parts: dict[str, Any]) -> bool:
    """Whether a load range stands here without its words, as in ``LT245/75R16 120/116S E`` or ``LT245/75R16/E``.

    A with a digit is a speed symbol, L may become LT or LR, and H is a load range only where no tire has speed H.
    """
    if parts.get("load_range") or not _has_load_range_letters(parts):
        return False
    lone = load_range_letters().replace("A", "").replace("L", "")
    if not _on_half_inch_rim(parts) and not _has_service(parts):
        lone = lone.replace("H", "")
    follows = "|".join((r"\Z", r"\(", r"\d", "LT", *_REINFORCED, *_speed_letters_alone(parts)))
    return typed.sees(rf"/?[{lone}](?={follows})") is not None


def _speed_letters_alone(parts: dict[str, Any]) -> tuple[str, ...]:
    """Speed symbols that may follow without a load index."""
    return () if _has_service(parts) else tuple(letters("inside_the_size").replace("Z", ""))


def _read_load_range(typed: SizeText, parts: dict[str, Any]) -> None:
    start = typed.at
    if parts.get("load_range"):
        raise typed.error("a load range stands here a second time.")
    if parts.get("is_c") or parts["prefix"] in ("P", "HL", "T"):
        raise typed.error(f"a {'C' if parts.get('is_c') else parts['prefix']} tire has no load range letter.", at=start)
    if typed.take("|".join(_LOAD_RANGE)) is None:
        typed.take("/")
    if typed.at_end:
        raise typed.missing("the load range letter, such as E")
    letter = typed.take(f"[{load_range_letters()}]")
    if letter is None:
        raise typed.error(f"a load range is one of the letters {load_range_letters()}.")
    parts["load_range"] = letter
    typed.taken.append(f"load range {letter}")


def _read_service(typed: SizeText, parts: dict[str, Any]) -> None:
    """Load index or two, and speed symbol, perhaps in brackets: 91V, 121/118S, (98Y), 98(Y)."""
    start = typed.at
    if _has_service(parts):
        raise typed.error("load and speed stand here a second time; the load index comes before the speed symbol.")
    beyond = typed.take(r"\(") is not None
    parts["load_indices"] = _load_indices(typed)
    beyond = beyond or typed.take(r"\(") is not None
    if not beyond and typed.sees("|".join(_not_a_symbol(parts))):
        return
    symbol = _take_symbol(typed, parts)
    if not beyond:
        return
    if typed.at_end:
        raise typed.missing("the speed symbol and the closing bracket, as in (98Y)")
    if symbol is None or symbol not in letters("in_brackets"):
        raise typed.error("in brackets stand load index and speed symbol W or Y, as in (98Y).", at=start)
    if typed.take(r"\)") is None:
        raise typed.error("the bracket closes right after the speed symbol, as in (98Y).")
    parts["speed_beyond"] = True


def _not_a_symbol(parts: dict[str, Any]) -> tuple[str, ...]:
    """What behind a load index begins like a speed symbol and is none.

    Where load range letters are used nothing is marked RF: there 118RF is speed R and load range F. Elsewhere 91LRF is
    speed L and RF.
    """
    if _has_load_range_letters(parts):
        return (*(word for word in _REINFORCED if word != "RF"), "LT", *_LOAD_RANGE)
    return (*_REINFORCED, "LT", "LOADRANGE")


def _take_symbol(typed: SizeText, parts: dict[str, Any]) -> str | None:
    """The speed symbol behind the size; one that disagrees with the letter inside the size is refused."""
    start = typed.at
    symbol = typed.take("|".join(sorted(speed_symbols(), reverse=True)))
    inside = parts["inside_speed_letter"]
    if symbol is not None and inside is not None:
        agrees = speed_symbols()[symbol] >= zr_least_kmh() if inside == "Z" else symbol == inside
        if not agrees:
            words = f"speed symbol {symbol} here, but {inside} inside the size: they disagree."
            raise typed.error(words, at=start)
    parts["speed_symbol"] = symbol
    return symbol


def _load_indices(typed: SizeText) -> tuple[int, ...]:
    bounds = bounds_of("load_index")
    start = typed.at
    first = typed.whole_number("load index", bounds, "", "the load index, such as 91")
    if not typed.take("/"):
        return (first,)
    second = typed.whole_number("second load index", bounds, "", "the load index for dual wheels, such as 118")
    if second > first:
        raise typed.error(f"the load index for dual wheels ({second}) is never above the single one.", at=start)
    return first, second
