"""Parts of a library that no page of ours needs, loaded when something first asks for them."""

import importlib.util
import sys


def load_later(name: str) -> None:
    """Put a module in its place that is loaded when one of its names is first asked for.

    A module that is loaded already, or is not there, is left alone.
    """
    parent, _, own = name.rpartition(".")
    if name in sys.modules or importlib.util.find_spec(parent) is None:
        return
    spec = importlib.util.find_spec(name)
    if spec is None or spec.loader is None:
        return
    spec.loader = importlib.util.LazyLoader(spec.loader)
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    setattr(sys.modules[parent], own, module)
