// The printed sheet, the drawn positions and the drill table, checked by programs that we did not
// write: chromium prints and renders, poppler reads the pages, xmllint and chess.js the rest.
//
//   node print_check.mjs PLYSCRIBE LESSON.txt...
//
// For each lesson, on A4 and on Letter: as many pages as the text asks for and none empty; no word
// outside the page's margins, none smaller than MIN_POINTS; no diagram cut between two pages; every
// move of lesson.json on some page. On the screen: where chromium draws the pieces is the position
// that the diagram names, and that is a position of the lesson. The cards: every row has all the
// columns, its move is legal in its position by chess.js, no two rows ask the same, and its picture
// is well-formed and shows that position.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { createRequire } from 'node:module';

const require = createRequire(new URL('../reference/package.json', import.meta.url));
const { Chess } = require('chess.js');

const PAPERS = { A4: [595, 842], letter: [612, 792] };  // points, ISO 216 and ANSI Y14.1
const MARGIN = 42;      // points; sheet.css asks for 15 mm
const FOOT = 12;        // points below the line with the page's number
const MIN_POINTS = 5;   // the squares' names, the smallest print there is
const LABELS = 16;      // of one diagram: a to h, 1 to 8
const LABEL_POINTS = 9; // no other single letter or digit is as small: their line is this high

const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'plyscribe-print-'));
let passed = 0;
let failed = 0;

function check(what, problems) {
  if (problems.length === 0) {
    ++passed;
  } else {
    ++failed;
    console.log(`FAILED ${what}: ${problems.slice(0, 4).join('; ')}`);
  }
}

function run(program, ...args) {
  const r = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 1 << 28 });
  if (r.error) throw r.error;
  if (r.status !== 0) throw new Error(`${program} ${args.join(' ')}: ${r.stderr}`);
  return r.stdout;
}

function chromium(...args) {
  const profile = `--user-data-dir=${path.join(scratch, 'profile')}`;
  return run('chromium', '--headless', '--no-sandbox', '--disable-gpu', profile, ...args);
}

const position = (fen) => fen.split(' ').slice(0, 2).join(' ');

// ---------------------------------------------------------------- paper

// Pages of words with their boxes, by poppler.
function pagesOf(pdf) {
  const boxes = run('pdftotext', '-bbox', pdf, '-');
  return boxes.split('<page ').slice(1).map((page) => {
    const [, width, height] = page.match(/width="([\d.]+)" height="([\d.]+)"/).map(Number);
    const words = [...page.matchAll(
        /<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)<\/word>/g)]
        .map((m) => ({ left: +m[1], top: +m[2], right: +m[3], bottom: +m[4], text: m[5] }));
    return { width, height, words };
  });
}

function paperProblems(html, lesson, paper, pages) {
  const problems = [];
  const [width, height] = PAPERS[paper];
  const figures = (html.match(/<figure/g) ?? []).length;
  const most = 2 + Math.ceil((lesson.nodes.length + 12 * figures) / 80);
  if (pages.length > most) problems.push(`${pages.length} pages, expected at most ${most}`);
  let labels = 0;
  pages.forEach((page, i) => {
    const at = `page ${i + 1}`;
    if (Math.abs(page.width - width) > 2 || Math.abs(page.height - height) > 2) {
      problems.push(`${at}: ${page.width} x ${page.height} points, expected ${paper}`);
    }
    if (page.words.length < 12) problems.push(`${at}: empty but for ${page.words.length} words`);
    for (const w of page.words) {
      if (w.left < MARGIN - 1 || w.right > page.width - MARGIN + 1 || w.top < MARGIN - 1 ||
          w.bottom > page.height - FOOT) {
        problems.push(`${at}: '${w.text}' runs out of the page`);
      }
      if (w.bottom - w.top < MIN_POINTS) problems.push(`${at}: '${w.text}' is too small`);
    }
    const here = page.words.filter((w) => /^[a-h1-8]$/.test(w.text) &&
                                          w.bottom - w.top < LABEL_POINTS).length;
    if (here % LABELS !== 0) problems.push(`${at}: a diagram is cut, ${here} of its labels`);
    labels += here;
  });
  if (labels !== figures * LABELS) {
    problems.push(`${labels / LABELS} diagrams printed, expected ${figures}`);
  }
  const text = pages.flatMap((p) => p.words.map((w) => w.text)).join(' ').replace(/[‹›]/g, '');
  for (const node of lesson.nodes) {
    if (!text.includes(node.san)) problems.push(`${node.san} is on no page`);
  }
  return problems;
}

// ---------------------------------------------------------------- screen

