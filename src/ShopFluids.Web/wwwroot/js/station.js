// The door of a shared tablet: big digits for the PIN, and a word to the server about what waits on the tablet.

import { reporting } from './contact.js';

const box = document.getElementById('pin-box');
const pad = document.getElementById('pinpad');

if (box && pad) {
  pad.hidden = false;

  // The pad stands on the page: the system's own would cover it. Keys of a keyboard still type.
  box.inputMode = 'none';
  pad.addEventListener('click', event => {
    const key = event.target.closest('button');
    if (!key) {
      return;
    }

    box.value = 'clear' in key.dataset ? '' : 'back' in key.dataset ? box.value.slice(0, -1) : (box.value + key.dataset.digit).slice(0, box.maxLength);
    if ('digit' in key.dataset && box.value.length === box.maxLength) {
      box.form.requestSubmit();
    }
  });

  // One press, one try: the second press of a hurried finger would count as another.
  box.form.addEventListener('submit', event => {
    if (box.form.ariaBusy === 'true') {
      event.preventDefault();
    }

    box.form.ariaBusy = 'true';
  });
  addEventListener('pageshow', () => { box.form.ariaBusy = 'false'; });
}

reporting(document.body.dataset.contact);
