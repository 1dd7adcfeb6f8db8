/** Each sign of the music: what is read, and which characters it takes. */
import { describe, expect, test } from 'vitest';
import type { Diagnostic } from '../../src/diagnostics/diagnostic.ts';
import { parseBlock } from '../../src/notation/parse.ts';
import { scanMusic } from '../../src/notation/scan.ts';
import type { BarLine, Item, NoteItem } from '../../src/notation/tree.ts';
import { itemAt } from '../../src/values/checked.ts';

interface Scanned {
  readonly items: readonly Item[];
  readonly problems: readonly string[];
  readonly messages: readonly string[];
  readonly help: readonly (string | undefined)[];
}

function scan(text: string): Scanned {
  const diagnostics: Diagnostic[] = [];
  const items = scanMusic(text, 0, text.length, diagnostics);
  const problems = diagnostics.map(({ code, span }) => `${code} ${text.slice(span.from, span.to)}`);
  return {
    items,
    problems,
    messages: diagnostics.map(({ message }) => message),
    help: diagnostics.map(({ help }) => help),
  };
}
/** Every item as its kind and the characters it was read from. */
const shown = (text: string): string[] =>
  scan(text).items.map(({ kind, span }) => `${kind} ${text.slice(span.from, span.to)}`);

function noteOf(text: string): NoteItem {
  const { items, problems } = scan(text);
  expect(problems).toEqual([]);
  const [item] = items;
  if (items.length !== 1 || item?.kind !== 'note') throw new Error(`not one note: ${text}`);
  return item;
}

describe('a line of music', () => {
  test('is read sign by sign, with spaces or without', () => {
    const signs = ['note 4', 'hold =2', 'note -5', 'glide >', 'rest .', 'group {4 5}2', 'chord "IV7"', 'bar |'];
    expect(shown('4 =2 -5 > . {4 5}2 "IV7" |')).toEqual(signs);
    expect(shown('4=2 -5>.{4 5}2"IV7"|')).toEqual(signs);
    expect(shown('@tongue <call> <a/b> <a/b:call>')).toEqual([
      'mouth @tongue',
      'quote <call>',
      'quote <a/b>',
      'quote <a/b:call>',
    ]);
  });
});

