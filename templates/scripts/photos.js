/* A photo opens large over the page; buttons and arrow keys turn to the others, and closing goes back to where one was.
   A touch on it, or a button, brings it close: every pixel of it, to be pushed about. */
(() => {
  const box = one("dialog"), links = all(".photo a");
  if (!box || !box.showModal) return;
  const [frame, words] = box.children, zoom = one(".zoom", box);
  let at;
  const near = (on, x = .5, y = .5) => {
    const picture = one("img", frame);
    box.classList.toggle("near", on);
    if (picture) picture.style.inlineSize = on ? Math.max(picture.getAttribute("width"), 2 * frame.clientWidth) + "px" : "";
    zoom.setAttribute("aria-pressed", on);
    frame.scrollTo((frame.scrollWidth - frame.clientWidth) * x, (frame.scrollHeight - frame.clientHeight) * y);
  };
  const show = to => {
    at = (to + links.length) % links.length;
    const picture = links[at].firstElementChild.cloneNode(true), caption = links[at].nextElementSibling;
    frame.replaceChildren(picture);
    // `sizes` so wide that the browser takes the largest file.
    all("*", frame).forEach(each => { each.sizes = "999em"; });
    words.textContent = `${caption ? caption.textContent : one("img", frame).alt} ${at + 1}/${links.length}`;
    near(false);
  };
  links.forEach((link, its) => {
    link.onclick = event => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      link.focus();
      show(its);
      box.showModal();
    };
  });
  box.onclick = ({target, offsetX, offsetY}) => {
    const far = !box.matches(".near");
    if (target.dataset.turn) show(at + +target.dataset.turn);
    else if (target === zoom) near(far);
    else if (target.matches("img")) near(far, offsetX / target.width, offsetY / target.height);
    else if (target !== words && (far || target.matches(".close"))) box.close();
  };
})();
