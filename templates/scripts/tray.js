/* The tray of pots: those that answer to what is sought, by family and lightness, or the nearest to a colour first. It is one
   stop of the tab key; the arrow keys go from pot to pot. `pots` may be taken in hand, `mine` are names, `take` hears which. */
window.guidegenTray = ({t, make, dab, button, colours, pots, mine, take}) => {
  const MOST = 60, STEPS = {ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1}, place = one(".try-pots"), more = one(".try-more-pots");
  let wanted = null, held = null, picks = [];
  const stop = at => picks.forEach(([pick], n) => { pick.tabIndex = n === at ? 0 : -1; });
  const mark = () => picks.forEach(([pick, own]) => pick.setAttribute("aria-pressed", own === held));
  function show() {
    const sought = one(".try-q").value.trim().toLowerCase(), family = one(".try-family").value, from = one(".try-from").value;
    const found = pots.filter(own => (!sought || own.name.toLowerCase().includes(sought)) && (family === "" || own.family === +family) &&
      (!from || (from === "mine" ? mine.has(own.name) : own.owned > 0)));
    const turn = own => own.family === undefined ? 99 : own.kind === "primer" ? -1 : own.family;
    if (wanted) {
      const off = new Map(found.map(own => [own, own.colour ? colours.difference(wanted, own.colour) : Infinity]));
      found.sort((one, two) => off.get(one) - off.get(two));
    } else found.sort((one, two) => turn(one) - turn(two) || one.light - two.light);
    one(".try-near").hidden = !wanted;
    one(".try-near button").replaceChildren(dab(wanted), ` ${t("try.near", {colour: wanted || ""})}`);
    picks = found.slice(0, MOST).map((own, at) => {
      const pick = button("try-pot", "", "", () => { take(own); stop(at); });
      pick.append(dab(own.colour), make("span", "", own.label || own.name));
      return [pick, own];
    });
    place.replaceChildren(...picks.map(([pick]) => pick));
    stop(Math.max(0, picks.findIndex(([, own]) => own === held)));
    mark();
    more.textContent = !found.length ? t("try.no-pots") : found.length > MOST ? t("try.more-pots", {n: MOST, all: found.length}) : "";
  }
  place.addEventListener("keydown", event => {
    const at = picks.findIndex(([pick]) => pick === event.target), last = picks.length - 1;
    const to = event.key === "Home" ? 0 : event.key === "End" ? last : event.key in STEPS ? Math.min(last, Math.max(0, at + STEPS[event.key])) : -1;
    if (at < 0 || to < 0) return;
    event.preventDefault();
    stop(to);
    picks[to][0].focus();
  });
  function near(colour) {
    wanted = colour;
    show();
    place.scrollTo(0, 0);
  }
  const first = () => (one('.try-pot[tabindex="0"]') || one(".try-q")).focus({preventScroll: true});
  [".try-q", ".try-family", ".try-from"].forEach(css => one(css).addEventListener("input", show));
  one(".try-near button").addEventListener("click", () => { near(null); first(); });
  return {show, near, first, hold(own) { held = own; mark(); }};
};
