// What the checks of the review page share: the program, a browser, lessons, a place for what they
// write.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export const source = fileURLToPath(new URL('../..', import.meta.url));
export const plyscribe = process.env.PLYSCRIBE;  // the program under test
if (!plyscribe) throw new Error('expected the program in the environment variable PLYSCRIBE');
// Pictures and the like, for a person to look at.
export const output = process.env.REVIEW_OUTPUT ?? fs.mkdtempSync(path.join(os.tmpdir(), 'review-'));
fs.mkdirSync(output, { recursive: true });

export const demo = path.join(source, 'corpus/lessons/demo-evening-class/heard.txt');

// A folder of its own for each check, gone with the process.
const folders = [];
export function folder() {
  const made = fs.mkdtempSync(path.join(os.tmpdir(), 'plyscribe-review-'));
  folders.push(made);
  return made;
}
process.on('exit', () => folders.forEach(f => fs.rmSync(f, { recursive: true, force: true })));

// A lesson whose moves are said plainly, so that what the decoder makes of it is certain.
export const PLAIN = `[0:00] We begin with e4, e5, Nf3, Nc6, Bc4, Nf6, d3.
[0:10] Then Bc5, c3, d6, castles, castles.
[0:20] Instead of d3 there is Ng5, d5, exd5, Na5, Bb5+, c6, dxc6, bxc6.
[0:30] And now Bd3, Nd5, Nf3, Bd6, castles.
`;

export function lessonFile(text, name = 'lesson.txt') {
  const file = path.join(folder(), name);
  fs.writeFileSync(file, text);
  return file;
}

// Starts `plyscribe review`; { address, process, started (ms until the address was printed), stop }.
export function serve(lesson, ...options) {
  const began = performance.now();
  const child = spawn(plyscribe, ['review', lesson, ...options], { stdio: ['ignore', 'pipe', 'pipe'] });
  let out = '', err = '';
  child.stderr.on('data', text => { err += text; });
  const ended = new Promise(resolve => child.on('exit', resolve));
  return new Promise((resolve, reject) => {
    ended.then(code => reject(new Error(`plyscribe review ended with ${code}: ${err}`)));
    child.stdout.on('data', text => {
      out += text;
      if (!out.includes('\n')) return;
      resolve({ address: out.trim(), process: child, started: performance.now() - began,
                stop: async () => { child.kill('SIGTERM'); return ended; },
                kill: async () => { child.kill('SIGKILL'); return ended; } });
    });
  });
}

export function run(...args) {
  return new Promise(resolve => {
    const child = spawn(plyscribe, args, { stdio: ['ignore', 'pipe', 'pipe'] });
    let out = '', err = '';
    child.stdout.on('data', text => { out += text; });
    child.stderr.on('data', text => { err += text; });
    child.on('exit', status => resolve({ status, out, err }));
  });
}

const root = process.getuid?.() === 0;  // chromium's sandbox does not start as root
export const browse = () => chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--autoplay-policy=no-user-gesture-required', ...(root ? ['--no-sandbox'] : [])] });

// A page on which any error, refused script or failed request fails the check that opened it.
export async function open(browser, address, options = {}) {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, ...options });
  page.setDefaultTimeout(90000);
  page.faults = [];
  page.on('pageerror', error => page.faults.push(error.message));
  page.on('console', message => {
    if (message.type() === 'error' || message.type() === 'warning') page.faults.push(message.text());
  });
  await page.goto(address);
  await page.waitForSelector('body[data-ready]');
  return page;
}

// What the page says, read as a person would.
export const chips = page => page.$$eval('.chip', all => all.map(chip => ({
  heard: chip.querySelector('.heard').textContent, became: chip.querySelector('.became').textContent })));
export const tree = page => page.$$eval('.move', all => all.slice(1).map(m => m.childNodes[m.querySelector('b') ? 1 : 0].textContent));
export const card = page => page.textContent('#card');
// Selects the nth chip whose words were heard so.
export const chip = (page, heard, nth = 0) =>
  page.locator('.chip').filter({ has: page.locator('.heard', { hasText: new RegExp(`^${heard.replace(/[+]/g, '\\+')}$`) }) }).nth(nth);
// Waits until a correction has been answered. By selectors: functions that are polled would need
// eval, which the page forbids.
export async function corrected(page, act) {
  const before = await page.evaluate(() => document.body.dataset.revision);
  await act();
  await page.waitForSelector(`body:not([data-revision='${before}'])`);
}
