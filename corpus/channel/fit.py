#!/usr/bin/env python3
"""Fit the sound channel: lexicon/en/phones.tsv, heard.tsv and background.tsv.

usage: fit.py [--data /tmp/channel] [--out lexicon/en] [--lm-eval sphinx_lm_eval] [--lm en-us.lm.bin]

Step 1: align what was said to what was heard, phone by phone (align.py), by EM.
Step 2: cut each paragraph into chunks, the smallest runs of spoken words and of heard words that
        answer each other; count each run of chunks whose spoken words are one to three units.
Step 3: general English for the background: a unigram table, and each heard sequence scored by
        the recogniser's own language model (sphinx_lm_eval is in Debian's sphinxbase-utils).
The formats are described in lexicon/en/README.md.
"""
import argparse, collections, math, os, re, subprocess, sys, tempfile
from align import ARPABET, HERE, Dictionary, kinship, read, run_em

NOTHING = '-'        # stands for no heard word at all
DISCOUNT = 0.5       # taken off each count, left for what was never seen
TRUST = 3.0          # a sequence is believed as its parts are until it was seen about so often
GENERAL = 0.7        # share of general English in the background; the rest is misheard lesson talk


def chunks(para, pairs):
    """[(first spoken, last spoken, first heard, last heard)], half open, in order."""
    strength = collections.Counter()
    size_said = collections.Counter(p[1] for p in para.said)
    size_heard = collections.Counter(p[1] for p in para.heard_phones)
    for i, j in pairs:
        if i is not None and j is not None:
            k = kinship(para.said[i][0], para.heard_phones[j][0])
            strength[para.said[i][1], para.heard_phones[j][1]] += 1.0 if k < 1 else 0.6 if k < 3 else 0.3
    linked = collections.defaultdict(set)   # heard word -> spoken words
    best = {}
    for (s, h), w in strength.items():
        if w >= 0.5 * min(size_said[s], size_heard[h]):
            linked[h].add(s)
        if w > best.get(h, (0, 0))[0]:
            best[h] = (w, s)
    out, at, open_heard = [], 0, 0
    for h in range(len(para.heard)):
        said = linked[h] or ({best[h][1]} if h in best else set())
        if not said:                        # made of nothing: goes with the word before it
            if out:
                out[-1][3] = h + 1
            continue
        a, b = min(said), max(said) + 1
        if out and a < out[-1][1]:
            out[-1][1], out[-1][3] = max(out[-1][1], b), h + 1
            at = out[-1][1]
            continue
        for s in range(at, a):              # spoken words that nothing answers
            out.append([s, s + 1, h, h])
        out.append([a, b, h, h + 1])
        at = b
    for s in range(at, len(para.spoken)):
        out.append([s, s + 1, len(para.heard), len(para.heard)])
    return out


def count(alignments):
    """(counts of units -> heard, totals of units, heard words of talk, chunks of talk)."""
    seen, totals, talk = collections.defaultdict(collections.Counter), collections.Counter(), collections.Counter()
    for para, pairs in alignments:
        spoken = para.spoken
        for n in (1, 2, 3):
            for s in range(len(spoken) - n + 1):
                if all(u for _, u, _ in spoken[s:s + n]) and spoken[s][2] == spoken[s + n - 1][2]:
                    totals[' '.join(w for w, _, _ in spoken[s:s + n])] += 1
        cut = chunks(para, pairs)
        for first in range(len(cut)):
            for last in range(first, min(first + 3, len(cut))):
                s, e, h, g = cut[first][0], cut[last][1], cut[first][2], cut[last][3]
                if e - s > 3 or g - h > 3 or spoken[s][2] != spoken[e - 1][2] or not all(u for _, u, _ in spoken[s:e]):
                    continue
                seen[' '.join(w for w, _, _ in spoken[s:e])][' '.join(para.heard[h:g]) or NOTHING] += 1
            s, e, h, g = cut[first]
            if not any(u for _, u, _ in spoken[s:e]):
                talk.update(para.heard[h:g])
    return seen, totals, talk


def by_parts(units, heard, p):
    """The best that shorter entries give for this pair, joined."""
    u, h = units.split(), [] if heard == NOTHING else heard.split()
    best = 0.0
    for i in range(1, len(u)):
        for j in range(len(h) + 1):
            head = p.get((' '.join(u[:i]), ' '.join(h[:j]) or NOTHING), 0.0)
            tail = p.get((' '.join(u[i:]), ' '.join(h[j:]) or NOTHING), 0.0)
            best = max(best, head * tail)
    return best


def table(seen, totals):
    """{(units, heard): p}: relative counts, discounted, and drawn towards what the parts say."""
    p = {}
    for n in (1, 2, 3):
        for units in sorted(seen):
            if units.count(' ') == n - 1:
                trust = TRUST if n > 1 else 0.0
                for heard, c in seen[units].items():
                    joined = by_parts(units, heard, p) if n > 1 else 0.0
                    p[units, heard] = (c - DISCOUNT + trust * joined) / (totals[units] + trust)
    return p


