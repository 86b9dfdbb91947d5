"""Answers kept by their question, for as long as there is room.

A question that is asked again while its answer is being made waits for that one.
"""

import asyncio
from collections import OrderedDict
from collections.abc import Awaitable, Callable, Hashable
from typing import Generic, TypeVar

Kept = TypeVar("Kept")

MOST_ANSWERS = 600
MOST_BYTES = 96_000_000


class Cache(Generic[Kept]):
    """The answers asked for last. `size` says how many bytes one takes."""

    def __init__(self, size: Callable[[Kept], int], most_bytes: int = MOST_BYTES) -> None:
        self.size, self.most_bytes = size, most_bytes
        self.bytes = 0
        self._kept: OrderedDict[Hashable, Kept] = OrderedDict()
        self._coming: dict[Hashable, asyncio.Future[Kept]] = {}

    async def of(self, key: Hashable, make: Callable[[], Awaitable[Kept]]) -> Kept:
        """The answer to this question, made now if it is not there. Faults are not kept."""
        if key in self._kept:
            self._kept.move_to_end(key)
            return self._kept[key]
        if key in self._coming:
            return await asyncio.shield(self._coming[key])
        coming = asyncio.ensure_future(make())
        self._coming[key] = coming
        try:
            answer = await asyncio.shield(coming)
        finally:
            if coming.done():
                self._coming.pop(key, None)
            else:
                coming.add_done_callback(lambda _: self._coming.pop(key, None))
        self._keep(key, answer)
        return answer

    def _keep(self, key: Hashable, answer: Kept) -> None:
        if key in self._kept or self.size(answer) > self.most_bytes:
            return
        self._kept[key] = answer
        self.bytes += self.size(answer)
        while self.bytes > self.most_bytes or len(self._kept) > MOST_ANSWERS:
            _, oldest = self._kept.popitem(last=False)
            self.bytes -= self.size(oldest)
