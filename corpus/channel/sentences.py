"""Invented lesson talk for the sound channel: paragraphs with their move words marked.

paragraph(rng) gives text in which every word that belongs to a move, a square, a piece or a side
carries a leading tilde:

    So, after ~knight ~f ~3, ~black replies ~bishop ~takes ~e ~5, ~check. We have seen this before.

say(text) is what the synthesiser reads: tildes gone, squares as letter and digit (as written
already), the letter a spelled "ay". Pieces, squares and verbs are drawn evenly, not as games have
them: the channel must know a rare square as well as a common one.
"""
import re

FILES, RANKS = 'abcdefgh', '12345678'
PIECES = ['knight', 'bishop', 'rook', 'queen', 'king']


def square(rng):
    return f'~{rng.choice(FILES)} ~{rng.choice(RANKS)}'


def beside(rng, f):
    i = FILES.index(f)
    return FILES[rng.choice([j for j in (i - 1, i + 1) if 0 <= j < 8])]


def pawn_capture(rng):
    f = rng.choice(FILES)
    g = beside(rng, f)
    r = rng.choice(RANKS[1:7])
    return rng.choices([f'~{f} ~takes ~{g} ~{r}', f'~{f} ~takes ~on ~{g} ~{r}', f'~{f} ~takes',
                        f'~{f} ~takes ~{g}', f'the ~{f} ~pawn ~takes ~on ~{g} ~{r}', f'~{f} ~{g} ~{r}',
                        f'~{f} ~captures ~{g} ~{r}', f'~pawn ~takes ~{g} ~{r}'],
                       [10, 2, 2, 1, 1, 1, 1, 2])[0]


def pawn_move(rng):
    f, r = rng.choice(FILES), rng.choice(RANKS)
    i = rng.randrange(1, 7)
    step = f'~{f} ~{RANKS[i]}', f'~{f} ~{RANKS[min(7, max(0, i + rng.choice([1, -1, 2])))]}'
    return rng.choices([f'~{f} ~{r}', f'~pawn ~to ~{f} ~{r}', f'~pawn ~{f} ~{r}', f'{step[0]} ~to {step[1]}',
                        f'{step[0]} {step[1]}', f'the ~{f} ~pawn goes ~to {step[1]}', f'push the ~{f} ~pawn',
                        f'~{f} ~pawn ~to {step[1]}', f'the ~pawn ~from {step[0]} ~to {step[1]}'],
                       [20, 4, 3, 4, 2, 1, 1, 1, 1])[0]


def piece_move(rng):
    p, q = rng.choice(PIECES), rng.choice(PIECES[:3])
    s = square(rng)
    g = rng.choice(FILES + RANKS)
    word = rng.choice(['goes', 'comes', 'moves', 'jumps', 'swings', 'drops', 'hops', 'slides', 'steps'])
    return rng.choices([f'~{p} {s}', f'~{p} ~to {s}', f'~{p} ~takes {s}', f'~{p} ~takes ~on {s}', f'~{p} ~back ~to {s}',
                        f'~{q} ~{g} ~to {s}', f'~{q} ~{g} {s}', f'~{q} ~{g} ~takes {s}', f'the ~{p} {word} ~to {s}',
                        f'the ~{p} {word} ~back ~to {s}', f'~{p} ~takes', f'~{p} ~captures {s}', f'~{p} ~captures ~on {s}',
                        f'~{p} ~from {s} ~to {square(rng)}', f'the ~{p} ~takes ~on {s}', f'~{p} ~in ~to {s}'],
                       [34, 9, 12, 3, 3, 3, 4, 1, 3, 1, 3, 1, 1, 1, 1, 1])[0]


def castling(rng):
    return rng.choice(['~castles', '~castles', '~castles', '~castles ~short', '~castles ~long', '~castles ~kingside', '~castles ~queenside',
                       '~castle', '~castle ~short', '~castle ~long', '~castle ~kingside', '~castle ~queenside', '~castling ~kingside',
                       '~long ~castles', '~short ~castles'])


