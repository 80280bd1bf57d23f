// The level by a tap on the picture of the sump: it goes into the box, where it can be typed over. What is typed stands on the picture.

import { numberOf } from './live.js';

const MM_PER_INCH = 25.4;

// As fine as a finger is.
const STEPS = { mm: 5, in: 0.25, '%': 1 };

/** On whatever form has the picture. */
export function install() {
  const picture = document.getElementById('level-picture');
  const form = picture?.closest('form');
  const box = form?.elements[picture.dataset.box];
  if (!box) {
    return;
  }

  const [brim, top, bottom] = ['brim', 'top', 'bottom'].map(name => Number(picture.dataset[name]));
  const line = picture.querySelector('.lv-now');
  const unit = () => (form.elements[box.name.replace('value-', 'way-')]?.value || box.dataset.way).split('/')[1];
  const worth = () => ({ in: MM_PER_INCH, '%': brim / 100 })[unit()] ?? 1;

  function draw() {
    const typed = box.value.trim() === '' ? null : numberOf(box.value);
    const share = typed === null ? -1 : typed * worth() / brim;
    line.toggleAttribute('hidden', share < 0 || share > 1);
    line.setAttribute('transform', `translate(0 ${bottom - (bottom - top) * Math.min(Math.max(share, 0), 1)})`);
  }

  // A tap, no drag: who scrolls the page across the picture sets nothing.
  picture.addEventListener('click', event => {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(picture.getScreenCTM().inverse());
    const share = Math.min(Math.max((bottom - at.y) / (bottom - top), 0), 1);
    const step = STEPS[unit()] ?? 1;
    const most = Math.floor(brim / worth() * 100) / 100;
    const level = Math.min(Math.round(share * brim / worth() / step) * step, most);
    box.value = level.toLocaleString(document.getElementById('verdicts')?.dataset.culture, { useGrouping: false, maximumFractionDigits: 2 });
    box.dispatchEvent(new Event('input', { bubbles: true }));
  });
  form.addEventListener('input', draw);
  picture.dataset.ready = '';
  document.getElementById('level-hint').hidden = false;
  draw();
}
