// What every engine is asked on a page that is open from the disk. `find` and `told` say what a person would look at.
// The bench: tick the first step. Gives what is wrong, [] if nothing.
exports.tick = () => {
  const box = document.querySelector('.leaf input[data-keep="done"]');
  if (!box) return ["there is nothing to tick"];
  if (!box.closest(".bench-tools").checkVisibility()) return ["the ticks are hidden, so the script did not run"];
  box.click();
  return box.checked ? [] : ["the tick did not hold"];
};

// The bench after a reload: the tick is still there.
exports.ticked = () => document.querySelector('.leaf input[data-keep="done"]').checked ? [] : ["the tick is gone after a reload"];

// The guide: one more figure changes the hands-on time.
exports.more = () => {
  const field = document.querySelector("#figures"), time = document.querySelector("time, [data-time]");
  const before = document.querySelector("main").textContent;
  const more = document.querySelector('.stepper [data-by="1"]');
  if (!more || more.closest("[hidden]")) return ["the number of figures can't be changed"];
  more.click();
  if (!time) return ["no time is shown"];
  return document.querySelector("main").textContent === before ? [`${field.value} figures take what one fewer takes`] : [];
};

// Any page: pictures are there, styles are applied.
exports.whole = () => {
  const wrong = [...document.images].filter(image => image.loading !== "lazy" && image.complete && !image.naturalWidth)
    .map(image => `${image.getAttribute("src")} does not show`);
  if (!document.styleSheets.length) wrong.push("the page has no style");
  if (document.documentElement.scrollWidth > window.innerWidth) wrong.push("the page is wider than the window");
  return wrong;
};
