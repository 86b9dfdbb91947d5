"""The course's words: every trade word that a lesson uses is explained on its own page.

The words stand in `catalog/_glossary.toml`. A lesson need not list them; whichever it uses are
found in its finished text. A lesson's own [words] go before the course's.
"""

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from importlib import resources

GLOSSARY = "_glossary.toml"


@dataclass(frozen=True)
class Term:
    """A trade word, what it means, and the other forms by which it is found in a text."""

    word: str
    means: str
    forms: tuple[str, ...]

    def is_in(self, text: str) -> bool:
        """Whether the word, or one of its forms, stands in the text as a whole word."""
        return self._pattern.search(text) is not None

    def may_be_in(self, lowered: str) -> bool:
        """Whether the letters of a form stand in a text of small letters: quicker to ask first."""
        return any(form in lowered for form in self._lowered)

    @cached_property
    def _lowered(self) -> tuple[str, ...]:
        return tuple(form.lower() for form in self.forms)

    @cached_property
    def _pattern(self) -> re.Pattern[str]:
        return re.compile(rf"\b(?:{'|'.join(map(re.escape, self.forms))})\b", re.I)


@cache
def glossary() -> tuple[Term, ...]:
    """Every word of the course, in the order of the alphabet."""
    text = resources.files("lessons.course.catalog").joinpath(GLOSSARY).read_text("utf-8")
    terms = []
    for word, entry in tomllib.loads(text).items():
        forms = (word, f"{word}s", *entry.get("also", ()))
        terms.append(Term(word, entry["means"], forms))
    return tuple(sorted(terms, key=lambda term: term.word))


def explained(texts: Iterable[str], own: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """The words that these texts use, with what they mean, in the order of the alphabet.

    `own` words are always among them, and take the place of the course's.
    """
    text = "\n".join(texts)
    lowered = text.lower()
    said = {word.lower() for word in own}
    found = {
        term.word: term.means
        for term in glossary()
        if term.may_be_in(lowered)
        and term.is_in(text)
        and not said & {form.lower() for form in term.forms}
    }
    return tuple(sorted((found | dict(own)).items()))
