/* Pots for an area that stay apart from another one: three covering paints, those at hand first, then those nearest to what
   lies on the area now, or to what is at hand. */
window.guidegenApart = ({t, make, dab, button, take}) => {
  // Seen apart by lightness or by colour altogether: common practice, no source.
  const LIGHTNESS = 15, DIFFERENCE = 20, MOST = 3, place = one(".try-apart"), [area, from] = all("select", place), found = one("ul", place);
  let now = null;
  const fill = (select, areas, chosen) => { select.replaceChildren(...areas.map(name => new Option(name, name, false, name === chosen))); };
  function propose() {
    const {colours, pots, states, hasPot} = now, flats = name => states[name] && states[name].relief.flats, other = flats(from.value), own = flats(area.value);
    found.replaceChildren();
    if (!other || area.value === from.value) { found.append(make("li", "small", t("try.apart-none"))); return; }
    const apart = pots.filter(pot => pot.colour && (!pot.kind || pot.kind === "paint") && !pot.metal &&
      (Math.abs(colours.labOf(pot.colour)[0] - colours.labOf(other)[0]) >= LIGHTNESS || colours.difference(pot.colour, other) >= DIFFERENCE));
    const mine = pots.filter(pot => pot.colour && hasPot(pot)), near = pot => own ? colours.difference(pot.colour, own)
      : mine.length ? Math.min(...mine.map(each => colours.difference(each.colour, pot.colour))) : 0;
    const ranked = apart.map(pot => [hasPot(pot) ? 0 : 1, near(pot), pot]).sort((one, two) => one[0] - two[0] || one[1] - two[1]);
    for (const [, , pot] of ranked.slice(0, MOST)) {
      const item = make("li"), pick = button("", "", "", () => take(pot));
      pick.append(dab(pot.colour), ` ${pot.label || pot.name}`);
      item.append(pick);
      found.append(item);
    }
    if (!ranked.length) found.append(make("li", "small", t("try.apart-none")));
  }
  [area, from].forEach(select => select.addEventListener("change", propose));
  // Called whenever the figure has changed; `touching` tells which areas meet.
  return next => {
    const was = [area.value, from.value], {areas, touching} = next;
    now = next;
    fill(area, areas, areas.includes(was[0]) ? was[0] : areas[0]);
    const meets = touching.filter(pair => pair.includes(area.value)).map(pair => pair.find(name => name !== area.value));
    fill(from, areas, areas.includes(was[1]) && was[1] ? was[1] : meets[0] || areas[1]);
    propose();
  };
};
