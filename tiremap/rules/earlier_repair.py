"""Is every earlier repair a sound one, and known well enough to keep clear of?

A tire with an improper repair (plug only, patch only, string) is refused in practically every source; one of unknown
kind, place or head is looked at first, never skipped.
"""

from tiremap.model.job import Repair, RepairKind
from tiremap.rules.case import Case
from tiremap.rules.reasons import Reason, Settles, Turns

SOURCE = (
    "association wall chart and guidelines (trade press): plug only or patch only is no acceptable repair; a tire with "
    "an improper repair is never repaired again"
)
UNSOUND: dict[RepairKind, str] = {
    "plug_only": "a plug without a patch",
    "patch_only": "a patch without a stem",
    "string": "a string",
}


def earlier_repairs_sound(case: Case) -> list[Reason]:
    """One reason for each earlier repair that is improper, or of which something needed is unknown."""
    return [reason for repair in case.job.repairs for reason in _of(repair)]


def _of(repair: Repair) -> list[Reason]:
    if repair.kind in UNSOUND:
        says = f"Repair {repair.id} is {UNSOUND[repair.kind]}: an improper earlier repair."
        turns = Turns(f"repair.{repair.id}.kind", f"the kind of repair {repair.id}")
        return [Reason("improper_repair", "refuse", says, SOURCE, subject=(repair.id,), turns=turns)]
    unknown = []
    if repair.kind == "unknown":
        unknown.append(("kind", "of what kind"))
    if repair.inside is None:
        unknown.append(("inside", "where across"))
    if repair.around is None:
        unknown.append(("around", "where around the tire"))
    if repair.head_length is None or repair.head_length.mm <= 0:
        unknown.append(("head_length", "with how large a head"))
    if not unknown:
        return []
    asks = tuple((f"repair.{repair.id}.{field}", f"repair {repair.id}: {words}") for field, words in unknown)
    says = f"Repair {repair.id} is not known well enough. Look {', '.join(words for _, words in unknown)} it is."
    settles = Settles(*asks[0], "")
    return [Reason("repair_unknown", "measure", says, SOURCE, subject=(repair.id,), settles=settles, asks=asks)]
