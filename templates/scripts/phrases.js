/* Phrases, numbers and times as guidegen/words/language.py writes them. `signs` are the decimal sign and that of groups. */
window.guidegenPhrases = (words, signs) => {
  const rules = new Intl.PluralRules(document.documentElement.lang), {max, floor, round} = Math, MIN = 60000;
  const number = (value, places = 0) => {
    const [whole, part = ""] = value.toFixed(places).split("."), rest = part.replace(/0+$/, "");
    return whole.replace(/\B(?=(\d{3})+$)/g, signs[1]) + (rest && signs[0] + rest);
  };
  const t = (key, values = {}) => (words[key][rules.select(values.n)] || words[key].other || words[key])
    .replace(/\{(\w+)\}/g, (_, name) => typeof values[name] === "number" ? number(values[name]) : values[name]);
  const SIZE = {d: 1440 * MIN, h: 60 * MIN, min: MIN, s: 1000};
  const duration = ms => {
    const units = ms < 10 * MIN ? ["min", "s"] : ms < 2 * SIZE.d ? ["h", "min"] : ["d", "h"], finest = SIZE[units[1]];
    let rest = round(ms / finest) * finest;
    return units.map(unit => {
      const n = floor(rest / SIZE[unit]);
      rest -= n * SIZE[unit];
      return n ? t("unit." + unit, {n}) : "";
    }).join(" ").trim() || t("unit.min", {n: 0});
  };
  const onClock = ms => {
    const minutes = round(ms / MIN);
    return floor(minutes / 60) + ":" + String(minutes % 60).padStart(2, "0");
  };
  const twoFigures = value => number(+value.toPrecision(2), max(0, 1 - floor(Math.log10(value))));
  return {t, number, duration, onClock, twoFigures};
};