def shorthand(rng):
    p, s = rng.choice(PIECES + ['pawn']), square(rng)
    return rng.choice(['~takes, ~takes', '~takes ~takes', '~takes, ~takes, ~takes',
                       f'~takes ~on {s}', f'~takes {s}', f'~takes ~back', f'~takes ~back ~with the ~{p}', f'~takes ~with the ~{p}',
                       f'~recaptures ~with the ~{p}', f'~recaptures ~on {s}', f'~exchange ~on {s}', f'~exchanges ~on {s}',
                       '~swap ~queens', '~exchange ~queens', '~trade ~queens', f'~check ~on {s}',
                       f'a ~check ~from {s}', f'~mate ~on {s}', f'the ~{p} ~takes ~back', f'~promotes ~on {s}',
                       f'~{rng.choice(FILES)} ~8 ~queens', '~takes ~en ~passant'])


def move(rng):
    m = rng.choices([piece_move, pawn_move, pawn_capture, shorthand, castling], [48, 24, 12, 12, 4])[0](rng)
    tail = rng.random()
    if tail < .07:
        m += rng.choice([' ~check', ', ~check', ' ~with ~check', ' ~check', ' ~mate', ', ~checkmate'])
    return m


def mention(rng):
    """A square or piece that nobody plays."""
    p, s = rng.choice(PIECES + ['pawn']), square(rng)
    f = rng.choice(FILES)
    return rng.choice([f'the ~{p} ~on {s}', f'the ~{p} ~on {s}', f'the ~pawn ~on {s}', f'the square {s}', f'the {s} square', f'the ~{f} file',
                       f'the ~{f} ~pawn', f'the ~{f} ~pawn', f'a ~{p} ~on {s}', f'his ~{p}', f'our ~{p}', f'the ~{p}', f'the ~{p}s'
                       if p != 'pawn' else 'the ~pawns', f'the {s} ~pawn', f'the weakness ~on {s}', f'the ~{p} ~from {s}'])


def run(rng):
    moves = [move(rng) for _ in range(rng.choice([2, 2, 3, 3, 4, 5, 6]))]
    if rng.random() < .3:
        moves[-1] = 'and ' + moves[-1]
    return ', '.join(moves)


def enumeration(rng):
    s = [move(rng) if rng.random() < .4 else square(rng) for _ in range(3)]
    return rng.choice([f'{s[0]}, {s[1]} and {s[2]}', f'{s[0]} and {s[1]}', f'{s[0]} or {s[1]}', f'either {s[0]} or {s[1]}',
                       f'both {s[0]} and {s[1]}', f'{s[0]}, {s[1]}, or even {s[2]}'])


