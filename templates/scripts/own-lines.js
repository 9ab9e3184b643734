/* The line of a paint that is lacking, wherever a page speaks of its reader's pots: chips side by side, what stands in for
   it, and the difference in words. Whatever it shows of pots is put on the page as text. */
window.guidegenOwnLines = (palette, table) => {
  const {words} = palette, {t, number} = window.guidegenPhrases(words, palette.signs), engine = window.guidegenColour, {potOf} = table, NEAR = 4, SVG = "http://www.w3.org/2000/svg";
  const make = (name, kind = "", ...inner) => {
    const element = document.createElement(name);
    if (kind) element.className = kind;
    element.append(...inner.filter(each => each !== "" && each !== null && each !== undefined));
    return element;
  };
  const draw = (name, values) => {
    const element = document.createElementNS(SVG, name);
    Object.entries(values).forEach(([key, value]) => element.setAttribute(key, value));
    return element;
  };
  // A chip of a colour; where the page has the look of its kind, in that look.
  function chip(pot, colour, estimate) {
    const svg = draw("svg", {class: "chip", viewBox: "0 0 30 20", "aria-hidden": "true"}), look = {metallic: "metal", ink: "ink", oil: "oil", primer: "primer"}[pot.kind];
    if (look && document.getElementById("c-" + look)) svg.append(draw("use", {href: "#c-" + look, fill: colour || "none"}));
    else svg.append(draw("path", {d: "M1 1h28v18H1z", fill: colour || "none", stroke: "#767b79"}));
    if (estimate) svg.append(draw("circle", {class: "hole", cx: 23, cy: 6, r: 3, stroke: "#767b79"}));
    return svg;
  }
  const label = name => potOf(name).label || name;
  const partsText = parts => parts.length < 2 ? label(parts[0][0]) : parts.map(([name, n]) => number(n, 2) + " " + label(name)).join(" + ");
  // Lighter or darker first, then warmer or cooler, then duller or brighter.
  function inWords({colour, de00}, pot) {
    if (de00 === null || !colour || !pot.colour) return "";
    const said = engine.directions(colour, pot.colour).map(key => words["mine." + key]);
    if (de00 < 1 || !said.length) return words[de00 < 1 ? "mine.same" : "close." + engine.word(de00)];
    const joined = said.length < 2 ? said[0] : t("mine.and", {first: said.slice(0, -1).join(", "), second: said[said.length - 1]});
    return de00 < 4 ? t("mine.a-little", {words: joined}) : de00 > 10 ? t("mine.much", {words: joined}) : joined;
  }
  const byWhom = way => ({author: words["mine.by-author"], you: words["mine.by-you"]}[way.by]);
  const because = ({why, area, way}) => t("mine." + why, {take: partsText(way.parts), area});
  const aside = (kind, ...said) => said.filter(Boolean).length ? make("small", kind, said.filter(Boolean).join(" · ")) : "";
  const difference = ({de00}) => de00 === null ? "" : t("mine.difference", {n: number(de00, 1)});
  // The line itself, of a row as guidegenSwaps gives it.
  function head({name, pot, way, refused, others, buy}) {
    const want = label(name), said = make("span", "", ...way ? [make("b", "", partsText(way.parts)), t("mine.for", {take: "", want}) + " ", aside("", inWords(way, pot), byWhom(way), way.mixed && words["mine.mix-warns"])]
      : [make("b", "", t("mine.buy", {want})), " ", aside("", t("pot.owned", {n: buy}), !others.length && !refused.length && words["mine.no-other"])]);
    refused.forEach(each => said.append(" ", make("small", "warns", because(each))));
    return [make("span", "both", chip(pot, pot.colour), way && chip(potOf(way.parts[0][0]), way.colour, way.mixed)), said];
  }
  // Another way, as it stands in the list of them.
  const other = (way, pot) => make("span", "", chip(potOf(way.parts[0][0]), way.colour, way.mixed), " ", partsText(way.parts), " ",
    aside("", inWords(way, pot), byWhom(way), difference(way), way.mixed && words["mine.mix-warns"]));
  const sum = (have, instead, buy) => {
    const rest = [instead && t("mine.of-instead", {n: instead}), buy && t("mine.of-buy", {n: buy})].filter(Boolean).join(", ");
    return rest ? t("mine.of", {n: have, all: number(have + instead + buy)}) + "; " + rest + "." : t("mine.of-all", {n: have});
  };
  // What a mixture became, and what to add to it, or that it is time to start again.
  function tried({parts, got}, pot) {
    const those = parts.map(([name, n]) => [potOf(name), n]), away = engine.difference(pot.colour, got), more = engine.addition(those, got, pot.colour);
    const became = t("mine.became", {mixed: partsText(parts), words: inWords({colour: got, de00: away}, pot)});
    const added = more && more.parts.map(([each, n]) => t("mine.part", {n, pot: label(each.name)}));
    const next = more ? t("mine.more", {parts: added.length < 2 ? added[0] : t("mine.plus", {first: added.slice(0, -1).join(", "), second: added[added.length - 1]}), n: number(more.de00, 1)})
      : words[away <= NEAR ? "mine.no-nearer" : "mine.again"];
    return became + " " + next;
  }
  return {words, t, number, make, draw, chip, label, partsText, inWords, difference, head, other, sum, tried};
};
