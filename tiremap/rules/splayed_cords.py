"""Do cords stand out of this hole, bare, broken or splayed?

Not asked for where nobody said: the tire's own check of the cords looks at the hole too.
"""

from tiremap.rules.case import Case
from tiremap.rules.condition import condition_checks
from tiremap.rules.marks import MarkFacts
from tiremap.rules.reasons import Reason, Turns


def splayed_cords(case: Case, mark: MarkFacts) -> list[Reason]:
    """Refused where they do, a note where somebody looked and they do not."""
    splayed = case.injury(mark).cords_splayed
    if splayed is None:
        return []
    source = next(check.source for check in condition_checks() if check.name == "cords")
    if splayed:
        says = f"Cords are bare, broken or splayed at {mark.title}."
        turns = Turns(f"injury.{mark.id}.cords_splayed", f"the cords at {mark.title}")
        return [Reason("cords_splayed", "refuse", says, source, subject=(mark.id,), turns=turns)]
    return [Reason("cords_splayed", "note", f"No cord is bare, broken or splayed at {mark.title}.", source,
                   subject=(mark.id,))]
