// What strangers, hostile transcripts and crashes can do: nothing.
import test from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import http from 'node:http';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { browse, open, serve, run, lessonFile, folder, PLAIN, chips, chip, corrected } from './bench.mjs';

// One request, as no browser would send it.
function ask(address, { method = 'GET', where = '', headers = {}, body } = {}) {
  const url = new URL(address);
  return new Promise((resolve, reject) => {
    const request = http.request({ host: url.hostname, port: url.port, method, headers,
                                   path: where.startsWith('/') ? where : url.pathname + where }, response => {
      let text = '';
      response.on('data', part => { text += part; });
      response.on('end', () => resolve({ status: response.statusCode, headers: response.headers, text }));
      response.on('close', () => reject(Object.assign(new Error('cut off'), { code: 'CUT_OFF' })));  // else
    });
    request.on('error', reject);
    request.end(body);
  });
}
const posting = address => ({ Origin: new URL(address).origin, 'Content-Type': 'application/json' });
const pinsOf = (...pins) => JSON.stringify({ schema: 'plyscribe.pins/1', pins });

test('only the own page may call', async t => {
  const lesson = lessonFile(PLAIN);
  const server = await serve(lesson);
  t.after(server.stop);
  const { address } = server;
  const url = new URL(address);
  assert.match(address, /^http:\/\/127\.0\.0\.1:\d+\/[0-9a-f]{32}\/$/);
  assert.equal((await ask(address)).status, 200);
  const body = pinsOf();
  const post = (headers, where = 'pins?revision=0') => ask(address, { method: 'POST', where, headers, body });
  for (const [what, answer] of [
    ['no token', await ask(address, { where: '/' })],
    ['another token', await ask(address, { where: `/${'0'.repeat(32)}/` })],
    ['a foreign host', await ask(address, { headers: { Host: `lesson.example:${url.port}` } })],
    ['a foreign origin', await ask(address, { headers: { Origin: 'http://lesson.example' } })],
    ['another site', await ask(address, { headers: { 'Sec-Fetch-Site': 'cross-site' } })],
    ['a post without origin', await post({ 'Content-Type': 'application/json' })],
    ['a post of another page', await post({ ...posting(address), Origin: 'http://lesson.example' })],
    ['a form', await post({ ...posting(address), 'Content-Type': 'text/plain' })],
  ]) {
    assert.equal(answer.status, 403, what);
    assert.doesNotMatch(answer.text, /Bc4/, what);
  }
  assert.equal((await post(posting(address), 'pins?revision=x')).status, 400);
  assert.equal((await post(posting(address), 'pins')).status, 400);
  assert.equal((await ask(address, { where: 'no-such' })).status, 404);
  assert.equal((await ask(address, { where: 'media' })).status, 404);
  assert.equal((await ask(address, { where: '../../etc/passwd' })).status, 404);
  assert.equal(fs.existsSync(`${lesson}.pins.json`), false);
  assert.equal((await post(posting(address))).status, 200);
});

test('listens on this machine only', async t => {
  const server = await serve(lessonFile(PLAIN));
  t.after(server.stop);
  const { port } = new URL(server.address);
  const others = Object.values(os.networkInterfaces()).flat()
    .filter(i => !i.internal && i.family === 'IPv4').map(i => i.address);
  for (const host of [...others, '127.0.0.2']) {
    await new Promise((resolve, reject) => {
      const socket = net.connect({ host, port: Number(port), timeout: 2000 });
      socket.on('connect', () => { socket.destroy(); reject(new Error(`answers on ${host}`)); });
      socket.on('error', resolve);
      socket.on('timeout', () => { socket.destroy(); resolve(); });
    });
  }
  // A port that is taken is refused, not shared.
  const second = await run('review', lessonFile(PLAIN), '--port', port);
  assert.equal(second.status, 3);
  assert.match(second.err, /^plyscribe: --port: expected a port that is free/);
});

