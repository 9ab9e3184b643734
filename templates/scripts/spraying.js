/* Whether to spray today: dew point by Magnus' formula, the figure's margin over it, and the humidity.
   The twin of guidegen/computing/spraying.py, which names the sources and gives the same numbers. */
window.guidegenSpraying = (function () {
  "use strict";
  const FACTOR = 17.62, TEMPERATURE = 243.12, MARGIN = 3, GOOD = 60, MOST = 70, COLDEST = 10, HOTTEST = 28;
  const READ = [-45, 60];

  const tenths = value => Math.floor(value * 10 + 0.5) / 10;
  const within = (low, value, high) => low <= value && value <= high;

  function dewPoint(air, humidity) {
    const load = Math.log(humidity / 100) + FACTOR * air / (TEMPERATURE + air);
    return TEMPERATURE * load / (FACTOR - load);
  }

  function faults(air, surface, humidity) {
    const found = [], between = `between ${READ[0]} and ${READ[1]} °C.`;
    if (!within(READ[0], air, READ[1])) found.push(`The air is to be ${between}`);
    if (!within(READ[0], surface, READ[1])) found.push(`The figure is to be ${between}`);
    if (!within(1, humidity, 100)) found.push("The humidity is to be between 1 and 100%.");
    return found;
  }

  function stops(air, margin, humidity) {
    const found = [];
    if (margin < MARGIN) {
      found.push(`The figure has to be at least ${MARGIN} °C above the dew point, or damp settles on it.`);
    }
    if (humidity > MOST) found.push(`Above ${MOST}% humidity a matt varnish frosts.`);
    if (air < COLDEST) found.push(`Below ${COLDEST} °C the paint spits and dries badly.`);
    if (air > HOTTEST) found.push(`Above ${HOTTEST} °C the paint dries in the air and lands as dust.`);
    return found;
  }

  // Air and figure in °C, relative humidity in %, as numbers.
  function verdict(air, surface, humidity) {
    const wrong = faults(air, surface, humidity);
    if (wrong.length) return {verdict: "unknown", reasons: wrong, dewPoint: null, margin: null};
    const dew = tenths(dewPoint(air, humidity)), margin = tenths(surface - dew);
    const told = (word, reasons) => ({verdict: word, reasons: reasons, dewPoint: dew, margin: margin});
    const against = stops(air, margin, humidity);
    if (against.length) return told("wait", against);
    if (humidity > GOOD) {
      return told("doubtful", [`Above ${GOOD}% humidity a matt varnish may frost: try it on a scrap first.`]);
    }
    return told("spray", ["The figure is well above the dew point, the air neither too damp, too cold nor too hot."]);
  }

  return {verdict: verdict};
})();
