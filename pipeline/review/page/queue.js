// The list of what needs a look, most useful first: the words that were heard, what they were taken
// for, why that is unsure, and how many moves rest on it.
import { make, fill, byId, action, heardText } from './dom.js';
import { clockText, plural } from './notation.js';

export class Queue {
  constructor(element, store, hear) { Object.assign(this, { element, store, hear }); }

  draw() {
    const { state } = this.store;
    byId('check-head').textContent = state.queue.length ?
      `${plural(state.queue.length, 'place')} to check` : 'Nothing left to check';
    this.items = state.queue.map((item, i) => this.#item(item, i));
    fill(this.element, ...this.items);
    this.select();
  }

  #item(item, index) {
    const { words, tree, state } = this.store;
    const rests = `${plural(item.below, 'move rests', 'moves rest')} on it`;
    if (item.kind === 'start') {
      return make('li.item', {},
        make('button.item-head', { type: 'button', onclick: () => this.store.selectItem(item, 'queue') },
             make('b', {}, 'Where the lesson begins')),
        make('p.why', {}, `${item.reason}; ${rests}`));
    }
    if (item.kind === 'pin') {
      const pin = state.pins.pins[item.pin];
      return make('li.item.is-loose', {},
        make('button.item-head', { type: 'button', onclick: () => this.store.selectItem(item, 'queue') },
             make('span.when', {}, clockText(pin.t)), ' ', make('span.quote', {}, '“', heardText(pin.heard), '”')),
        make('p.why', {}, item.reason));
    }
    const m = tree.mentions[item.mention];
    const taken = m.act === 'loose' ? 'not placed' : m.act === 'idea' ? `idea ${m.said}` : tree.moveText(m.node);
    return make(`li.item.is-${m.act === 'idea' ? 'idea' : m.status}`, { 'data-item': index },
      make('button.item-head', { type: 'button', onclick: () => this.store.selectItem(item, 'queue') },
           make('span.when', {}, clockText(words.starts[m.first])), ' ',
           make('span.quote', {}, '“', heardText(words.heard(m.first, m.last)), '”'), ' ',
           make('b', {}, taken)),
      make('p.why', {}, item.reason, m.act === 'loose' ? '' : `; ${rests}`),
      action('Hear it', () => this.hear(m.first, m.last),
             { class: 'small', 'data-deed': 'hear', 'aria-label': `Hear it: ${words.heard(m.first, m.last)}` }));
  }

  select() {
    const at = this.store.queueIndex();
    this.items.forEach((item, i) => item.classList.toggle('selected', i === at));
    const head = this.element.querySelector('[aria-current]');
    head?.removeAttribute('aria-current');
    if (at < 0) return;
    this.items[at].querySelector('.item-head').setAttribute('aria-current', 'true');
    this.items[at].scrollIntoView({ block: 'nearest' });
  }
}
