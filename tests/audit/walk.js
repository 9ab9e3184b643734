// What every engine is asked on a page that is open from the disk. `find` and `told` say what a person would look at.
// The bench: the first step is done on all figures. Gives what is wrong, [] if nothing.
exports.tick = () => {
  const leaf = document.querySelector(".leaf[data-n]"), button = leaf && leaf.querySelector(".do");
  if (!button) return ["there is nothing to tick"];
  if (!button.checkVisibility()) return ["the button is hidden, so the script did not run"];
  for (let n = 0; n < 1000 && !button.hidden; n += 1) button.click();
  return leaf.classList.contains("is-done") ? [] : ["the tick did not hold"];
};

// The bench after a reload: the step is still done.
exports.ticked = () => document.querySelector(".leaf[data-n]").classList.contains("is-done") ? [] : ["the tick is gone after a reload"];

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
