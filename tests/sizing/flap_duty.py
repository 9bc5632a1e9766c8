"""What a weir flap needs, as a file says it and as it is read."""

from drafting.sizing.duty import DutyFile

DUTY = DutyFile(
    "flap.toml",
    "Weir flap lift",
    "",
    "mm",
    "both",
    stroke=500.0,
    pressure=18.0,
    body_mount="clevis",
    rod_mount="clevis",
    push=60_000.0,
    pull=30_000.0,
    seconds_out=8.0,
    safety_factor=3.5,
    flow=0.5,
)

TEXT = """title = "Weir flap lift"
units = "mm"
[duty]
push = "60 kN"
pull = "30 kN"
stroke = 500
seconds_out = 8
safety_factor = 3.5
[supply]
pressure = "180 bar"
flow = "30 L/min"
[room]
body_mount = "clevis"
rod_mount = "clevis"
"""
