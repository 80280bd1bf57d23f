// The shop floor's pages where the Wi-Fi does not reach: what is typed is kept, what is saved is sent once there is a way. The
// pages work without this file; with it, nothing typed is lost.

import * as draft from './draft.js';
import * as floor from './floor.js';
import * as level from './level.js';
import * as live from './live.js';
import * as outbox from './outbox.js';
import * as pad from './pad.js';
import * as photo from './photo.js';
import * as route from './route.js';
import * as signal from './signal.js';
import { reporting } from './contact.js';
import { locking } from './lock.js';

const EVERY_MS = 15_000;
const STALE_AFTER_MS = 180_000;
const { person, stored } = document.body.dataset;
let { at } = document.body.dataset;
const words = document.getElementById('words')?.dataset ?? {};
const form = document.getElementById('entry');
let isNative = false;
let isOffline = false;

const clock = ms => new Date(ms).toLocaleTimeString(document.documentElement.lang, { hour: '2-digit', minute: '2-digit', hour12: false });
const say = (pattern, ...values) => (pattern ?? '').replace(/\{(\d)\}/g, (_, n) => values[n]);

async function send(isUrgent) {
  const sent = await outbox.sendWaiting(person, isUrgent);
  if (sent) {
    isOffline = sent.is === 'later' || (sent.is === 'sent' && !navigator.onLine);
  }

  await draw(sent?.is === 'signIn');
  if (sent?.stored.length > 0) {
    renew(sent.stored);

    if (document.querySelector('a[data-stop]') && !document.querySelector('main form')) {
      await drawRound();
    }
  }
}

// The round was drawn before what it tells of was sent. The page stays: a finger may be on its way to a link.
async function drawRound() {
  try {
    const answer = await fetch(location.href);
    if (!answer.ok || answer.redirected) {
      return;
    }

    const now = new DOMParser().parseFromString(await answer.text(), 'text/html');
    if (now.body.dataset.person !== person) {
      return;
    }

    for (const part of ['main', '.foot', '.link.live']) {
      document.querySelector(part).replaceWith(now.querySelector(part));
    }

    at = document.body.dataset.at = now.body.dataset.at;
    route.keep(at);
    await draw(false);
  } catch {
    // Out of reach again: it says how old it is.
  }
}

// What the tablet keeps of these pages is not how it stands any more.
function renew(pages) {
  route.drop(pages);
  navigator.serviceWorker?.controller?.postMessage({ renew: pages });
}

// How old this page is, what waits on the tablet, and what the server would not take.
async function draw(mustSignIn) {
  const strip = document.getElementById('link');
  const items = await outbox.all();
  const waiting = items.filter(i => !i.isRefused);
  const foreign = waiting.filter(i => i.person !== person);
  const isStale = at && Date.now() - at > STALE_AFTER_MS;
  const lines = [];
  if (waiting.length > 0) {
    const areReadings = waiting.every(i => !i.kind);
    lines.push(waiting.length === 1 ? areReadings ? words.oneWaits : words.oneEntryWaits : say(areReadings ? words.waiting : words.entriesWait, waiting.length));
    lines.push(mustSignIn ? words.signIn : foreign.length > 0 ? say(words.foreign, foreign[0].name) : words.bySelf);
  }

  // One strip tells of the connection, not two.
  document.body.classList.toggle('alone', Boolean(at) && (isOffline || !navigator.onLine));
  if (at && (isOffline || !navigator.onLine || isStale)) {
    lines.push(say(words.stale, clock(Number(at))));
  } else if (!navigator.onLine) {
    lines.push(words.offline);
  }

  const text = strip?.querySelector('[data-text]');
  if (text && text.textContent !== lines.join(' ')) {
    text.textContent = lines.join(' ');
  }

  if (strip) {
    strip.hidden = lines.length === 0;
  }

  drawRefused(items.filter(i => i.isRefused && i.person === person));
  drawStops(waiting);
}

