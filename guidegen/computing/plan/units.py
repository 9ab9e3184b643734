"""A plan's units with their guides: what is painted, up to which stop, in which batches."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace

from guidegen.base.suggest import folded
from guidegen.computing.guide.caution_signs import step_paints
from guidegen.computing.guide.scheme import Scheme, scheme_of
from guidegen.model.guide import Guide, Stop
from guidegen.model.paint import Paint, Palette
from guidegen.model.plan import Plan, Unit

# Alone under `without` it stands for every optional step.
OPTIONAL = "optional"


@dataclass(frozen=True, slots=True, kw_only=True)
class Variety:
    """The figures of a unit that take one option of its mixed choice, and that option's scheme."""

    option: str
    scheme: Scheme
    figures: int


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitScheme:
    """A unit to paint, from 1: its guide's steps up to its stop, and how many figures each batch has.

    Where options are mixed, `scheme` has the steps of them all, `choice` names what is mixed, and `varieties` follow
    each other in the order in which figures are numbered. The first `trial` figures are a batch that comes before
    the others. `done` is the number of the step up to which a batch is painted, by batch, 0 standing for every batch.
    `paints` are those of each step by its number.
    """

    unit: int
    guide: Guide
    scheme: Scheme
    batches: tuple[int, ...]
    choice: str = ""
    varieties: tuple[Variety, ...] = ()
    trial: int = 0
    done: Mapping[int, int] = field(default_factory=dict)
    paints: Mapping[int, tuple[Paint, ...]] = field(default_factory=dict, compare=False, repr=False)

    @property
    def figures(self) -> int:
        """All figures of the unit."""
        return sum(self.batches)

    @property
    def schemes(self) -> tuple[tuple[Scheme, int], ...]:
        """What is left to paint, on how many figures."""
        kinds = [(one.scheme, one.figures) for one in self.varieties] or [(self.scheme, self.figures)]
        of = [kind for kind, (_, figures) in enumerate(kinds) for _ in range(figures)]
        behind = [self.painted(batch) for batch, size in enumerate(self.batches, 1) for _ in range(size)]
        alike = Counter(zip(of, behind, strict=False))
        left = ((self._after(kinds[kind][0], last), figures) for (kind, last), figures in alike.items())
        return tuple((scheme, figures) for scheme, figures in left if scheme.steps)

    def _after(self, scheme: Scheme, last: int) -> Scheme:
        """A variety's scheme, whose steps have numbers of their own, without what comes up to the unit's step `last`."""
        behind = {id(row.step) for row in self.scheme.steps if row.n <= last}
        return replace(scheme, steps=tuple(row for row in scheme.steps if id(row.step) not in behind))

    def painted(self, batch: int) -> int:
        """The number of the last step that a batch has behind it when the plan begins, 0 for none."""
        return self.done.get(batch, self.done.get(0, 0))

    def of_figures(self, figures: int) -> UnitScheme:
        """The unit with fewer figures; the last ones are left out."""
        size = self.batches[1 if self.trial and len(self.batches) > 1 else 0]
        left, varieties = figures, []
        for one in self.varieties:
            varieties.append(replace(one, figures=min(left, one.figures)))
            left -= varieties[-1].figures
        trial = min(self.trial, figures)
        return replace(self, batches=split(figures, size, trial), varieties=tuple(varieties), trial=trial)

    def up_to(self, stop: str) -> UnitScheme | None:
        """The unit painted up to a stop; None if it has no such stop."""
        scheme = cut(self.scheme, stop)
        if scheme is None:
            return None
        varieties = tuple(replace(one, scheme=cut(one.scheme, stop) or one.scheme) for one in self.varieties)
        return replace(self, scheme=scheme, varieties=varieties)


def unit_schemes(plan: Plan, guides: Mapping[str, Guide], palette: Palette) -> tuple[UnitScheme, ...]:
    """The plan's units with their guides by slug; one whose guide or stop isn't there is left out."""
    by_address = {folded(slug): guide for slug, guide in guides.items()}
    found = []
    for number, unit in enumerate(plan.units, 1):
        guide = by_address.get(folded(unit.guide.text))
        scheme = None if guide is None else _unit_scheme(number, unit, guide, palette)
        if scheme is not None:
            found.append(scheme)
    return tuple(found)


