// The example in README.md is what the program prints today, its scores are the scoreboard's.
//
//   node readme_example.mjs PLYSCRIBE [--write]       compare; --write puts today's output there
//
// The example is the fenced block after the line EXAMPLE: the first lines of the demo lesson's
// outline, as many as the block has. The scores stand between <!-- scores --> and <!-- /scores -->.
// What else the program prints is shown in docs/, which guide_check.mjs keeps true.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
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
  for (const p of problems) console.log(`README.md: ${p}`);
  if (problems.length > 0) {
    console.log('node tests/readme_example.mjs PLYSCRIBE --write mends it');
    process.exit(1);
  }
}
