"""Files as a broken disk, a hand, another program or an enemy could leave them: each made anew from its number alone.

`mutated(seeds, number)` takes one of a few right files and spoils it one to three times, as bytes or as fields. The
same number gives the same bytes on every computer, so a failing one can be asked for again.
"""

import json
import pickle
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from random import Random
from typing import Any

PATHS = (
    "../../x", "/etc/passwd", "~/x", "file:///etc/passwd", "C:\\x", "\\\\server\\x", "http://127.0.0.1:9/x",
    "/dev/zero", "x\0y", "CON", ".", "..", "$(touch x)", "`touch x`", "%TEMP%", "a/b", "| touch x",
)
FORMULAS = ("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", ' "=1', "＝1", "=HYPERLINK(0)")
STRANGE_TEXTS = (
    "", " ", "\0", "\x1b[2J", "\u202edeknil", "\ufeff", "\ud800", "\udfff\ud800", "e\u0301" * 50, "٣٫٥", "３５",
    "<b>x</b>", "a" * 41, "x" * 5_000, "\n" * 300, "{0}%s{x!r}", "\\", '"', "'", "#", "]]", "None", "NaN",
    "🛞" * 30, "\u2028",
)
NUMBERS = (
    0, -0.0, -1, 1, 1e-320, 1e308, -1e308, 2**31, 2**63, 2**64, 10**18, 10**299, 10**1000, 0.1 + 0.2, 89.999999, 3.5,
    float("nan"), float("inf"), float("-inf"), 10_000, 10_001, 1e-9, 199.9, 5, 7, 12.7, 360, -180,
)
OTHER_KINDS: tuple[Any, ...] = (None, True, False, [], {}, [[]], [{}], {"value": 1}, ["x"], {"": {}}, [None, 1, "2"])
LOOK_ALIKES = str.maketrans("aeiopcxyds", "аеіорсхуԁѕ")
ENCODINGS = ("utf-16", "utf-16-le", "utf-32", "latin-1", "cp1252", "utf-8-sig", "utf-7", "cp437")
PIECES = (
    b"\0", b"\xff", b"\xef\xbb\xbf", b"\xc0\xaf", b"\xed\xa0\x80", b"NaN", b"1e999", b"-0", b"[" * 50, b"{" * 9,
    b'"', b"'", b"'''", b'"""', b"\\", b"\\ud800", b"\r", b"\r\n", b"\n", b"//", b"#", b",", b":", b"=", b".",
    b"]]", b"}", b"9" * 1000, b"0x" + b"f" * 5000, b"1979-05-27T07:32:00Z", b"\x1b", b"__proto__", b"!!python/object",
    b"<?xml?>", b"a.a.a.a.",
)


@dataclass(frozen=True)
class Seed:
    """A right file: its bytes, its fields (pickled, as that is the quickest copy), and how fields become a file."""

    data: bytes
    fields: bytes
    written: Callable[[Any], bytes]


def json_seed(data: bytes) -> Seed:
    """A right JSON file."""
    return Seed(data, pickle.dumps(json.loads(data)), json_bytes)


def toml_seed(data: bytes, fields: dict[str, Any]) -> Seed:
    """A right TOML file and its fields."""
    return Seed(data, pickle.dumps(fields), toml_bytes)


