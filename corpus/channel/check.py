#!/usr/bin/env python3
"""Try the sound channel on speech it was not made from: the squares of the corpus lessons.

usage: check.py [LESSON_DIR ...]      (default: all of corpus/lessons with heard-words-*.json)

Each paragraph of script.txt is spoken again by the same voice for its phone times only; what was
heard comes from heard-words-VOICE.json. For each square said, the heard words that answer it are
scored against all 64 squares: by the table (heard.tsv), by phones (phones.tsv), by the better of the
two, by a mixture, and by that mixture for letter and digit apart. Printed: how often the true square comes first, its mean cost beyond the best sum
(-log posterior over the 64), and how much of the table's reach is missing.
"""
import collections, glob, json, math, os, re, subprocess, sys, tempfile
from align import HERE, Costs, Dictionary, Paragraph
from fit import NOTHING, chunks

UNITS = set('knight bishop rook queen king pawn takes check castles castle'.split())
LEXICON = os.path.join(HERE, '../../lexicon/en')


def mark(text):
    text = re.sub(r'\b([a-h])([1-8])\b', r'~\1 ~\2', text)
    return re.sub(r"(?<![~\w'])([A-Za-z]+)(?![\w'])", lambda m: ('~' if m.group(1).lower() in UNITS else '') + m.group(1), text)


def paragraphs(folder, voice, dictionary):
    heard = json.load(open(os.path.join(folder, f'heard-words-{voice}.json')))['words']
    clock = 0.0
    for block in re.split(r'\n\s*\n', open(os.path.join(folder, 'script.txt'), encoding='utf-8').read()):
        m = re.match(r'\[(\d+):(\d\d)\]\s*(.*)', ' '.join(block.split()))
        if not m:
            continue
        marked = mark(m.group(3).replace('—', ', ').replace('-', ' '))
        text = re.sub(r'\b([a-h])([1-8])\b', r'\1 \2', m.group(3)).replace('—', ', ')
        with tempfile.NamedTemporaryFile('w', suffix='.txt') as f, tempfile.NamedTemporaryFile(suffix='.wav') as wav:
            f.write(re.sub(r'\b([aA]) ([1-8])\b', r'ay \2', text))
            f.flush()
            r = subprocess.run(['flite', '-voice', voice, '-psdur', '-f', f.name, '-o', wav.name], check=True, capture_output=True, text=True)
            seconds = float(subprocess.run(['soxi', '-D', wav.name], check=True, capture_output=True, text=True).stdout) + 0.4
        phones, t = [], 0.1
        for line in r.stdout.splitlines():
            for item in line.split():
                name, end = item.rsplit(':', 1)
                phones.append([name, t + float(end)])
            t += float(line.split()[-1].rsplit(':', 1)[1]) if line.split() else 0
        here = [[w['word'], w['start'] - clock, w['end'] - clock, w['confidence']] for w in heard if clock <= w['start'] < clock + seconds]
        clock += seconds
        p = Paragraph({'voice': voice, 'marked': marked, 'phones': phones, 'heard': here}, dictionary)
        if p.said and p.heard_phones:
            yield p


def read_costs():
    cost = Costs()
    for line in open(os.path.join(LEXICON, 'phones.tsv')).read().splitlines()[1:]:
        a, b, c = line.split('\t')
        if b == '-':
            cost.lost[a] = float(c)
        elif a == '-':
            cost.put_in[b] = float(c)
        else:
            cost.sub[a, b] = float(c)
    return cost


def read_table():
    out = {}
    for line in open(os.path.join(LEXICON, 'heard.tsv')).read().splitlines()[1:]:
        units, heard, _, _, cost, _ = line.split('\t')
        out[units, heard] = float(cost)
    return out


def by_table(units, heard, table):
    best = table.get((' '.join(units), ' '.join(heard) or NOTHING), math.inf)
    for i in range(1, len(units)):
        for j in range(len(heard) + 1):
            head = table.get((' '.join(units[:i]), ' '.join(heard[:j]) or NOTHING))
            if head is not None:
                best = min(best, head + by_table(units[i:], heard[j:], table))
    return best