test('large and senseless requests are refused and the server goes on', async t => {
  const server = await serve(lessonFile(PLAIN));
  t.after(server.stop);
  const { address } = server;
  const big = 'x'.repeat(2 << 20);
  const answer = await ask(address, { method: 'POST', where: 'pins?revision=0', headers: posting(address), body: big })
    .catch(error => ({ status: error.code }));
  assert.ok([413, 'EPIPE', 'ECONNRESET'].includes(answer.status), String(answer.status));
  const deep = '['.repeat(200000);
  const nested = await ask(address, { method: 'POST', where: 'pins?revision=0', headers: posting(address), body: deep });
  assert.equal(nested.status, 422);
  const long = await ask(address, { where: 'x'.repeat(20000) }).catch(error => ({ status: error.code }));
  assert.ok([400, 414, 'ECONNRESET', 'EPIPE'].includes(long.status), String(long.status));
  await new Promise(resolve => {
    const socket = net.connect(Number(new URL(address).port), '127.0.0.1', () => {
      socket.end('\0\xff nonsense\r\n\r\n');
    });
    socket.resume();  // an answer nobody reads would keep it open
    socket.on('close', resolve);
    socket.on('error', resolve);
  });
  assert.equal((await ask(address)).status, 200);
});

test('the answer forbids what the page does not need', async t => {
  const server = await serve(lessonFile(PLAIN));
  t.after(server.stop);
  const { headers, text } = await ask(server.address);
  const policy = headers['content-security-policy'];
  for (const part of ["default-src 'none'", "script-src 'sha256-", "style-src 'sha256-", "frame-ancestors 'none'",
                      "base-uri 'none'", "form-action 'none'", "require-trusted-types-for 'script'"]) {
    assert.ok(policy.includes(part), part);
  }
  assert.ok(!/unsafe|\*/.test(policy), policy);
  assert.equal(headers['x-content-type-options'], 'nosniff');
  assert.equal(headers['referrer-policy'], 'no-referrer');
  assert.equal(headers['cache-control'], 'no-store');
  assert.equal(headers['cross-origin-resource-policy'], 'same-origin');
  assert.doesNotMatch(text, / on[a-z]+="|style="|javascript:/);
});

test('media is the named file alone, by ranges', async t => {
  const recording = path.join(folder(), 'talk.wav');
  const bytes = Buffer.from(Array.from({ length: 5 << 20 }, (_, i) => i * 7 & 255));
  fs.writeFileSync(recording, bytes);
  const server = await serve(lessonFile(PLAIN), '--media', recording);
  t.after(server.stop);
  const range = value => new Promise((resolve, reject) => {
    const url = new URL(server.address);
    http.get({ host: url.hostname, port: url.port, path: `${url.pathname}media`, headers: value ? { Range: value } : {} }, response => {
      const parts = [];
      response.on('data', part => parts.push(part));
      response.on('end', () => resolve({ status: response.statusCode, headers: response.headers, bytes: Buffer.concat(parts) }));
    }).on('error', reject);
  });
  for (const [value, first, last] of [['bytes=0-9', 0, 9], ['bytes=1000-70000', 1000, 70000], ['bytes=-5', bytes.length - 5, bytes.length - 1],
                                      [`bytes=${bytes.length - 3}-`, bytes.length - 3, bytes.length - 1],
                                      ['bytes=0-', 0, (4 << 20) - 1], ['bytes=7-99999999', 7, (4 << 20) + 6]]) {
    const answer = await range(value);
    assert.equal(answer.status, 206, value);
    assert.equal(answer.headers['content-range'], `bytes ${first}-${last}/${bytes.length}`);
    assert.ok(answer.bytes.equals(bytes.subarray(first, last + 1)), value);
    assert.equal(answer.headers['content-type'], 'audio/wav');
  }
  for (const value of [`bytes=${bytes.length}-`, 'bytes=0-1,5-6', 'bytes=9-1', 'bytes=99999999999999999999-']) {
    const answer = await range(value);
    assert.equal(answer.status, 416, value);
    assert.ok(answer.bytes.length < 200);
  }
  const whole = await range();
  assert.equal(whole.status, 200);
  assert.ok(whole.bytes.equals(bytes));
});