describe('a bar line', () => {
  const PLAIN = { repeatEnd: false, repeatStart: false };
  const REPEAT = { repeatEnd: true, repeatStart: true };
  test.each<readonly [string, Partial<BarLine>]>([
    ['|', PLAIN],
    ['|:', { ...PLAIN, repeatStart: true }],
    ['||:', { ...PLAIN, repeatStart: true, close: 'double' }],
    [':|', { ...PLAIN, repeatEnd: true }],
    [':|:', REPEAT],
    [':||:', REPEAT],
    [':||', { ...PLAIN, repeatEnd: true, close: 'double' }],
    [':|]', { ...PLAIN, repeatEnd: true, close: 'final' }],
    ['||', { ...PLAIN, close: 'double' }],
    ['|]', { ...PLAIN, close: 'final' }],
    ['|1', { ...PLAIN, endings: [1] }],
    [':|x3', { ...PLAIN, repeatEnd: true, times: 3 }],
    [':|]x9', { ...PLAIN, repeatEnd: true, close: 'final', times: 9 }],
    ['|1,3', { ...PLAIN, endings: [1, 3] }],
    ['|2,1,2', { ...PLAIN, endings: [1, 2] }],
    [':|2', { ...PLAIN, repeatEnd: true, endings: [2] }],
    [':||2', { ...PLAIN, repeatEnd: true, endings: [2], close: 'double' }],
  ])('%s', (text, line) => {
    const { items, problems } = scan(text);
    expect(problems).toEqual([]);
    expect(items).toEqual([{ kind: 'bar', ...line, span: { from: 0, to: text.length } }]);
  });
  test.each<readonly [string, readonly string[], Partial<BarLine>]>([
    ['|segno', ['segno'], {}],
    ['|Coda', ['coda'], {}],
    ['|to-coda', ['to-coda'], {}],
    ['|ToCoda', ['to-coda'], {}],
    ['|FINE', ['fine'], {}],
    ['|D.C.', ['D.C.'], {}],
    ['|dc', ['D.C.'], {}],
    ['|d.s', ['D.S.'], {}],
    ['|DS,coda', ['D.S.', 'coda'], {}],
    [':|fine', ['fine'], { repeatEnd: true }],
    ['||D.C.', ['D.C.'], { close: 'double' }],
    ['|]fine', ['fine'], { close: 'final' }],
    ['|:segno', ['segno'], { repeatStart: true }],
    [':|x3,fine,segno', ['fine', 'segno'], { repeatEnd: true, times: 3 }],
    ['|segno,1,2', ['segno'], { endings: [1, 2] }],
    [':|2,segno', ['segno'], { repeatEnd: true, endings: [2] }],
  ])('%s has signs of jumps', (text, signs, line) => {
    const { items, problems } = scan(text);
    expect(problems).toEqual([]);
    const [item] = items;
    if (item?.kind !== 'bar') throw new Error('no bar line');
    const { signs: read = [], ...rest } = item;
    expect(read.map(({ sign }) => sign)).toEqual(signs);
    expect(rest).toEqual({ kind: 'bar', ...PLAIN, ...line, span: { from: 0, to: text.length } });
  });
  test('has a word only right behind it and alone', () => {
    expect(shown('|segno"I7"4')).toEqual(['bar |segno', 'chord "I7"', 'note 4']);
    expect(scan('| segno').problems).toEqual(['jump-spelled segno']);
    expect(scan('|fine4').problems).toEqual(['not-a-slot fine4']);
    expect(scan('|fine.').problems).toEqual(['bar-word-unknown fine.']);
    expect(scan('|x3,fine').problems).toEqual(['bar-word-unknown x3']);
    expect(scan('|D.C.alFine').problems).toEqual(['jump-spelled D.C.alFine']);
  });
  test.each([
    'to coda',
    'to_coda',
    'To Coda',
    'da coda',
    'al coda',
    'D. C.',
    'D.C. al Fine',
    'DC al coda',
    'Da Capo',
    'da capo al fine',
    'dal segno',
    'd.s.al.coda',
    'D.S. al fin',
    'D.S. to Coda',
    '$',
    '𝄋',
    '𝄌',
  ])('%s is a sign in other words, and one mistake', (words) => {
    // biome-ignore format: a list to read across
    for (const before of ['|', '4 5 | ', ':|', '4 '])
      expect(scan(`${before}${words} 4 5 | 6`).problems).toEqual([`jump-spelled ${words}`]);
    expect(scan(`|segno,${words} | 6`).problems).toEqual(
      /^[a-z]+[ .]/i.test(words) ? [`jump-spelled ${words}`] : expect.anything(),
    );
  });
  test.each(['x3', 'x 3', '3x', 'X3', '×3'])('a repeat that is played %s has its times right behind it', (times) => {
    for (const before of times === 'x3' ? [':| ', ':|| '] : [':|', ':| ', ':||', ':|]'])
      expect(scan(`4 ${before}${times} 4 5`).problems).toEqual([`times-spelled ${times}`]);
  });
  test.each(['x4', 'x 4', '4x', '.x', '.x 4', '.X4', '.4x', '.×4'])(
    '%s alone in a bar is a rest in other signs',
    (rest) => {
      for (const [before, after] of [
        ['4 | ', ' | 5'],
        ['', ''],
        ['4 |', ' :|'],
        ['4 ||: ', '|]'],
      ])
        expect(scan(`${before}${rest}${after}`).problems).toEqual([`rest-bars ${rest}`]);
      expect(scan(`4 | 5 ${rest} 6 | 7`).problems).not.toContain(`rest-bars ${rest}`);
    },
  );
  test('is not a colon alone', () => {
    expect(scan(': 4').problems).toEqual(['not-a-slot :']);
  });
  test('has the number of an ending only where a number is alone behind it', () => {
    expect(shown('|1 4')).toEqual(['bar |1', 'note 4']);
    expect(shown('|1"I7"4')).toEqual(['bar |1', 'chord "I7"', 'note 4']);
    expect(shown('|1{4 5}')).toEqual(['bar |1', 'group {4 5}']);
    expect(shown('|1<a>')).toEqual(['bar |1', 'quote <a>']);
    expect(shown('|1@lips')).toEqual(['bar |1', 'mouth @lips']);
    expect(shown('|10')).toEqual(['bar |', 'note 10']);
    expect(shown("|1'")).toEqual(['bar |', "note 1'"]);
    expect(shown('|1[dip]')).toEqual(['bar |', 'note 1']);
    expect(shown('|0')).toEqual(['bar |', 'note 0']);
    expect(shown('| 1')).toEqual(['bar |', 'note 1']);
  });
  test('that opens a repeat or closes the music has no ending: the number is a hole', () => {
    expect(shown('|:2 4')).toEqual(['bar |:', 'note 2', 'note 4']);
    expect(shown('||2 4')).toEqual(['bar ||', 'note 2', 'note 4']);
    expect(shown('|]2 4')).toEqual(['bar |]', 'note 2', 'note 4']);
  });
});

