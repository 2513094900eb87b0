"""How soon must somebody go, and what will they find?"""
