// Wiring: who hears of a selection, a correction, the running recording.
import { byId, make, fill, action } from './dom.js';
import { clockText, plural, positionWords } from './notation.js';
import { movesTyped } from './rules.js';
import { Words } from './lesson.js';
import { Store } from './store.js';
import { ServedKeeper, DiskKeeper, downloadFile } from './saving.js';
import { Board } from './board.js';
import { Roll } from './roll.js';
import { Overview } from './overview.js';
import { Queue } from './queue.js';
import { Outline } from './outline.js';
import { ChangesList, changesText } from './changes.js';
import { Card } from './card.js';
import { Recording } from './recording.js';
import { Keys } from './keys.js';

const page = JSON.parse(byId('data').textContent);
const words = new Words(page);
const keeper = page.served ? new ServedKeeper(page.state)
  : new DiskKeeper(page.state, `plyscribe ${page.file} ${page.words.length} ${page.duration}`);
const store = new Store(words, page.served ? page.state : keeper.state(), keeper);

const recording = new Recording(byId('recording'), page.media, (time, whole) => {
  const word = words.at(time);
  roll.playing(word, whole && !card.typing && !store.elsewhere);
  if (!whole || card.typing || store.elsewhere) return;
  const mention = store.tree.mentionAt(word);
  const standing = store.tree.standing(word);
  if (mention ? mention !== store.selection.mention : standing !== store.selection.node) {
    store.selectWord(word, 'follow');
  }
});
const hear = (first, last) => recording.hear(words.starts[first], words.ends[last - 1]);

const view = { before: false, picking: false, turned: store.state.side === 'black' };
const roll = new Roll(byId('roll'), store);
const overview = new Overview(byId('spine'), store, roll);
const queue = new Queue(byId('queue'), store, hear);
const outline = new Outline(byId('outline'), store);
const changes = new ChangesList(byId('changes'), store);
const board = new Board(byId('board'), moves => {
  card.picked(moves);
  showView('card');
});
const card = new Card(byId('card'), store, {
  hear,
  pick: () => { view.picking = true; drawBoard(); focusBoard(); },
  turned: () => view.turned,
});

// ---- the board

// An idea as squares; it may be for the side that is not to move.
function ideaMove(position, text) {
  for (const side of [position.side, position.side === 'w' ? 'b' : 'w']) {
    const { exact, moves } = movesTyped({ ...position, side, passing: -1 }, text);
    if (exact) return moves[0];
  }
  return null;
}

function drawBoard() {
  const { tree, selection, elsewhere } = store;
  const before = view.picking || view.before || elsewhere;
  const id = before ? store.base() : selection.node;
  const node = tree.nodes[id];
  const ideas = before ? [] : tree.ideasAt(id);
  const place = id === 0 ? 'The start' : `After ${tree.moveText(id)}`;
  board.turn(view.turned);
  board.show(node.position, {
    mark: node.move ?? null, picking: view.picking || Boolean(elsewhere),
    ideas: ideas.map(m => ideaMove(node.position, m.said)).filter(Boolean),
    label: `Board. ${place}. ${positionWords(node.position)}`,
  });
  const idea = ideas.length ? ` Ideas told here: ${[...new Set(ideas.map(m => m.said))].join(', ')}.` : '';
  const mentioned = selection.mention && tree.before(selection.mention) !== selection.node;
  fill(byId('under'), make('b', {}, place),
    `, ${node.position.side === 'w' ? 'White' : 'Black'} to move.${idea} `,
    mentioned && !elsewhere ? action(before ? 'Show after the move' : 'Show before the move', () => {
      view.picking = false;
      view.before = !before;
      drawBoard();
    }, { class: 'small', 'data-deed': 'before' }) : '',
    action('Turn', () => { view.turned = !view.turned; drawBoard(); }, { class: 'small', 'data-deed': 'turn' }));
}
const focusBoard = () => board.cells[board.focus].focus();

// ---- what to show where there is no room for all

function showView(name) {
  document.body.dataset.view = name;
  for (const button of byId('switch').children) {
    button.setAttribute('aria-pressed', String(button.dataset.view === name));
  }
}
byId('switch').addEventListener('click', event => {
  const button = event.target.closest('[data-view]');
  if (button) showView(button.dataset.view);
});

// ---- telling

function notice(...parts) { fill(byId('notice'), ...parts); }

function drawHead() {
  const { state, tree } = store;
  byId('title').textContent = page.title;
  const from = state.start.name || (state.start.moves.length ? state.start.moves.join(' ') : 'the first move');
  const count = tree.nodes.length - 1;
  fill(byId('about'), `for ${state.side === 'white' ? 'White' : 'Black'}, ${clockText(page.duration)}, from `,
    action(from, () => { store.selectNode(0, 'head'); showView('card'); }, { class: 'as-text', 'data-deed': 'start' }),
    `; ${plural(count, 'move')}, ${plural((state.pins.pins ?? []).length, 'correction')}`,
    state.waiting ? `, ${state.waiting} waiting to be decoded` : '');
  document.body.dataset.revision = store.version;
  byId('undo').disabled = !state.undo;
  byId('redo').disabled = !state.redo;
  byId('download').hidden = page.served;
}

