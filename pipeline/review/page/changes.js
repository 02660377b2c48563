// What the last correction did to the rest of the lesson.
import { make, fill, byId, heardText } from './dom.js';
import { clockText, plural } from './notation.js';

export class ChangesList {
  constructor(element, store) { Object.assign(this, { element, store }); }

  draw() {
    const { changes } = this.store.state;
    byId('changed').hidden = !changes;
    if (!changes) return;
    fill(this.element, make('p', {}, changesText(changes)),
      make('ul.changed', {}, ...changes.mentions.map(c => make('li', {},
        make('button', { type: 'button', onclick: () => this.store.selectWords(c.first, c.last, 'queue') },
          make('span.when', {}, clockText(this.store.words.starts[c.first])), ' “',
          heardText(this.store.words.heard(c.first, c.last)), '” ',
          make('s', {}, c.was), ' ', make('span.unseen', {}, 'is now '), make('b', {}, c.now))))));
  }
}

// "8 moves new, 6 gone; 11 mentions changed"
export function changesText(changes) {
  if (!changes) return '';
  const parts = [];
  if (changes.nodes.length) parts.push(`${plural(changes.nodes.length, 'move')} new`);
  if (changes.gone) parts.push(`${plural(changes.gone, 'move')} gone`);
  if (changes.start) parts.push('another start position');
  const mentions = `${plural(changes.mentions.length, 'mention')} changed`;
  return `${parts.length ? `${parts.join(', ')}; ` : ''}${mentions}`;
}
