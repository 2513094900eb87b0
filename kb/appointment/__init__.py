"""An appointment: when somebody comes to a home, by when the pace wants them there, and what the caller is told."""

from kb.appointment.agreed import Appointment, agree, due, heard, said, spoken, stands
from kb.appointment.leaving import AGAIN, CAUTION, OFF, REASONS, UNSAFE, NotMade, Turn, kept, leave, left, read_left
from kb.appointment.offering import half_day, offers
from kb.appointment.windows import Unfit, Window, moment, read_window, typed_window, words

__all__ = [
    "AGAIN",
    "CAUTION",
    "OFF",
    "REASONS",
    "UNSAFE",
    "Appointment",
    "NotMade",
    "Turn",
    "Unfit",
    "Window",
    "agree",
    "due",
    "half_day",
    "heard",
    "kept",
    "leave",
    "left",
    "moment",
    "offers",
    "read_left",
    "read_window",
    "said",
    "spoken",
    "stands",
    "typed_window",
    "words",
]
