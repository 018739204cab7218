"""Is the tire so old that its makers ask for a yearly inspection, or for another tire? A caution in every set.

Counted from manufacture, by all the days the date code allows: it is said as soon as the tire may be that old. An
unknown age asks for nothing here; only a rule set that refuses by age asks for it (``rules/oldest_tire.py``).
"""

from dataclasses import dataclass

from tiremap.errors import TiremapError
from tiremap.resources import read_toml
from tiremap.rules.case import Case
from tiremap.rules.oldest_tire import age_of
from tiremap.rules.reasons import Reason


@dataclass(frozen=True)
class AgeCaution:
    """What makers say of a tire from ``years`` since manufacture on."""

    years: float
    says: str
    source: str
    grade: str


def tire_age_cautions(case: Case) -> list[Reason]:
    """The cautions of the tire's age. One left to the other, or to the rule set, where that one says more."""
    code = case.job.tire.date_code
    if not code:
        return []
    try:
        youngest, oldest = age_of(code, case.job.date)
    except TiremapError:
        return []
    yearly, replace = (AgeCaution(**read_toml("tire_age.toml")[name]) for name in ("inspect_yearly", "replace"))
    limit = case.limit(case.rule_set.oldest_tires)
    most = float("inf") if limit is None else limit.value
    reasons = []
    if oldest >= yearly.years and youngest < replace.years and youngest <= most:
        reasons.append(_caution("age_yearly", yearly, youngest, oldest))
    if oldest >= replace.years and oldest <= most:
        reasons.append(_caution("age_replace", replace, youngest, oldest))
    return reasons


def _caution(code: str, caution: AgeCaution, youngest: float, oldest: float) -> Reason:
    stated = oldest if youngest == oldest else None
    old = "is" if youngest >= caution.years else "may be"
    return Reason(
        code, "caution", f"The tire {old} {caution.years:g} years or more from manufacture: {caution.says}.",
        caution.source,
        value=stated, limit=caution.years, unit="years", margin=None if stated is None else caution.years - stated,
        margin_low=caution.years - oldest, margin_high=caution.years - youngest,
    )