describe('a note', () => {
  test('has a hole, a breath, and what is done to it', () => {
    const plain = { bend: 0, over: false, slide: false };
    const read = (text: string) => {
      const { breath, notes, marks, mouth } = noteOf(text);
      expect([marks, mouth]).toEqual([[], undefined]);
      return { breath, notes: notes.map(({ span: _, ...note }) => note) };
    };
    expect(read('4')).toEqual({ breath: 'blow', notes: [{ hole: 4, ...plain }] });
    expect(read('+10')).toEqual({ breath: 'blow', notes: [{ hole: 10, ...plain }] });
    expect(read("-3''")).toEqual({ breath: 'draw', notes: [{ hole: 3, ...plain, bend: 2 }] });
    expect(read("-3″'")).toEqual({ breath: 'draw', notes: [{ hole: 3, ...plain, bend: 3 }] });
    expect(read('6o')).toEqual({ breath: 'blow', notes: [{ hole: 6, ...plain, over: true }] });
    expect(read("-5*'")).toEqual({ breath: 'draw', notes: [{ hole: 5, ...plain, slide: true, bend: 1 }] });
    expect(read('-(1, 4)')).toEqual({
      breath: 'draw',
      notes: [
        { hole: 1, ...plain },
        { hole: 4, ...plain },
      ],
    });
  });
  test('has its marks in brackets, in any number of them, and an embouchure for itself', () => {
    const marked = (text: string) => {
      const { marks, mouth } = noteOf(text);
      return [...marks.map(({ mark, span }) => [mark, text.slice(span.from, span.to)]), mouth];
    };
    expect(marked('4[dip]')).toEqual([[{ name: 'dip' }, 'dip'], undefined]);
    expect(marked('4[tongue slap, accent]')).toEqual([
      [{ name: 'slap' }, 'slap'],
      [{ name: 'accent' }, 'accent'],
      'tongue',
    ]);
    expect(marked('4[shake 5 dip][lips]')).toEqual([
      [{ name: 'shake', hole: 5 }, 'shake'],
      [{ name: 'dip' }, 'dip'],
      'lips',
    ]);
  });
  test('has a number only for a mark that is made with another hole', () => {
    expect(scan('4[dip 5]').problems).toEqual(['mark-unknown 5']);
    expect(scan('4[shake dip]').problems).toEqual(['mark-shake shake']);
    expect(scan('4[shake 12345]').problems).toEqual(['mark-shake shake', 'mark-unknown 12345']);
    expect(scan('4[shake 5 shake 6]').problems).toEqual(['mark-twice shake']);
  });
  test('ends at a space or at a sign that may follow it; with anything else it is one mistake', () => {
    for (const after of ['|', '=', '.', '>', '"I7"', '{4 5}', '<a>', '@lips', ' 4'])
      expect(scan(`4${after}`).problems).toEqual([]);
    expect(shown('4x 5')).toEqual(['unreadable 4x', 'note 5']);
    expect(shown('4[dip]x 5')).toEqual(['unreadable 4[dip]x', 'note 5']);
    expect(shown('4-5')).toEqual(['unreadable 4-5']);
    expect(shown('4(5 6)')).toEqual(['unreadable 4(5', 'unreadable 6)']);
  });
  test('has a hole of at most four digits', () => {
    expect(noteOf('1234').notes[0]?.hole).toBe(1234);
    expect(scan('12345').problems).toEqual(['not-a-slot 12345']);
  });
  test('needs a hole', () => {
    expect(scan('- 4').problems).toEqual(['other-spelling -']);
    expect(scan('+').problems).toEqual(['not-a-slot +']);
    expect(scan('-() 4').problems).toEqual(['not-a-slot -()']);
    expect(scan('4 -() 4').messages).toEqual([expect.stringMatching(/^“-\(\)” is not a slot/)]);
    expect(scan('(4 x 5)').problems).toEqual(['not-a-slot x']);
  });
});

