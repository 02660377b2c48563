// What the guides show is what the program does today: every command in docs/ is run.
//
//   node guide_check.mjs PLYSCRIBE [--write] [PAGE...]       compare; --write puts today's output there
//
// A page's commands run one after the other in a folder of their own, in which `corpus` is the
// repository's. Two kinds of block count:
//
//   <!-- file lesson.srt -->      the block after it is a file of that name
//   ```console                    lines that begin with "$ " are commands, the others what they print
//   ```console fails              the same, of commands that return something else than 0
//
// "..." among others stands for any lines; with --write as many lines as before are kept on both sides
// of it. Alone it stands for nothing: --write puts all of the output there.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const repository = fileURLToPath(new URL('..', import.meta.url));
const docs = path.join(repository, 'docs');
const [program = '', ...rest] = process.argv.slice(2);
const plyscribe = path.resolve(program);  // commands run in folders of their own, and find it by name
if (path.basename(plyscribe) !== 'plyscribe' || !fs.existsSync(plyscribe)) {
  throw new Error(`expected the program, a file named plyscribe; got '${program}'`);
}
const write = rest.includes('--write');
const named = rest.filter((a) => a !== '--write').map((p) => path.resolve(p));
const pages = named.length > 0 ? named
  : fs.readdirSync(docs, { recursive: true }).filter((f) => f.endsWith('.md')).sort()
      .map((f) => path.join(docs, f));
const PROGRESS = /^plyscribe: reading .*: \d+ %\n/gm;
const BLOCK = /(?:<!-- file (\S+) -->\n)?```([^\n]*)\n([^]*?)```/g;

// [{ command, expected: [line] }] of a block's text.
function commands(text) {
  const out = [];
  let open = false;  // a command that goes on in the next line
  for (const line of text.trimEnd().split('\n')) {
    if (open) {
      out.at(-1).command += '\n' + line;
    } else if (line.startsWith('$ ')) {
      out.push({ command: line.slice(2), expected: [] });
    } else {
      if (out.length === 0) throw new Error(`expected a command before "${line}"`);
      out.at(-1).expected.push(line);
      continue;
    }
    open = line.endsWith('\\');
  }
  return out;
}

// Today's lines in the shape of those that were expected.
function shaped(expected, actual) {
  const gap = expected.indexOf('...');
  if (gap < 0 || expected.length === 1 || actual.length < expected.length) return actual;
  const behind = expected.length - gap - 1;
  return [...actual.slice(0, gap), '...', ...(behind > 0 ? actual.slice(-behind) : [])];
}

function check(page, folder) {
  const problems = [];
  let ran = 0;
  const text = fs.readFileSync(page, 'utf8');
  const today = text.replace(BLOCK, (block, file, info, body) => {
    if (file) fs.writeFileSync(path.join(folder, file), body);
    if (!info.startsWith('console')) return block;
    let shown = '';
    for (const { command, expected } of commands(body)) {
      const run = spawnSync('bash', ['-c', `exec 2>&1\n${command}`], {
        cwd: folder, encoding: 'utf8',
        env: { PATH: `${path.dirname(plyscribe)}:${process.env.PATH}`, LC_ALL: 'C.UTF-8', HOME: folder },
      });
      ran += 1;
      run.stdout = run.stdout.replace(PROGRESS, '');  // of a busy machine
      const failed = run.status !== 0;
      if (failed !== (info === 'console fails')) problems.push(`"${command}" returned ${run.status}: ${run.stdout}`);
      const actual = run.stdout.trimEnd().split('\n');
      const lines = shaped(expected, run.stdout === '' ? [] : actual);
      const wrong = Math.max(...[0, 1].map((side) => {
        const [a, b] = side === 0 ? [lines, expected] : [expected, lines];
        return a.findIndex((line, i) => line !== b[i]);
      }));
      if (wrong >= 0) {
        problems.push(`"${command}" prints "${lines[wrong] ?? ''}", the page shows "${expected[wrong] ?? ''}"`);
      }
      shown += `$ ${command}\n${lines.map((l) => l + '\n').join('')}`;
    }
    return '```' + info + '\n' + shown + '```';
  });
  if (write && today !== text) fs.writeFileSync(page, today);
  // A link to a file that isn't there helps nobody.
  for (const [, target] of text.matchAll(/\]\(([^)#:]+)(?:#[^)]*)?\)|src="([^":]+)"/g)) {
    if (target && !fs.existsSync(path.join(path.dirname(page), target))) problems.push(`links to ${target}, which isn't there`);
  }
  return { problems, ran };
}

let failed = false;
let commandsRun = 0;
for (const page of pages) {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'plyscribe-guide-'));
  fs.symlinkSync(path.join(repository, 'corpus'), path.join(folder, 'corpus'));
  const { problems, ran } = check(page, folder);
  fs.rmSync(folder, { recursive: true });
  commandsRun += ran;
  for (const p of problems) console.log(`${path.relative(repository, page)}: ${p}`);
  failed ||= problems.length > 0;
}
console.log(`${commandsRun} commands of ${pages.length} pages`);
if (commandsRun === 0) failed = true;
if (failed && !write) {
  console.log('node tests/guide_check.mjs PLYSCRIBE --write mends what they print');
  process.exit(1);
}
