"""Every kind of edit, each drawn by a random generator for the job as it stands in a session.

An edit takes the generator and the session and gives the changed job, or raises what the edit raises; it never applies
anything. `EDITS` holds them by kind, so that a test can see that none is left out.
"""

from collections.abc import Callable
from random import Random
from typing import Any

from tests.helpers.random_measures import (
    NO_SIZES,
    SIZES,
    across,
    around,
    hole_size,
    lean,
    length,
    maker_word,
    maybe,
    moment,
    number,
    on_the_liner,
    one_of,
    pressure,
    temperature,
    torque,
    words,
)
from tiremap.edits import checks, decisions, injuries, job_card, leak_check, record, refit, repairs, steps, tire
from tiremap.model.job import Job
from tiremap.model.measures import Lean, Length
from tiremap.model.rule_set_file import published_rule_set_names
from tiremap.model.units import degrees
from tiremap.repair_steps import steps_of
from tiremap.session import Session

Edit = Callable[[Random, Session], Job]
Drawn = Callable[[Random], Any]

OF_AN_INJURY: dict[str, Drawn] = {
    "outside": across, "inside": on_the_liner, "around": around, "lean_across": lean, "lean_around": lean,
    "size_outside": hole_size, "size_inside": hole_size, "size_prepared": length(0, 12),
    "kind": one_of("puncture", "cut", "hole"), "object": words, "cords_splayed": one_of(True, False), "note": words,
}
OF_A_REPAIR: dict[str, Drawn] = {
    "inside": on_the_liner, "around": around, "head_length": length(15, 80), "head_width": length(15, 80),
    "head_along": one_of("around", "across"), "date": words, "note": words,
    "kind": one_of("stem_and_head", "plug_only", "patch_only", "string", "unknown", "glue"),
}
OF_THE_TIRE: dict[str, Drawn] = {
    "tire_class": one_of("passenger", "light_truck", "truck", "temporary_spare", "bicycle"), "number": words,
    "date_code": one_of("2319", "0126", "6099", "", "23"), "rim_width_in": lambda draw: number(draw, 3, 14),
    "tread_width": length(90, 280), "tread_depth": length(0, 12), "tread_depth_outboard": length(0, 12),
    "tread_depth_central": length(0, 12), "tread_depth_inboard": length(0, 12), "crack_depth": length(0, 4),
    "between_outer_grooves": length(60, 200), "cracks_joined": one_of(True, False), "under_grooves": length(1, 14),
    "belt_width": length(80, 280), "built": one_of("standard", "self_supporting", "foam_lined", "sealant_lined"),
    "sealant_used": one_of(True, False), "axle": one_of("front", "rear", "third"), "maker_word": maker_word,
    "datum": one_of("valve", "date_code"), "outboard_by": one_of("known", "identification_number", "unknown"),
}
OF_A_LEAK: dict[str, Drawn] = {
    "before": pressure, "after": pressure, "hours": lambda draw: number(draw, 0, 72), "before_temperature": temperature,
    "after_temperature": temperature, "gauge": pressure, "air_volume_l": lambda draw: number(draw, 0, 90),
}
OF_A_REFIT: dict[str, Drawn] = {
    "nuts": one_of(4, 5, 6, 7), "thread": one_of("M12x1.5", "M14", "1/2-20", "12", "", "\ud83d"),
    "stud_class": one_of("10.9", "8.8", "", "11"), "torque": torque, "torque_source": words,
}


def _injury(draw: Random, session: Session) -> str:
    """The id of an injury; now and then of none."""
    ids = [each.id for each in session.job.injuries]
    return draw.choice([*ids, *ids, *ids, "9"])


def _repair(draw: Random, session: Session) -> str:
    ids = [each.id for each in session.job.repairs]
    return draw.choice([*ids, *ids, *ids, "R9"])


def _one_field(draw: Random, fields: dict[str, Drawn]) -> dict[str, Any]:
    """One field with something for it, or unknown again."""
    name = draw.choice(list(fields))
    return {name: maybe(draw, fields[name])}


