// Keys, and the list of them that ? shows. One table serves both.
import { make, fill, action } from './dom.js';

export class Keys {
  // table: [ { keys: ['n'], words: 'next place to check', act } ], grouped by { head }
  constructor(dialog, table) {
    Object.assign(this, { dialog, table });
    this.letters = true;  // can be turned off: WCAG 2.2, 2.1.4
    document.addEventListener('keydown', event => this.#pressed(event));
    this.#draw();
  }

  #pressed(event) {
    const target = event.target;
    if (event.ctrlKey || event.metaKey || event.altKey || this.dialog.open) return;
    if (target.closest('input, select, textarea, video') && event.key !== 'Escape') return;
    if (event.key === ' ' && target.closest('button:not(.chip, .move, .clock), a, summary')) return;
    const name = event.shiftKey && event.key.startsWith('Arrow') ? `Shift+${event.key}` : event.key;
    const entry = this.table.find(e => e.keys?.includes(name));
    if (!entry || (!this.letters && name.length === 1 && name !== ' ')) return;
    event.preventDefault();
    entry.act(name);
  }

  show() {
    this.#draw();
    this.dialog.showModal();
  }

  #draw() {
    const NAMES = { ' ': 'Space', ArrowUp: '↑', ArrowDown: '↓', ArrowLeft: '←', ArrowRight: '→',
                    'Shift+ArrowLeft': 'Shift ←', 'Shift+ArrowRight': 'Shift →', Escape: 'Esc' };
    const rows = this.table.map(entry => entry.head ? make('tr', {}, make('th', { colspan: 2, scope: 'colgroup' }, entry.head))
      : make('tr', {}, make('td', {}, ...entry.keys.flatMap(k => [make('kbd', {}, NAMES[k] ?? k), ' '])),
             make('td', {}, entry.words)));
    const box = make('input', { type: 'checkbox', id: 'letters', checked: this.letters,
                                onchange: () => { this.letters = box.checked; } });
    fill(this.dialog, make('h2', { id: 'keys-head' }, 'Keys'), make('table', {}, make('tbody', {}, ...rows)),
         make('p', {}, box, make('label', { for: 'letters' }, ' Letters and digits act as keys')),
         action('Close', () => this.dialog.close()));
  }
}
