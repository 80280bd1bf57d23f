// The strip that appears when the circuit is lost. What stands on the page stays readable; the strip says from when it is.
const strip = document.getElementById("components-reconnect-modal");

if (strip) {
  const words = document.getElementById("lost-words");
  const again = 15000;
  let lastLive = "";

  const time = () => new Intl.DateTimeFormat(strip.dataset.language, { hour: "2-digit", minute: "2-digit", hour12: false, timeZone: strip.dataset.zone }).format(new Date());
  const say = (pattern) => { words.textContent = pattern.replace("{0}", lastLive); };

  const retry = async () => {
    try {
      if (await Blazor.reconnect() || await Blazor.resumeCircuit()) {
        return;
      }
      // The server is there but has forgotten this page.
      location.reload();
    } catch {
      // The server is not there; the next try comes by itself.
      say(strip.dataset.failed);
      setTimeout(retry, again);
    }
  };

  strip.addEventListener("components-reconnect-state-changed", ({ detail: { state } }) => {
    if (state === "show") {
      lastLive = time();
      say(strip.dataset.lost);
    } else if (state === "failed") {
      say(strip.dataset.failed);
      setTimeout(retry, again);
    } else if (state === "rejected") {
      location.reload();
    }
  });

  // Until its circuit is there a page that was drawn ahead is read and its links are followed, but what needs the circuit waits.
  const isAhead = () => document.querySelector("[data-ahead]") !== null;
  const patience = 10000;
  document.querySelectorAll("[data-ahead] :is(button, input, select, textarea)").forEach((part) => { part.inert = true; });
  setTimeout(() => {
    if (isAhead()) {
      lastLive = time();
      say(strip.dataset.failed);
      strip.classList.add("components-reconnect-failed");
    }
  }, patience);

  document.getElementById("lost-retry").addEventListener("click", () => (isAhead() ? location.reload() : retry()));
}

// A menu of the bar closes when a click or Escape goes elsewhere, as menus do.
const closeMenus = (except) => document.querySelectorAll("details.person[open]").forEach((menu) => { if (!menu.contains(except)) { menu.open = false; } });
document.addEventListener("click", (event) => closeMenus(event.target));
document.addEventListener("keydown", (event) => { if (event.key === "Escape") { closeMenus(null); } });

document.addEventListener("click", (event) => {
  if (event.target.closest("[data-print]")) {
    window.print();
  }
});
