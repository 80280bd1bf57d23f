// The order of the walk as the round last showed it, for whoever goes on without a connection.

const KEY = 'shopfluids.route';
const A_SHIFT_MS = 43_200_000;

/** On the round: what is due, in its order. */
export function keep(at) {
  if (!location.pathname.endsWith('/round') || location.search) {
    return;
  }

  try {
    localStorage.setItem(KEY, JSON.stringify({ at: Number(at), stops: [...document.querySelectorAll('a[data-due]')].map(a => ({ tag: a.dataset.tag, href: a.href })) }));
  } catch {
    // A browser that keeps nothing leads back to the round.
  }
}

/** What was stored is not to be read any more. */
export function drop(pages) {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY));
    localStorage.setItem(KEY, JSON.stringify({ ...kept, stops: kept.stops.filter(s => !pages.includes(new URL(s.href).pathname)) }));
  } catch {
    // No round was shown yet.
  }
}

/** The sump after one of these that is still to be read; undefined where that is not known or none is left. */
export function after(tags, done) {
  try {
    const { at, stops } = JSON.parse(localStorage.getItem(KEY));
    const here = stops.findIndex(s => tags.includes(s.tag));
    return Date.now() - at < A_SHIFT_MS ? [...stops.slice(here + 1), ...stops.slice(0, Math.max(here, 0))].find(s => !done.includes(s.tag)) : undefined;
  } catch {
    return undefined;
  }
}