function drawAll() {
  drawHead();
  roll.draw();
  overview.draw();
  queue.draw();
  outline.draw();
  changes.draw();
  card.draw();
  drawBoard();
}

store.on('select', ({ by }) => {
  view.before = view.picking = false;
  roll.select(by);
  if (by !== 'follow') recording.seek(words.starts[store.selection.first]);
  overview.select();
  queue.select();
  outline.select();
  if (!(by === 'follow' && card.element.contains(document.activeElement))) card.draw();
  drawBoard();
});
store.on('elsewhere', () => {
  view.picking = view.before = false;
  roll.select();
  outline.select();
  card.draw();
  drawBoard();
  if (store.elsewhere) notice('Pick the position: select the move behind which it was played. Esc stops.');
  else notice();
});
store.on('busy', () => document.body.classList.add('busy'));
store.on('state', ({ answer, expected, again }) => {
  document.body.classList.remove('busy');
  if (answer.error) {
    notice(make('strong', {}, answer.error), ' ', answer.retry ? action('Try again', again) : '');
  }
  if (!answer.state) return;
  view.before = view.picking = false;
  drawAll();
  roll.select('state');
  if (!answer.error) tellResult(expected);
  card.focusHead();
});

// What came of a correction, and whether the move stands where the person saw it.
function tellResult(expected) {
  const { selection, tree, state } = store;
  if (!page.served) {
    return notice('Kept in this browser. Save the corrections, then decode the lesson with them: ',
                  make('code', {}, `plyscribe extract ${page.file} --pins ${page.pins_file}`));
  }
  const unheld = (state.unheld ?? []).length;
  const parts = [`Saved. ${changesText(state.changes)}.`];
  if (unheld) parts.push(make('strong', {}, ` ${plural(unheld, 'correction')} cannot hold.`));
  if (expected && selection.mention?.node > 0) {
    const line = tree.path(selection.mention.node);
    if (line.join(' ') !== expected.join(' ')) {
      parts.push(` It was placed at ${tree.moveText(selection.mention.node)}, in another position. `,
                 action('Put it in the position that was shown', () => store.setLine(expected),
                        { class: 'small', 'data-deed': 'there' }));
    }
  }
  notice(...parts);
}

// ---- keys and buttons

byId('undo').onclick = () => store.undo();
byId('redo').onclick = () => store.redo();
byId('download').onclick = () =>
  downloadFile(page.pins_file, `${JSON.stringify(store.state.pins, null, 1)}\n`);

const keys = new Keys(byId('keys'), [
  { head: 'Go' },
  { keys: ['n'], words: 'next place to check', act: () => store.stepQueue(1) },
  { keys: ['p'], words: 'place to check before', act: () => store.stepQueue(-1) },
  { keys: ['ArrowDown'], words: 'next move in time', act: () => store.stepMention(1) },
  { keys: ['ArrowUp'], words: 'move before, in time', act: () => store.stepMention(-1) },
  { keys: ['ArrowRight'], words: 'on along the line', act: () => store.stepTree(false) },
  { keys: ['ArrowLeft'], words: 'back along the line', act: () => store.stepTree(true) },
  { keys: [','], words: 'sibling told before', act: () => store.stepSibling(-1) },
  { keys: ['.'], words: 'sibling told after', act: () => store.stepSibling(1) },
  { head: 'Hear' },
  { keys: ['h'], words: 'hear the selected words', act: () => hear(store.selection.first, store.selection.last) },
  { keys: [' '], words: 'play or pause the recording', act: () => recording.toggle() },
  { head: 'Put right' },
  { keys: ['1', '2', '3', '4'], words: 'take that alternative', act: key => card.take(Number(key) - 1) },
  { keys: ['m'], words: 'type the move', act: () => { showView('card'); card.focusTyping(); } },
  { keys: ['b'], words: 'pick the move on the board: arrows, Enter',
    act: () => { view.picking = true; drawBoard(); focusBoard(); } },
  { keys: ['x'], words: 'the words are no move', act: () => store.setNoMove() },
  { keys: ['e'], words: 'elsewhere: pick the position', act: () => store.startElsewhere() },
  { keys: ['l'], words: 'let go of a correction', act: () => store.pinHere() && store.release() },
  { keys: ['Shift+ArrowRight'], words: 'one word more', act: () => card.widen(1) },
  { keys: ['Shift+ArrowLeft'], words: 'one word less', act: () => card.widen(-1) },
  { keys: ['u'], words: 'undo', act: () => store.undo() },
  { keys: ['r'], words: 'redo', act: () => store.redo() },
  { head: 'See' },
  { keys: ['v'], words: 'position before or after the move', act: () => { view.before = !view.before; drawBoard(); } },
  { keys: ['t'], words: 'turn the board', act: () => { view.turned = !view.turned; drawBoard(); } },
  { keys: ['?'], words: 'this list', act: () => keys.show() },
  { keys: ['Escape'], words: 'stop picking', act: () => {
    if (store.elsewhere) return store.stopElsewhere();
    view.picking = view.before = false;
    document.activeElement?.blur?.();
    drawBoard();
  } },
]);
byId('help').onclick = () => keys.show();

showView('words');
drawAll();
if (store.state.queue.length) store.selectItem(store.state.queue[0], 'queue');
document.body.dataset.ready = '';
