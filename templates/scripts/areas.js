/* Point at an area in the table, or focus it, and it is lit in the figure; and the other way round. */
(() => {
  const figure = document.querySelector(".beside");
  if (!figure) return;
  const fold = text => text.normalize("NFKD").replace(/[\p{M}\s]/gu, "").toLowerCase();
  const rows = new Map();
  document.querySelectorAll(".matrix tbody tr").forEach(row => rows.set(fold(row.dataset.area), row));
  const shapes = figure.querySelectorAll("[data-area]");
  const light = area => {
    figure.classList.toggle("pointed", area !== null);
    shapes.forEach(shape => shape.classList.toggle("lit", shape.dataset.area === area));
    rows.forEach((row, key) => row.classList.toggle("lit", key === area));
  };
  const follow = (element, area) => {
    element.addEventListener("pointerenter", () => light(area));
    element.addEventListener("pointerleave", () => light(null));
  };
  rows.forEach((row, area) => {
    follow(row, area);
    row.addEventListener("focusin", () => light(area));
    row.addEventListener("focusout", () => light(null));
  });
  shapes.forEach(shape => follow(shape, shape.dataset.area));
})();