MOVE_FRAMES = [
    'So, after M, X replies M.', 'X plays M.', 'X plays M, and now we go M.', 'Here M is the main move.', 'Now X can choose between E.',
    'After M, the best answer is M.', 'Instead of M, X can try M.', 'We answer with M.', 'Then comes M, and after M we have M.', 'R.', 'R.', 'R.', 'So, R.',
    'And now R.', 'The line goes R.', 'Let me show you the moves again, R.', 'If M, then M.', 'If X goes M, we simply play M.', 'The threat is M.',
    'With the idea of M.', 'X wants to play M.', 'Now M is a mistake, because of M.', 'What about M?', 'What happens after M?', 'M looks natural.', 'M is also possible.',
    'The other move is M.', 'There are three moves here, E.', 'First M, then M, and finally M.', 'First of all, M.', 'Next, M.', 'Then M, M, and X is fine.', 'Back to M.', 'So what if X plays M?',
    'You should remember M.', 'I recommend M here.', 'M, and that is the whole point.', 'X has to play M.', 'X must answer M.', 'M, M, and the game is over.',
    'N is under attack.', 'N is pinned.', 'Look at N.', 'Do not forget about N.', 'X will attack N with M.', 'X gives up N.', 'N is very strong.', 'We want to put pressure on N.',
    'We trade N for N.', 'Then N is hanging, so M.', 'He can protect N with M.', 'He goes M and after M he loses N.', 'M would run into M.', 'That is met by M.', 'Of course not M, since M wins.',
    'It is important that M does not work here.', 'Everybody plays M, but M is better.', 'In this position M is very common.', 'The old move was M, and the new one is M.', 'On M we have M.', 'Sometimes X delays this with M.',
    'Again M, M.', 'Now M and R.', 'X took with N, and there was M.', 'Better is M, M, M.', 'M allows M.', 'M loses to M.', 'M wins a piece after R.', 'And X gets N in return.', 'E, they are all playable.',
    'If you see N you should think about M.', 'M. M. M.', 'X, to move, has M.', 'Before M it is useful to include M.', 'A typical mistake is M.',
]
TALK_FRAMES = [
    'This is an important position.', 'Let us have a look at the next chapter.', 'I have played this many times myself.', 'Black is fine here.', 'White has a small advantage.', 'It is a very old idea.',
    'Before we go on, let me say a word about the plans.', 'You can see that the position is about equal.', 'The computer does not like it, but people do.', 'We will talk about that in the next video.',
    'It was played at the world championship, a long time ago.', 'I do not think that you need to know more than this.', 'There is nothing to be afraid of.', 'And that is a serious problem.',
    'So what is the point of all that?', 'It takes some time to understand it.', 'He had a very bad day, and he lost in twenty moves.', 'Good morning, and welcome back to the course.',
    'Thank you for watching, and see you next time.', 'Please try to find the answer yourself before you read on.', 'In the end it all comes down to time.', 'I will be honest with you, I never liked it.',
    'That was the main line for about thirty years.', 'Everything else is simply too slow.', 'They agreed to a draw in the end.', 'You do not have to remember every detail.', 'It is easy to play and hard to refute.',
    'My first coach told me never to do that.', 'The attack comes very quickly.', 'And the rest is a matter of technique.', 'I hope that makes sense to you.', 'We are ahead in development.', 'Take your time.',
    'This is where most people go wrong.', 'If you are short of time, skip this part.', 'The rain was coming down and nobody wanted to leave the house.', 'My wife says that I should be more careful.',
    'We had a cup of tea and then we looked at the game together.', 'There was a man with a big dog sitting next to the table.', 'I want to be clear about that.', 'Which is not a good sign.',
    'It is not that he was weaker, he was just tired.', 'So you can see how dangerous that is.', 'It was a great game, one of the best of the year.', 'At first I could not believe it.', 'He thought for an hour.',
    'You know what I mean.', 'All right, let us move on.', 'Okay, so far so good.', 'Now we come to the interesting part.', 'The structure is the same as in the previous lesson.', 'Both sides have their chances.',
    'It is a matter of taste.', 'The center is closed, so there is no need to hurry.', 'White has more space and the better pieces.', 'Black has a weak back rank.', 'That gives us an extra tempo.', 'He is two pawns down but he has an attack.',
    'I remember a game from the national league, it must have been ninety five.', 'She won a brilliant game against a strong master.', 'The ending is lost, believe me.', 'Nobody knows why he did not resign.', 'You will find the game in the file below.',
    'We need to talk about move orders.', 'A few words about the history of this opening.', 'That is what the books say.', 'The books are wrong here.', 'And here the theory ends.', 'But not so fast.', 'Wait a minute.', 'Is that really true?',
    'It is a long way from here to the end of the game.', 'In practice it works very well.', 'In blitz I would play it every day.', 'Try it on the internet and you will see.', 'Do not be greedy.', 'Be patient.', 'See what happens.',
    'I see three reasons for that.', 'He has four weak points and we have none.', 'There are two ways to deal with it.', 'One of them is better than the other.', 'That is one way to look at it.', 'Five minutes later it was all over.',
    'For the sake of completeness I will mention it.', 'Which brings us to the question of the day.', 'Can you guess who was playing?', 'The train was late again and I had to run.', 'There was no coffee left in the kitchen.',
    'It is an honest opening for honest people.', 'I would say that it is a bit better for white.', 'And black is slightly worse, but he can hold.', 'A fine idea, and a deep one.', 'Keep that in mind when you play it.', 'It is all about the light squares.',
    'The dark squares are weak, and they will stay weak.', 'We have a lead in development and he has an extra pawn.', 'What a pity.', 'That is a nice trick, but it does not work.', 'He is attacking on the king side and we are attacking on the queen side.',
    'The minor pieces come off and the ending is equal.', 'Everything is protected.', 'All of his pieces are on their best squares.', 'The opening is called after a small town in the mountains.', 'In a way that is the heart of the matter.',
    'So we have seen this before.', 'They do not have the time for that.', 'Maybe we should look at it more closely.', 'I saw that game live, and the hall was full.', 'A friend of mine sent me this idea by mail.', 'It does not matter who is first.',
    'When the rook is gone, the rest is easy.', 'He can give a check or two, but that is all.', 'A pawn is a pawn.', 'A knight in the corner is never good.', 'The bishop has no future.', 'The queen is out of play.', 'The king is not safe.',
    'It looks great at first sight, and then you see the hole.', 'As I said, it depends on the details.', 'And so on and so forth.', 'He needs another move to get ready.', 'By the way, this also works with colors reversed.',
    'We take a closer look at the alternatives now.', 'I should have told you about that earlier.', 'Then the game begins for real.', 'At the age of eight she could beat the whole school.', 'Some of you may have heard of it.', 'There is a free seat at the front.',
    'The city was very quiet that evening, and it had begun to snow.', 'I bought a new clock, and it stopped after a week.', 'The hotel was cheap and the food was worse.', 'To be fair, he was in time trouble.', 'Let me come back to that in a moment.',
    'You have to calculate here, there is no way around it.', 'Well, what would you do?', 'And the answer may surprise you.', 'Exactly the same plan as before.', 'The rest of the game is not so interesting.', 'He simply forgot about it.',
    'It is hard to say who is better.', 'I have a feeling that there is more to find.', 'That is why I like it so much.', 'Good players do this without thinking.', 'So much for that.', 'We can forget about this line.', 'Nothing special.',
    'They fought until midnight and then they shook hands.', 'The first half of the course was about attack and the second half is about defence.', 'What else is there?', 'The pressure is growing with every move.', 'He is lost, but he does not know it yet.',
]
FILLERS = ['So, ', 'And ', 'But ', 'Well, ', 'Now, ', 'Okay, ', 'Um, ', 'You know, ', 'Anyway, ', 'Of course ', 'Here ', 'I think ', 'Maybe ']
SLOT = re.compile(r'\b([MXNER])\b')


