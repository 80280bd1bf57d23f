// The verdict of each value while it is typed: asked of the server, which alone knows the rules. Out of reach, only whether the value lies
// inside the range that the page shows.

const AFTER_MS = 350;
const ANSWER_WITHIN_MS = 4_000;
let asking = null;
let timer = 0;
let typedInto = null;

const workOf = box => document.getElementById(`${box.name}-work`);
const wayOf = (form, box) => form.elements[box.name.replace('value-', 'way-')]?.value || box.dataset.way;

// The sign may be one of thousands: the server asks which.
const mayBeThousands = text => /^[-\u2212]?[1-9]\d{0,2}[.,]\d{3}$/.test(text.trim());

/** A number typed with comma or point, as the server reads it; null where it is none. */
export function numberOf(text) {
  const plain = text.replace(/[\s\u00a0]/g, '').replace('\u2212', '-').replace(',', '.');
  return /^-?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

function draw(box, echo, verdict, direction, text) {
  const tags = document.getElementById('verdicts').content;
  const tag = tags.querySelector(`[data-is="${verdict}-${direction}"]`) ?? tags.querySelector(`[data-is="${verdict}-none"]`);
  const shown = [];
  if (echo) {
    shown.push(Object.assign(document.createElement('span'), { textContent: `= ${echo}` }));
  }

  if (tag && text) {
    const mark = tag.firstElementChild.cloneNode(true);
    mark.lastChild.textContent = text;
    shown.push(mark);
  }

  const select = workOf(box).querySelector('select');
  workOf(box).replaceChildren(...(select ? [select] : []), ...shown);
}

// Said once for the value that was typed last, from which the cursor may have gone on by now, and only when the verdict becomes another.
function announce(box, text) {
  const live = document.getElementById('live');
  const line = text && `${box.labels[0].textContent}: ${text}`;
  if (box === typedInto && live.dataset.said !== line) {
    live.dataset.said = line;
    live.textContent = line;
  }
}

function measurementOf(form, box, value) {
  const [method, unit] = wayOf(form, box).split('/');
  const { parameter, kit } = box.dataset;
  const warm = box.closest('.par').querySelector('input[name^="temperature-"]');
  const degrees = warm && warm.offsetParent ? numberOf(warm.value) : null;
  return {
    parameter, method, unit, value: String(value), instrument: form.elements[kit]?.value || undefined,
    temperatureC: degrees === null ? undefined : warm.dataset.unit === '°F' ? Math.round((degrees - 32) / 0.18) / 10 : degrees,
  };
}

// No rule, only the picture in words: inside what the gauge of the page shows as target.
function drawAlone(form, box, value, words) {
  const { low, high, way } = box.dataset;
  const isKnown = wayOf(form, box) === way && (low || high);
  const isInside = isKnown && !(low && value < Number(low)) && !(high && value > Number(high));
  const text = isKnown ? isInside ? words.inside : words.outside : '';
  draw(box, value.toLocaleString(words.culture), isInside ? 'inRange' : 'notMeasured', 'none', text);
  announce(box, text);
}

async function ask(form, words) {
  const boxes = [...form.querySelectorAll('input[data-parameter]')];
  const typed = boxes.filter(box => box.value.trim() !== '').map(box => ({ box, value: mayBeThousands(box.value) ? null : numberOf(box.value) }));
  for (const box of boxes.filter(b => b.value.trim() === '')) {
    draw(box, '', '', '', '');
  }

  for (const { box } of typed.filter(t => t.value === null)) {
    const why = mayBeThousands(box.value) ? words.thousands : words.noNumber;
    draw(box, '', 'notMeasured', 'none', why);
    announce(box, why);
  }

  const read = typed.filter(t => t.value !== null);
  if (read.length === 0) {
    return;
  }

  asking = new AbortController();
  const signal = AbortSignal.any ? AbortSignal.any([asking.signal, AbortSignal.timeout(ANSWER_WITHIN_MS)]) : asking.signal;
  const mine = asking;
  try {
    await judge(form, read, words, signal);
  } catch {
    // Taken back by the next key, or nobody answers.
    if (!mine.signal.aborted) {
      read.forEach(({ box, value }) => drawAlone(form, box, value, words));
    }
  }
}

async function judge(form, read, words, signal) {
  const answer = await fetch(form.dataset.preview, {
    method: 'POST', signal, redirect: 'error', headers: { 'X-ShopFluids': '1', 'Content-Type': 'application/json' },
    body: JSON.stringify({ id: form.elements.id.value, sump: form.dataset.tag, takenAt: new Date(Number(document.body.dataset.at)).toISOString(), measurements: read.map(({ box, value }) => measurementOf(form, box, value)) }),
  });
  const said = await answer.json();
  if (answer.ok) {
    for (const { box } of read) {
      const isTitration = wayOf(form, box).startsWith('titration/');
      const found = said.measurements.find(m => m.parameter === box.dataset.parameter && (m.method === 'titration') === isTitration);
      if (found) {
        // Without a limit there is nothing to judge by.
        const text = found.verdict === 'notMeasured' ? '' : found.verdictText;
        draw(box, found.text, found.verdict, found.direction, text);
        announce(box, text);
      }
    }

    return;
  }

  // A refused value is marked; the others are judged without it.
  const refused = read.filter(({ box }) => said.errors?.some(e => e.field.split('.')[1] === box.dataset.parameter));
  if (refused.length === 0) {
    throw new Error(`No verdict: ${answer.status}`);
  }

  for (const { box } of refused) {
    const why = said.errors.some(e => e.field.split('.')[1] === box.dataset.parameter && e.problem === 'temperatureNeeded') ? words.needsTemperature : words.refused;
    draw(box, '', 'notMeasured', 'none', why);
    announce(box, why);
  }

  const rest = read.filter(r => !refused.includes(r));
  if (rest.length > 0) {
    await judge(form, rest, words, signal);
  }
}

/** Shows what a picked word warns of, out of reach too. */
export function warn(form) {
  for (const box of form.querySelectorAll('[data-warns]')) {
    box.firstElementChild.hidden = !(Number(form.elements[box.dataset.warns].value) >= Number(box.dataset.from));
  }
}

/** Watches the form. */
export function watch(form, words) {
  const later = () => {
    clearTimeout(timer);
    asking?.abort();
    timer = setTimeout(() => ask(form, words), AFTER_MS);
  };
  form.addEventListener('input', event => {
    if (event.target.matches('input[data-parameter], select, input[name^="temperature-"]')) {
      typedInto = event.target.closest('.par')?.querySelector('input[data-parameter]') ?? typedInto;
      later();
    }
  });
  if ('fresh' in form.dataset && [...form.querySelectorAll('input[data-parameter]')].some(box => box.value)) {
    later();
  }
}
