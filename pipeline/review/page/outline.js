// The tree as an outline: a line runs on, the lines that leave it stand a step further in, behind
// the move that they replace.
import { make, fill } from './dom.js';
import { STATUS_WORDS } from './notation.js';

export class Outline {
  constructor(element, store) {
    Object.assign(this, { element, store });
    this.moves = new Map();  // node id -> button
    element.addEventListener('click', event => {
      const move = event.target.closest('[data-node]');
      if (move) store.selectNode(Number(move.dataset.node), 'outline');
    });
  }

  draw() {
    const { state } = this.store;
    this.moves.clear();
    this.fresh = new Set(state.changes?.nodes ?? []);
    const start = this.#move(0, true);
    const list = make('ul.lines', {}, make('li', {}, make('p', {}, start), ...this.#line(0)));
    fill(this.element, list);
    this.current = null;
    this.select();
  }

  // What follows a node on its own line.
  #line(from) {
    const { nodes } = this.store.tree;
    const out = [];
    let moves = [], open = true;  // open: the next move shows its number
    const flush = () => {
      if (moves.length) out.push(make('p', {}, ...moves));
      moves = [];
      open = true;
    };
    for (let at = from; nodes[at].children.length;) {
      const [next, ...others] = nodes[at].children;
      moves.push(this.#move(next, open), ' ');
      open = false;
      if (others.length) {
        flush();
        out.push(make('ul.lines', {}, ...others.map(other => {
          const rest = this.#line(other);
          const first = rest[0]?.tagName === 'P' ? rest.shift() : make('p');
          first.prepend(this.#move(other, true), ' ');
          return make('li', {}, first, ...rest);
        })));
      }
      at = next;
    }
    flush();
    return out;
  }

  #move(id, withNumber) {
    const n = this.store.tree.nodes[id];
    const white = n.number && !n.number.endsWith('...');
    const text = id === 0 ? 'Start' : withNumber || white ? `${n.number} ${n.san}` : n.san;
    const words = [];
    if (id > 0 && n.unsaid) words.push('not said');
    else if (id > 0 && n.status !== 'clear') words.push(STATUS_WORDS[n.status]);
    if (this.fresh.has(id)) words.push('new');
    const button = make(`button.move.is-${n.unsaid ? 'unsaid' : n.status}`,
      { type: 'button', tabindex: -1, 'data-node': id, title: words.join(', ') || null },
      this.fresh.has(id) ? make('b.new', {}, '+') : '', text,
      words.length ? make('span.unseen', {}, `, ${words.join(', ')}`) : '');
    this.moves.set(id, button);
    return button;
  }

  select() {
    const { node } = this.store.selection;
    this.current?.classList.remove('selected');
    this.current?.removeAttribute('aria-current');
    if (this.current) this.current.tabIndex = -1;
    this.current = this.moves.get(this.store.elsewhere ? this.store.elsewhere.base : node);
    if (!this.current) return;
    this.current.classList.add('selected');
    this.current.setAttribute('aria-current', 'true');
    this.current.tabIndex = 0;
    const panel = this.element.closest('.view');
    const box = this.current.getBoundingClientRect(), window = panel.getBoundingClientRect();
    if (box.height && (box.top < window.top + 20 || box.bottom > window.bottom - 20) &&
        !panel.contains(document.activeElement)) {
      panel.scrollTop += box.top - window.top - window.height / 2;
    }
  }
}
