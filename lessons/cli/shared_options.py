"""Options that several commands share, declared once as the fields of a dataclass.

The command line reads a function's own parameters. A command that takes a dataclass gets the
fields of it as options of its own, and is called with the dataclass made from what was given.
"""

import dataclasses
import functools
import inspect
from collections.abc import Callable, Iterator
from typing import Any, get_type_hints


def spread(command: Callable[..., Any]) -> Callable[..., Any]:
    """The command with the fields of its dataclass parameters in their place, as options."""
    signature = inspect.signature(command, eval_str=True)
    groups: dict[str, type] = {
        name: parameter.annotation
        for name, parameter in signature.parameters.items()
        if isinstance(parameter.annotation, type) and dataclasses.is_dataclass(parameter.annotation)
    }
    if not groups:
        return command

    @functools.wraps(command)
    def called(**given: Any) -> Any:
        for name, group in groups.items():
            own = {field.name: given.pop(field.name) for field in dataclasses.fields(group)}
            given[name] = group(**own)
        return command(**given)

    parameters = [
        one
        for name, parameter in signature.parameters.items()
        for one in (_fields(groups[name]) if name in groups else (parameter,))
    ]
    in_words = [one.replace(kind=inspect.Parameter.KEYWORD_ONLY) for one in parameters]
    called.__signature__ = signature.replace(parameters=in_words)  # type: ignore[attr-defined]
    del called.__wrapped__
    called.__annotations__ = {one.name: one.annotation for one in in_words}
    return called


def _fields(group: type) -> Iterator[inspect.Parameter]:
    kinds = get_type_hints(group, include_extras=True)
    for field in dataclasses.fields(group):
        yield inspect.Parameter(
            field.name,
            inspect.Parameter.KEYWORD_ONLY,
            default=field.default,
            annotation=kinds[field.name],
        )