def by_phones(said, heard, cost):
    row = [0.0]
    for h in heard:
        row.append(row[-1] + cost.put_in[h])
    for s in said:
        new = [row[0] + cost.lost[s]]
        for j, h in enumerate(heard):
            new.append(min(row[j] + cost.sub[s, h], row[j + 1] + cost.lost[s], new[j] + cost.put_in[h]))
        row = new
    return row[-1]


def mixed(table_cost, phone_cost):
    return -math.log(0.8 * math.exp(-min(table_cost, 50)) + 0.2 * math.exp(-min(phone_cost, 50)))


def by_units(square, heard, table, cost, dictionary):
    """Letter and digit each by table and phones, at the best cut of the heard words."""
    best = math.inf
    for j in range(len(heard) + 1):
        total = 0.0
        for unit, words in ((square[0], heard[:j]), (square[1], heard[j:])):
            phones = [x for w in words for x in dictionary(w)]
            total += mixed(table.get((unit, ' '.join(words) or NOTHING), 50), by_phones(dictionary(unit, True), phones, cost))
        best = min(best, total)
    return best


def main():
    dictionary, cost, table = Dictionary(), read_costs(), read_table()
    folders = sys.argv[1:] or sorted(glob.glob(os.path.join(HERE, '../lessons/*')))
    squares = [(f, r) for f in 'abcdefgh' for r in '12345678']
    sounds = {s: dictionary(s[0], True) + dictionary(s[1], True) for s in squares}
    n = fused = 0
    first, surprise, reach, known = collections.Counter(), collections.Counter(), 0, {}
    for folder in folders:
        for path in sorted(glob.glob(os.path.join(folder, 'heard-words-*.json'))):
            for p in paragraphs(folder, path.rsplit('-', 1)[1][:-5], dictionary):
                cut = chunks(p, p.align(cost))
                starts = {c[0]: i for i, c in enumerate(cut)}
                for s in range(len(p.spoken) - 1):
                    if not (p.spoken[s][1] and p.spoken[s + 1][1] and (p.spoken[s][0], p.spoken[s + 1][0]) in sounds):
                        continue
                    n += 1
                    i = starts.get(s)
                    if i is None or not any(cut[k][1] == s + 2 for k in (i, min(i + 1, len(cut) - 1))):
                        fused += 1          # shares a heard word with its neighbours
                        continue
                    last = i if cut[i][1] == s + 2 else i + 1
                    heard = tuple(p.heard[cut[i][2]:cut[last][3]])
                    if heard not in known:
                        phones = [x for w in heard for x in dictionary(w)]
                        scores = {}
                        for q in squares:
                            a, b = by_table(q, heard, table), by_phones(sounds[q], phones, cost)
                            scores[q] = {'table': min(a, 25.0), 'phones': b, 'better': min(a, b), 'mixed': mixed(a, b)}
                            scores[q]['units'] = min(scores[q]['mixed'], by_units(q, heard, table, cost, dictionary))
                        known[heard] = scores
                    truth = (p.spoken[s][0], p.spoken[s + 1][0])
                    reach += known[heard][truth]['table'] < 25
                    for how in ('table', 'phones', 'better', 'mixed', 'units'):
                        all_scores = [v[how] for v in known[heard].values()]
                        mine = known[heard][truth][how]
                        first[how] += sum(v < mine for v in all_scores) == 0 and all_scores.count(mine) == 1
                        surprise[how] += mine + math.log(sum(math.exp(-v) for v in all_scores))
    m = n - fused
    print(f'{n} squares said; {fused} share a heard word with a neighbour; the table reaches {100 * reach / m:.0f} % of the other {m}')
    for how in ('table', 'phones', 'better', 'mixed', 'units'):
        print(f'{how:7} true square first {100 * first[how] / m:.1f} %   mean -log posterior {surprise[how] / m:.2f} nats (64 squares alike: 4.16)')


if __name__ == '__main__':
    main()
