// The example in README.md is what the program prints today, its scores are the scoreboard's.
//
//   node readme_example.mjs PLYSCRIBE [--write]       compare; --write puts today's output there
//
// The example is the fenced block after the line EXAMPLE: the first lines of the demo lesson's
// outline, as many as the block has. The scores stand between <!-- scores --> and <!-- /scores -->.
// Each line of the block after <!-- two-knights --> is a piece of what is published of that lesson.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const EXAMPLE = '<!-- written by tests/readme_example.mjs -->\n```\n';
const LINES = 24;  // in a block that is written anew

const readme = fileURLToPath(new URL('../README.md', import.meta.url));
const lesson = fileURLToPath(
  new URL('../corpus/lessons/demo-evening-class/heard.txt', import.meta.url));

const [plyscribe, mode] = process.argv.slice(2);
const run = spawnSync(plyscribe, ['extract', lesson, '--outline'], { encoding: 'utf8' });
if (run.error) throw run.error;
if (run.status !== 0) throw new Error(`${plyscribe} returned ${run.status ?? run.signal}: ${run.stderr}`);
const printed = run.stdout.split('\n');

// Mean F1 of the lessons that came with the task, from the first table.
function scores() {
  const board = fileURLToPath(new URL('../corpus/SCOREBOARD.md', import.meta.url));
  if (!fs.existsSync(board)) return 'see the board';
  const rows = fs.readFileSync(board, 'utf8').matchAll(/^\| given \| (\S+) \|.*?\*\*([\d.]+)\*\*/gm);
  const names = { script: 'as spoken', heard: 'from a dictation recogniser',
                  'heard-words': 'from a word recogniser' };
  return [...rows].map(([, form, f1]) => `${f1} ${names[form]}`).join(', ');
}

function published(text) {
  const out = fs.mkdtempSync(path.join(os.tmpdir(), 'plyscribe-readme-'));
  const script = fileURLToPath(new URL('../corpus/lessons/two-knights/script.txt', import.meta.url));
  const made = spawnSync(plyscribe, ['extract', script, '--out', out, '--link',
    'https://video.example/7?t={seconds}'], { encoding: 'utf8' });
  const files = made.status === 0 ? ['chapters.txt', 'lesson.pgn', 'captions.txt'] : [];
  const all = files.map((f) => fs.readFileSync(path.join(out, f), 'utf8')).join('\n').replace(/\s+/g, ' ');
  fs.rmSync(out, { recursive: true });
  const block = text.match(/<!-- two-knights -->\n```\n([^]*?)```/)?.[1].split('\n').filter(Boolean) ?? [];
  if (block.length === 0) return ['expected a block of what is published'];
  return block.filter((line) => !all.includes(line)).map((line) => `"${line}" is not published`);
}

const text = fs.readFileSync(readme, 'utf8');
const begin = text.indexOf(EXAMPLE) + EXAMPLE.length;
const end = text.indexOf('```', begin);
if (begin < EXAMPLE.length || end < 0) throw new Error(`${readme}: expected a block after ${EXAMPLE}`);
const marked = /<!-- scores -->[^]*?<!-- \/scores -->/;
const scored = `<!-- scores -->${scores()}<!-- /scores -->`;

if (mode === '--write') {
  const block = printed.slice(0, LINES).join('\n') + '\n';
  fs.writeFileSync(
    readme, (text.slice(0, begin) + block + text.slice(end)).replace(marked, scored));
} else {
  const shown = text.slice(begin, end).trimEnd().split('\n');
  const wrong = shown.findIndex((line, i) => line !== printed[i]);
  const problems = [];
  if (wrong >= 0) problems.push(`shows "${shown[wrong]}", the program prints "${printed[wrong]}"`);
  if (shown.length < LINES / 2) problems.push(`shows ${shown.length} lines, expected ${LINES}`);
  if (text.match(marked)?.[0] !== scored) problems.push(`expected the scores ${scored}`);
  problems.push(...published(text));
  for (const p of problems) console.log(`README.md: ${p}`);
  if (problems.length > 0) {
    console.log('node tests/readme_example.mjs PLYSCRIBE --write mends it');
    process.exit(1);
  }
}
