// A short tone and a tremble when a reading is stored, two lower ones when it is beyond a limit: for gloves and noise. Off until
// somebody switches it on for this tablet.

const KEY = 'shopfluids.signal';
const AWAITED = 'shopfluids.awaited';
const STORED = { hertz: 880, tremble: [80], times: 1 };
const WARNING = { hertz: 440, tremble: [200, 100, 200], times: 2 };
const TONE_S = 0.15;
const APART_S = 0.3;

function kept() {
  try {
    return localStorage.getItem(KEY) === '1';
  } catch {
    return false;
  }
}

function keep(isOn) {
  try {
    localStorage.setItem(KEY, isOn ? '1' : '0');
  } catch {
    // Then it is not kept.
  }
}

function sound({ hertz, times }) {
  if (!globalThis.AudioContext) {
    return;
  }

  const audio = new AudioContext();
  for (let n = 0; n < times; n++) {
    const tone = audio.createOscillator();
    tone.frequency.value = hertz;
    tone.connect(audio.destination);
    tone.start(audio.currentTime + n * APART_S);
    tone.stop(audio.currentTime + n * APART_S + TONE_S);
    tone.onended = n === times - 1 ? () => audio.close() : null;
  }
}

export function give(isWarning) {
  if (kept()) {
    const kind = isWarning ? WARNING : STORED;
    navigator.vibrate?.(kind.tremble);
    sound(kind);
  }
}

/** The page after saving tells what became of it; opened again, it is silent. */
export function awaitStored(id) {
  try {
    sessionStorage.setItem(AWAITED, id);
  } catch {
    // Then it is silent.
  }
}

export function giveIfAwaited(id, isWarning) {
  try {
    if (sessionStorage.getItem(AWAITED) === id) {
      sessionStorage.removeItem(AWAITED);
      give(isWarning);
    }
  } catch {
    // Nothing was awaited.
  }
}

/** The button that switches it, if the page has one. */
export function install() {
  const button = document.getElementById('signal-switch');
  if (!button) {
    return;
  }

  const show = () => button.setAttribute('aria-pressed', String(kept()));
  show();
  button.hidden = false;
  button.addEventListener('click', () => {
    keep(!kept());
    show();
    give(false);
  });
}
