"""Pure engineering functions in mm, N, MPa.

Most stand behind a check or a row of facts. Those that nothing here calls are kept for scripts, and
only because a printed example proves them: ``PUBLIC`` names them.
"""

PUBLIC = (
    "euler.rankine_stress",
    "flow.extend_speed",
    "flow.mechanical_power",
    "flow.retract_speed",
    "flow.rod_side_return_flow",
    "thread.female_shear_area",
    "tube.barlow_wall",
    "tube.hoop_stress",
    "tube.mean_diameter_pressure",
    "tube.radial_stress",
    "tube.thin_wall_for",
    "tube.thin_wall_pressure",
)
