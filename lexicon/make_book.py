#!/usr/bin/env python3
"""Pack the master book into lexicon/book.bin (format and key: lexicon/book.h).

usage: make_book.py BOOK.tsv.gz [book.bin]

Input: a header line, then "PLACEMENT SIDE CASTLING<tab>uci:count uci:count ...". Counts
of a position that comes more than once are summed.
"""
import collections, gzip, os, struct, sys

MASK = (1 << 64) - 1
BUCKET_BITS = 12
PIECES = 'PNBRQKpnbrqk'


def mix(x):
    x = (x + 0x9E3779B97F4A7C15) & MASK
    x = ((x ^ (x >> 30)) * 0xBF58476D1CE4E5B9) & MASK
    x = ((x ^ (x >> 27)) * 0x94D049BB133111EB) & MASK
    return x ^ (x >> 31)


def key(placement, side, castling):
    total = 0
    for row, text in enumerate(placement.split('/')):
        file = 0
        for c in text:
            if c.isdigit():
                file += int(c)
            else:
                total += mix(PIECES.index(c) * 64 + (7 - row) * 8 + file)
                file += 1
    rights = sum(1 << 'KQkq'.index(c) for c in castling if c != '-')
    return (total + mix(1000 + (side == 'b')) + mix(2000 + rights)) & MASK


def square(s):
    return (ord(s[1]) - ord('1')) * 8 + ord(s[0]) - ord('a')


def varint(n):
    out = bytearray()
    while n >= 128:
        out.append(n & 127 | 128)
        n >>= 7
    out.append(n)
    return bytes(out)


def main():
    counts = collections.defaultdict(collections.Counter)  # a few positions come on two lines
    for line in gzip.open(sys.argv[1], 'rt').read().splitlines()[1:]:
        position, moves = line.split('\t')
        k = key(*position.split())
        for m in moves.split():
            uci, count = m.split(':')
            counts[k][uci] += int(count)
    entries = {}
    for k, moves in counts.items():
        out = b''
        for i, (uci, count) in enumerate(moves.most_common()):
            bits = square(uci[:2]) | square(uci[2:4]) << 6 | ('nbrq'.index(uci[4]) + 1 if uci[4:] else 0) << 12
            out += struct.pack('<H', bits | (i == len(moves) - 1) << 15) + varint(count)
        entries[k] = out
    index, data = [], bytearray()
    buckets = [[] for _ in range(1 << BUCKET_BITS)]
    for k in sorted(entries):
        buckets[k >> (64 - BUCKET_BITS)].append(k)
    for b in buckets:
        index.append(len(data))
        for k in b:
            data += struct.pack('<I', k >> (32 - BUCKET_BITS) & 0xFFFFFFFF) + entries[k]
    index.append(len(data))
    out = sys.argv[2] if len(sys.argv) > 2 else os.path.join(os.path.dirname(os.path.abspath(__file__)), 'book.bin')
    with open(out, 'wb') as f:
        f.write(b'plybook1' + struct.pack(f'<{len(index)}I', *index) + data)
    print(out, len(entries), 'positions', os.path.getsize(out), 'bytes')


if __name__ == '__main__':
    main()
