import { describe, expect, test } from 'vitest';
import type { Clip } from '../../../src/course/clips/clips.ts';
import { CLIP_PROBLEMS } from '../../../src/course/clips/problems.ts';
import { secondsOf, timeInWords } from '../../../src/course/clips/times.ts';
import { courseInMemory } from '../files-in-memory.ts';
import { ownProblems } from '../own-problems.ts';
import { lesson } from '../some-course.ts';

const HEAD =
  '```tab\nid: head\nslot: 1/4\npickup: 1\n\n4 | 4 . -4 . |: 5 . -5 . |1 6 . -6 . :|2 7 . -7 . || 4 . .\n```\n';
const SECOND = '```tab\nid: turn\nslot: 1/4\n\n4 . -4 . | 5 . -5 .\n```\n';

/** Silence. */
const wavOf = (seconds: number): Buffer => {
  const head = Buffer.from('RIFF....WAVEfmt ....................data....', 'latin1');
  head.writeUInt32LE(16, 16);
  head.writeUInt32LE(1000, 28);
  head.writeUInt32LE(1000 * seconds, 40);
  return Buffer.concat([head, Buffer.alloc(1000 * seconds)]);
};

interface Reported {
  readonly place: string;
  readonly code: string;
  readonly message: string;
  readonly help: string | undefined;
}

/** A lesson with a block `head` (bars 0 to 4), and what its clips are read as; places are what the file has there. */
function read(
  text: string,
  frontMatter = '',
  blocks = HEAD,
): { clips: readonly (Clip | undefined)[]; reported: readonly Reported[] } {
  const course = courseInMemory({
    'lessons/first.mdx': lesson(`${blocks}\n${text}\n`, `title: A lesson${frontMatter}`),
    'media/head.mp3': 'x',
    'media/head.mp4': 'x',
    'media/short.wav': wavOf(8),
    'media/head.vtt': 'WEBVTT\n\n00:01.000 --> 00:03.000\nNow.\n',
    'media/LOUD.VTT': 'WEBVTT\n\n00:01.000 --> 00:03.000\nNow.\n',
    'media/wrong.vtt': '1\n00:00:01,000 --> 00:00:03,000\nNow.\n',
    'media/take #2.MP3': 'x',
    'media/head.txt': 'x',
  });
  const source = course.byId.get('first')?.source.split('\n') ?? [];
  const reported = ownProblems(course.problems, CLIP_PROBLEMS).map(
    ({ line, column, endLine, endColumn, code, message, help }) => {
      const row = source[line - 1] ?? '';
      return { place: endLine === line ? row.slice(column - 1, endColumn - 1) : row, code, message, help };
    },
  );
  return { clips: course.byId.get('first')?.clips.map(({ clip }) => clip) ?? [], reported };
}

const sound = (text: string, frontMatter?: string, blocks?: string): Clip | undefined => {
  const { clips, reported } = read(text, frontMatter, blocks);
  expect(reported).toEqual([]);
  return clips[0];
};

