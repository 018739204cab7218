"""Is the tire built in a way about which makers differ? A caution in every set."""

from tiremap.model.job import Built
from tiremap.rules.case import Case
from tiremap.rules.reasons import Reason

SOURCE = "tire makers' bulletins and trade press: makers differ, from once or as any other to never"
SAYS: dict[Built, str] = {
    "self_supporting": "A self-supporting tire: makers differ on whether and how often it may be repaired.",
    "foam_lined": "A foam-lined tire: the foam must come off where it is repaired; the maker's bulletin decides.",
    "sealant_lined": "A sealant-lined tire: the sealant must come off where it is repaired; makers differ.",
}


def built(case: Case) -> list[Reason]:
    """A caution for a self-supporting, foam-lined or sealant-lined tire."""
    way = case.job.tire.built
    return [Reason("built", "caution", SAYS[way], SOURCE)] if way in SAYS else []
