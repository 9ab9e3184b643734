"""What only shows in many guides side by side: one that is there twice, tags that differ by a letter."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.base.suggest import folded
from guidegen.model.guide import Guide
from guidegen.model.site import Archive

# Lines in which one guide may differ from another that is the same.
_OWN = re.compile(r"^(?:author|date|published|updated|was|draft):.*\n", re.MULTILINE)
# A guide of fewer steps and no words was only just begun, and may be like another.
_FEW = 2
# Of tags up to this length an s at the end is not taken for a plural.
_SHORT = 4


def same_guides(archive: Archive) -> Iterator[Diagnostic]:
    """same-guide for each guide whose text is that of an earlier one, lines such as author and date aside (`_OWN`)."""
    titled = Counter(folded(guide.title) for guide in archive.guides)
    first: dict[str, Guide] = {}
    for guide in archive.guides:
        source = archive.sources.get(guide.file)
        own = sum(step.shared is None for step in guide.steps)
        begun = own < _FEW and not guide.body.before.plain
        if source is None or begun or titled[folded(guide.title)] < 2:
            continue
        other = first.setdefault(_OWN.sub("", source.text).strip(), guide)
        if other is not guide:
            yield Diagnostic(
                code="same-guide",
                message=f"“{guide.title}” is there twice, with the same steps and words.",
                span=guide.places.get("title", guide.span),
                help=f"Take one of them out, and write its address after was: in the other, as in was: [{guide.slug}].",
                related=(Related(span=other.places.get("title", other.span), message="is the other."),),
            )


def tags_near(guides: Iterable[Guide]) -> Iterator[Diagnostic]:
    """tag-near-another for tags that differ by case, accents, blanks or an s at the end from one that more guides have."""
    several = tuple(guides)
    used = Counter(tag for guide in several for tag in dict.fromkeys(guide.tags))
    alike: dict[str, list[str]] = defaultdict(list)
    for tag in sorted(used, key=lambda tag: (-used[tag], tag != tag.casefold(), tag)):
        alike[_bare(tag)].append(tag)
    for guide in several:
        for tag in dict.fromkeys(guide.tags):
            best = alike[_bare(tag)][0]
            if best != tag and "tags" in guide.places:
                others = "1 guide has" if used[best] == 1 else f"{used[best]} guides have"
                yield Diagnostic(
                    code="tag-near-another",
                    message=f"The tag “{tag}” is nearly “{best}”, which {others}.",
                    span=guide.places["tags"],
                    help=f"Write {best}, if it means the same.",
                )


def _bare(tag: str) -> str:
    plain = folded(tag)
    return plain.removesuffix("s") if len(plain) > _SHORT else plain
