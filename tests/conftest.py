"""One profile for every drawn test: no deadline, the same draws on every machine."""

from hypothesis import HealthCheck, settings

from tests.counts import count

settings.register_profile(
    "square-and-saw",
    deadline=None,
    derandomize=True,
    database=None,
    max_examples=count(1000, 25),
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("square-and-saw")
