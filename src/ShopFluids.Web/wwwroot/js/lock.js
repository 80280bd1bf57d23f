// A shared tablet that nobody touches locks itself, and one tap hands it to somebody else. What was typed is kept for its person.

const LOOK_EVERY_MS = 1_000;
const TRY_AGAIN_MS = 15_000;
const ANSWER_WITHIN_MS = 4_000;
const TOUCHES = ['pointerdown', 'keydown', 'input', 'wheel', 'touchmove'];

/** @returns whether somebody touched the tablet after a moment. */
export function locking({ lockAfter, lock, door }) {
  const veil = document.getElementById('locked');
  let touchedAt = Date.now();
  let triedAt = 0;

  async function leave() {
    if (Date.now() - triedAt < TRY_AGAIN_MS) {
      return;
    }

    triedAt = Date.now();
    try {
      const answer = await fetch(lock, { method: 'POST', headers: { 'X-ShopFluids': '1' }, signal: AbortSignal.timeout(ANSWER_WITHIN_MS) });
      if (!answer.ok) {
        throw new Error(`Answered ${answer.status}`);
      }

      location.replace(`${door}?returnUrl=${encodeURIComponent(location.pathname + location.search)}`);
    } catch {
      // Without the server nobody can be asked for a PIN, and readings must go on: the page asks who is there.
      show(true);
    }
  }

  function show(isLocked) {
    const wasLocked = !veil.hidden;
    veil.hidden = !isLocked;
    document.body.classList.toggle('is-locked', isLocked);
    if (isLocked && !wasLocked) {
      veil.querySelector('h2').focus();
    }
  }

  const look = () => Date.now() - touchedAt >= Number(lockAfter) && leave();

  // The first touch after a long sleep comes before any clock of the page has struck.
  function touch() {
    if (lockAfter && Date.now() - touchedAt >= Number(lockAfter)) {
      leave();
    } else {
      touchedAt = Date.now();
    }
  }

  TOUCHES.forEach(kind => addEventListener(kind, touch, { passive: true, capture: true }));
  if (lockAfter) {
    document.getElementById('switch').addEventListener('submit', event => {
      event.preventDefault();
      triedAt = 0;
      leave();
    });
    document.getElementById('unlock').addEventListener('click', () => {
      touchedAt = Date.now();
      show(false);
    });
    setInterval(look, LOOK_EVERY_MS);
    document.addEventListener('visibilitychange', look);

    // A page that the browser kept whole may be of somebody who has left.
    addEventListener('pageshow', event => event.persisted && location.reload());
  }

  return since => touchedAt > since;
}
