"""The pull a tightened nut puts on its stud, and whether the stud stands it: torque = factor x diameter x pull."""

from dataclasses import dataclass
from typing import Literal

from tiremap.errors import TiremapError
from tiremap.resources import read_toml
from tiremap.workshop.thread import Thread

Stands = Literal["below", "may_exceed", "exceeds"]


@dataclass(frozen=True)
class Preload:
    """The pull, kN, over the range of nut factors and of the torque, and the stud's proof load, kN."""

    low_kn: float
    usual_kn: tuple[float, float]
    """At the usual nut factor, for the least and greatest torque."""
    high_kn: float
    proof_kn: float

    @property
    def stands(self) -> Stands:
        """Where the pull lies to the proof load: below it, perhaps beyond it, or beyond it whatever the threads."""
        if self.high_kn <= self.proof_kn:
            return "below"
        return "exceeds" if self.low_kn > self.proof_kn else "may_exceed"


def pull_kn(torque_nm: float, diameter_mm: float, nut_factor: float) -> float:
    """The pull of a torque, kN: N.m over mm is kN."""
    return torque_nm / (nut_factor * diameter_mm)


def stud_classes() -> tuple[str, ...]:
    """The property classes whose proof strength is known."""
    return tuple(read_toml("workshop", "refit.toml")["proof_strength"]["up_to"])


def checked_class(stud_class: str) -> str:
    """The property class as it is written. Raises `TiremapError` for one that is not known."""
    plain = stud_class.strip().replace(",", ".")
    if plain not in stud_classes():
        known = ", ".join(stud_classes())
        raise TiremapError(f'"{stud_class}" is no property class of a wheel stud here.', f"There are {known}.")
    return plain


def proof_load_kn(thread: Thread, stud_class: str) -> float | None:
    """The pull the stud stands without staying longer, kN; ``None`` without a pitch or a figure for that diameter."""
    strength = read_toml("workshop", "refit.toml")["proof_strength"]
    parted = "up_to" if thread.diameter_mm <= strength["parted_at_mm"] else "above"
    mpa, area = strength[parted].get(checked_class(stud_class)), thread.stress_area_mm2
    return None if mpa is None or area is None else mpa * area / 1000


def preload(torque_nm: tuple[float, float], thread: Thread, stud_class: str) -> Preload | None:
    """The pull of a torque from least to greatest, N.m; ``None`` where the stud's proof load cannot be told."""
    proof = proof_load_kn(thread, stud_class)
    if proof is None:
        return None
    factor = read_toml("workshop", "refit.toml")["nut_factor"]
    least, greatest = torque_nm
    return Preload(
        pull_kn(least, thread.diameter_mm, factor["greatest"]),
        (pull_kn(least, thread.diameter_mm, factor["usual"]), pull_kn(greatest, thread.diameter_mm, factor["usual"])),
        pull_kn(greatest, thread.diameter_mm, factor["least"]),
        proof,
    )