def language_model(args, sequences):
    """{(word, history): -log p} for every word of every sequence."""
    out = {}
    with tempfile.NamedTemporaryFile('w', suffix='.txt') as f:
        f.write('\n'.join(sorted(sequences)) + '\n')
        f.flush()
        r = subprocess.run([args.lm_eval, '-lm', args.lm, '-lsn', f.name, '-verbose', 'yes'], check=True, stdout=subprocess.PIPE,
                           stderr=subprocess.DEVNULL, text=True)
    for m in re.finditer(r'^log P\((\S+?)\|(.*?)\) = (-?\d+)$', r.stdout, re.M):
        out[m.group(1), m.group(2).strip()] = -int(m.group(3)) * math.log(1.0001)
    return out


def right(units, dictionary):
    """What a perfect recogniser would write: words that sound exactly as the unit does."""
    from align import DIGITS
    return DIGITS.get(units, units)


def report(seen, totals, voices):
    out = []
    for group in ('knight bishop rook queen king pawn'.split(), list('abcdefgh'), list('12345678'),
                  'takes check castles captures on to white black'.split()):
        for u in group:
            top = seen[u].most_common(7)
            n = totals[u] or 1
            word = right(u, None)
            out.append(f'{u:9} {n:5}  as itself {100 * seen[u][word] / n:3.0f} %   ' + ', '.join(f'{h} {100 * c / n:.0f}' for h, c in top if h != word))
        out.append('')
    return '\n'.join(out)


def main():
    p = argparse.ArgumentParser()
    p.add_argument('--data', default='/tmp/channel')
    p.add_argument('--out', default=os.path.join(HERE, '../../lexicon/en'))
    p.add_argument('--lm-eval', default='sphinx_lm_eval')
    p.add_argument('--lm', default='/usr/share/pocketsphinx/model/en-us/en-us.lm.bin')
    p.add_argument('--vocabulary', type=int, default=20000, help='words in background.tsv')
    args = p.parse_args()
    dictionary = Dictionary()
    paras = read(args.data, dictionary)
    cost, alignments = run_em(paras)
    with open(os.path.join(args.out, 'phones.tsv'), 'w') as f:
        f.write('spoken\theard\tcost\n')
        for a in ARPABET:
            for b in ARPABET:
                f.write(f'{a}\t{b}\t{cost.sub[a, b]:.2f}\n')
            f.write(f'{a}\t-\t{cost.lost[a]:.2f}\n')
        for b in ARPABET:
            f.write(f'-\t{b}\t{cost.put_in[b]:.2f}\n')
    seen, totals, talk = count(alignments)
    probability = table(seen, totals)
    kept = sorted((u, -q, h) for (u, h), q in probability.items() if seen[u][h] >= 2)
    sequences = {h for _, _, h in kept if h != NOTHING}
    everyday = sorted({w for w in dictionary.words if re.fullmatch(r"[a-z][a-z'.-]*", w)})
    lm = language_model(args, sequences | set(everyday) | set(talk))
    all_talk = sum(talk.values())

    def background(word, history=''):
        general = math.exp(-lm.get((word, history), lm.get((word, ''), 20.0)))
        return -math.log(GENERAL * general + (1 - GENERAL) * talk[word] / all_talk)

    with open(os.path.join(args.out, 'heard.tsv'), 'w') as f:
        f.write('units\theard\tcount\ttotal\tcost\tbackground\n')
        for u, q, h in kept:
            words = [] if h == NOTHING else h.split()
            b = sum(background(w, ' '.join(words[max(0, i - 2):i])) for i, w in enumerate(words))
            f.write(f'{u}\t{h}\t{seen[u][h]}\t{totals[u]}\t{-math.log(-q):.2f}\t{b:.2f}\n')
    table_of_words = sorted((background(w), w) for w in set(everyday) | set(talk) if (w, '') in lm)[:args.vocabulary]
    must = {w for s in sequences for w in s.split()} - {w for _, w in table_of_words}
    table_of_words += [(background(w), w) for w in must]
    with open(os.path.join(args.out, 'background.tsv'), 'w') as f:
        for w, b in sorted((w, b) for b, w in table_of_words):
            f.write(f'{w}\t{b:.2f}\n')
    voices = collections.Counter(x.voice for x in paras)
    print(len(paras), 'paragraphs', dict(voices), sum(len(x.spoken) for x in paras), 'words spoken,',
          sum(u for x in paras for _, u, _ in x.spoken), 'of them units;', sum(len(x.heard) for x in paras), 'words heard')
    print(len(kept), 'entries in heard.tsv;', len(table_of_words), 'words in background.tsv')
    print(report(seen, totals, voices))


if __name__ == '__main__':
    main()