def mutated(seeds: Sequence[Seed], number: int) -> bytes:
    """The spoiled file of that number."""
    random = Random(number)
    seed = random.choice(seeds)
    times = random.choice((1, 1, 1, 1, 2, 3))
    data = seed.data
    if random.random() < FIELDS_SHARE:
        fields = pickle.loads(seed.fields)
        for _ in range(times):
            fields = random.choice(ON_FIELDS)(fields, random)
        data = seed.written(fields)
        times = int(random.random() < BOTH_SHARE)
    for _ in range(times):
        data = random.choice(ON_BYTES)(data, random)
    return random.choice(seeds).data[: len(data) // 2] + data if random.random() < JOINED_SHARE else data


FIELDS_SHARE = 0.65
"""Of the files are spoiled in their fields: most spoiled bytes are no JSON or TOML, which is soon refused."""
BOTH_SHARE = 0.1
JOINED_SHARE = 0.01


def json_bytes(fields: Any) -> bytes:
    """Fields as JSON, with whatever JSON should not hold: NaN, halves of characters."""
    return json.dumps(fields).encode()


def toml_bytes(fields: Any) -> bytes:
    """Fields as TOML, one line for each at the top; what TOML cannot hold is left as it comes."""
    if not isinstance(fields, dict):
        return _toml_value(fields).encode(errors="surrogatepass")
    return "".join(f"{_toml_key(key)} = {_toml_value(each)}\n" for key, each in fields.items()).encode(
        errors="surrogatepass"
    )


def _toml_key(key: str) -> str:
    return key if key.replace("_", "").isalnum() and key.isascii() else json.dumps(key, ensure_ascii=False)


def _toml_value(value: Any) -> str:
    match value:
        case dict():
            return "{ " + ", ".join(f"{_toml_key(key)} = {_toml_value(each)}" for key, each in value.items()) + " }"
        case list() | tuple():
            return f"[{', '.join(map(_toml_value, value))}]"
        case None:
            return '"null"'
        case str() if value.isidentifier():
            return f'"{value}"'
        case str():
            return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
        case bool():
            return str(value).lower()
        case _:
            return repr(value)


def _place(fields: Any, random: Random) -> tuple[Any, Any]:
    """A group or list somewhere inside, and a name or number in it."""
    inside, key = [fields], 0
    while True:
        keys = list(inside) if isinstance(inside, dict) else range(len(inside))
        key = random.choice(keys)
        below = inside[key]
        if not (isinstance(below, dict | list) and below) or (below is not fields and random.random() < 0.15):
            return inside, key
        inside = below


def _set(fields: Any, random: Random, values: Sequence[Any]) -> Any:
    whole = [fields]
    inside, key = _place(fields, random) if fields and isinstance(fields, dict | list) else (whole, 0)
    inside[key] = _fresh(random.choice(values))
    return whole[0]


def _fresh(value: Any) -> Any:
    """A copy, so that a later change does not reach what it was taken from."""
    return pickle.loads(pickle.dumps(value)) if isinstance(value, dict | list) else value


def _another_kind(fields: Any, random: Random) -> Any:
    return _set(fields, random, OTHER_KINDS)


def _a_number(fields: Any, random: Random) -> Any:
    return _set(fields, random, NUMBERS)


def _a_strange_text(fields: Any, random: Random) -> Any:
    return _set(fields, random, STRANGE_TEXTS)


def _a_path(fields: Any, random: Random) -> Any:
    return _set(fields, random, PATHS + FORMULAS)


def _nested(fields: Any, random: Random) -> Any:
    deep: Any = random.choice((1, "x", None))
    for _ in range(random.choice((2, 10, 39, 41, 150))):
        deep = [deep] if random.random() < 0.5 else {"x": deep}
    return _set(fields, random, (deep,))


def _renamed(fields: Any, random: Random) -> Any:
    if not (fields and isinstance(fields, dict | list)):
        return fields
    inside, key = _place(fields, random)
    if isinstance(inside, dict):
        names = (key.translate(LOOK_ALIKES), key.upper(), f"{key} ", f"\ufeff{key}", "", f"{key}\0", "id")
        inside[random.choice(names)] = inside.pop(key)
    return fields


def _removed(fields: Any, random: Random) -> Any:
    if not (fields and isinstance(fields, dict | list)):
        return fields
    inside, key = _place(fields, random)
    del inside[key]
    return fields


def _repeated(fields: Any, random: Random) -> Any:
    if not (fields and isinstance(fields, dict | list)):
        return fields
    inside, key = _place(fields, random)
    if isinstance(inside, list):
        inside.extend([inside[key]] * random.choice((1, 2, 20)))
    else:
        inside[key] = [inside[key]] * random.choice((0, 1, 4))
    return fields


def _exchanged(fields: Any, random: Random) -> Any:
    if not (fields and isinstance(fields, dict | list)):
        return fields
    (one, key), (other, name) = _place(fields, random), _place(fields, random)
    one_value, other_value = pickle.loads(pickle.dumps((one[key], other[name])))
    one[key], other[name] = other_value, one_value
    return fields


def _added(fields: Any, random: Random) -> Any:
    if isinstance(fields, dict):
        name = random.choice(("later", "__class__", "π", "../x", "value"))
        fields[name] = _fresh(random.choice(OTHER_KINDS + PATHS + NUMBERS))
    return fields


def _nudged(fields: Any, random: Random) -> Any:
    """A number a little off, or a text a little longer: often still a right file."""
    if not (fields and isinstance(fields, dict | list)):
        return fields
    for _ in range(8):
        inside, key = _place(fields, random)
        value = inside[key]
        if isinstance(value, float):
            inside[key] = value * random.choice((0.5, 0.999999, 1.0000001, 1.1, 2.0))
            return fields
        if isinstance(value, str):
            inside[key] = value + random.choice((" ", "x", "\u00e9", "\n", "'", "/../x"))
            return fields
    return fields


def _flipped(data: bytes, random: Random) -> bytes:
    spoiled = bytearray(data)
    for _ in range(random.choice((1, 1, 4))):
        if spoiled:
            spoiled[random.randrange(len(spoiled))] ^= 1 << random.randrange(8)
    return bytes(spoiled)


def _cut(data: bytes, random: Random) -> bytes:
    return data[: random.randrange(len(data) + 1)]


def _taken_out(data: bytes, random: Random) -> bytes:
    start = random.randrange(len(data) + 1)
    return data[:start] + data[start + random.choice((1, 2, 10, 100)) :]


def _put_in(data: bytes, random: Random) -> bytes:
    start = random.randrange(len(data) + 1)
    return data[:start] + random.choice(PIECES) + data[start:]


def _doubled(data: bytes, random: Random) -> bytes:
    start = random.randrange(len(data) + 1)
    end = start + random.choice((3, 30, 300))
    return data[:end] + data[start:end] * random.choice((1, 1, 5)) + data[end:]


def _lines_exchanged(data: bytes, random: Random) -> bytes:
    lines = data.split(b"\n" if b"\n" in data else b",")
    one, other = random.randrange(len(lines)), random.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]
    return (b"\n" if b"\n" in data else b",").join(lines)


