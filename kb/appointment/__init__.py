"""An appointment: when somebody comes to a home, by when the pace wants them there, and what the caller is told."""

from kb.appointment.agreed import Appointment, agree, due, heard, said, spoken, stands
from kb.appointment.offering import half_day, offers
from kb.appointment.windows import Unfit, Window, moment, read_window, typed_window, words

__all__ = [
    "Appointment",
    "Unfit",
    "Window",
    "agree",
    "due",
    "half_day",
    "heard",
    "moment",
    "offers",
    "read_window",
    "said",
    "spoken",
    "stands",
    "typed_window",
    "words",
]