// Runs in the page: the first two fields of each picture's FEN, from where the renderer puts things.
function readPictures() {
  const centre = (e) => {
    const box = e.getBoundingClientRect();
    return { x: box.left + box.width / 2, y: box.top + box.height / 2, wide: box.width };
  };
  const nearest = (labels, key, at) =>
      labels.reduce((a, b) => (Math.abs(b[key] - at) < Math.abs(a[key] - at) ? b : a)).name;
  return [...document.querySelectorAll('svg[role=img]')].map((svg) => {
    const labels = [...svg.querySelectorAll('text')].map((e) => ({ name: e.textContent, ...centre(e) }));
    const files = labels.filter((l) => l.name >= 'a');
    const ranks = labels.filter((l) => l.name < 'a');
    const board = {};
    for (const use of svg.querySelectorAll('use')) {
      const { x, y, wide } = centre(use);
      if (wide === 0) return 'a piece has no outline';
      const piece = use.getAttribute('href').slice('#piece-'.length);
      const letter = piece === 'knight' ? 'n' : piece[0];
      const white = getComputedStyle(use).fill === 'rgb(255, 255, 255)';
      board[nearest(files, 'x', x) + nearest(ranks, 'y', y)] = white ? letter.toUpperCase() : letter;
    }
    const rows = [...'87654321'].map((rank) =>
      [...'abcdefgh'].map((file) => board[file + rank] ?? '1').join('')
          .replace(/1+/g, (run) => run.length));
    const disc = svg.querySelector('circle[r="16"]');
    return `${rows.join('/')} ${disc.getAttribute('fill') === '#ffffff' ? 'w' : 'b'}` +
           `|${svg.querySelector('desc').textContent}`;
  });
}

function picturesOf(html, name) {
  const file = path.join(scratch, `${name}-drawn.html`);
  const script = `<script>document.body.dataset.drawn = JSON.stringify((${readPictures})());</script>`;
  fs.writeFileSync(file, html.replace('</body>', () => `${script}</body>`));
  const dom = chromium('--dump-dom', `file://${file}`);
  const drawn = dom.match(/data-drawn="(.*?)"[ >]/s);
  if (!drawn) throw new Error('the page did not run its script');
  return JSON.parse(drawn[1].replaceAll('&quot;', '"').replaceAll('&amp;', '&'));
}

function pictureProblems(pictures, fens) {
  const problems = pictures.length === 0 ? ['no picture'] : [];
  for (const picture of pictures) {
    const [drawn, named] = picture.split('|');
    if (drawn !== position(named ?? '')) problems.push(`drawn ${drawn}, named ${named}`);
    if (!fens.has(named)) problems.push(`${named} is not in the lesson`);
  }
  return problems;
}

// ---------------------------------------------------------------- cards

function cardProblems(dir) {
  const problems = [];
  const lines = fs.readFileSync(path.join(dir, 'cards.tsv'), 'utf8').split('\n');
  if (lines.pop() !== '') problems.push('the last line is not ended');
  const names = lines.shift().split('\t');
  const asked = new Set();
  const pictures = [];
  for (const line of lines) {
    const cells = line.split('\t');
    if (cells.length !== names.length) problems.push(`${cells.length} cells: ${line}`);
    for (const cell of cells) if (/^[=+\-@]/.test(cell)) problems.push(`a formula: ${cell}`);
    const card = Object.fromEntries(names.map((name, i) => [name, cells[i]]));
    if (asked.has(position(card.fen))) problems.push(`asked twice: ${card.fen}`);
    asked.add(position(card.fen));
    for (const move of card.move.split(' or ')) {
      try {
        new Chess(card.fen).move(move.split(' ')[1]);
      } catch {
        problems.push(`${move} in ${card.fen}`);
      }
    }
    const svg = path.join(dir, card.diagram);
    run('xmllint', '--noout', svg);
    const text = fs.readFileSync(svg, 'utf8');
    if (!text.includes(`<desc>${card.fen}</desc>`)) problems.push(`${card.diagram}: other position`);
    pictures.push(text.slice(text.indexOf('<svg')));
  }
  return { problems, pictures, cards: lines.length };
}

// ---------------------------------------------------------------- all

const [plyscribe, ...lessons] = process.argv.slice(2);
let cards = 0;
for (const file of lessons) {
  const name = path.basename(path.dirname(file));
  const dir = path.join(scratch, name);
  run(plyscribe, 'extract', file, '--out', dir);
  const lesson = JSON.parse(fs.readFileSync(path.join(dir, 'lesson.json'), 'utf8'));
  const html = fs.readFileSync(path.join(dir, 'sheet.html'), 'utf8');
  for (const paper of Object.keys(PAPERS)) {
    const page = path.join(dir, `${paper}.html`);
    const pdf = path.join(dir, `${paper}.pdf`);
    fs.writeFileSync(page, html.replace('</style>', `@page { size: ${paper}; }\n</style>`));
    chromium('--no-pdf-header-footer', `--print-to-pdf=${pdf}`, `file://${page}`);
    check(`${name} on ${paper}`, paperProblems(html, lesson, paper, pagesOf(pdf)));
  }
  const fens = new Set([lesson.start.fen, ...lesson.nodes.map((n) => n.fen)]);
  check(`${name} on the screen`, pictureProblems(picturesOf(html, name), fens));
  const table = cardProblems(dir);
  check(`${name} cards`, table.problems);
  cards += table.cards;
  if (table.cards > 0) {
    // One after the other, each with its own outlines: chromium takes the first of one name.
    const page = `<!DOCTYPE html><body>${table.pictures.join('\n')}</body>`;
    check(`${name} cards drawn`, pictureProblems(picturesOf(page, `${name}-cards`), fens));
  }
}
check('some cards', cards > 0 ? [] : ['no lesson has a card']);
fs.rmSync(scratch, { recursive: true });
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 && passed > 0 ? 0 : 1);
