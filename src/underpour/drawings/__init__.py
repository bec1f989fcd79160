"""Pictures as SVG text, drawn from a finished dossier. They work nothing out and write no files."""

from .carried_floor import carried_floor
from .carried_plan import carried_plan
from .carried_section import carried_section
from .carried_shares import carried_shares, carried_shares_compared
from .compare import comparison, comparison_at_hour, comparison_with_lanes
from .drive_strip import drive_strip
from .frost_winter import frost_winter
from .heated_flow import heated_flow
from .heated_from_cold import heated_from_cold
from .heated_section import heated_section
from .heated_year import heated_year
from .humid_strip import humid_strip
from .month_by_month import month_by_month
from .one_section import plain_section, section_picture
from .scale import Scale, month_middle, shared_scale
from .to_scale import Scaled, scaled_section
from .turning_year import turning_year
from .vapour_line import vapour_line

__all__ = [
    "Scale",
    "Scaled",
    "carried_floor",
    "carried_plan",
    "carried_section",
    "carried_shares",
    "carried_shares_compared",
    "comparison",
    "comparison_at_hour",
    "comparison_with_lanes",
    "drive_strip",
    "frost_winter",
    "heated_flow",
    "heated_from_cold",
    "heated_section",
    "heated_year",
    "humid_strip",
    "month_by_month",
    "month_middle",
    "plain_section",
    "scaled_section",
    "section_picture",
    "shared_scale",
    "turning_year",
    "vapour_line",
]