def _line_doubled(data: bytes, random: Random) -> bytes:
    """A field twice in its group, where the file has a line for each."""
    lines = data.split(b"\n")
    at = random.randrange(len(lines))
    return b"\n".join([*lines[:at], lines[at], *lines[at:]])


def _in_another_encoding(data: bytes, random: Random) -> bytes:
    text = data.decode(errors="replace").replace("a", random.choice("aäа"), 1)
    return text.encode(random.choice(ENCODINGS), errors="replace")


def _another_digit(data: bytes, random: Random) -> bytes:
    digits = [at for at, byte in enumerate(data) if 48 <= byte <= 57]
    if not digits:
        return data
    at = random.choice(digits)
    digit = random.choice((b"0", b"9", b"-1", b"1e9", b"9" * 30, b"0.", b"e", b"\xef\xbc\x95", b"00"))
    return data[:at] + digit + data[at + 1 :]


ON_FIELDS = (
    _another_kind, _a_number, _a_number, _a_strange_text, _a_path, _nested, _renamed, _removed, _repeated, _exchanged,
    _added, _nudged, _nudged, _nudged,
)
ON_BYTES = (
    _flipped, _flipped, _cut, _taken_out, _put_in, _put_in, _doubled, _line_doubled, _lines_exchanged,
    _in_another_encoding, _another_digit,
)
