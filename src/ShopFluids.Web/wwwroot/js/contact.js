// Tells the server how this tablet fares: what waits on it, since when, and what its clock shows.

import { all } from './outbox.js';

const EVERY_MS = 60_000;
const ACTIVE_EVERY_MS = 20_000;
const ANSWER_WITHIN_MS = 8_000;

async function report(address, isActive) {
  try {
    const items = await all();
    const now = Date.now();
    await fetch(address, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', 'X-ShopFluids': '1', ...(isActive ? { 'X-ShopFluids-Active': '1' } : {}) },
      body: JSON.stringify({ unsent: items.length, oldestAgeMs: items.length > 0 ? Math.round(now - items[0].savedAt) : null, nowMs: now }),
      signal: AbortSignal.timeout(ANSWER_WITHIN_MS),
    });
  } catch {
    // No way to the server: the next report tells the same.
  }
}

/** At once, then every minute, and sooner while somebody touches the tablet: their sign-in lasts as long as they do. */
export function reporting(address, touched = () => false) {
  if (!address) {
    return;
  }

  let last = Date.now();
  report(address, false);
  setInterval(() => {
    const isActive = touched(last);
    if (isActive || Date.now() - last >= EVERY_MS) {
      last = Date.now();
      report(address, isActive);
    }
  }, ACTIVE_EVERY_MS);
}
