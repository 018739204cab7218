"""Do a size code and typed dimensions tell of the same tire? Limits hang on its width: neither may be wrong."""

from tiremap.rules.case import Case
from tiremap.rules.reasons import Reason, Settles

SOURCE = "derived: how far a section may differ from its nominal width, on any approved rim and grown in service"


def size_agrees(case: Case) -> list[Reason]:
    """To be looked at again where the code's nominal width is none the typed section width may stand for."""
    size, nominal = case.facts.size, case.facts.nominal_width
    typed = case.job.tire.typed_dimensions
    if size is None or typed is None or nominal.low <= size.nominal_width_mm <= nominal.high:
        return []
    says = (
        f"A section measured {typed.section_width_mm:g} mm wide is none of a tire {size.nominal_width_mm:g} mm wide by "
        "its size code. Read the code again, and measure again."
    )
    settles = Settles("tire.size_code", "which of the two is right", "")
    asks = ((settles.field, settles.words),)
    return [Reason("size_contradicted", "measure", says, SOURCE, settles=settles, asks=asks)]
