// What is selected, what is being corrected, and who wants to know. No drawing in here.
//
// A selection is { first, last (words), mention (or null), node (whose position the board shows),
// start: is it the start position that was asked for? }.
// Whatever is selected by - a word, a mention, a node, a time - gives all four.
import { Tree } from './lesson.js';

export class Store extends EventTarget {
  constructor(words, state, keeper) {
    super();
    Object.assign(this, { words, keeper });
    this.#take(state);
    this.selection = { first: 0, last: 1, mention: null, node: 0 };
    this.elsewhere = null;  // { base }: a position is being picked for the selected words
    this.busy = false;
  }

  #take(state) {
    this.state = state;
    this.version = (this.version ?? -1) + 1;
    this.tree = new Tree(state);
  }

  #tell(what, detail) { this.dispatchEvent(new CustomEvent(what, { detail })); }
  on(what, f) { this.addEventListener(what, event => f(event.detail ?? {})); }

  // ---- selecting; by: what the person used, so that it need not be scrolled to

  #select(selection, by) {
    if (this.elsewhere && by !== 'follow') {  // a position is being picked: the words stay
      this.elsewhere.base = selection.node;
      return this.#tell('elsewhere');
    }
    this.selection = selection;
    this.#tell('select', { by });
  }

  selectMention(mention, by) {
    const node = mention.node >= 0 ? mention.node : this.tree.standing(mention.first);
    this.#select({ first: mention.first, last: mention.last, mention, node }, by);
  }
  selectWord(word, by) {
    const mention = this.tree.mentionAt(word);
    if (mention) return this.selectMention(mention, by);
    this.#select({ first: word, last: word + 1, mention: null, node: this.tree.standing(word) }, by);
  }
  // A stretch of words, to name a move that was passed over.
  selectWords(first, last, by) {
    const mention = this.tree.mentionOf(first, last) ?? null;
    if (mention) return this.selectMention(mention, by);
    this.#select({ first, last, mention: null, node: this.tree.standing(first) }, by);
  }
  selectTime(time, by) { this.selectWord(this.words.at(time), by); }
  selectNode(id, by) {
    const node = this.tree.nodes[id];
    if (node.mentions.length) {
      // Of several mentions, the one nearest to where the person is.
      const here = this.selection.first;
      const nearest = node.mentions.map(i => this.tree.mentions[i]).reduce(
        (a, b) => Math.abs(b.first - here) < Math.abs(a.first - here) ? b : a);
      return this.#select({ first: nearest.first, last: nearest.last, mention: nearest, node: id }, by);
    }
    const word = id === 0 ? 0 : this.words.at(node.t);
    this.#select({ first: word, last: word + 1, mention: null, node: id, start: id === 0 }, by);
  }

  // ---- walking

  stepMention(step) {
    const mentions = this.tree.mentions, { first, mention } = this.selection;
    let next;
    if (mention) next = mentions.indexOf(mention) + step;
    else next = step > 0 ? mentions.findIndex(m => m.first >= first)
                         : mentions.findLastIndex(m => m.first < first);
    if (mentions[next]) this.selectMention(mentions[next], 'keys');
  }
  stepTree(up) {
    const node = this.tree.nodes[this.selection.node];
    if (up && node.parent >= 0) this.selectNode(node.parent, 'keys');
    if (!up && node.children.length) this.selectNode(node.children[0], 'keys');
  }
  stepSibling(step) {
    const node = this.tree.nodes[this.selection.node];
    if (node.parent < 0) return;
    const children = this.tree.nodes[node.parent].children;
    const next = children[children.indexOf(node.id) + step];
    if (next !== undefined) this.selectNode(next, 'keys');
  }
  queueIndex() {
    return this.state.queue.findIndex(item => item.kind === 'mention' ?
      this.tree.mentions[item.mention] === this.selection.mention : false);
  }
  stepQueue(step) {
    const queue = this.state.queue;
    if (!queue.length) return;
    const here = this.queueIndex();
    const next = here < 0 ? (step > 0 ? 0 : queue.length - 1)
                          : (here + step + queue.length) % queue.length;
    this.selectItem(queue[next], 'queue');
  }
  selectItem(item, by) {
    const pin = item.kind === 'pin' ? this.state.pins.pins[item.pin] : null;
    if (item.kind === 'start') this.selectNode(0, by);
    else if (pin) this.selectWords(pin.first_word, pin.last_word, by);
    else this.selectMention(this.tree.mentions[item.mention], by);
  }

  // ---- correcting

  startElsewhere() {
    this.elsewhere = { base: this.base(), words: { first: this.selection.first, last: this.selection.last } };
    this.#tell('elsewhere');
  }
  stopElsewhere() {
    if (!this.elsewhere) return;
    this.elsewhere = null;
    this.#tell('elsewhere');
  }
  // The node from whose position a move is picked.
  base() {
    if (this.elsewhere) return this.elsewhere.base;
    const { mention, node } = this.selection;
    if (mention) return Math.max(0, this.tree.before(mention) < 0 ? node : this.tree.before(mention));
    return node;
  }

  pinHere() {
    const { first, last } = this.selection;
    return (this.state.pins.pins ?? []).find(p => p.first_word < last && first < p.last_word);
  }

  #pin(what) {
    const { first, last } = this.selection;
    return { first_word: first, last_word: last, t: this.words.starts[first],
             heard: this.words.heard(first, last), ...what };
  }
  #withPins(change) {
    const pins = { ...this.state.pins, pins: change(this.state.pins.pins ?? []) };
    if (!pins.pins.length) delete pins.pins;
    return pins;
  }
  #put(pin, expected) {
    const kept = old => old.filter(p => p.last_word <= pin.first_word || pin.last_word <= p.first_word);
    const pins = this.#withPins(
      old => [...kept(old), pin].sort((a, b) => a.first_word - b.first_word));
    return this.#step(() => this.keeper.put(pins), expected);
  }

  // The selected words are this move: wherever it fits, or, if a position was picked, there.
  setMove(san) {
    return this.elsewhere ? this.setLine([...this.tree.path(this.elsewhere.base), san])
                          : this.#put(this.#pin({ is: 'move', san }),
                                      [...this.tree.path(this.base()), san]);
  }
  setLine(line) { return this.#put(this.#pin({ is: 'line', line })); }
  setNoMove() { return this.#put(this.#pin({ is: 'no move' })); }
  release() {
    const { first, last } = this.selection;
    const pins = this.#withPins(
      old => old.filter(p => p.last_word <= first || last <= p.first_word));
    return this.#step(() => this.keeper.put(pins));
  }
  setStart(start, side) {
    const pins = { schema: this.state.pins.schema, start, side, pins: this.state.pins.pins };
    for (const key of ['start', 'side', 'pins']) if (!pins[key]) delete pins[key];
    return this.#step(() => this.keeper.put(pins));
  }
  undo() { if (this.state.undo) return this.#step(() => this.keeper.undo()); }
  redo() { if (this.state.redo) return this.#step(() => this.keeper.redo()); }

  // One correction at a time. expected: the line that the person saw it in, if it names a move.
  async #step(act, expected) {
    if (this.busy) return;
    this.busy = true;
    this.#tell('busy');
    const { first, last } = this.selection;
    const answer = await act();
    this.busy = false;
    if (answer.state) {
      this.elsewhere = null;
      this.#take(answer.state);
      const mention = this.tree.mentionOf(first, last) ?? this.tree.mentionAt(first);
      const node = mention?.node >= 0 ? mention.node : this.tree.standing(first);
      this.selection = { first, last, mention: mention ?? null, node };
    }
    this.#tell('state', { answer, expected, again: () => this.#step(act, expected) });
  }
}
