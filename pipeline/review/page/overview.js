// The spine: the whole lesson from top to bottom on one narrow strip. A step to the right for each
// step into the tree, a notch where something needs a look, a frame for what the roll shows.
import { make, fill } from './dom.js';
import { clockText, plural } from './notation.js';

export class Overview {
  constructor(element, store, roll) {
    Object.assign(this, { element, store, roll });
    const go = event => {
      const box = element.getBoundingClientRect();
      store.selectTime((event.clientY - box.top) / box.height * this.length, 'spine');
    };
    element.addEventListener('pointerdown', event => {
      go(event);
      element.setPointerCapture(event.pointerId);
      element.onpointermove = go;
    });
    element.addEventListener('pointerup', () => { element.onpointermove = null; });
    element.addEventListener('keydown', event => {
      const steps = { ArrowUp: -10, ArrowDown: 10, PageUp: -60, PageDown: 60, Home: -Infinity, End: Infinity };
      if (!(event.key in steps)) return;
      event.preventDefault();
      event.stopPropagation();
      const time = store.words.starts[store.selection.first] + steps[event.key];
      store.selectTime(Math.min(this.length, Math.max(0, time)), 'spine');
    });
    roll.element.addEventListener('scroll', () => this.#window(), { passive: true });
    this.frame = make('div.frame');
    this.hand = make('div.hand');
    this.notches = make('div.notches');
  }

  get length() { return Math.max(1, this.store.words.ends.at(-1) ?? 1); }

  draw() {
    const { words, tree, state } = this.store;
    const { rows } = this.roll;
    const deepest = Math.max(1, ...rows.map(row => tree.lines[row.line].depth));
    const x = row => 3 + 20 * tree.lines[row.line].depth / Math.max(4, deepest);
    let d = '';
    for (const row of rows) {
      const y1 = words.starts[row.first] / this.length * 1000;
      const y2 = words.ends[row.last - 1] / this.length * 1000;
      d += `${d ? 'L' : 'M'}${x(row).toFixed(1)} ${y1.toFixed(1)}V${y2.toFixed(1)}`;
    }
    const drawing = make('svg', { viewBox: '0 0 36 1000', preserveAspectRatio: 'none', 'aria-hidden': 'true' },
      make('path.course', { d, 'vector-effect': 'non-scaling-stroke' }));
    fill(this.notches, ...state.queue.filter(item => item.kind === 'mention').map(item => {
      const notch = make('i');
      notch.style.top = `${words.starts[tree.mentions[item.mention].first] / this.length * 100}%`;
      return notch;
    }));
    fill(this.element, drawing, this.notches, this.frame, this.hand);
    this.element.setAttribute('aria-valuemin', 0);
    this.element.setAttribute('aria-valuemax', Math.round(this.length));
    this.element.title = `${plural(state.queue.length, 'place')} to check`;
    this.select();
    this.#window();
  }

  select() {
    const time = this.store.words.starts[this.store.selection.first] ?? 0;
    this.hand.style.top = `${time / this.length * 100}%`;
    this.element.setAttribute('aria-valuenow', Math.round(time));
    this.element.setAttribute('aria-valuetext', clockText(time));
  }

  #window() {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      const box = this.roll.element, whole = Math.max(1, box.scrollHeight);
      this.frame.style.top = `${box.scrollTop / whole * 100}%`;
      this.frame.style.height = `${Math.min(100, box.clientHeight / whole * 100)}%`;
    });
  }
}