describe('a breath written as a letter', () => {
  test.each([
    ['4d', '-4'],
    ['4D', '-4'],
    ["10b'", "10'"],
    ['4B', '4'],
    ['d4', '-4'],
    ["D3''", "-3''"],
    ['b10', '10'],
    ['123d', undefined],
    ['d123', undefined],
    ['4d4', undefined],
    ['xd4', undefined],
    ['4dx', undefined],
    ['e4', undefined],
  ])('%s is meant as %s', (text, meant) => {
    const { problems, help } = scan(text);
    expect(problems).toEqual([`${meant === undefined ? 'not-a-slot' : 'other-spelling'} ${text}`]);
    expect(help).toEqual([meant === undefined ? undefined : `Did you mean “${meant}”?`]);
  });
});

describe('a count', () => {
  const slots = (text: string) => scan(text).items.map((item) => ('slots' in item ? item.slots : undefined));
  test('is from 1 to 999, and 1 where none is written', () => {
    expect(slots('=')).toEqual([1]);
    expect(slots('=1 .999 {4}3 {4}')).toEqual([1, 999, 3, 1]);
    expect(scan('=0 .1000 {4}0').problems).toEqual(['count-zero =0', 'count-zero .1000', 'count-zero }0']);
    expect(slots('=0 .1000 {4}0')).toEqual([1, 1, 1]);
  });
});

describe('a group', () => {
  test('shares its slots among 1 to 16 events, holds and rests counted', () => {
    expect(scan(`{${'4 '.repeat(16)}}`).problems).toEqual([]);
    expect(scan('{4 =15}').problems).toEqual([]);
    expect(scan('{4 =16}').problems).toEqual(['group-too-many {4 =16}']);
    expect(scan('{4 .16}').problems).toEqual(['group-too-many {4 .16}']);
    expect(scan('{@lips}').problems).toEqual(['group-empty {@lips}']);
  });
  test('that is wrong takes its slot, and what is behind it is read', () => {
    expect(shown('{} 4')).toEqual(['unreadable {}', 'note 4']);
    expect(shown('{4 =16} 4')).toEqual(['unreadable {4 =16}', 'note 4']);
    expect(shown('{4 5 6')).toEqual(['unreadable {', 'note 4', 'note 5', 'note 6']);
  });
  test('holds no group, bar line or quotation: each is reported once, as one event', () => {
    expect(scan('{|}').problems).toEqual(['group-crossed |']);
    expect(scan('{<a>}').problems).toEqual(['group-crossed <a>']);
    expect(scan('{4 {5 6}2 7}2').problems).toEqual(['group-nested {5 6}2']);
    expect(scan('{{4 {5} 6} 7}').problems).toEqual(['group-nested {4 {5} 6}']);
    const [group] = scan('{4 {5 6}2 7}2').items;
    expect(group?.kind === 'group' && group.items.map(({ kind }) => kind)).toEqual(['note', 'unreadable', 'note']);
    expect(group?.kind === 'group' && group.slots).toBe(2);
  });
});

