"""The domain of Tundish: plain Python that knows neither the web nor a database."""
