#!/usr/bin/env python3
"""Distil the CMU pronouncing dictionary: lexicon/en/pronunciations.tsv and lexicon/en/letters.tsv.

usage: make_pronunciations.py [/usr/share/pocketsphinx/model/en-us/cmudict-en-us.dict]

pronunciations.tsv: "word<tab>PHONES PHONES ...", sorted by bytes, so that it can be searched where
it lies. PHONES is one character a phone (SYMBOLS below, the same table as in pronounce.cc).
Possessives that follow the rule of English are left out, and so are words with other marks than an
apostrophe.

letters.tsv: letter-to-sound rules learnt from the same dictionary, "LEFT.letter.RIGHT<tab>PHONES":
the letter between LEFT and RIGHT sounds as PHONES (which may be empty). "#" is the word's edge. Of
the rules that match, the one latest in CONTEXTS wins. Letters are aligned to phones by EM (each
letter sounds as none, one or two phones); then, from short contexts to long, a context becomes a
rule if that makes at least GAIN more letters of the dictionary right.
"""
import collections, math, os, re, sys

ARPABET = 'AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH'.split()
SYMBOLS = dict(zip(ARPABET, 'a@AcqIbCdDERefghiyJklmnNOQprsStTUuvwYzZ'))
CONTEXTS = [(0, 0), (0, 1), (1, 0), (1, 1), (0, 2), (1, 2), (2, 1), (2, 2), (1, 3), (2, 3), (3, 2), (3, 3), (1, 4), (4, 1)]
GAIN = 2


def read(path):
    words = {}
    for line in open(path, encoding='utf-8'):
        word, *phones = line.split()
        word = re.sub(r'\(\d+\)$', '', word)
        if re.fullmatch(r"[a-z][a-z']*|'[a-z]+", word):
            text = ''.join(SYMBOLS[p] for p in phones)
            if text not in words.setdefault(word, []):
                words[word].append(text)
    return words


def possessive(p):
    return p + ('iz' if p[-1] in 'sSzZCJ' else 's' if p[-1] in 'ptkfT' else 'z')


def regular(word, words):
    stem = word[:-2] if word.endswith("'s") else word[:-1] if word.endswith("s'") else None
    if not stem or stem not in words and stem + 's' not in words:
        return False
    base = words.get(stem) if word.endswith("'s") else words.get(stem + 's')
    return base is not None and set(words[word]) <= {possessive(p) if word.endswith("'s") else p for p in base}


def align(word, phones, cost):
    n, m = len(word), len(phones)
    best = [[math.inf] * (m + 1) for _ in range(n + 1)]
    back = [[0] * (m + 1) for _ in range(n + 1)]
    best[0][0] = 0.0
    for i in range(n):
        row, nxt, bk, letter = best[i], best[i + 1], back[i + 1], word[i]
        for j in range(max(0, m - 2 * (n - i)), min(m, 2 * i) + 1):
            if row[j] == math.inf:
                continue
            for k in range(3):
                if j + k <= m:
                    c = row[j] + cost.get((letter, phones[j:j + k]), 9.0 + 2 * k)
                    if c < nxt[j + k]:
                        nxt[j + k], bk[j + k] = c, k
    if best[n][m] == math.inf:
        return None
    out, j = [], m
    for i in range(n, 0, -1):
        k = back[i][j]
        out.append(phones[j - k:j])
        j -= k
    return out[::-1]


def learn(words):
    pairs = [(w, p[0]) for w, p in sorted(words.items()) if w.isalpha() and len(w) > 2]
    cost, aligned = {}, []
    for letter in 'abcdefghijklmnopqrstuvwxyz':      # start: any phone, but rather of its own kind
        for p in SYMBOLS.values():
            cost[letter, p] = 3.0 if (letter in 'aeiouy') == (p in 'a@AcqIERieyOQUu') else 6.0
        cost[letter, ''] = 4.0
    for step in range(4):
        sample = pairs if step == 3 else pairs[step::5]
        aligned = [(w, a) for w, p in sample if (a := align(w, p, cost))]
        counts, totals = collections.Counter(), collections.Counter()
        for w, a in aligned:
            for letter, chunk in zip(w, a):
                counts[letter, chunk] += 1
                totals[letter] += 1
        cost = {k: -math.log(c / totals[k[0]]) for k, c in counts.items() if c > 1}
    spots = []                                        # [left, letter, right, truth, current prediction]
    for w, a in aligned:
        padded = '#' * 4 + w + '#' * 4
        for i, chunk in enumerate(a):
            spots.append([padded, i + 4, chunk, None])
    rules = {}
    for left, right in CONTEXTS:
        at = collections.defaultdict(list)
        for s in spots:
            text, i = s[0], s[1]
            l, r = text[i - left:i], text[i + 1:i + 1 + right]
            if (left < 2 or l[1] != '#' or l[0] == '#') and '##' not in l + r:
                at[f'{l}.{text[i]}.{r}'].append(s)
        for context, here in at.items():
            if len(here) < GAIN and left + right:
                continue
            chunk, right_now = collections.Counter(s[2] for s in here).most_common(1)[0]
            if right_now - sum(s[2] == s[3] for s in here) >= (GAIN if left + right else 1):
                rules[context] = chunk
                for s in here:
                    s[3] = chunk
    print(len(rules), 'letter rules; letters right', sum(s[2] == s[3] for s in spots) / len(spots))
    return rules


def main():
    words = read(sys.argv[1] if len(sys.argv) > 1 else '/usr/share/pocketsphinx/model/en-us/cmudict-en-us.dict')
    here = os.path.join(os.path.dirname(os.path.abspath(__file__)), 'en')
    kept = {w: p for w, p in words.items() if not regular(w, words)}
    with open(os.path.join(here, 'pronunciations.tsv'), 'w') as f:
        for w in sorted(kept):
            f.write(f'{w}\t{" ".join(kept[w])}\n')
    print(len(words), 'words,', len(kept), 'kept')
    rules = learn(words)
    with open(os.path.join(here, 'letters.tsv'), 'w') as f:
        for context in sorted(rules):
            f.write(f'{context}\t{rules[context]}\n')


if __name__ == '__main__':
    main()
