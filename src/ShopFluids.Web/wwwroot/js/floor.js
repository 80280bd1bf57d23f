// The small forms of the shop floor (passing sumps by, dip slides) go through the tablet's own store, as readings do.

import * as draft from './draft.js';
import * as outbox from './outbox.js';

const forms = () => [...document.querySelectorAll('main form[data-waits]')];
const native = new WeakSet();

const sumpsOf = form => [...form.querySelectorAll('input[name="sump"]')];
const tagsOf = form => form.dataset.tag ? [form.dataset.tag] : sumpsOf(form).map(box => box.value);

function submit(form, submitter) {
  native.add(form);
  form.requestSubmit(submitter);
}

function stamp(form) {
  if (form.elements.savedAt.value) {
    form.elements.sentAt.value = Date.now();
  }
}

// Another reason has to be said in words.
function askForWords(form) {
  const words = form.elements.words;
  if (words) {
    words.required = [...form.querySelectorAll('[data-words]')].some(radio => radio.checked);
  }
}

function setSumps(form, tags) {
  const [first, ...rest] = sumpsOf(form);
  rest.forEach(box => box.remove());
  first?.remove();
  form.append(...tags.map(value => Object.assign(document.createElement('input'), { type: 'hidden', name: 'sump', value })));
  document.querySelectorAll('main a[data-stop]').forEach(row => { row.hidden = !tags.includes(row.dataset.tag); });
}

// Out of the tablet's store comes the page of all that are left: of it, only the one that was asked for is meant.
function narrow(form, say) {
  const tag = new URLSearchParams(location.search).get('sump');
  if (!tag || !form.elements.finish || !location.pathname.endsWith('/round/skip')) {
    return;
  }

  form.elements.finish.remove();
  setSumps(form, [tag]);
  form.dataset.page = form.dataset.draft = location.pathname + `?sump=${encodeURIComponent(tag)}`;
  document.querySelectorAll('[data-why]:not(form)').forEach(line => { line.textContent = form.dataset.why; });
  document.title = say(form.dataset.one, tag);
  document.querySelector('h1').textContent = document.querySelector('.foot button').textContent = document.title;
}

async function save(event, page) {
  const form = event.target;
  if (native.has(form)) {
    draft.discardForm(page.person, form);
    stamp(form);
    return;
  }

  event.preventDefault();
  if (form.ariaBusy === 'true') {
    return;
  }

  const tags = tagsOf(form);
  const item = {
    id: form.elements.id.value, kind: form.dataset.waits, tags, tag: tags.join(', '), page: form.dataset.page, action: form.action, person: page.person, name: document.body.dataset.name,
    fields: draft.fieldsOf(form, event.submitter), savedAt: Number(form.elements.savedAt.value) || Date.now(),
  };
  const isWhole = form.checkValidity();
  form.ariaBusy = 'true';
  try {
    await (isWhole && outbox.keep(item));
  } catch {
    submit(form, event.submitter);
    return;
  }

  const answer = await outbox.send(item);
  if (answer.is === 'stored') {
    await outbox.remove(item.id);
    draft.discardForm(page.person, form);
    location.assign(answer.location);
  } else if (answer.is === 'later' && isWhole) {
    draft.discardForm(page.person, form);
    document.querySelectorAll('main > :not(#kept), .foot').forEach(part => { part.hidden = true; });
    await page.showKept(page.say(page.words.keptEntry, item.tag, page.clock(item.savedAt)), item.kind === 'skip' ? tags : null);
    await page.wait();
  } else if (answer.is === 'later') {
    // Out of reach of the server the page says by itself what is missing.
    form.ariaBusy = 'false';
    form.querySelector('#missing').hidden = false;
  } else {
    // The server shows what it asks or refuses, with everything that was typed.
    await outbox.remove(item.id);
    submit(form, event.submitter);
  }
}

async function restore(page) {
  const asked = new URLSearchParams(location.search).get('reading');
  const refused = asked && await outbox.find(asked);
  const form = refused && forms().find(f => 'fresh' in f.dataset && f.action === refused.action);
  if (!form) {
    return;
  }

  const hidden = new Set([...form.querySelectorAll('input[type="hidden"]')].map(box => box.name));
  if (form.elements.sump) {
    setSumps(form, refused.tags);
  }

  draft.fill(form, refused.fields.filter(([name]) => !hidden.has(name)));
  form.elements.id.value = refused.id;
  form.elements.savedAt.value = refused.savedAt;
  form.hidden = false;
  askForWords(form);
  page.reveal('restored', page.say(page.words.refusedEntryHere, page.clock(refused.savedAt), refused.why || page.words.saveAgain));
  document.getElementById('discard').addEventListener('click', async () => {
    await outbox.remove(refused.id);
    location.assign(form.dataset.page);
  });
}

/** @param page what the forms need to know and to say: person, words, say, clock, reveal, showKept, wait. */
export async function install(page) {
  for (const form of forms()) {
    // A page out of the tablet's own store may have an id that is used up.
    if ('fresh' in form.dataset) {
      form.elements.id.value = draft.newId();
    }

    narrow(form, page.say);
    if ('fresh' in form.dataset && form.elements.finish && !location.search) {
      const said = await outbox.saidOf();
      const left = tagsOf(form).filter(tag => !said.includes(tag));
      if (left.length === 0) {
        // As the server does when nothing is left.
        location.replace(document.querySelector('.back').href);
        return;
      }

      setSumps(form, left);
    }

    form.addEventListener('submit', event => save(event, page));
    form.addEventListener('change', () => askForWords(form));
    if (form.dataset.from && Date.now() >= Number(form.dataset.from)) {
      form.hidden = false;
    }
  }

  draft.keepOthers(page.person, document.getElementById('entry'));
  forms().forEach(askForWords);
  await restore(page);
}
