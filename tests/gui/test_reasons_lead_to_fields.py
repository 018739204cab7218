"""Every field a reason can name has a place in the window that takes the focus."""

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair
from tiremap.ui.mark_desk import MarkDesk

FIELDS = (
    "rule_set", "tire.size_code", "tire.tire_class", "tire.tread_width", "tire.tread_depth", "tire.under_grooves",
    "tire.tread_depth_outboard", "tire.tread_depth_central", "tire.tread_depth_inboard",
    "tire.between_outer_grooves", "tire.belt_width", "tire.maker_word", "tire.built",
    "tire.sealant_used", "tire.axle", "tire.date_code", "checks.inspected", "checks.earlier_repairs",
    "checks.run_flat_ring", "checks.inner_tube", "injuries",
    "injury.1.outside", "injury.1.inside", "injury.1.around", "injury.1.size_outside", "injury.1.size_inside",
    "injury.1.lean_across", "injury.1.lean_around", "repair.R1.kind", "repair.R1.inside", "repair.R1.around",
    "repair.R1.head_length",
)


def test_a_field_a_reason_names_takes_the_focus(open_window, qtbot):
    """All in one window: opening it takes longer than everything asked of it."""
    window = open_window(bench_job(crown_injury(), earlier_repair(kind="unknown")))
    qtbot.waitExposed(window)
    for field in FIELDS:
        window.cautions.all.setFocus()
        before = window.focusWidget()
        desk: MarkDesk = window.desk
        desk.focus_field(field)
        details = desk._details
        focused = window.focusWidget() if details is None else details.focusWidget()
        assert focused is not None, field
        assert focused.isVisible(), field
        assert details is not None or focused is not before, field
        if details is not None:
            details.close()
