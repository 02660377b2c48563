// The example in README.md is what the program prints today.
//
//   node readme_example.mjs PLYSCRIBE [--write]       compare; --write puts today's output there
//
// The example is the fenced block after the line EXAMPLE: the first lines of the demo lesson's
// outline, as many as the block has.
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
if (run.status !== 0) throw new Error(`${plyscribe} returned ${run.status}: ${run.stderr}`);
const printed = run.stdout.split('\n');

const text = fs.readFileSync(readme, 'utf8');
const begin = text.indexOf(EXAMPLE) + EXAMPLE.length;
const end = text.indexOf('```', begin);
if (begin < EXAMPLE.length || end < 0) throw new Error(`${readme}: expected a block after ${EXAMPLE}`);

if (mode === '--write') {
  const block = printed.slice(0, LINES).join('\n') + '\n';
  fs.writeFileSync(readme, text.slice(0, begin) + block + text.slice(end));
} else {
  const shown = text.slice(begin, end).trimEnd().split('\n');
  const different = shown.findIndex((line, i) => line !== printed[i]);
  if (shown.length < LINES / 2 || different >= 0) {
    console.log(`README.md shows ${JSON.stringify(shown[different])}, the program prints ` +
      `${JSON.stringify(printed[different])}; node tests/readme_example.mjs PLYSCRIBE --write mends it`);
    process.exit(1);
  }
}
