// The card: what the selected words are taken for, why, and every way to put it right.
import { make, fill, action, heardText } from './dom.js';
import { clockText, plural, STATUS_WORDS } from './notation.js';
import { movesTyped, moveOfSan, sanOf, play } from './rules.js';
import { mentionStatus } from './lesson.js';
import { smallBoard } from './pieces.js';
import { waitingText } from './roll.js';

const SAN = /^(O-O(-O)?|[KQRBN]?[a-h]?[1-8]?x?[a-h][1-8](=[QRBN])?)[+#]?$/;
const MOST_SUGGESTIONS = 8;

export class Card {
  // hear(first, last) plays words; pick(on) asks the board for a move.
  constructor(element, store, { hear, pick, turned }) {
    Object.assign(this, { element, store, hear, pick, turned });
  }

  draw() {
    const { mention, start } = this.store.selection;
    const parts = this.store.elsewhere ? this.#elsewhere()
      : mention ? this.#mention(mention)
      : start ? this.#start() : this.#talk();
    fill(this.element, ...parts);
  }

  #quote() {
    const { first, last } = this.store.selection;
    const { words } = this.store;
    return make('p.quoted', {}, make('span.when', {}, clockText(words.starts[first])), ' “',
      heardText(words.heard(first, last)), '” ',
      action('Hear it', () => this.hear(first, last), { class: 'small', 'data-deed': 'hear' }));
  }

  #mention(m) {
    const { tree, state } = this.store;
    const status = mentionStatus(m);
    const item = state.queue.find(i => i.kind === 'mention' && tree.mentions[i.mention] === m);
    const title = status === 'pending' ? waitingText(m.waits) : m.act === 'loose' ? 'Not placed'
      : m.act === 'idea' ? `Idea: ${m.said}` : tree.moveText(m.node);
    const sure = m.pending || m.settled || m.act === 'loose' ? ''
      : `, sure ${Math.round(m.confidence * 100)} of 100`;
    const n = tree.nodes[Math.max(0, m.node)];
    const told = m.act === 'play' && n.mentions.length > 1 ? ` Told ${plural(n.mentions.length, 'time')}.` : '';
    return [
      make('h2', { tabindex: -1 }, title),
      this.#quote(),
      make(`p.status.is-${status}`, {}, make('b', {}, STATUS_WORDS[status]), sure, '.', told),
      item ? make('p.why', {}, `${item.reason[0].toUpperCase()}${item.reason.slice(1)}.`,
                  item.kind === 'mention' && m.act !== 'loose' ? ` ${plural(item.below, 'move rests', 'moves rest')} on it.` : '') : null,
      this.#pinned(),
      ...this.#choices(m),
      m.act === 'play' ? this.#sayings(n) : null,
      ...this.#form(m.act === 'loose' || m.act === 'idea' ? 'It is the move' : 'It is another move'),
    ];
  }

  #sayings(node) {
    if (!node.sayings.length) return null;
    return make('div.sayings', {}, make('h3', {}, 'Said of it'), ...node.sayings.map(([first, last]) =>
      make('p.quoted', {}, '“', heardText(this.store.words.between(first, last)), '”')));
  }

  #talk() {
    const n = this.store.tree.nodes[this.store.selection.node];
    const { tree } = this.store;
    const unsaid = n.id > 0 && n.unsaid && !n.mentions.length;
    return [
      make('h2', { tabindex: -1 }, unsaid ? tree.moveText(n.id) : 'Talk'),
      this.#quote(),
      make('p.status', {}, unsaid ? 'Nobody said this move; the next one needs it.'
        : `No move is heard in these words. The talk stands at ${tree.moveText(n.id)}.`),
      this.#pinned(),
      make('p.row-of', {}, action('One word more', () => this.widen(1), { 'data-deed': 'wider' }),
           action('One word less', () => this.widen(-1), { 'data-deed': 'narrower' })),
      ...this.#form('They are the move'),
    ];
  }

  #start() {
    const { state } = this.store;
    const { start } = state;
    const input = make('input', { id: 'start-text', value: state.pins.start ?? '', autocomplete: 'off',
                                  spellcheck: 'false' });
    const side = make('select', { id: 'start-side' },
      make('option', { value: '' }, 'as inferred'), make('option', { value: 'white' }, 'White'),
      make('option', { value: 'black' }, 'Black'));
    side.value = state.pins.side ?? '';
    const from = start.moves.length ? start.moves.join(' ') : 'the first move';
    const item = state.queue.find(i => i.kind === 'start');
    return [
      make('h2', { tabindex: -1 }, 'Where the lesson begins'),
      make('p.status', {}, start.name ? `${start.name}: ` : '', `from ${from} (${start.how}, sure ${
        Math.round(start.confidence * 100)} of 100).`),
      item ? make('p.why', {}, `${item.reason}.`) : null,
      make('form.start', { onsubmit: event => {
        event.preventDefault();
        this.store.setStart(input.value.trim(), side.value);
      } },
        make('label', { for: 'start-text' }, 'It begins with (an opening’s name, moves, or a FEN)'), input,
        make('label', { for: 'start-side' }, 'The lesson is for'), side,
        make('button', { type: 'submit', class: 'main-deed' }, 'Set the start')),
    ];
  }

  #elsewhere() {
    const { tree, elsewhere } = this.store;
    return [
      make('h2', { tabindex: -1 }, 'Pick the position'),
      this.#quote(),
      make('p.status', {}, 'Select a move, in the words or in the tree, behind which this one was played. ',
           make('b', {}, `Now: after ${tree.moveText(elsewhere.base)}.`)),
      ...this.#form('There it is the move', true),
    ];
  }

  #pinned() {
    const pin = this.store.pinHere();
    if (!pin) return null;
    const { state } = this.store;
    const unheld = (state.unheld ?? []).find(u => (state.pins.pins ?? [])[u.pin] === pin);
    const what = pin.is === 'no move' ? 'no move' : pin.is === 'move' ? `${pin.san}, wherever it fits`
      : `${pin.line.at(-1)} after ${pin.line.length > 1 ? pin.line.at(-2) : 'the start'}`;
    return make('div.pinned', {},
      make('p', {}, `Settled: ${what}.`, unheld ? make('strong', {}, ` It cannot hold: ${unheld.why}.`) : ''),
      action('Let go', () => this.store.release(), { class: 'small', 'data-deed': 'release' }));
  }

  #choices(m) {
    const { tree } = this.store;
    const base = tree.nodes[this.store.base()].position;
    const shares = new Map();  // one move may have been thought of at several places
    for (const [san, share] of m.alternatives) {
      if (san !== 'no move' && san !== m.said) shares.set(san, (shares.get(san) ?? 0) + share);
    }
    const choices = [...shares].sort((a, b) => b[1] - a[1]);
    this.choices = choices.map(([san]) => san);
    if (!choices.length) return [];
    return [
      make('h3', {}, 'It may be'),
      make('ul.choices', {}, ...choices.map(([san, share], i) => {
        const move = moveOfSan(base, san);
        return make('li', {}, make('button.choice', { type: 'button', 'data-choice': i,
                                                      onclick: () => this.take(i) },
          move ? smallBoard(play(base, move), { mark: move, turned: this.turned(), label: `Board after ${san}` })
               : make('span.no-board', {}, 'in another position'),
          make('b', {}, san), make('span', {}, `${Math.round(share * 100)} of 100`),
          make('kbd', {}, String(i + 1))));
      })),
    ];
  }

  #form(label, elsewhere = false) {
    this.suggestions = make('ul.suggestions', { id: 'suggestions' });
    this.hint = make('p.hint', { id: 'move-hint', role: 'status' });
    this.input = make('input', { id: 'move-text', autocomplete: 'off', spellcheck: 'false', autocapitalize: 'off',
                                 'aria-describedby': 'move-hint', placeholder: 'Bd3',
                                 oninput: () => this.#suggest() });
    return [
      make('form.typing', { onsubmit: event => { event.preventDefault(); this.#submit(); } },
        make('label', { for: 'move-text' }, label), this.input),
      this.hint, this.suggestions,
      make('p.row-of', {},
        action('Pick on the board', () => this.pick(), { 'data-deed': 'pick' }),
        elsewhere ? null : action('No move', () => this.store.setNoMove(), { 'data-deed': 'none' }),
        elsewhere ? null : action('Elsewhere', () => this.store.startElsewhere(), { 'data-deed': 'elsewhere' })),
      make('p.row-of', {}, elsewhere
        ? action('Stop picking', () => this.store.stopElsewhere(), { 'data-deed': 'stop' })
        : action('Next to check', () => this.store.stepQueue(1), { 'data-deed': 'next' })),
    ];
  }

  get typing() { return this.input?.isConnected && this.input.value !== ''; }

  #position() { return this.store.tree.nodes[this.store.base()].position; }

  #suggest() {
    const text = this.input.value;
    const { exact, moves } = movesTyped(this.#position(), text);
    this.found = { exact, moves };
    const sans = moves.slice(0, MOST_SUGGESTIONS).map(m => sanOf(this.#position(), m));
    const items = sans.map(san => make('li', {}, action(exact ? `Set ${san}` : san, () => this.store.setMove(san),
                                                        { 'data-suggestion': san })));
    const plain = text.trim();
    const anywhere = !moves.length && !this.store.elsewhere && SAN.test(plain);
    if (anywhere) {
      items.push(make('li', {}, action(`Set ${plain} wherever it fits`, () => this.store.setMove(plain),
                                       { 'data-suggestion': plain })));
    }
    fill(this.suggestions, ...items);
    this.hint.textContent = !plain ? ''
      : !moves.length ? `No legal move here reads “${plain}”.`
      : exact && moves.length === 1 ? 'Enter sets it.'
      : `${plural(moves.length, 'move fits', 'moves fit')}.`;
  }

  #submit() {
    this.#suggest();
    const { exact, moves } = this.found;
    if (moves.length === 1 && (exact || this.input.value.trim().length > 1)) {
      return this.store.setMove(sanOf(this.#position(), moves[0]));
    }
    this.suggestions.querySelector('button')?.focus();
  }

  // Moves picked on the board: several where a pawn may become one of four pieces.
  picked(moves) {
    const sans = moves.map(m => sanOf(this.#position(), m));
    fill(this.suggestions, ...sans.map(san =>
      make('li', {}, action(`Set ${san}`, () => this.store.setMove(san), { 'data-suggestion': san, class: 'main-deed' }))));
    this.hint.textContent = sans.length > 1 ? 'Picked on the board: which piece?' : 'Picked on the board.';
    this.suggestions.querySelector('button').focus();
  }

  take(index) {
    const san = this.choices?.[index];
    if (san && this.store.selection.mention && !this.store.elsewhere) this.store.setMove(san);
  }
  widen(step) {
    const { first, last } = this.store.selection;
    const to = Math.min(this.store.words.count, Math.max(first + 1, last + step));
    this.store.selectWords(first, to, 'words');
  }
  focusTyping() { this.input?.isConnected && this.input.focus(); }
  focusHead() { this.element.querySelector('h2')?.focus({ preventScroll: true }); }
}
