/* Whether a scheme reads: the parts of its colours by what the drawing shows of each area, lightness where areas touch,
   the figure as a squinting eye has it, and as eyes see it that lack one kind of cone. */
window.guidegenReads = ({t, make, dab, colours, states, chart, measures, guides, draw}) => {
  // An eye tells 0.2 mm apart at 70 cm, one minute of arc. So much in L* is easily seen: common practice.
  const EYE_MM = .2, FAMILIAR = 15, place = one(".try-answers"), flats = area => states[area] && states[area].relief.flats;
  const parts = new Map();
  for (const area of chart.areas) if (flats(area)) parts.set(flats(area), (parts.get(flats(area)) || 0) + measures.shares[area]);
  const line = make("p", "try-shares");
  [...parts].sort((one, two) => two[1] - one[1]).slice(0, 3).forEach(([colour, part], n) => {
    const each = make("span", "look");
    each.append(dab(colour), " ", t("try.shares", {part: Math.round(part * 100), what: t(["try.main", "try.second", "try.accent"][n])}));
    line.append(each);
  });
  place.replaceChildren(line);
  const pairs = measures.touching.filter(([a, b]) => flats(a) && flats(b) && flats(a) !== flats(b))
    .map(([a, b]) => ({a, b, off: Math.abs(colours.labOf(flats(a))[0] - colours.labOf(flats(b))[0])})).sort((one, two) => one.off - two.off);
  if (pairs.length) {
    const [{a, b, off}] = pairs;
    place.append(make("p", "try-least", t("try.least", {one: a, two: b, n: Math.round(off)}) + (off < FAMILIAR ? " " + t("try.least-same") : "")));
  }
  // The guide of the archive whose colours, weighed by what they cover, lie nearest to these, seen from both sides.
  const ours = [...parts].map(([colour, part]) => [colours.labOf(colour), part]);
  const toward = (some, others) => some.reduce((sum, [lab, part]) => sum + part * Math.min(...others.map(([other]) => colours.deltaE(lab, other))), 0) / some.reduce((sum, [, part]) => sum + part, 0);
  const near = guides.filter(([slug, , covers]) => slug !== chart.guide && covers.length && ours.length).map(([, title, covers]) => {
    const theirs = covers.map(([colour, part]) => [colours.labOf(colour), part]);
    return {title, off: (toward(ours, theirs) + toward(theirs, ours)) / 2};
  }).sort((one, two) => one.off - two.off)[0];
  if (near) place.append(make("p", "try-like", t("try.like", {guide: near.title, n: Math.round(near.off)})));
  const squint = one(".try-squint");
  squint.replaceChildren();
  const grey = draw(squint, "try-q", colours.inGrey);
  grey.style.filter = `blur(${EYE_MM / chart.tall * grey.getBoundingClientRect().height}px)`;
  one(".try-visions").replaceChildren(...["protan", "deutan", "tritan"].map(kind => {
    const item = make("li");
    draw(item, "try-v" + kind, colour => colours.seen(kind, colour));
    item.append(make("span", "", t("try." + kind)));
    return item;
  }));
};