// A sump of the round of which something waits says so: the page itself may be older.
function drawStops(waiting) {
  for (const row of document.querySelectorAll('a[data-stop]')) {
    row.querySelector('[data-here]')?.remove();
    const item = waiting.findLast(i => (i.tags ?? [i.tag]).includes(row.dataset.tag));
    if (item) {
      const mark = Object.assign(document.createElement('b'), { textContent: say(words.here, clock(item.savedAt)) });
      mark.dataset.here = '';
      row.querySelector('.rt').append(mark);
    }
  }
}

function drawRefused(items) {
  const list = document.getElementById('refused');
  if (!list) {
    return;
  }

  // A button that was pressed once must not forget it.
  const shown = items.map(i => i.id).join();
  if (list.dataset.shown === shown) {
    return;
  }

  list.dataset.shown = shown;
  list.hidden = items.length === 0;
  list.querySelector('ul').replaceChildren(...items.map(item => {
    const link = document.createElement('a');
    link.href = `${item.page}${item.page.includes('?') ? '&' : '?'}reading=${item.id}`;
    link.append(Object.assign(document.createElement('span'), { textContent: say(words.refused, item.tag, clock(item.savedAt)) }));
    if (item.why) {
      link.append(Object.assign(document.createElement('small'), { textContent: item.why }));
    }

    const row = document.createElement('li');
    row.append(link, discardButton(item));
    return row;
  }));
}

// Its page may be gone, as of a sump that was retired meanwhile. A second press makes sure.
function discardButton(item) {
  const button = Object.assign(document.createElement('button'), { type: 'button', className: 'btn', textContent: words.discard });
  button.addEventListener('click', async () => {
    if ('sure' in button.dataset) {
      await outbox.remove(item.id);
      await draw(false);
    } else {
      button.dataset.sure = '';
      button.textContent = words.discardSure;
    }
  });
  return button;
}

// Safe on the tablet: from there it goes on to the next sump, as after storing.
async function showKept(text, tags) {
  reveal('kept', text);
  const next = document.getElementById('kept-next');
  const stop = tags && route.after(tags, [...await outbox.saidOf(), ...tags]);
  if (stop) {
    next.href = stop.href;
    next.textContent = say(next.dataset.text, stop.tag);
    next.hidden = false;
    next.nextElementSibling.classList.remove('pri');
  }

  document.getElementById('kept').querySelector('h2').focus();
}

function reveal(id, text) {
  const block = document.getElementById(id);
  if (text) {
    block.querySelector('[data-text]').textContent = text;
  }

  block.hidden = false;
}

// Answers the photo of a reading that was refused. A page out of the tablet's own store carries the id of a reading that may be stored already: every reading begins with its own.
async function restore() {
  if (!('fresh' in form.dataset)) {
    return null;
  }

  form.elements.id.value = draft.newId();
  const asked = new URLSearchParams(location.search).get('reading');
  const refused = asked && await outbox.find(asked);
  if (refused) {
    draft.fill(form, refused.fields);
    form.elements.savedAt.value = refused.savedAt;
    reveal('restored', say(words.refusedHere, clock(refused.savedAt), refused.why || words.saveAgain));
  }

  const kept = draft.read(person, form.dataset.tag);
  const keptId = kept?.fields.find(([name]) => name === 'id')?.[1] ?? '';
  if (!kept || (refused && keptId !== refused.id)) {
    return refused?.photo;
  }

  const waiting = await outbox.find(keptId);
  if (waiting && !waiting.isRefused) {
    // It was saved already and waits on this tablet.
    draft.discard(person, form.dataset.tag);
    return null;
  }

  // What was typed to put a refused reading right is newer than what was refused.
  draft.fill(form, kept.fields);
  form.elements.savedAt.value = waiting?.savedAt ?? '';
  if (!refused) {
    reveal('restored', say(words.restored, clock(kept.at)));
  }

  return waiting?.photo;
}

