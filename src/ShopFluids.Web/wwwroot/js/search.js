// The list under the search box of the desk. The box is drawn anew by the circuit now and then: hence every listener sits on the document.

const AFTER_MS = 150;
const ANSWER_WITHIN_MS = 4_000;
let timer = 0;
let asking = null;

const box = () => document.getElementById('seek');
const list = () => document.getElementById('seek-list');
const options = () => [...list().querySelectorAll('[role=option]')];
const isTyping = target => target.closest('input, textarea, select, [contenteditable], [role=dialog]') !== null;

function close() {
  clearTimeout(timer);
  asking?.abort();
  list().hidden = true;
  document.getElementById('seek-none').hidden = true;
  box().ariaExpanded = 'false';
  box().removeAttribute('aria-activedescendant');
}

function say(text, isAlone) {
  document.getElementById('seek-said').textContent = text;
  const none = document.getElementById('seek-none');
  none.textContent = text;
  none.hidden = !isAlone;
}

async function ask() {
  const text = box().value.trim();
  asking?.abort();
  if (text === '') {
    close();
    say('', false);
    return;
  }

  const mine = new AbortController();
  asking = mine;
  try {
    const answer = await fetch(`search/list?q=${encodeURIComponent(text)}`, { signal: AbortSignal.any([mine.signal, AbortSignal.timeout(ANSWER_WITHIN_MS)]) });
    if (!answer.ok || answer.redirected) {
      throw new Error(`Answered ${answer.status}`);
    }

    const found = new DOMParser().parseFromString(await answer.text(), 'text/html').querySelector('[data-said]');
    if (mine === asking && document.activeElement === box()) {
      show(found);
    }
  } catch {
    // Somebody typed on, or the server is out of reach: Enter leads to the page.
    if (mine === asking && !mine.signal.aborted) {
      close();
      say(box().dataset.failed, true);
    }
  }
}

function show(found) {
  const isEmpty = found.children.length === 0;
  box().removeAttribute('aria-activedescendant');
  list().replaceChildren(...found.children);
  list().hidden = isEmpty;
  list().scrollTop = 0;
  box().ariaExpanded = String(!isEmpty);
  say(found.dataset.said, isEmpty);
}

function choose(step) {
  const all = options();
  const now = all.findIndex(o => o.ariaSelected === 'true');
  const next = all[(now + step + all.length + (now < 0 && step < 0 ? 1 : 0)) % all.length];
  all.forEach(o => { o.ariaSelected = String(o === next); });
  box().setAttribute('aria-activedescendant', next.id);
  next.scrollIntoView({ block: 'nearest' });
}

function press(event) {
  const isOpen = !list().hidden;
  if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
    event.preventDefault();
    if (isOpen) {
      choose(event.key === 'ArrowDown' ? 1 : -1);
    } else {
      ask();
    }
  } else if (event.key === 'Enter') {
    const chosen = isOpen && options().find(o => o.ariaSelected === 'true');
    if (chosen) {
      event.preventDefault();
      chosen.click();
    }
  } else if (event.key === 'Escape') {
    event.preventDefault();
    if (isOpen || !document.getElementById('seek-none').hidden) {
      close();
    } else {
      box().value = '';
    }
  }
}

document.addEventListener('keydown', event => {
  if (!box()) {
    return;
  }

  if (event.target === box()) {
    press(event);
  } else if (event.key === '/' && !event.ctrlKey && !event.metaKey && !event.altKey && !isTyping(event.target)) {
    event.preventDefault();
    box().focus();
    box().select();
  }
});
document.addEventListener('input', event => {
  if (event.target.id === 'seek') {
    clearTimeout(timer);
    timer = setTimeout(ask, AFTER_MS);
  }
});
document.addEventListener('focusout', event => event.target.id === 'seek' && close());

// The box keeps the cursor while an option is pressed; the press itself is the link's.
document.addEventListener('pointerdown', event => event.target.closest('#seek-list') && event.preventDefault());
document.addEventListener('mousedown', event => event.target.closest('#seek-list') && event.preventDefault());
document.addEventListener('click', event => {
  if (event.target.closest('#seek-list [role=option]')) {
    box().value = '';
    box().blur();
  }
});
