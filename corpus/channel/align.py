"""Spoken phones against heard phones: reading the data, and EM over a weighted edit distance.

A paragraph becomes two rows of phones with times: what was said (dictionary phones of each spoken
word, timed by the synthesiser) and what was heard (dictionary phones of each heard word, spread over
its time). The alignment pays -log p for each phone heard as another, lost or put in, and for every
tenth of a second that the two are apart.
"""
import collections, glob, json, math, os, re

HERE = os.path.dirname(os.path.abspath(__file__))
ARPABET = 'AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH'.split()
VOWELS = set('AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW'.split())
KIN = [set(x.split()) for x in (
    'P T K', 'B D G', 'P B', 'T D', 'K G', 'F TH S SH', 'V DH Z ZH', 'F V', 'TH DH', 'S Z', 'SH ZH', 'CH JH', 'CH SH', 'T CH', 'D JH',
    'M N NG', 'L R W', 'W Y', 'IY IH EY Y', 'EH AE AH IH EY', 'AA AO AH OW', 'UW UH OW W', 'ER R AH', 'AY AA AE', 'AW AE OW AA', 'OY AO OW', 'T DH D TH', 'B V', 'HH F')]
FLITE = {'ax': 'AH', 'axr': 'ER', 'ix': 'IH', 'el': 'AH', 'em': 'AH', 'en': 'AH', 'dx': 'T', 'nx': 'N', 'hv': 'HH'}
DIGITS = dict(zip('0123456789', 'zero one two three four five six seven eight nine'.split()))
LETTERS = dict(zip('abcdefghx', 'EY,B IY,S IY,D IY,IY,EH F,JH IY,EY CH,EH K S'.split(',')))


def kinship(a, b):
    """Cost before any data: the same, alike, of one kind, unlike."""
    if a == b:
        return 0.3
    if any(a in k and b in k for k in KIN):
        return 2.5
    return 4.0 if (a in VOWELS) == (b in VOWELS) else 6.0


class Dictionary:
    def __init__(self, path='/usr/share/pocketsphinx/model/en-us/cmudict-en-us.dict'):
        self.words = {}
        for line in open(path, encoding='utf-8'):
            word, *phones = line.split()
            self.words[word] = phones
        self.rules = dict(line.rstrip('\n').split('\t') for line in open(os.path.join(HERE, '../../lexicon/en/letters.tsv')))

    def guess(self, word):
        import sys
        sys.path.insert(0, os.path.join(HERE, '../../lexicon'))
        from make_pronunciations import CONTEXTS, SYMBOLS
        back = {v: k for k, v in SYMBOLS.items()}
        word = re.sub('[^a-z]', '', word)
        text, out = '#' * 4 + word + '#' * 4, []
        for i in range(4, 4 + len(word)):
            for l, r in reversed(CONTEXTS):
                key = f'{text[i - l:i]}.{text[i]}.{text[i + 1:i + 1 + r]}'
                if key in self.rules:
                    out += [back[c] for c in self.rules[key]]
                    break
        return out

    def __call__(self, word, letter=False):
        word = DIGITS.get(word, word)
        if letter and word in LETTERS:
            return LETTERS[word].split()
        return self.words.get(word) or self.words.get(re.sub(r'\(\d+\)$', '', word)) or self.guess(word)


