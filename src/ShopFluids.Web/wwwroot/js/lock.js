// A shared tablet that nobody touches locks itself, and one tap hands it to somebody else. What was typed is kept for its person.

const LOOK_EVERY_MS = 1_000;
const TRY_AGAIN_MS = 15_000;
const ANSWER_WITHIN_MS = 4_000;
const TOUCHED = 'shopfluids.touched';
const TOUCHES = ['pointerdown', 'keydown', 'input', 'wheel', 'touchmove'];

/** @returns whether somebody touched the tablet after a moment. */
export function locking({ lockAfter, lock, door }) {
  const veil = document.getElementById('locked');
  let touchedAt = 0;
  let triedAt = 0;

  // Every label that is scanned opens a tab of its own: they are one tablet, and a touch of one is a touch of all.
  function touched() {
    touchedAt = Date.now();
    try {
      localStorage.setItem(TOUCHED, touchedAt);
    } catch {
      // This tab alone.
    }
  }

  function touchedLast() {
    try {
      return Math.max(touchedAt, Number(localStorage.getItem(TOUCHED)) || 0);
    } catch {
      return touchedAt;
    }
  }

  async function leave(isAsked, otherwise = () => show(true)) {
    if (!isAsked && Date.now() - triedAt < TRY_AGAIN_MS) {
      return;
    }

    triedAt = Date.now();
    const began = touchedAt;
    const wentOn = () => !isAsked && touchedAt !== began;
    try {
      const answer = await fetch(lock, { method: 'POST', headers: { 'X-ShopFluids': '1' }, signal: AbortSignal.timeout(ANSWER_WITHIN_MS) });
      if (!answer.ok) {
        throw new Error(`Answered ${answer.status}`);
      }

      if (wentOn()) {
        location.reload();
        return;
      }

      location.replace(`${door}?returnUrl=${encodeURIComponent(location.pathname + location.search)}`);
    } catch {
      // Without the server nobody can be asked for a PIN, and readings must go on: the page asks who is there.
      if (!wentOn()) {
        otherwise();
      }
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

  const isIdle = () => Date.now() - touchedLast() >= Number(lockAfter);
  const look = () => isIdle() && leave(false);

  // The first touch after a long sleep comes before any clock of the page has struck.
  function touch() {
    if (lockAfter && isIdle()) {
      leave(false);
    } else {
      touched();
    }
  }

  touched();
  TOUCHES.forEach(kind => addEventListener(kind, touch, { passive: true, capture: true }));
  if (lockAfter) {
    document.getElementById('switch').addEventListener('submit', event => {
      event.preventDefault();
      leave(true);
    });
    // With the server there again, a PIN is asked for.
    const unlock = document.getElementById('unlock');
    unlock.addEventListener('click', async () => {
      unlock.disabled = true;
      await leave(true, () => {
        touched();
        show(false);
      });
      unlock.disabled = false;
    });
    setInterval(look, LOOK_EVERY_MS);
    document.addEventListener('visibilitychange', look);

    // A page that the browser kept whole may be of somebody who has left.
    addEventListener('pageshow', event => event.persisted && location.reload());
  }

  return since => touchedAt > since;
}
