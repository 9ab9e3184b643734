/* The arrow keys turn: from step to step of a guide, and from photo to photo while one is open large. */
document.addEventListener("keydown", event => {
  const {key, target} = event, by = key === "ArrowRight" ? 1 : key === "ArrowLeft" ? -1 : 0;
  if (!by || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || target.closest("input, .scroll")) return;
  const on = getComputedStyle(target).direction === "rtl" ? -by : by, photo = one(`[open] [data-turn="${on}"]`);
  if (photo) return photo.click();
  const rows = all(".step, .stop").filter(row => row.getClientRects().length), top = row => row.getBoundingClientRect().top, here = rows.indexOf(target.closest(".row"));
  // From the step that has the focus, or from the top of the screen where that step is far off.
  const row = here >= 0 && Math.abs(top(rows[here])) < innerHeight ? rows[here + on]
    : on > 0 ? rows.find(row => top(row) > 80) : rows.filter(row => top(row) < 40).pop();
  if (!row) return;
  location.replace("#" + row.id);
  one("h3 a", row).focus({preventScroll: true});
});
one(".by-key").hidden = false;