describe('a quotation', () => {
  const quote = (text: string) => {
    const item = itemAt(scan(text).items, 0);
    if (item.kind !== 'quote') return undefined;
    const { kind: _, span: __, marks: ___, ...names } = item;
    return names;
  };
  test('names a phrase, or a block and perhaps a phrase of it', () => {
    expect(quote('<call>')).toEqual({ phrase: 'call' });
    expect(quote('< call-2 >')).toEqual({ phrase: 'call-2' });
    expect(quote('<a/b>')).toEqual({ lesson: 'a', block: 'b' });
    expect(quote('<part.1/a/b : call>')).toEqual({ lesson: 'part.1/a', block: 'b', phrase: 'call' });
  });
  test('without a lesson is of this one', () => {
    expect(quote('<b:call>')).toEqual({ block: 'b', phrase: 'call' });
    expect(quote('< b : call >')).toEqual({ block: 'b', phrase: 'call' });
    expect(quote('<:b>')).toEqual({ block: 'b' });
  });
  test('names the chord it is moved to', () => {
    expect(quote('<call to "IV7">')).toEqual({ phrase: 'call', to: { chord: 'IV7', span: { from: 9, to: 14 } } });
    expect(quote('<a/b:to to " Bb ">')).toMatchObject({ lesson: 'a', block: 'b', phrase: 'to', to: { chord: 'Bb' } });
    expect(quote('<to>')).toEqual({ phrase: 'to' });
    expect(scan('<call to "H7">').problems).toEqual(['chord-unknown "H7"']);
  });
  test('has marks and an embouchure behind it', () => {
    expect(scan('<call>[accent, tongue][fall] 4').items).toMatchObject([
      { kind: 'quote', marks: [{ mark: { name: 'accent' } }, { mark: { name: 'fall' } }], mouth: 'tongue' },
      { kind: 'note' },
    ]);
    expect(scan('<call>[acent]').problems).toEqual(['mark-unknown acent']);
  });
  test.each([
    '<>',
    '<a b>',
    '<a/>',
    '</b>',
    '<a/b:>',
    '<:>',
    '<a:>',
    '<a/b c>',
    '<é>',
    '<"IV7">',
    '<a to IV7>',
    '<to "IV7">',
  ])('%s is none', (text) => {
    expect(scan(text).problems).toEqual([`quote-unreadable ${text}`]);
    expect(shown(`${text}4`)).toEqual([`unreadable ${text}`, 'note 4']);
  });
});

describe('a chord symbol', () => {
  test('is between quotation marks, spaces beside it left out', () => {
    expect(scan('" IV7 "').items).toEqual([{ kind: 'chord', text: 'IV7', span: { from: 0, to: 7 } }]);
    expect(scan('"H"').problems).toEqual(['chord-unknown "H"']);
  });
});

describe('an embouchure', () => {
  test('that is misspelled is read as the one that is meant', () => {
    const mouths = (text: string) => scan(text).items.map((item) => item.kind === 'mouth' && item.mouth);
    expect(mouths('@lips @tongue @tonge @lip @')).toEqual(['lips', 'tongue', 'tongue', 'lips', 'lips']);
    expect(scan('@tonge').help).toEqual(['Did you mean “@tongue”?']);
    expect(scan('@lip').help).toEqual(['Did you mean “@lips”?']);
    expect(scan('@hand').help).toEqual([undefined]);
    expect(shown('@lips| 4')).toEqual(['mouth @lips', 'bar |', 'note 4']);
  });
});

describe('a bracket that is not closed', () => {
  test.each([
    ['"IV7 4 5', 'bracket-unclosed "', ['chord "IV7', 'note 4', 'note 5']],
    ['<call 4', 'bracket-unclosed <', ['unreadable <call', 'note 4']],
    ['-(1 4 | 5', 'bracket-unclosed (', ['unreadable -(1', 'note 4', 'bar |', 'note 5']],
    ['4[dip 5', 'bracket-unclosed [', ['note 4', 'note 5']],
    ['4[dip|5', 'bracket-unclosed [', ['note 4', 'bar |5']],
  ])('%s hides nothing behind it', (text, problem, items) => {
    expect(scan(text).problems).toEqual([problem]);
    expect(shown(text)).toEqual(items);
  });
  test('is reported wherever one is, on each line', () => {
    expect(scan('{4 {5 6').problems).toEqual(['bracket-unclosed {', 'bracket-unclosed {']);
    expect(scan('{4} {5 6').problems).toEqual(['bracket-unclosed {']);
    expect(parseBlock('{4\n{5}\n{6').diagnostics.map(({ span }) => span.from)).toEqual([0, 7]);
  });
});
