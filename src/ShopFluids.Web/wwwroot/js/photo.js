// The photo of a reading: made small on this tablet, turned as it is to be looked at, and kept here until the reading is stored.

const NAME = 'shopfluids-photos';
const STORE = 'photos';
const LONGEST_PX = 1_600;
const SHOWN_PX = 320;
const QUALITY = 0.82;
const FORGET_AFTER_MS = 7 * 86_400_000;
let busy = Promise.resolve();

async function change(act) {
  const db = await new Promise((done, fail) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: 'id' });
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });
  try {
    return await new Promise((done, fail) => {
      const transaction = db.transaction(STORE, 'readwrite');
      const request = act(transaction.objectStore(STORE));
      transaction.oncomplete = () => done(request.result);
      transaction.onerror = transaction.onabort = () => fail(transaction.error);
    });
  } finally {
    db.close();
  }
}

// A browser that keeps nothing still sends the photo with the form.
async function quietly(act) {
  try {
    return await change(act);
  } catch {
    return undefined;
  }
}

/** The reading is stored, waits in the outbox with its photo, or was thrown away. */
export const forget = id => quietly(store => store.delete(id));

/** What goes along with the form, once it is small enough; null where nothing was chosen. */
export async function of(form) {
  await busy;
  return form.elements.photo?.files[0] ?? null;
}

/** Puts a photo that was kept back into its form. */
export async function restore(form, given) {
  const kept = given ?? (await quietly(store => store.get(form.elements.id.value)))?.photo;
  if (kept) {
    try {
      await take(form, kept);
      document.getElementById('photo-again')?.remove();
    } catch {
      await clear(form, words().unreadable);
    }
  }

  const all = await quietly(store => store.getAll()) ?? [];
  await Promise.all(all.filter(p => Date.now() - p.at > FORGET_AFTER_MS).map(p => forget(p.id)));
}

export function install(form) {
  const box = form.elements.photo;
  box.addEventListener('change', () => {
    busy = choose(form, box.files[0]);
  });
  document.getElementById('photo-off').addEventListener('click', async () => {
    await clear(form, '');
    box.focus();
  });
}

async function choose(form, file) {
  if (!file) {
    await clear(form, '');
    return;
  }

  try {
    await take(form, await small(file));
    document.getElementById('photo-again')?.remove();
  } catch {
    await clear(form, words().unreadable);
  }
}

const words = () => document.getElementById('photo-field').dataset;

async function clear(form, text) {
  const box = form.elements.photo;
  box.value = '';
  document.getElementById('photo-shown').hidden = true;
  document.getElementById('photo-off').hidden = true;
  document.getElementById('photo-say').textContent = text;
  await forget(form.elements.id.value);
  box.dispatchEvent(new Event('input', { bubbles: true }));
}

async function take(form, photo) {
  const files = new DataTransfer();
  files.items.add(new File([photo], 'photo', { type: photo.type }));
  form.elements.photo.files = files.files;
  await quietly(store => store.put({ id: form.elements.id.value, at: Date.now(), photo }));
  await show(photo);
  document.getElementById('photo-off').hidden = false;
  document.getElementById('photo-say').textContent = words().chosen.replace('{0}', Math.ceil(photo.size / 1000).toLocaleString(document.documentElement.lang));
  form.elements.photo.dispatchEvent(new Event('input', { bubbles: true }));
}

async function draw(canvas, source, longest) {
  const picture = await createImageBitmap(source, { imageOrientation: 'from-image' });
  const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const pen = canvas.getContext('2d');

  // What can be seen through becomes white, as it stands on the page.
  pen.fillStyle = '#fff';
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
}

async function small(file) {
  const canvas = document.createElement('canvas');
  await draw(canvas, file, LONGEST_PX);
  return new Promise((done, fail) => canvas.toBlob(blob => blob ? done(blob) : fail(new Error('No picture')), 'image/jpeg', QUALITY));
}

async function show(photo) {
  const canvas = document.getElementById('photo-shown');
  await draw(canvas, photo, SHOWN_PX);
  canvas.hidden = false;
}