def place_injury(draw: Random, session: Session) -> Job:
    return injuries.place_injury(session.job, maybe(draw, across), maybe(draw, around))


def place_repair(draw: Random, session: Session) -> Job:
    return repairs.place_repair(session.job, maybe(draw, on_the_liner), maybe(draw, around))


def move_injury(draw: Random, session: Session) -> Job:
    to = maybe(draw, lambda draw: number(draw, -110, 110)), maybe(draw, lambda draw: number(draw, -400, 400))
    return injuries.move_injury(session.job, _injury(draw, session), *to, end=draw.choice(("outside", "inside")))


def move_repair(draw: Random, session: Session) -> Job:
    to = maybe(draw, lambda draw: number(draw, -110, 110)), maybe(draw, lambda draw: number(draw, -400, 400))
    return repairs.move_repair(session.job, _repair(draw, session), *to)


def nudge_injury(draw: Random, session: Session) -> Job:
    return _nudged(draw, session, _injury(draw, session), injuries.nudge_injury, "outside")


def nudge_repair(draw: Random, session: Session) -> Job:
    return _nudged(draw, session, _repair(draw, session), repairs.nudge_repair, "inside")


def _nudged(draw: Random, session: Session, id: str, nudge: Callable[..., Job], end: str) -> Job:
    """As the arrow keys do it: from where the mark is drawn."""
    drawn = session.assessment.mark(id)
    if drawn is None:
        return nudge(session.job, id, number(draw, -9, 9), center_mm=0.0)
    angle = None if drawn.around is None else degrees(drawn.around)
    by = 0.0 if angle is None else number(draw, -9, 9)
    return nudge(session.job, id, number(draw, -9, 9), by, center_mm=getattr(drawn, end), angle_deg=angle)


def confirm_injury(draw: Random, session: Session) -> Job:
    return injuries.confirm_as_taped(session.job, _injury(draw, session))


def confirm_repair(draw: Random, session: Session) -> Job:
    return repairs.confirm_repair_as_taped(session.job, _repair(draw, session))


def measure_injury(draw: Random, session: Session) -> Job:
    return injuries.set_injury(session.job, _injury(draw, session), **_one_field(draw, OF_AN_INJURY))


def measure_repair(draw: Random, session: Session) -> Job:
    return repairs.set_repair(session.job, _repair(draw, session), **_one_field(draw, OF_A_REPAIR))


def measure_whole_hole(draw: Random, session: Session) -> Job:
    """Place, way around, lean and size at once: without it few walks come to a Repairable."""
    fields = {"outside": across, "around": around, "size_outside": hole_size, "size_inside": hole_size}
    job = injuries.set_upright(session.job, _injury(draw, session))
    id = job.injuries[-1].id
    return injuries.set_injury(job, id, **{name: of(draw) for name, of in fields.items()})


def set_upright(draw: Random, session: Session) -> Job:
    return injuries.set_upright(session.job, _injury(draw, session))


def remove_injury(draw: Random, session: Session) -> Job:
    return injuries.remove_injury(session.job, _injury(draw, session))


def remove_repair(draw: Random, session: Session) -> Job:
    return repairs.remove_repair(session.job, _repair(draw, session))


def set_size_code(draw: Random, session: Session) -> Job:
    return tire.set_size_code(session.job, draw.choice((None, *SIZES, *NO_SIZES)))


def set_typed_size(draw: Random, session: Session) -> Job:
    ends = {
        "overall_diameter_mm": (400, 1200), "section_width_mm": (100, 400), "rim_diameter_mm": (200, 600),
        "rim_width_in": (3, 14),
    }
    return tire.set_typed_size(
        session.job, draw.choice((None, "6.50-16")), **{name: number(draw, *each) for name, each in ends.items()}
    )


def set_tire(draw: Random, session: Session) -> Job:
    return tire.set_tire(session.job, **_one_field(draw, OF_THE_TIRE))


