"""A member's pots beside the club's: which are the same, and under which names the others come in.

No name that the club uses may mean another pot afterwards.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import count

from guidegen.base.source import Span
from guidegen.base.suggest import folded
from guidegen.computing.colour.spaces import delta_e_2000, lab_of
from guidegen.model.paint import COLOURLESS, Ambiguous, Mix, Paint, Palette
from guidegen.reading.content.written_mixes import THINNERS

# Below this two measurements of one paint differ by the light and the eye: common practice, no source.
SAME_COLOUR = 2.0

Pot = Paint | Mix
PotKey = tuple[str, str, str]
_MIX = "\0mix"


@dataclass(frozen=True, slots=True, kw_only=True)
class PotTaken:
    """A pot of the member's and what it is in the archive; `new` where it was not there before."""

    name: str
    becomes: str
    new: bool


def key_of(pot: Pot) -> PotKey:
    """What no two pots of a palette share."""
    if isinstance(pot, Mix):
        return (_MIX, folded(pot.name), "")
    return (folded(pot.range or ""), folded(pot.name), folded(pot.edition))


class PotMerge:
    """Decides for one pot after the other. `new` leads from each new pot to the member's own that it comes from."""

    def __init__(self, club: Palette, member: Palette, by: str) -> None:
        """`by` is the member's name."""
        self.palette = club
        self.member = member
        self.by = by
        self.new: list[tuple[Pot, Pot | None]] = []
        self.taken: dict[str, PotTaken] = {}
        self._wanted: dict[str, PotKey] = {}
        self._became: dict[PotKey, PotKey] = {}
        self._club_ranges = {folded(one.name): one for one in club.ranges}

    def use(self, name: str) -> None:
        """Add the pot that a name means to the member to the palette, unless it is there."""
        if folded(name) in self._wanted:
            return
        found = self.member.find(name)
        if isinstance(found, Ambiguous):
            return
        if found is None:
            if folded(name) in THINNERS or self.palette.find(name) is not None:
                return
            found = Paint(name=name, span=Span.of_file(""))
            self._wanted[folded(name)] = self._paint(found, known=False)
            return
        self._wanted[folded(name)] = self._take(found)

    def label(self, name: str) -> str:
        """What to write in the archive for a name that the member wrote; the name itself wherever that will do."""
        key = self._wanted.get(folded(name))
        pot = next((one for one in self.palette.pots if key_of(one) == key), None)
        if key is None or pot is None:
            return name
        labels = [name, pot.name]
        if isinstance(pot, Paint):
            edition = f" ({pot.edition})" if pot.edition else ""
            lead = f"{pot.range} / " if pot.range else ""
            labels += [f"{pot.name}{edition}", f"{lead}{pot.name}", f"{lead}{pot.name}{edition}"]
        return next((label for label in labels if self._leads_to(label, key)), labels[-1])

    def _leads_to(self, label: str, key: PotKey) -> bool:
        found = self.palette.find(label)
        return isinstance(found, Paint | Mix) and key_of(found) == key

    def _take(self, pot: Pot) -> PotKey:
        own = key_of(pot)
        if own not in self._became:
            self._became[own] = own  # a circle, which is an error of the palette's
            self._became[own] = self._mix(pot) if isinstance(pot, Mix) else self._paint(pot, known=True)
        return self._became[own]

    def _paint(self, paint: Paint, *, known: bool) -> PotKey:
        for name in (paint.twin_of, paint.let_down.white if paint.let_down else None):
            if name is not None:
                self.use(name.text)
        same = self._same_paint(paint)
        if same is None:
            same = next(one for one in self._candidates(paint) if self._moves_no_name(one))
            self._add(same, paint if known else None)
        self._tell(paint, same)
        return key_of(same)

    def _same_paint(self, paint: Paint) -> Paint | None:
        names = {folded(paint.name), folded(f"{paint.name} ({self.by})")}
        near = [
            (folded(one.range or "") != folded(paint.range or ""), one.edition != paint.edition, apart, at)
            for at, one in enumerate(self.palette.paints)
            if folded(one.name) in names and one.kind is paint.kind
            for apart in [_apart(one, paint)]
            if apart < SAME_COLOUR
        ]
        return self.palette.paints[min(near)[-1]] if near else None

    def _candidates(self, paint: Paint) -> Iterator[Paint]:
        """The forms in which a paint may be added, plainest first: as it is, as the member's edition, renamed; endless."""
        there = self.palette.answering(paint.name)
        paint = replace(paint, range=self._range(paint) if paint.range or there else self.by, usual=False)
        bare = replace(paint, aliases=(), code="")
        for edition in (paint.edition, self._edition(paint)):
            yield replace(paint, edition=edition)
        yield replace(bare, edition=self._edition(paint))
        for number in count(1):
            mark = self.by if number == 1 else f"{self.by} {number}"
            yield replace(bare, edition=f"{paint.edition}, {mark}".removeprefix(", "))
            yield replace(bare, name=f"{paint.name} ({mark})")

    def _edition(self, paint: Paint) -> str:
        return f"{paint.edition}, {self.by}" if paint.edition else self.by

    def _range(self, paint: Paint) -> str | None:
        """The paint's range, under the member's name where the club's has other drops or she says another thinner."""
        club = self._club_ranges.get(folded(paint.range or ""))
        same = club is None or (club.drop == paint.drop and paint.thinner in {"", club.thinner})
        return paint.range if same else f"{paint.range} ({self.by})"

    def _mix(self, mix: Mix) -> PotKey:
        for part in mix.parts:
            self.use(part.name.text)
        parts = dict(self._parts(mix, self._wanted_key))
        names = [mix.name, f"{mix.name} ({self.by})"]
        for one in self.palette.mixes:
            own = (one.colour, one.kind, one.strength) == (mix.colour, mix.kind, mix.strength)
            if own and folded(one.name) in map(folded, names) and dict(self._parts(one, self._key)) == parts:
                self._tell(mix, one)
                return key_of(one)
        numbered = (f"{mix.name} ({self.by} {number})" for number in count(2))
        candidates = (
            replace(mix, name=name, aliases=aliases)
            for some in (names, numbered)
            for name in some
            for aliases in dict.fromkeys((mix.aliases, ()))
        )
        new = next(one for one in candidates if self._moves_no_name(one))
        self._add(new, mix)
        self._tell(mix, new)
        return key_of(new)

    def _parts(self, mix: Mix, key: Callable[[str], PotKey | None]) -> Iterable[tuple[PotKey | None, float]]:
        whole = sum(part.amount for part in mix.parts) or 1.0
        return [(key(part.name.text), round(part.amount / whole, 6)) for part in mix.parts]

    def _wanted_key(self, name: str) -> PotKey | None:
        return self._wanted.get(folded(name)) or self._key(name)

    def _key(self, name: str) -> PotKey | None:
        found = self.palette.find(name)
        return key_of(found) if isinstance(found, Paint | Mix) else None

    def _moves_no_name(self, pot: Pot) -> bool:
        """Whether every name in use still means what it meant with this pot in the palette."""
        key = key_of(pot)
        for label in _labels(pot):
            before = self.palette.find(label)
            if before is None:
                continue
            there = self.palette.answering(label)
            if any(key_of(one) == key for one in there):
                return False
            paints = tuple(one for one in (*there, pot) if isinstance(one, Paint))
            mixes = tuple(one for one in (*there, pot) if isinstance(one, Mix))
            after = Palette(paints=paints, mixes=mixes).find(label)
            if after is not before and not isinstance(before, Ambiguous):
                return False
        return True

    def _add(self, pot: Pot, own: Pot | None) -> None:
        self.new.append((pot, own))
        paints, mixes = self.palette.paints, self.palette.mixes
        if isinstance(pot, Mix):
            self.palette = replace(self.palette, mixes=(*mixes, pot))
        else:
            self.palette = replace(self.palette, paints=(*paints, pot))

    def _tell(self, pot: Pot, became: Pot) -> None:
        new = any(one is became for one, _ in self.new)
        self.taken.setdefault(pot.full_name, PotTaken(name=pot.full_name, becomes=became.full_name, new=new))


def _labels(pot: Pot) -> Iterator[str]:
    labels = [pot.name, *pot.aliases]
    if isinstance(pot, Paint):
        labels += [pot.code] if pot.code else []
        labels += [f"{pot.name} ({pot.edition})"] if pot.edition else []
        labels += [f"{pot.range}/{label}" for label in labels] if pot.range else []
    yield from labels


def _apart(one: Paint, other: Paint) -> float:
    """How far two colours are apart as CIEDE2000; none at all between what has none."""
    if one.kind in COLOURLESS or (one.colour is None and other.colour is None):
        return 0.0
    if one.colour is None or other.colour is None:
        return float("inf")
    first, second = lab_of((one.colour, other.colour))
    return float(delta_e_2000(first, second))
