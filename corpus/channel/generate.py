#!/usr/bin/env python3
"""Speak invented lesson talk and write down how a word recogniser hears it.

usage: nice -n 19 generate.py [--seed 1] [--first 0] [--count 200] [--minutes 40] [--out /tmp/channel]

Needs Debian's flite, sox, pocketsphinx and pocketsphinx-en-us. Paragraph i of a seed is always the
same text in the same voice, so a run can be cut short or continued. One JSON line a paragraph:

    {"i", "voice", "marked": text with move words marked (sentences.py), "phones": [[phone, end], ...],
     "heard": [[word, start, end, confidence], ...]}

phones are the synthesiser's own, with true times in the recogniser's clock; words keep the variant
number of their pronunciation ("and(2)"). Stops at --count paragraphs or --minutes of computing.
"""
import argparse, json, os, random, re, subprocess, tempfile
from sentences import paragraph, say

VOICES = [('slt', 35), ('rms', 35), ('awb', 15), ('kal16', 15)]
PAD = 0.1  # seconds of silence put before the speech, as in tools/speak.py


def opening_names():
    path = os.path.join(os.path.dirname(__file__), '../../lexicon/openings.tsv')
    names = {line.split('\t')[1] for line in open(path, encoding='utf-8').read().splitlines()[1:]}
    return sorted(n for n in names if re.fullmatch(r"[A-Za-z' ,-]+", n) and len(n) < 50)


def speak_and_hear(text, voice, tmp):
    raw, wav, txt = (os.path.join(tmp, n) for n in ('r.wav', 'w.wav', 't.txt'))
    with open(txt, 'w') as f:
        f.write(say(text))
    r = subprocess.run(['flite', '-voice', voice, '-psdur', '-f', txt, '-o', raw], check=True, capture_output=True, text=True)
    phones, clock = [], PAD
    for line in r.stdout.splitlines():
        end = 0.0
        for item in line.split():
            name, t = item.rsplit(':', 1)
            end = float(t)
            phones.append([name, round(clock + end, 3)])
        clock += end
    subprocess.run(['sox', raw, '-r', '16000', '-c', '1', '-b', '16', wav, 'pad', str(PAD), '0.3'], check=True)
    r = subprocess.run(['pocketsphinx_continuous', '-infile', wav, '-time', 'yes'], check=True, stdout=subprocess.PIPE,
                       stderr=subprocess.DEVNULL, text=True)
    heard = []
    for line in r.stdout.splitlines():
        f = line.split()
        if len(f) == 4 and re.match(r'^[\d.]+$', f[1]) and re.match(r'^[\d.]+$', f[2]) and not f[0].startswith(('<', '[', '+')):
            heard.append([f[0], float(f[1]), float(f[2]), round(float(f[3]), 4)])
    return phones, heard, clock


def computed():
    """Processor seconds so far, those of the programs called included."""
    return sum(os.times()[:4])


def main():
    p = argparse.ArgumentParser()
    p.add_argument('--seed', type=int, default=1)
    p.add_argument('--first', type=int, default=0)
    p.add_argument('--count', type=int, default=100000)
    p.add_argument('--minutes', type=float, default=40)
    p.add_argument('--out', default='/tmp/channel')
    a = p.parse_args()
    os.makedirs(a.out, exist_ok=True)
    names = opening_names()
    spoken = 0.0
    with open(os.path.join(a.out, f'seed{a.seed}-from{a.first}.jsonl'), 'w') as out, tempfile.TemporaryDirectory() as tmp:
        for i in range(a.first, a.first + a.count):
            if computed() > a.minutes * 60:
                break
            rng = random.Random(f'{a.seed}/{i}')
            voice = rng.choices([v for v, _ in VOICES], [w for _, w in VOICES])[0]
            text = paragraph(rng, names)
            phones, heard, seconds = speak_and_hear(text, voice, tmp)
            spoken += seconds
            out.write(json.dumps({'i': i, 'voice': voice, 'marked': text, 'phones': phones, 'heard': heard}) + '\n')
            out.flush()
            if i % 20 == 0:
                print(f'{i}: {spoken / 60:.1f} min spoken, factor {computed() / spoken:.2f}', flush=True)


if __name__ == '__main__':
    main()