class Paragraph:
    """spoken: [word, is unit, sentence]; heard: [word without variant]. Phones: [name, word index, time]."""

    def __init__(self, record, dictionary):
        self.voice = record['voice']
        self.spoken, sentence = [], 0
        for m in re.finditer(r"(~?)([A-Za-z0-9']+)|([.?!])", record['marked']):
            if m.group(3):
                sentence += 1
            else:
                self.spoken.append([m.group(2).lower(), bool(m.group(1)), sentence])
        self.said = [[p, i, 0.0] for i, (w, unit, _) in enumerate(self.spoken) for p in dictionary(w, unit)]
        self._time([(FLITE.get(p, p.upper()), end) for p, end in record['phones']])
        self.heard = [re.sub(r'\(\d+\)$', '', w[0]) for w in record['heard']]
        self.heard_phones = []
        for i, (w, start, end, _) in enumerate(record['heard']):
            phones = dictionary(w)
            for k, p in enumerate(phones):
                self.heard_phones.append([p, i, start + (end - start) * (k + 0.5) / len(phones)])

    def _time(self, flite):
        """Gives each said phone the time of the synthesiser's phone that it is."""
        begin, true = 0.1, []
        for p, end in flite:
            if p != 'PAU':
                true.append((p, (begin + end) / 2))
            begin = end
        n, m, width = len(self.said), len(true), 60
        best = {(0, 0): (0.0, None)}
        for i in range(n + 1):
            for j in range(max(0, i * m // max(1, n) - width), min(m, i * m // max(1, n) + width) + 1):
                if i == j == 0:
                    continue
                options = []
                if i and j and (i - 1, j - 1) in best:
                    options.append((best[i - 1, j - 1][0] + kinship(self.said[i - 1][0], true[j - 1][0]), (i - 1, j - 1)))
                if i and (i - 1, j) in best:
                    options.append((best[i - 1, j][0] + 2.5, (i - 1, j)))
                if j and (i, j - 1) in best:
                    options.append((best[i, j - 1][0] + 2.5, (i, j - 1)))
                if options:
                    best[i, j] = min(options)
        at, times = (n, m), {}
        while at != (0, 0):
            before = best[at][1]
            if before == (at[0] - 1, at[1] - 1):
                times[at[0] - 1] = true[at[1] - 1][1]
            at = before
        last = 0.1
        for i in range(n):
            last = self.said[i][2] = times.get(i, last + 0.01)

    def align(self, cost):
        """[(said index or None, heard index or None)] in order, the cheapest."""
        for reach in (0.4, 1.0, 1e9):
            if (pairs := self._align(cost, reach)) is not None:
                return pairs

    def _align(self, cost, reach):
        said, heard = self.said, self.heard_phones
        n, m = len(said), len(heard)
        rows, low = [], 0
        inf = math.inf
        prev, prev_low = None, 0
        for i in range(n + 1):
            t = said[max(0, i - 1)][2]
            t2 = said[min(n - 1, i)][2]
            while low < m and heard[low][2] < t - reach:
                low += 1
            high = max(low, prev_low)
            while high < m and heard[high][2] < t2 + reach:
                high += 1
            lo = 0 if i == 0 else low
            hi = m if i == n else high
            row, back = [inf] * (hi - lo + 1), [0] * (hi - lo + 1)
            for j in range(lo, hi + 1):
                best, b = (0.0, 0) if i == j == 0 else (inf, 0)
                if i:
                    p, q = j - 1 - prev_low, j - prev_low
                    s = said[i - 1]
                    if j and 0 <= p < len(prev):
                        h = heard[j - 1]
                        c = prev[p] + cost.sub[s[0], h[0]] + 4 * max(0.0, abs(s[2] - h[2]) - 0.05)
                        if c < best:
                            best, b = c, 1
                    if 0 <= q < len(prev):
                        c = prev[q] + cost.lost[s[0]]
                        if c < best:
                            best, b = c, 2
                if j > lo:
                    c = row[j - 1 - lo] + cost.put_in[heard[j - 1][0]]
                    if c < best:
                        best, b = c, 3
                row[j - lo], back[j - lo] = best, b
            rows.append((lo, back))
            prev, prev_low = row, lo
        if prev[m - prev_low] == inf:
            return None
        out, i, j = [], n, m
        while i or j:
            lo, back = rows[i]
            b = back[j - lo]
            out.append((i - 1 if b != 3 else None, j - 1 if b != 2 else None))
            i -= b != 3
            j -= b != 2
        return out[::-1]


class Costs:
    """-log p(heard | said) for each pair of phones, for a lost phone, and for one put in at a place."""

    def __init__(self):
        self.sub = {(a, b): kinship(a, b) for a in ARPABET for b in ARPABET}
        self.lost = {a: 3.0 for a in ARPABET}
        self.put_in = {b: 5.0 for b in ARPABET}

    @staticmethod
    def fit(alignments):
        """alignments: [(paragraph, pairs)]. Counts are smoothed by the kinship of the phones."""
        out, start = Costs(), Costs()
        sub, said, put_in = collections.Counter(), collections.Counter(), collections.Counter()
        for para, pairs in alignments:
            for i, j in pairs:
                a = para.said[i][0] if i is not None else None
                b = para.heard_phones[j][0] if j is not None else None
                if a is None:
                    put_in[b] += 1
                else:
                    sub[a, b] += 1
                    said[a] += 1
        total, weight = sum(said.values()), 8.0
        for a in ARPABET:
            prior = {b: math.exp(-start.sub[a, b]) for b in ARPABET}
            prior[None] = math.exp(-start.lost[a])
            scale = weight / sum(prior.values())
            for b in prior:
                c = -math.log((sub[a, b] + scale * prior[b]) / (said[a] + weight))
                if b is None:
                    out.lost[a] = c
                else:
                    out.sub[a, b] = c
        for b in ARPABET:
            out.put_in[b] = -math.log((put_in[b] + 0.5) / (total + 20))
        return out


def read(folder, dictionary):
    paras = []
    for path in sorted(glob.glob(os.path.join(folder, '*.jsonl'))):
        for line in open(path):
            if line.endswith('\n'):
                paras.append(Paragraph(json.loads(line), dictionary))
    return [p for p in paras if p.said and p.heard_phones]


def run_em(paras, rounds=4):
    cost = Costs()
    for step in range(rounds):
        alignments = [(p, p.align(cost)) for p in paras]
        cost = Costs.fit(alignments)
    return cost, alignments
