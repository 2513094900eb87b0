"""An invented firm in an invented town, with invented appliances and homes, to show Tundish with."""