describe('a clip', () => {
  test('is described where it is used', () => {
    const clip = sound(
      `<Clip src="media/head.mp3" title="Slowly" captions="media/head.vtt" cues={[{ at: '1:42', block: 'head', bars: '1-2' }, { at: 4, bars: '0' }]} />`,
    );
    expect(clip).toEqual({
      kind: 'audio',
      source: { path: 'media/head.mp3' },
      title: 'Slowly',
      captions: 'media/head.vtt',
      cues: [
        { at: 4, block: 'head', first: 0, last: 0 },
        { at: 102, block: 'head', first: 1, last: 2 },
      ],
    });
  });

  test('is described in the front matter and placed by its name', () => {
    const frontMatter = `
clips:
  slowly:
    src: media/head.mp4
    captions: media/head.vtt
    cues:
      - at: 0:07.5
        until: 1:00
        block: turn
      - { at: 1:42, block: head, bars: 3 }`;
    const clip = sound('<Clip name="slowly" />', frontMatter, `${HEAD}\n${SECOND}`);
    expect(clip?.kind).toBe('video');
    // Bar 3 of the head has two endings, and both are bar 3.
    expect(clip?.cues).toEqual([
      { at: 7.5, until: 60, block: 'turn', first: 0, last: 1 },
      { at: 102, block: 'head', first: 3, last: 4 },
    ]);
  });

  test('may be elsewhere, and its host is known', () => {
    expect(sound('<Clip src="https://example.org/talks/one.mp4" />')).toEqual({
      kind: 'video',
      source: { url: 'https://example.org/talks/one.mp4', host: 'example.org' },
      cues: [],
    });
    expect(sound('<Clip src="https://example.org/talks/one" title="A talk" />')?.kind).toBe('page');
  });

  test('elsewhere is recognized by the end of its path, and its address is made whole', () => {
    expect(sound('<Clip src="https://example.org/watch?v=one.mp4" />')?.kind).toBe('page');
    expect(sound('<Clip src="https://example.org/täl k(1).mp4?x=1&y=2#t=30" />')).toMatchObject({
      kind: 'video',
      source: { url: 'https://example.org/t%C3%A4l%20k(1).mp4?x=1&y=2#t=30' },
    });
    expect(sound('<Clip src="//example.org/one.mp3" />')).toMatchObject({
      kind: 'audio',
      source: { url: 'https://example.org/one.mp3', host: 'example.org' },
    });
  });

  test('may have any name', () => {
    expect(sound('<Clip src="media/take #2.MP3" captions="media/LOUD.VTT" />')).toMatchObject({
      kind: 'audio',
      source: { path: 'media/take #2.MP3' },
      captions: 'media/LOUD.VTT',
    });
  });
});

describe('a recording elsewhere is', () => {
  test.each([
    ...['mp4', 'm4v', 'webm', 'ogv', 'MP4'].map((end) => [end, 'video']),
    ...['mp3', 'm4a', 'ogg', 'oga', 'opus', 'wav', 'flac', 'Mp3'].map((end) => [end, 'audio']),
    ...['mp', 'avi', 'mp4x', 'html'].map((end) => [end, 'page']),
  ])('.%s: a %s', (end, kind) => expect(sound(`<Clip src="https://example.org/a.b.${end}" />`)?.kind).toBe(kind));
  test('a page where its path has no end', () => {
    expect(sound('<Clip src="https://example.org/mp4" />')?.kind).toBe('page');
    expect(sound('<Clip src="https://example.org/a.mp4/b" />')?.kind).toBe('page');
  });
});

describe('a cue', () => {
  const cues = (list: string) => sound(`<Clip src="media/head.mp3" cues={${list}} />`)?.cues;
  // Two endings are both bar 3, so the six bars are counted from 0 to 4.
  test('is of all bars where it names none', () => {
    expect(cues('[{ at: 1 }]')).toEqual([{ at: 1, block: 'head', first: 0, last: 5 }]);
  });
  test('names bars as they are counted, one or from one to another', () => {
    const bars = (written: string) => cues(`[{ at: 1, bars: '${written}' }]`)?.map(({ first, last }) => [first, last]);
    expect(['2', '1-2', '1 – 2', ' 2-2 ', '3'].map(bars)).toEqual([[[2, 2]], [[1, 2]], [[1, 2]], [[2, 2]], [[3, 4]]]);
  });
  test('may end, and those of one clip are in order of time', () => {
    expect(cues("[{ at: 9 }, { at: '0:02', until: 3.5 }]")).toEqual([
      { at: 2, until: 3.5, block: 'head', first: 0, last: 5 },
      { at: 9, block: 'head', first: 0, last: 5 },
    ]);
  });
});

