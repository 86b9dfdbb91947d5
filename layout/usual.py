"""What is taken where nothing is said: one roof, one saw, the same for every command.

Texts as a user would write them. A roof of 8 in 12 over 24 by 16 ft, rafters 16 in on center,
an overhang of 12 in to the outside of a 3/4 in fascia; gables flush, their rake boards on the wall;
the seat is as long as the plate is wide.
"""

PITCH = "8 in 12"
SIZE = "24' x 16'"
ENDS = "hip,hip"
WING_END = "hip"
SPACING = "16in"
OVERHANG = "12in"
RAKE_OVERHANG = "0in"
"""A gable without overhang: its roof boards and fascias end flush with the wall."""
FASCIA = "3/4"
PLATE = "2x4"
SEAT = "3 1/2"
"""The width of the usual plate: the seat's length where no plate is named."""
RAFTER, HIP, VALLEY, RIDGE = "2x6", "2x8", "2x8", "2x8"
ROOF_BOARD = "1x8"
TOLERANCE = "1/32"
TILT_STEP = "1/2"
MAX_TILT = "50"
PAPER = "Letter"
