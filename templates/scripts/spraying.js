/* Whether to spray today: dew point by Magnus' formula, the figure's margin over it, and the humidity.
   The twin of guidegen/computing/guide/spraying.py, which names the sources and gives the same numbers and reasons. */
window.guidegenSpraying = (() => {
  const FACTOR = 17.62, TEMPERATURE = 243.12;
  const tenths = value => Math.floor(value * 10 + .5) / 10, those = found => Object.keys(found).filter(key => found[key]);
  const readable = value => value >= -45 && value <= 60;

  function dewPoint(air, humidity) {
    const load = Math.log(humidity / 100) + FACTOR * air / (TEMPERATURE + air);
    return TEMPERATURE * load / (FACTOR - load);
  }

  // Air and figure in °C, relative humidity in %, as numbers.
  function verdict(air, surface, humidity) {
    const reasons = those({"air-unread": !readable(air), "figure-unread": !readable(surface), "humidity-unread": !(humidity >= 1 && humidity <= 100)});
    if (reasons.length) return {verdict: "unknown", reasons, dewPoint: null, margin: null};
    const dew = tenths(dewPoint(air, humidity)), margin = tenths(surface - dew);
    const against = those({"near-dew": margin < 3, "too-damp": humidity > 70, "too-cold": air < 10, "too-hot": air > 28});
    const [said, why] = against.length ? ["wait", against] : humidity > 60 ? ["doubtful", ["may-frost"]] : ["spray", ["all-well"]];
    return {verdict: said, reasons: why, dewPoint: dew, margin};
  }

  return {verdict};
})();