def set_job_card(draw: Random, session: Session) -> Job:
    return job_card.set_job_card(session.job, **{draw.choice(("job_number", "fleet_number", "date")): words(draw)})


def set_note(draw: Random, session: Session) -> Job:
    return job_card.set_note(session.job, words(draw))


def choose_rule_set(draw: Random, session: Session) -> Job:
    names = published_rule_set_names()
    name = draw.choice((None, *names, *names, "atlantis", "", "../stock", "\x00"))
    return job_card.choose_rule_set(session.job, name)


def set_check(draw: Random, session: Session) -> Job:
    return checks.set_check(session.job, draw.choice(checks.FINDINGS), draw.choice(("fine", "found", None, "maybe")))


def set_inspected(draw: Random, session: Session) -> Job:
    return checks.set_inspected(session.job, draw.choice(("fine", "found", None)))


def set_earlier_repairs(draw: Random, session: Session) -> Job:
    return checks.set_earlier_repairs(session.job, draw.choice(("none", "all_marked", None)))


def nothing_found(draw: Random, session: Session) -> Job:
    return checks.nothing_found(session.job)


def tick(draw: Random, session: Session) -> Job:
    ids = [each.id for each in steps_of(session.assessment)]
    done = {each.step for each in session.job.steps_done}
    next_ = [each for each in ids if each not in done][:1]
    return steps.tick(session.job, draw.choice([*ids, *next_ * len(ids), "fly"]), moment(draw), session.assessment)


def untick(draw: Random, session: Session) -> Job:
    return steps.untick(session.job, draw.choice([each.step for each in session.job.steps_done] or ["fly"]))


def answer_hole(draw: Random, session: Session) -> Job:
    seen = tuple(
        steps.HoleSeen(
            each.id, Length(value=draw.choice((4.0, 6.0, 9.0)), how="exact"), draw.randrange(4) == 0,
            lean_across=draw.choice((None, Lean(value=3.0, how="probe"))),
        )
        for each in session.job.injuries if draw.randrange(8)
    )
    return steps.answer_hole(session.job, seen, moment(draw))


def answer_liner(draw: Random, session: Session) -> Job:
    return steps.answer_liner(session.job, draw.randrange(4) > 0, draw.randrange(4) == 0, moment(draw))


def record_repair(draw: Random, session: Session) -> Job:
    return record.record_repair(session.assessment, _injury(draw, session), moment(draw))


def sign(draw: Random, session: Session) -> Job:
    choice = draw.choice(("repair", "do_not_repair", "measure"))
    return decisions.sign(session.job, session.assessment, choice, moment(draw), words(draw), words(draw))


def set_leak_check(draw: Random, session: Session) -> Job:
    return leak_check.set_leak_check(session.job, **_one_field(draw, OF_A_LEAK))


def set_refit(draw: Random, session: Session) -> Job:
    return refit.set_refit(session.job, **_one_field(draw, OF_A_REFIT))


def tighten(draw: Random, session: Session) -> Job:
    return refit.tighten(session.job, moment(draw))


def take_tightening_back(draw: Random, session: Session) -> Job:
    return refit.take_tightening_back(session.job)


EDITS: dict[str, tuple[Edit, ...]] = {
    "place": (place_injury, place_repair),
    "move": (move_injury, move_repair, nudge_injury, nudge_repair, confirm_injury, confirm_repair),
    "measure": (measure_injury, measure_repair, measure_whole_hole, set_upright),
    "remove": (remove_injury, remove_repair),
    "tire": (set_size_code, set_typed_size, set_tire, set_tire, set_tire),
    "card": (set_job_card, set_note),
    "guidance": (choose_rule_set,),
    "checks": (set_check, set_inspected, set_earlier_repairs, nothing_found),
    "steps": (tick, tick, untick, answer_hole, answer_liner),
    "record": (record_repair,),
    "decisions": (sign,),
    "leak": (set_leak_check,),
    "refit": (set_refit, tighten, take_tightening_back),
}
