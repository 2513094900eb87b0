"""How does the firm learn of a household that asks to be called: by mail, by webhook, at once and once only?"""
