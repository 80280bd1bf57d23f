// What is typed into an entry page, kept at every keystroke until the server has it or the person throws it away.

const FORGET_AFTER_MS = 86_400_000;
const TOKEN = '__RequestVerificationToken';
const NOT_TYPED = new Set([TOKEN, 'id', 'savedAt', 'sentAt']);

const keyOf = (person, tag) => `shopfluids.draft.${person}.${tag}`;

/** The form's fields as they would be sent, without its token and its photo. */
export function fieldsOf(form, submitter) {
  return [...new FormData(form, submitter)].filter(([name, value]) => typeof value === 'string' && name !== TOKEN && name !== 'savedAt' && name !== 'sentAt');
}

export function isTyped(form) {
  return [...form.querySelectorAll('input[name^="value-"], textarea')].some(box => box.type === 'radio' ? box.checked && box.value !== '' : box.value.trim() !== '') || form.elements.photo?.files.length > 0;
}

export function write(form, person, tag) {
  try {
    if (isTyped(form)) {
      localStorage.setItem(keyOf(person, tag), JSON.stringify({ at: Date.now(), fields: fieldsOf(form) }));
    } else {
      localStorage.removeItem(keyOf(person, tag));
    }
  } catch {
    // A browser that keeps nothing still sends the form.
  }
}

export function read(person, tag) {
  try {
    return JSON.parse(localStorage.getItem(keyOf(person, tag)));
  } catch {
    return null;
  }
}

export function discard(person, tag) {
  try {
    localStorage.removeItem(keyOf(person, tag));
  } catch {
    // Nothing was kept.
  }
}

/** Takes away every draft of a reading that the server has. */
export function discardStored(id) {
  try {
    for (const key of Object.keys(localStorage).filter(k => k.startsWith('shopfluids.draft.'))) {
      if (JSON.parse(localStorage.getItem(key)).fields.some(([name, value]) => name === 'id' && value === id)) {
        localStorage.removeItem(key);
      }
    }
  } catch {
    // Nothing was kept.
  }
}

const formKey = (person, form) => `shopfluids.form.${person}.${form.dataset.draft ?? form.getAttribute('action')}`;

export function discardForm(person, form) {
  try {
    localStorage.removeItem(formKey(person, form));
  } catch {
    // Nothing was kept.
  }
}

/** What is typed into the other forms of a page, for a day: a tablet may lock while its person goes to pour. */
export function keepOthers(person, entry) {
  for (const form of [...document.querySelectorAll('main form[method="post"]')].filter(f => f !== entry)) {
    const key = formKey(person, form);
    try {
      const kept = JSON.parse(localStorage.getItem(key));
      if (kept && Date.now() - kept.at < FORGET_AFTER_MS) {
        fill(form, kept.fields);
      }
    } catch {
      // Nothing was kept.
    }

    form.addEventListener('input', () => {
      try {
        const hidden = new Set([...form.querySelectorAll('input[type="hidden"]')].map(box => box.name));
        localStorage.setItem(key, JSON.stringify({ at: Date.now(), fields: fieldsOf(form).filter(([name]) => !hidden.has(name)) }));
      } catch {
        // A browser that keeps nothing still sends the form.
      }
    });
    // What goes through the outbox is kept until it is there.
    form.addEventListener('submit', () => 'waits' in form.dataset || discardForm(person, form));
  }
}

/** Puts fields back into a form and unfolds what holds any of them. */
export function fill(form, fields) {
  for (const [name, value] of fields) {
    const boxes = [...form.querySelectorAll(`[name="${CSS.escape(name)}"]`)];
    if (name === 'confirm' && !boxes.some(box => box.value === value)) {
      form.append(Object.assign(document.createElement('input'), { type: 'hidden', name, value }));
    }

    for (const box of boxes) {
      if (box.type === 'radio') {
        box.checked = box.value === value;
      } else if (name !== 'confirm') {
        box.value = value;
      }
    }

    if (value !== '' && !NOT_TYPED.has(name)) {
      boxes.filter(box => box.type !== 'radio' || box.checked).forEach(box => box.closest('details')?.setAttribute('open', ''));
    }
  }
}

/** A new id, version 7 of RFC 9562: also where no secure connection offers one. */
export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  const now = Date.now();
  for (let i = 0; i < 6; i++) {
    bytes[i] = Math.floor(now / 2 ** (8 * (5 - i))) % 256;
  }

  bytes[6] = 0x70 | (bytes[6] & 0x0f);
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const hex = [...bytes].map(b => b.toString(16).padStart(2, '0')).join('');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