test('a transcript with markup and marks of writing direction shows as text', async () => {
  const hostile = `[0:00] We play e4 <script>document.title='owned'</script> e5, <img src=x onerror="document.title='owned'"> Nf3.
[0:10] \u202Ereversed Nc6\u202C then \u2067שלום Bc4 </bdi></p><b>bold &amp; d6 "]}</script><!-- d3.
`;
  const server = await serve(lessonFile(hostile, '<img src=x onerror=alert(1)>.txt'));
  const browser = await browse();
  const page = await open(browser, server.address);
  const shown = await page.textContent('#roll');
  for (const text of ["<script>document.title='owned'</script>", '<img src=x', '</bdi></p><b>bold &amp;', '<!--', 'שלום', 'reversed']) {
    assert.ok(shown.includes(text), text);
  }
  assert.equal(await page.locator('#roll script, #roll img, #roll b:not(.branch b), #card img').count(), 0);
  assert.doesNotMatch(await page.title(), /owned/);
  assert.match(await page.title(), /<img src=x/);
  // Whatever direction the words ask for, they keep it to themselves: the moves stand as they are.
  const moves = (await chips(page)).map(c => c.became);
  assert.ok(moves.some(m => /^1\. e4/.test(m)), moves.join('|'));
  for (const bdi of await page.$$eval('.chip .heard, .run', all => all.map(e => e.tagName))) assert.equal(bdi, 'BDI');
  for (let i = 0; i < await page.locator('.chip').count(); ++i) await page.locator('.chip').nth(i).click();
  // The page's own policy stops a script that someone would add.
  const stopped = await page.evaluate(() => {
    try { document.body.innerHTML += '<i></i>'; return false; } catch { return true; }
  });
  assert.ok(stopped, 'innerHTML is open');
  await browser.close();
  await server.stop();
});

test('killed at any moment of a save, the program leaves the old pins or the new', async () => {
  const lesson = lessonFile(PLAIN);
  const file = `${lesson}.pins.json`;
  const outcomes = new Set();
  const word = n => ({ first_word: n, last_word: n + 1, t: 0, heard: PLAIN.match(/\S+/g)[n + 1].replace(/[,.]$/, ''), is: 'no move' });
  let old = null;
  let wait = 0;  // milliseconds from the question to the kill; draws near to the moment of the save
  for (let round = 0; round <= 14 || (outcomes.size < 2 && round < 60); ++round) {
    const server = await serve(lesson);
    const wanted = round % 2 ? [word(3)] : [word(3), word(4)];
    const began = performance.now();
    const answer = ask(server.address, { method: 'POST', where: 'pins?revision=0', headers: posting(server.address), body: pinsOf(...wanted) })
      .then(a => a.status, error => error.code);
    if (round === 0) {
      assert.equal(await answer, 200);
      wait = (performance.now() - began) / 2;
    } else {
      await new Promise(resolve => setTimeout(resolve, wait));
    }
    await server.kill();
    const status = await answer;
    const now = fs.existsSync(file) ? JSON.parse(fs.readFileSync(file)).pins : null;
    const isNew = JSON.stringify(now?.map(p => p.first_word)) === JSON.stringify(wanted.map(p => p.first_word));
    assert.ok(isNew || JSON.stringify(now) === JSON.stringify(old), `round ${round}: ${JSON.stringify(now)}`);
    if (status === 200) assert.ok(isNew, 'said to be saved and is not');
    if (round > 0) {
      outcomes.add(isNew);
      wait *= isNew ? 0.75 : 1.3;
    }
    old = now;
  }
  assert.equal(outcomes.size, 2, 'every kill came too early or too late to tell anything');
});

test('what cannot be read is refused in one line', async () => {
  const lesson = lessonFile(PLAIN);
  const bad = path.join(folder(), 'bad.pins.json');
  fs.writeFileSync(bad, '{"schema":"plyscribe.pins/1","pins":[{"first_word":0}]}');
  const foreign = path.join(folder(), 'foreign.json');
  fs.writeFileSync(foreign, pinsOf({ first_word: 0, last_word: 1, t: 0, heard: 'elsewhere', is: 'no move' }));
  for (const options of [['/no/such/lesson'], [lesson, '--media', '/no/such/media'], [lesson, '--media', os.tmpdir()],
                         [lesson, '--pins', bad], [lesson, '--pins', foreign], [lesson, '--page', '/no/such/folder/x/../\0'.slice(0, 16)],
                         [lesson, '--page', os.tmpdir()]]) {
    const { status, out, err } = await run('review', ...options);
    assert.equal(status, 3, options.join(' '));
    assert.equal(out, '');
    assert.match(err, /^plyscribe: [^\n]*expected[^\n]*\n$/, options.join(' '));
  }
  assert.equal((await run('review', lesson, '--port', '99999')).status, 2);
});
