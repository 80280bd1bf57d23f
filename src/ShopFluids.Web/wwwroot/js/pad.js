// Our own number pad, for gloves: big keys at the bottom edge in place of the system's keyboard. Only where somebody switched it on.

const KEY = 'shopfluids.pad';
// What lies folded is laid out all the same.
const isOpen = control => control.offsetParent && !control.closest('details:not([open])');
const boxesOf = form => [...form.querySelectorAll('input[data-parameter]')].filter(isOpen);
// Boxes and pickers as they stand on the page, of each picker one; what is due is not passed by.
const stopsOf = form => [...form.querySelectorAll('input[data-parameter], #fine, .obs input[type=radio]')].filter(isOpen)
  .filter((stop, at, all) => stop.type !== 'radio' || all.findIndex(other => other.name === stop.name) === at);
let at = null;

const kept = () => {
  try {
    return localStorage.getItem(KEY) === '1';
  } catch {
    return false;
  }
};

function keep(isOn) {
  try {
    localStorage.setItem(KEY, isOn ? '1' : '0');
  } catch {
    // Then it is on for this page only.
  }
}

// No further digit can follow: the scale shows no more decimals, or it would lie beyond what is accepted.
function isFull(box) {
  const [whole, decimals] = box.value.split(/[.,]/);
  const scale = Number(box.dataset.decimals);
  const way = box.form.elements[box.name.replace('value-', 'way-')]?.value ?? box.dataset.way;
  if (way !== box.dataset.way) {
    return false;
  }

  return decimals !== undefined ? decimals.length >= scale && scale > 0 : scale === 0 && box.dataset.most && Number(whole) * 10 > Number(box.dataset.most);
}

// What follows, of whatever radio of a picker the cursor is on; nothing of what is no stop.
function stopsAfter(form, from) {
  const stops = stopsOf(form);
  const here = stops.findIndex(stop => stop === from || (stop.type === 'radio' && stop.name === from.name));
  return here < 0 ? [] : stops.slice(here + 1);
}

function press(form, key) {
  const here = document.activeElement;
  const after = stopsAfter(form, here);
  // What is typed is meant for the next box where the cursor stands on a picker, unless that box is filled in; what is taken back, for the box before.
  const following = here === at || key === 'clear' || key === 'back' ? null : after.find(stop => stop.dataset.parameter);
  const box = (following?.value ? null : following) ?? at ?? boxesOf(form)[0];
  if (!box) {
    return;
  }

  if (key === 'next') {
    (after[0] ?? box).focus();
    return;
  }

  box.focus();
  if (key === 'clear') {
    box.value = '';
  } else if (key === 'back') {
    box.value = box.value.slice(0, -1);
  } else if (box.value.length < box.maxLength) {
    box.value += key;
  }

  box.dispatchEvent(new Event('input', { bubbles: true }));
  if (/\d/.test(key) && isFull(box)) {
    (stopsAfter(form, box)[0] ?? box).focus();
  }
}

function turn(form, isOn) {
  const pad = document.getElementById('pad');
  pad.hidden = !isOn;
  document.body.classList.toggle('padded', isOn);
  document.getElementById('pad-switch').setAttribute('aria-pressed', String(isOn));
  form.querySelectorAll('input[data-parameter]').forEach(box => { box.inputMode = isOn ? 'none' : 'decimal'; });
  // Whoever must know something before they go there reads that first.
  if (isOn && 'fresh' in form.dataset && !form.querySelector('.keep, section.state')) {
    boxesOf(form)[0]?.focus();
  }
}

export function install(form) {
  const [pad, button] = ['pad', 'pad-switch'].map(id => document.getElementById(id));
  form.addEventListener('focusin', event => {
    at = event.target.matches('input[data-parameter]') ? event.target : at;
    if (at === event.target && !pad.hidden) {
      at.closest('.par').scrollIntoView({ block: 'nearest' });
    }
  });
  // Enter goes on to the next box or picker; from the last one it saves, as forms do.
  form.addEventListener('keydown', event => {
    // A key that is held down goes one step, and neither answers nor saves.
    if (event.key === 'Enter' && event.repeat && !event.target.matches('textarea')) {
      event.preventDefault();
      return;
    }

    if (event.key === 'Enter' && event.target.matches('input[data-parameter], input[type=radio]')) {
      // Not at the one press for all of them: a second Enter would answer what nobody looked at.
      const following = stopsAfter(form, event.target).find(stop => stop.id !== 'fine');
      if (following) {
        event.preventDefault();
        following.focus();
      }
    }
  });
  const fine = document.getElementById('fine');
  if (fine) {
    fine.hidden = false;
    fine.addEventListener('click', () => {
      // What is folded away is not due, and was not looked at; what was noticed stays noticed.
      form.querySelectorAll('input[data-none]').forEach(radio => { radio.checked ||= !radio.closest('details') && !form.elements[radio.name].value; });
      form.dispatchEvent(new Event('input', { bubbles: true }));
      document.querySelector('.foot button').focus();
    });
  }

  pad.addEventListener('pointerdown', event => event.preventDefault());
  pad.addEventListener('click', event => {
    const key = event.target.closest('button')?.dataset.key;
    if (key) {
      press(form, key);
    }
  });
  button.hidden = false;
  button.addEventListener('click', () => {
    keep(pad.hidden);
    turn(form, pad.hidden);
  });
  turn(form, kept());
}