def _unit_scheme(number: int, unit: Unit, guide: Guide, palette: Palette) -> UnitScheme | None:
    names = {folded(name): name for name in guide.choose}
    chosen = {folded(name): option.text for name, option in unit.choose.items()}
    choice = {names[key]: option for key, option in chosen.items() if key in names}
    mixed = next(
        ((names[folded(name)], of) for name, of in unit.mixed.items() if folded(name) in names), None
    )

    def painted(
        choice: Mapping[str, str], several: Mapping[str, Collection[str]] | None = None
    ) -> Scheme | None:
        scheme = cut(scheme_of(guide, palette, choice, several), unit.to.text if unit.to else None)
        return None if scheme is None else left_out(scheme, [name.text for name in unit.without])

    scheme = painted(choice, {mixed[0]: mixed[1]} if mixed else None)
    if scheme is None:
        return None
    varieties = []
    for option, figures in mixed[1].items() if mixed else ():
        its_own = painted(choice | {mixed[0]: option}) if mixed else None
        if its_own is not None and figures:
            varieties.append(Variety(option=option, scheme=its_own, figures=figures))
    trial = min(unit.trial, unit.figures)
    return UnitScheme(
        unit=number,
        guide=guide,
        scheme=scheme,
        batches=split(unit.figures, at_a_time(unit, guide), trial),
        choice=mixed[0] if mixed else "",
        varieties=tuple(varieties),
        trial=trial,
        done={batch: _last_step(name.text, scheme) for batch, name in unit.done.items()},
        paints={step.n: step_paints(step, palette) for step in scheme.steps},
    )


def _last_step(name: str, scheme: Scheme) -> int:
    """The number of the last step that is painted when all is up to a step or stop of the guide, 0 for none.

    That may be one that the unit has not got, by its variant, its stop or what it is without. Of several steps of that
    title the last is meant.
    """
    key = folded(name)
    own = [row.n for row in scheme.steps if folded(row.step.title) == key]
    if own:
        return own[-1]
    numbers = {id(row.step): row.n for row in scheme.steps}
    found = last = 0
    for entry in scheme.guide.entries:
        last = numbers.get(id(entry), last)
        if folded(entry.name if isinstance(entry, Stop) else entry.title) == key:
            found = last
    return found


def cut(scheme: Scheme, stop: str | None) -> Scheme | None:
    """The scheme up to a stop and with it, as a whole for no stop; None if it has no such stop."""
    if stop is None:
        return scheme
    halt = next((halt for halt in scheme.stops if folded(halt.name) == folded(stop)), None)
    if halt is None:
        return None
    kept = tuple(other for other in scheme.stops if other.after <= halt.after)
    return replace(scheme, steps=scheme.until(halt), stops=kept)


def left_out(scheme: Scheme, without: Iterable[str]) -> Scheme:
    """The scheme without the steps of some titles; the others keep their numbers, by which the page knows them."""
    names = {folded(name) for name in without}
    titles = {folded(step.step.title) for step in scheme.steps}
    optional = names == {OPTIONAL} and OPTIONAL not in titles
    if not names:
        return scheme
    kept = [
        not (step.step.optional if optional else folded(step.step.title) in names) for step in scheme.steps
    ]
    return replace(
        scheme,
        steps=tuple(step for step, stays in zip(scheme.steps, kept, strict=True) if stays),
        stops=tuple(replace(stop, after=sum(kept[: stop.after])) for stop in scheme.stops),
    )


def at_a_time(unit: Unit, guide: Guide) -> int | None:
    """How many figures of a unit are painted at a time, None for all."""
    return guide.batch if unit.batch is None else unit.batch or None


def split(figures: int, batch: int | None, trial: int = 0) -> tuple[int, ...]:
    """How many figures each batch has: test figures, then `batch` at a time, the rest in the last; all at once for None."""
    others = figures - trial
    size = max(1, others if batch is None else batch)
    return (*((trial,) if trial else ()), *(min(size, others - start) for start in range(0, others, size)))
