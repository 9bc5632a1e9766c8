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
    "force.pressure_on",
    "tube.barlow_wall",
    "tube.cap_stress_held",
    "tube.mean_diameter_pressure",
    "tube.radial_stress",
    "tube.thin_wall_for",
    "tube.thin_wall_pressure",
    "tube.thin_wall_stress",
    "weld.cross_tube_stress",
)
