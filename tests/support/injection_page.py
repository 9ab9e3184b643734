"""A browser page with a wire stretched across everything that could run or leak."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext

# Runs before anything of a page's own, whatever its policy.
WIRE = """
window.trips = [];
window.tripped = () => { window.trips.push("a function was called"); };
document.addEventListener("securitypolicyviolation",
  (event) => { window.trips.push(`the policy stopped ${event.violatedDirective} ${event.blockedURI} ${event.sample}`); });
"""

# What no page of ours has, whether it would run or not.
AUDIT = """([home, alone]) => {
  const found = [...window.trips];
  const banned = new Set(["iframe", "frame", "object", "embed", "base", "applet", "portal", "audio", "video",
    "foreignobject", "animate", "set", "animatemotion", "animatetransform", "math", "xmp", "plaintext", "marquee"]);
  const leads = new Set(["href", "src", "srcset", "action", "formaction", "data", "poster", "ping", "background", "xlink:href"]);
  const may = (name, attribute, value) => {
    if (attribute === "srcset") return value.split(/,\\s+/).every((one) => may(name, "src", one.split(" ")[0]));
    if (value === "/club/index.html" && name === "a" && location.pathname.endsWith("/404.html")) return true;
    if (value === "data:," && name === "link") return true;
    // What the bench gives to be saved; a table is only ever shown as text.
    if (/^data:text\\/csv;charset=utf-8,[\\w.%-]*$/.test(value)) return name === "a";
    if (/^data:image\\/(webp|svg\\+xml)[;,]/.test(value)) return name !== "a";
    if (name === "a" && /^(https?|mailto):/.test(value)) return true;
    if (name === "link" && value.startsWith("https://outside.example/club/")) return true;
    if (value.startsWith("#")) return true;
    return !alone && new URL(value, location.href).href.startsWith(home);
  };
  for (const place of document.querySelectorAll("*")) {
    const name = place.localName.toLowerCase(), html = place.outerHTML.slice(0, 160);
    if (banned.has(name) || (name === "form" && !["find", "find mine-find", "mine-add", "mine-try", "mine-list", "stepper"].includes(place.className))) found.push(html);
    if (name === "script" && !alone && !place.hasAttribute("src") && !/json$/.test(place.type)) found.push(html);
    if (name === "style" && !alone && !/404\\.html$/.test(location.pathname)) found.push(html);
    // A page that moved leads on, within the site, where no script does.
    const leadsOn = place.httpEquiv === "refresh" && /^0; url=[\\w.\\/%-]+\\.html$/.test(place.content);
    if (name === "meta" && place.httpEquiv && place.httpEquiv !== "Content-Security-Policy" && !leadsOn) found.push(html);
    for (const {name: attribute, value} of place.attributes) {
      // The bench's script says in numbers how far its strip is.
      if (attribute === "style" && place.className === "strip" && /^(--(of|done): [\\d.]+; ?)+$/.test(value)) continue;
      if (attribute.startsWith("on") || attribute === "style" || attribute === "srcdoc") found.push(html);
      if (leads.has(attribute) && !may(name, attribute, value)) found.push(`${attribute}: ${html}`);
    }
    if (name === "script" && /json$/.test(place.type)) JSON.parse(place.textContent);
  }
  return found;
}"""


class Wired:
    """A browser page with the wire, and what has touched it."""

    def __init__(self, context: BrowserContext, home: str, *, alone: bool = False) -> None:
        self.page = context.new_page()
        self.page.add_init_script(WIRE)
        self.found: list[tuple[str, object]] = []
        self.home, self.alone, self.at = home, alone, ""
        self.page.on("dialog", self._dialog)
        self.page.on("request", self._request)
        self.page.on("pageerror", lambda error: self._note(f"error: {error}"))
        self.page.on("console", lambda line: self._note(line.text) if line.type == "error" else None)
        self.page.on("popup", lambda _: self._note("a window was opened"))

    def open(self, address: str) -> None:
        self.at = address
        self.page.goto(address)
        self.look()

    def look(self) -> None:
        self.found += [(self.at, trip) for trip in self.page.evaluate(AUDIT, [self.home, self.alone])]

    def _note(self, what: str) -> None:
        self.found.append((self.at, what))

    def _dialog(self, dialog: Any) -> None:
        self._note(f"a dialog: {dialog.message}")
        dialog.dismiss()

    def _request(self, request: Any) -> None:
        if not request.url.startswith((self.home, "data:", "blob:")):
            self._note(f"a request: {request.url}")
