"""Do the figures of a boiler's water, gas, flame and flue fit together?

`calculations` names every calculation, `asking` reads what was typed for one, `plausible` checks a handover record.
"""
