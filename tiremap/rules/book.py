"""Every question, in the order a technician asks them.

A new check is a file of its own and a line here.
"""

from tiremap.rules.axle import axle
from tiremap.rules.buffed_areas import buffed_areas
from tiremap.rules.built import built
from tiremap.rules.condition import condition
from tiremap.rules.cracks import cracks
from tiremap.rules.cut import cut
from tiremap.rules.earlier_repair import earlier_repairs_sound
from tiremap.rules.head_at_edges import head_at_belt_edge, head_at_tread_edge
from tiremap.rules.heads_apart import heads_apart
from tiremap.rules.hole_size import hole_size
from tiremap.rules.inspected import inspected
from tiremap.rules.lean import ends_agree, lean_chooses_unit
from tiremap.rules.oldest_tire import oldest_tire
from tiremap.rules.place import place
from tiremap.rules.repair_count import repair_count
from tiremap.rules.repair_place import repair_place
from tiremap.rules.repairs_looked_for import repairs_looked_for
from tiremap.rules.sealant import sealant
from tiremap.rules.second_repair import second_repair
from tiremap.rules.shop_set import shop_set
from tiremap.rules.size_agrees import size_agrees
from tiremap.rules.splayed_cords import splayed_cords
from tiremap.rules.steepest_lean import steepest_lean
from tiremap.rules.tire_age_cautions import tire_age_cautions
from tiremap.rules.tread_depth import tread_depth
from tiremap.rules.tread_width import tread_width_possible
from tiremap.rules.turns_apart import angle_apart, around_apart

OF_THE_TIRE = (
    inspected, condition, cracks, repairs_looked_for, earlier_repairs_sound, repair_place, tread_depth,
    tread_width_possible, size_agrees, sealant, oldest_tire, tire_age_cautions, repair_count, second_repair, built,
    axle, shop_set,
)
"""Each takes a `Case`."""

OF_AN_INJURY = (
    place, hole_size, cut, splayed_cords, steepest_lean, ends_agree, head_at_tread_edge, head_at_belt_edge,
    lean_chooses_unit,
)
"""Each takes a `Case` and the injury's `MarkFacts`."""

OF_A_PAIR = (heads_apart, around_apart, angle_apart, buffed_areas)
"""Each takes a `Case` and an `Apart`."""

ONLY_CAUTION = frozenset((
    second_repair, tire_age_cautions, built, axle, shop_set, cut, head_at_belt_edge, lean_chooses_unit, buffed_areas,
))
"""Those that end in cautions and notes whatever is entered, so that no answer hangs on them; a law holds them to it."""
