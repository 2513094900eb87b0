"""What does the record of a boiler just commissioned hold, may it be signed, and was it altered since?

`form` says what is asked, `state` what a record says now, `ready` what stands in the way of signing it,
`known` what it takes from a home and gives back to it, `seal` that nobody altered it afterwards.
"""