def sentence(rng, names=()):
    if rng.random() < .3:
        text = rng.choice(TALK_FRAMES)
        if names and rng.random() < .1:
            text = rng.choice(['This is the NAME.', 'Today we look at the NAME.', 'It is known as the NAME.',
                               'We are in the NAME again.', 'He always played the NAME.']).replace('NAME', rng.choice(names))
        text = re.sub(r'\b(white|black|knight|knights|bishop|bishops|rook|rooks|queen|king|pawn|pawns|check)\b', r'~\1', text)
        text = re.sub(r'~(king|queen) side', r'~\1 ~side', text)
    else:
        text = SLOT.sub(lambda m: {'M': move, 'N': mention, 'E': enumeration, 'R': run,
                                   'X': lambda r: r.choice(['~white', '~black', '~white', '~black', 'he'])}[m.group(1)](rng),
                        rng.choice(MOVE_FRAMES))
    if rng.random() < .15:
        text = rng.choice(FILLERS) + (text if text[:2] == 'I ' else text[0].lower() + text[1:])
    return text[0].upper() + text[1:] if text[0] != '~' else text


def paragraph(rng, names=()):
    return ' '.join(sentence(rng, names) for _ in range(rng.randint(3, 6)))


def say(text):
    text = re.sub(r'~a(?=[ ,.?]+~[1-8]|[ ,.?]+~pawn)', 'ay', text)
    return text.replace('~a ', 'ay ').replace('~', '')
