// PLYSCRIBE=... node docs/review.mjs: writes docs/review.png, the demo lesson's page at a move that
// needs a look. Needs `npm ci` in tests/review, Debian's chromium and sox.
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { browse, demo, folder, open, serve, source } from '../tests/review/bench.mjs';

const made = folder();
const lesson = path.join(made, 'evening-class.txt');
const recording = path.join(made, 'evening-class.wav');
fs.copyFileSync(demo, lesson);
execFileSync('sox', ['-n', '-r', '8000', '-c', '1', recording, 'synth', '430', 'sine', '220', 'vol', '0.1']);
const server = await serve(lesson, '--media', recording);
const browser = await browse();
const page = await open(browser, server.address, { viewport: { width: 1360, height: 800 } });
await page.locator('.chip', { hasText: 'e3' }).first().click();
await page.waitForTimeout(500);  // the roll comes to rest
await page.screenshot({ path: path.join(source, 'docs/review.png') });
await browser.close();
await server.stop();