async function save(event) {
  if (isNative || event.submitter?.name === 'again') {
    stamp();
    return;
  }

  event.preventDefault();
  if (form.ariaBusy === 'true') {
    return;
  }

  signal.awaitStored(form.elements.id.value);
  const savedAt = Number(form.elements.savedAt.value) || Date.now();
  const item = {
    id: form.elements.id.value, tag: form.dataset.tag, page: form.dataset.page, action: form.action, person, name: document.body.dataset.name,
    fields: draft.fieldsOf(form, event.submitter), savedAt,
  };
  form.ariaBusy = 'true';
  const taken = await photo.of(form);
  if (taken) {
    item.photo = taken;
  }

  let before;
  try {
    before = await outbox.find(item.id);
    await outbox.keep(item);
  } catch {
    submit(event.submitter);
    return;
  }

  const answer = await outbox.send(item);
  if (answer.is === 'stored') {
    draft.discard(person, item.tag);
    await outbox.remove(item.id);
    await photo.forget(item.id);
    location.assign(answer.location);
  } else if (answer.is === 'later') {
    draft.discard(person, item.tag);
    await photo.forget(item.id);
    form.hidden = true;
    document.querySelectorAll('.dock, .passby').forEach(part => { part.hidden = true; });
    signal.give(false);
    await showKept(say(words.kept, item.tag, clock(savedAt)), [item.tag]);
    isOffline = true;
    await draw(false);
  } else {
    // The server shows what it asks or refuses, with everything that was typed. What was refused before may be in no draft and stays; what
    // meets another reading of its id (409) is given a new one.
    await (before?.isRefused && answer.status !== 409 ? outbox.keep({ ...item, isRefused: true, why: answer.why ?? before.why }) : outbox.remove(item.id));
    submit(event.submitter);
  }
}

// How many of what is due are still empty.
function countDown() {
  const boxes = [...form.querySelectorAll('[name^="value-"]')].filter(box => !box.closest('details'));
  const left = new Set(boxes.map(box => box.name));
  boxes.filter(box => box.value.trim() && (box.type !== 'radio' || box.checked)).forEach(box => left.delete(box.name));
  const head = document.querySelector('.foot b');
  head.textContent = head.textContent.replace(/\d+/, left.size);
}

function submit(submitter) {
  isNative = true;
  form.requestSubmit(submitter);
}

// A reading that was refused when it came late keeps the time at which it was saved.
function stamp() {
  if (form.elements.savedAt.value) {
    form.elements.sentAt.value = Date.now();
  }
}

if (stored) {
  signal.giveIfAwaited(stored, document.querySelector('[data-beyond]') !== null);
  draft.discardStored(stored);
  await outbox.remove(stored);
  await photo.forget(stored);
  renew([location.pathname.split('/saved/')[0]]);
}

if (form) {
  const changed = () => {
    live.warn(form);
    if ('fresh' in form.dataset) {
      countDown();
    }
  };
  await photo.restore(form, await restore());
  photo.install(form);
  form.addEventListener('input', () => {
    draft.write(form, person, form.dataset.tag);
    changed();
  });
  changed();
  form.addEventListener('submit', save);
  live.watch(form, document.getElementById('verdicts').dataset);
  pad.install(form);
  document.getElementById('discard').addEventListener('click', async () => {
    draft.discard(person, form.dataset.tag);
    await outbox.remove(new URLSearchParams(location.search).get('reading') ?? '');
    await photo.forget(form.elements.id.value);
    location.assign(form.dataset.page);
  });
  document.body.dataset.ready = '';
}

reporting(document.body.dataset.contact, locking(document.body.dataset));
level.install();
signal.install();
route.keep(at);
await floor.install({ person, words, say, clock, reveal, showKept, wait: () => { isOffline = true; return draw(false); } });
addEventListener('online', () => send(true));
addEventListener('offline', () => draw(false));
addEventListener('pageshow', event => event.persisted && send(true));
document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && send(true));
setInterval(() => send(false), EVERY_MS);
await send(true);

if ('serviceWorker' in navigator) {
  const worker = await navigator.serviceWorker.register(document.body.dataset.worker);
  await navigator.serviceWorker.ready;
  const stops = [...document.querySelectorAll('a[data-stop], a[data-keep]')].flatMap(a => a.dataset.slides ? [a.href, a.dataset.slides] : a.href);
  const files = performance.getEntriesByType('resource').map(r => r.name).filter(name => name.startsWith(location.origin));

  // What the browser took from its own memory has not passed the worker: it is told what belongs to the pages.
  (worker.active ?? navigator.serviceWorker.controller)?.postMessage({ keep: [...new Set([location.pathname, ...stops])], files });
}
