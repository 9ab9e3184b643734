/* A row of a list that is dragged by its grip: `moved` hears from which place to which. */
window.guidegenDragged = (event, item, from, list, moved) => {
  event.preventDefault();
  const rows = [...list.children], grip = event.target;
  let to = from;
  grip.setPointerCapture(event.pointerId);
  item.classList.add("dragged");
  grip.onpointermove = at => {
    const over = rows.findIndex(row => { const box = row.getBoundingClientRect(); return at.clientY >= box.top && at.clientY <= box.bottom; });
    if (over >= 0) to = over;
    rows.forEach((row, n) => row.classList.toggle("over", n === to && to !== from));
  };
  grip.onpointerup = grip.onpointercancel = () => {
    grip.onpointermove = null;
    moved(from, to);
  };
};
