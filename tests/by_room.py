"""Which worker runs which tests, where several run them: a file on one, a room mostly on one.

Much that the tests of a room ask for is made once in a process: roofs framed, sheets laid out,
lessons worked through. A worker that goes on in its room does not make it again.
"""

from typing import Any

from xdist.scheduler import LoadFileScheduling

IN_BROWSER = ("tests/lessons/live/", "tests/lessons/bench/", "tests/lessons/test_browser.py")
"""Tests that share a browser, which takes longer to start than most of them to run."""


def room_of(scope: str) -> str:
    """The room of a file of tests, or of a file with examples: `layout`, `browser`."""
    first, *rest = scope.split("/")
    return rest[0] if first == "tests" else first


class ByRoom(LoadFileScheduling):
    """Files of the room in which a worker is come first; then those of a room that is free."""

    def __init__(self, config: Any, log: Any = None) -> None:
        super().__init__(config, log)
        self.rooms: dict[Any, str] = {}

    def _split_scope(self, nodeid: str) -> str:
        return "browser" if nodeid.startswith(IN_BROWSER) else super()._split_scope(nodeid)

    def _assign_work_unit(self, node: Any) -> None:
        own = self.rooms.get(node)
        taken = {room for other, room in self.rooms.items() if other is not node}

        def far(scope: str) -> tuple[bool, bool]:
            return room_of(scope) != own, room_of(scope) in taken

        scope = min(self.workqueue, key=far)  # the first of those that are equally near
        self.rooms[node] = room_of(scope)
        self.workqueue.move_to_end(scope, last=False)
        super()._assign_work_unit(node)

    def _pending_of(self, workload: dict[str, dict[str, bool]]) -> int:
        """Files that are done are not gone through again after every test of the others."""
        for scope in [scope for scope, tests in workload.items() if all(tests.values())]:
            del workload[scope]
        return super()._pending_of(workload)
