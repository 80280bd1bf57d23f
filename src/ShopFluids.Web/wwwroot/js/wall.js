// The wall goes from turn to turn by itself, for weeks. What it shows stays while the server is away, and says since when; the page is loaded anew
// only after the server has answered, so that no night ends on the browser's own page of failure.

const TURN_MS = 15_000;
const ANSWER_WITHIN_MS = 10_000;
const STALE_AFTER_MS = 60_000;
const RELOAD_AFTER_MS = 6 * 3_600_000;
const { turnsAt, zone, language, stale, live } = document.body.dataset;
const startedAt = Date.now();
const kept = new Map();
let liveAt = Date.now();
let turn = 0;

const screen = () => document.getElementById('screen');
const time = ms => new Intl.DateTimeFormat(language, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23', timeZone: zone }).format(ms);
const say = (pattern, ...values) => pattern.replace(/\{(\d)\}/g, (_, n) => values[n]);

// The server's clock, moved on by what has passed here: a screen's own clock is seldom set.
let serverAt = Number(screen().dataset.at);

function put(text) {
  const next = new DOMParser().parseFromString(text, 'text/html').getElementById('screen');
  document.documentElement.dataset.theme = next.dataset.look;
  screen().replaceWith(next);
  turn = Number(next.dataset.turn);
}

async function fetchTurn(number) {
  const answer = await fetch(turnsAt + number, { cache: 'no-store', signal: AbortSignal.timeout(ANSWER_WITHIN_MS) });
  if (answer.status === 403) {
    // The link was revoked: nothing of the shop stays on the screen.
    location.reload();
    return;
  }

  if (!answer.ok || answer.redirected) {
    throw new Error(`Answered ${answer.status}`);
  }

  const text = await answer.text();
  const build = screen().dataset.build;
  put(text);
  kept.set(turn, text);
  [...kept.keys()].filter(n => n >= Number(screen().dataset.turns)).forEach(n => kept.delete(n));
  liveAt = Date.now();
  serverAt = Number(screen().dataset.at);
  if (screen().dataset.build !== build || liveAt - startedAt > RELOAD_AFTER_MS) {
    location.reload();
  }
}

async function goOn() {
  const next = (turn + 1) % Math.max(1, Number(screen().dataset.turns));
  try {
    await fetchTurn(next);
  } catch {
    // Out of reach: what was fetched before goes on turning, and says that it is old.
    if (kept.has(next)) {
      put(kept.get(next));
    } else {
      turn = next;
    }
  }

  tick();
  setTimeout(goOn, TURN_MS);
}

function tick() {
  const now = serverAt + Date.now() - liveAt;
  const age = Date.now() - liveAt;
  const isStale = age > STALE_AFTER_MS;
  screen().querySelector('.clock').textContent = time(now);
  document.body.classList.toggle('is-stale', isStale);
  const band = document.getElementById('stale');
  const text = isStale ? say(stale, time(serverAt), Math.floor(age / 60_000)) : '';
  if (band.textContent !== text) {
    band.textContent = text;
  }

  band.hidden = !isStale;
  document.getElementById('age').textContent = say(live, Math.floor(age / 1_000));
}

turn = Number(screen().dataset.turn);
kept.set(turn, screen().outerHTML);
tick();
setInterval(tick, 1_000);
setTimeout(goOn, TURN_MS);