describe('a clip with a mistake is reported at its place', () => {
  const CUE = (cue: string): string => `<Clip src="media/head.mp3" cues={[${cue}]} />`;
  const FRONT = (cue: string): string => `\nclips:\n  slowly:\n    src: media/head.mp3\n    cues:\n      - ${cue}`;
  const NAMED = '<Clip name="slowly" />';
  const CASES: readonly (readonly [string, string, string, string, string?, string?])[] = [
    ['no recording', '<Clip />', 'clip-source', 'Clip'],
    ['a name that the front matter does not have', '<Clip name="slowli" />', 'clip-unknown', 'slowli'],
    ['a name and a recording of its own', '<Clip name="slowly" src="media/head.mp3" />', 'clip-twice', 'src', FRONT('{ at: 1, block: head }')],
    ['a clip that is nowhere', '', 'clip-unused', 'slowly', FRONT('{ at: 1, block: head }')],
    ['a file that no browser plays', '<Clip src="media/head.txt" />', 'clip-kind', 'media/head.txt'],
    ['captions of another kind', '<Clip src="media/head.mp3" captions="media/head.txt" />', 'clip-captions', 'media/head.txt'],
    ['captions from elsewhere', '<Clip src="media/head.mp3" captions="https://example.org/a.vtt" />', 'clip-captions', 'https://example.org/a.vtt'],
    ['a recording that is not there', '<Clip src="media/heat.mp3" />', 'media-missing', 'media/heat.mp3'],
    ['captions that are no WebVTT inside', '<Clip src="media/head.mp3" captions="media/wrong.vtt" />', 'clip-captions-text', 'media/wrong.vtt'],
    ['captions without a file', '<Clip src="media/head.mp3" captions="" />', 'clip-captions', ''],
    ['captions without a value', '<Clip src="media/head.mp3" captions />', 'clip-captions', 'captions'],
    ['captions for a page of elsewhere', '<Clip src="https://example.org/talk" captions="media/head.vtt" />', 'clip-captions-page', 'media/head.vtt'],
    ['an address that is not https', '<Clip src="http://example.org/a.mp3" />', 'clip-address', 'http://example.org/a.mp3'],
    ['an address that is none', '<Clip src="https://exa mple.org/a.mp3" />', 'clip-address', 'https://exa mple.org/a.mp3'],
    ['a recording without a name', '<Clip src="" />', 'clip-source', 'Clip'],
    ['a recording that would have to be computed', '<Clip src={a.b} />', 'lesson-expression', 'a.b'],
    ['cues that would have to be computed', CUE("{ at: 3, bars: 5-8 }"), 'lesson-expression', '5-8'],
    ['captions that are not there', '<Clip src="media/head.mp3" captions="media/heat.vtt" />', 'media-missing', 'media/heat.vtt'],
    ['captions that are not there, in the front matter', NAMED, 'media-missing', 'media/heat.vtt', '\nclips:\n  slowly:\n    src: media/head.mp3\n    captions: media/heat.vtt'],
    ['a video without captions', '<Clip src="media/head.mp4" />', 'clip-no-captions', 'media/head.mp4'],
    ['cues that are no list', '<Clip src="media/head.mp3" cues="1:42 head" />', 'clip-cues', '1:42 head'],
    ['a cue that is no group', CUE("'1:42'"), 'clip-cues', "'1:42'"],
    ['a cue without a time', CUE("{ block: 'head' }"), 'clip-cues', "{ block: 'head' }"],
    ['a cue with another key', CUE("{ at: '1:42', bar: 5 }"), 'clip-cues', 'bar'],
    ['bars that are a list', CUE("{ at: '1:42', bars: [1, 2] }"), 'clip-cues', '[1, 2]'],
    ['an end that is neither text nor number', CUE("{ at: '1:42', until: true }"), 'clip-cues', 'true'],
    ['a second cue with a negative time', CUE("{ at: 1 }, { at: -3 }"), 'clip-time', '-3'],
    ['a time that is none', CUE("{ at: '1.42.3' }"), 'clip-time', "'1.42.3'"],
    ['a time that is none, in the front matter', NAMED, 'clip-time', '1:75', FRONT('{ at: 1:75, block: head }')],
    ['a time with one digit of its seconds', CUE("{ at: '1:4' }"), 'clip-time-short', "'1:4'"],
    ['an end before the start', NAMED, 'clip-until', '0:30', FRONT('{ at: 1:00, until: 0:30, block: head }')],
    ['a time after the recording’s end', '<Clip src="media/short.wav" cues={[{ at: 7.9 }, { at: 8 }]} />', 'clip-after-end', '8'],
    ['an end more than a second after the recording’s', '<Clip src="media/short.wav" cues={[{ at: 1, until: 9 }, { at: 2, until: 9.1 }]} />', 'clip-after-end', '9.1'],
    ['no block where there are several', NAMED, 'clip-which-block', '0:30', FRONT('{ at: 0:30, bars: 1 }'), `${HEAD}\n${SECOND}`],
    ['a block that is not there', NAMED, 'clip-block', 'heat', FRONT('{ at: 0:30, block: heat }')],
    ['bars that are none', NAMED, 'clip-bars', '8-5', FRONT('{ at: 0:30, block: head, bars: 8-5 }')],
    ['a bar that the block does not have', NAMED, 'clip-bar', '3-9', FRONT('{ at: 0:30, block: head, bars: 3-9 }')],
    ['a bar that the block does not have, where it stands', CUE("{ at: 3, bars: '12' }"), 'clip-bar', "'12'"],
  ]; // biome-ignore format: a case a line reads as a table

  for (const [what, text, code, place, frontMatter, blocks] of CASES) {
    test(what, () => {
      const { reported } = read(text, frontMatter, blocks);
      expect(reported.map((one) => [one.code, one.place])).toEqual([[code, place]]);
    });
  }

  test('and every code of the catalogue is among them', () => {
    const codes = new Set<string>(CASES.map(([, , code]) => code));
    expect(Object.keys(CLIP_PROBLEMS).filter((code) => !codes.has(code))).toEqual([]);
  });

  test('in full sentences, with the fix', () => {
    const { reported } = read(NAMED, FRONT('{ at: 0:30, block: head, bars: 3-9 }'));
    expect(reported[0]).toMatchObject({
      message: 'The block “head” has no bar 9: it goes from bar 0 to bar 4.',
      help: 'Name bars that it has, as in 0-4.',
    });
    expect(read('<Clip src="media/short.wav" cues={[{ at: 8 }]} />').reported[0]?.message).toBe(
      '“8” is after the end of “media/short.wav”, which lasts 0:08.',
    );
    expect(read(NAMED, FRONT('{ at: 0:30, block: heat }')).reported[0]?.help).toBe('Did you mean “head”?');
  });

  test('and what the front matter does not know is reported with the rest of it', () => {
    const { reported } = read(NAMED, '\nclips:\n  slowly:\n    src: media/head.mp3\n    cue: 3');
    expect(reported.map(({ code }) => code)).toEqual(['key-unknown']);
  });

  test('and leaves the other clips of the front matter what they are', () => {
    const frontMatter =
      '\nclips:\n  odd: media/head.mp3\n  slowly:\n    src: media/head.mp3\n    cues: [{ at: 0:30, bars: 9 }]';
    const { reported } = read(`${NAMED}\n\n<Clip name="odd" />`, frontMatter);
    expect(reported.map(({ code, place }) => [code, place])).toEqual([
      ['value-wrong', 'media/head.mp3'],
      ['clip-bar', '9'],
    ]);
  });
});

describe('a time of a clip', () => {
  test('is read from minutes and seconds, hours too, or seconds alone', () => {
    expect(['1:42', '0:07.5', '1:02:03', '102', '90:00'].map(secondsOf)).toEqual([102, 7.5, 3723, 102, 5400]);
    expect(['', '1:', ':30', '1:60', '1:61:00', '-3', '1,5', '1:2:3:4'].map(secondsOf)).toEqual(
      Array(8).fill(undefined),
    );
  });

  test('is shown as players show it', () => {
    expect([0, 7.5, 59.9, 60, 102, 3599, 3600, 3723].map(timeInWords)).toEqual([
      ...['0:00', '0:07', '0:59', '1:00', '1:42', '59:59', '1:00:00', '1:02:03'],
    ]);
  });
});
