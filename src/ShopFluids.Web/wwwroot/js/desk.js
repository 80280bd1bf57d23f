// A page that was drawn ahead is read, and its links are followed, before its circuit is there. What is pressed, chosen or typed meanwhile waits for it:
// the circuit draws the same parts anew, and there it is done.
const needsCircuit = "[data-ahead] :is(button, input, select, textarea)";
const parts = () => [...document.querySelectorAll(":is(main, form.seek) :is(button, input, select, textarea)")].filter((part) => !part.closest("noscript"));
const isAhead = () => document.querySelector("[data-ahead]") !== null;

if (isAhead()) {
  const nameOf = (part) => [part?.tagName, part?.type, part?.ariaLabel, part?.closest("label")?.textContent ?? part?.textContent].join("|");
  const before = parts().map(nameOf);
  const held = new Map();
  const isTyped = (part) => part.matches("select, textarea, input[type=text]");
  const hold = (event) => {
    const part = event.target.closest?.(needsCircuit);
    if (part) {
      if (!isTyped(part)) {
        event.preventDefault();
        event.stopImmediatePropagation();
        part.ariaBusy = "true";
      }
      held.set(parts().indexOf(part), part);
    }
  };
  const events = ["click", "input", "change"];
  events.forEach((kind) => document.addEventListener(kind, hold, true));

  const takeOver = () => {
    if (isAhead()) {
      return;
    }
    watch.disconnect();
    events.forEach((kind) => document.removeEventListener(kind, hold, true));
    const now = parts();
    held.forEach((was, place) => {
      const part = now[place];
      // Another part stands in this place: what was pressed is not there any more.
      if (nameOf(part) !== before[place]) {
        return;
      }
      if (isTyped(part)) {
        part.value = was.value;
        part.focus();
        part.dispatchEvent(new Event("input", { bubbles: true }));
        part.dispatchEvent(new Event("change", { bubbles: true }));
      } else {
        part.click();
      }
    });
  };
  const watch = new MutationObserver(takeOver);
  watch.observe(document.body, { subtree: true, childList: true });
}

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

  const patience = 10000;
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
