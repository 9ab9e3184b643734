/* Point at an area in the table, or focus it, and it is lit in the figure; and the other way round. */
document.querySelector(".beside") && ["mouseover", "focusin", "mouseout", "focusout"].forEach((type, at) =>
  document.addEventListener(type, event => {
    const found = event.target.closest("[data-area]"), area = at < 2 && found ? found.dataset.area : "";
    document.querySelector(".beside").classList.toggle("pointed", !!area);
    document.querySelectorAll("[data-area]").forEach(one => one.classList.toggle("lit", one.dataset.area === area));
  }));
