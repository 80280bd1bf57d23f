// Readings that were saved on this tablet and are not known to be stored yet. Each is here until the server has said that it has
// it; the id in it makes sending it twice harmless.

import * as draft from './draft.js';

const NAME = 'shopfluids';
const STORE = 'outbox';
const ANSWER_WITHIN_MS = 8_000;
const PHOTO_WITHIN_MS = 15_000;
const FIRST_WAIT_MS = 15_000;
const LONGEST_WAIT_MS = 300_000;
const REFUSED = [400, 404, 409, 413, 422];

function open() {
  return new Promise((done, fail) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: 'id' });
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });
}

// Answers when the change is on the disk, not when it is on its way.
async function change(act) {
  const db = await open();
  try {
    return await new Promise((done, fail) => {
      const transaction = db.transaction(STORE, 'readwrite', { durability: 'strict' });
      const request = act(transaction.objectStore(STORE));
      transaction.oncomplete = () => done(request.result);
      transaction.onerror = transaction.onabort = () => fail(transaction.error);
    });
  } finally {
    db.close();
  }
}

export const keep = item => change(store => store.put(item));
export const remove = id => change(store => store.delete(id));
export const find = id => change(store => store.get(id));

/** Oldest first. */
export async function all() {
  return (await change(store => store.getAll())).sort((a, b) => a.savedAt - b.savedAt);
}

/** Sumps that were read or passed by, of which the server may not know yet. */
export async function saidOf() {
  return (await all()).filter(i => !i.isRefused && (!i.kind || i.kind === 'skip')).flatMap(i => i.tags ?? [i.tag]);
}

/**
 * Sends one reading. The server reckons its time from its age, so that a tablet whose clock is wrong does no harm.
 * @returns stored with the page to go to, refused with the answer's status and reasons, signIn with its status, or later.
 */
export async function send(item) {
  const body = bodyOf(item);
  body.set('savedAt', item.savedAt);
  body.set('sentAt', Date.now());
  try {
    const answer = await fetch(item.action, {
      method: 'POST', body, headers: { 'X-ShopFluids': '1', 'X-ShopFluids-Person': item.person }, redirect: 'manual', signal: AbortSignal.timeout(patience(item)),
    });
    if (answer.status === 201) {
      return { is: 'stored', location: (await answer.json()).location };
    }

    if (REFUSED.includes(answer.status)) {
      return { status: answer.status, is: 'refused', why: reasonsIn(await answer.text()) };
    }

    // A redirect leads to the door: whoever was signed in is not any more.
    return { status: answer.status, is: answer.status === 401 || answer.type === 'opaqueredirect' ? 'signIn' : 'later' };
  } catch {
    // No way to the server, or no answer in time: whether it has the reading is not known, so it is sent again.
    return { is: 'later' };
  }
}

// The page that is the answer says what is wrong or what is asked; it is read by itself long after, by whoever opens what was refused.
function reasonsIn(page) {
  const found = new DOMParser().parseFromString(page, 'text/html').querySelectorAll('.err li, .err > p:not(:has(a)), .msg.r:not(.gas, #photo-again), .msg.q .h');
  return [...new Set([...found].filter(reason => !reason.closest('[hidden]')).map(reason => reason.textContent.trim()))].join(' ');
}

function bodyOf(item) {
  if (!item.photo) {
    return new URLSearchParams(item.fields);
  }

  const body = new FormData();
  item.fields.forEach(([name, value]) => body.append(name, value));
  body.append('photo', item.photo, 'photo');
  return body;
}

// A photo takes long where the Wi-Fi is thin, and longer each time it did not get through.
const patience = item => ANSWER_WITHIN_MS + (item.photo ? PHOTO_WITHIN_MS * (1 + (item.tries ?? 0)) : 0);

/**
 * Sends what waits, one after the other, until the server cannot be reached or asks who we are. Two pages of one tablet take turns.
 * @returns how it ended and the pages of what is stored now; null while another page sends.
 */
export async function sendWaiting(person, isUrgent) {
  const work = () => sendInTurn(person, isUrgent);
  return navigator.locks ? navigator.locks.request(STORE, { ifAvailable: true }, lock => lock ? work() : null) : work();
}

async function sendInTurn(person, isUrgent) {
  const stored = [];
  for (const item of await all()) {
    if (item.person !== person || item.isRefused || (!isUrgent && item.nextAt > Date.now())) {
      continue;
    }

    const { is, why } = await send(item);
    if (is === 'stored') {
      // The page that saved it may have gone before it could take its draft away.
      draft.discardStored(item.id);
      await remove(item.id);
      stored.push(item.page);
    } else if (is === 'refused') {
      await keep({ ...item, isRefused: true, why });
    } else {
      const tries = (item.tries ?? 0) + 1;
      const wait = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (tries - 1));

      // All tablets of a bay find the Wi-Fi again at the same moment: not all in the same second.
      await keep({ ...item, tries, nextAt: Date.now() + wait * (0.5 + Math.random() / 2) });
      return { is, stored };
    }
  }

  return { is: 'sent', stored };
}
