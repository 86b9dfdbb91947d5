"""The editions of a book: for whom it is printed, and what its pages hold for them."""

from collections.abc import Mapping
from enum import StrEnum

from lessons.pages.paged import Parts


class Edition(StrEnum):
    """For whom a book is printed."""

    APPRENTICE = "apprentice"
    INSTRUCTOR = "instructor"
    FIELD = "field"


PARTS: Mapping[Edition, Parts] = {
    Edition.APPRENTICE: Parts(terms=False, hints=False, answers=False),
    Edition.INSTRUCTOR: Parts(terms=False, hints=True, answers=True, teach=True),
}
"""What each lesson's pages hold; words stand at the back of both, hints at the apprentice's."""
