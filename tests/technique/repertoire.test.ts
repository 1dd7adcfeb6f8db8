import { describe, expect, it } from 'vitest';
import { TECHNIQUE_PROBLEMS } from '../../src/technique/problems.ts';
import { cautionsFor, repertoireFromFile, SHIPPED_REPERTOIRE } from '../../src/technique/repertoire.ts';
import { techniquesFileSchema } from '../../src/technique/technique.ts';

const gathered = (file: object) => repertoireFromFile(techniquesFileSchema.parse(file));
const train = {
  id: 'train',
  title: 'The train',
  about: 'Chords in turn.',
  group: 'breath',
  find: { note: { holes: 3 } },
};

/** Faults as an author meets them: where, and in which words. */
const reported = (file: object): string[] =>
  gathered(file).faults.map(
    ({ code, path, facts }) => `${path.join('/')}: ${TECHNIQUE_PROBLEMS[code].message(facts as never)}`,
  );

describe('the techniques of a course', () => {
  it('are the shipped ones where it has none of its own', () => {
    expect(gathered({}).repertoire.techniques).toEqual(SHIPPED_REPERTOIRE.techniques);
  });

  it('add to the shipped ones, or are alone', () => {
    const { repertoire, faults } = gathered({ techniques: [train] });
    expect(faults).toEqual([]);
    expect(repertoire.techniques).toHaveLength(SHIPPED_REPERTOIRE.techniques.length + 1);
    const alone = gathered({ catalogue: 'replace', techniques: [train] }).repertoire;
    expect(alone.techniques.map(({ id }) => id)).toEqual(['train']);
  });

  it('change of a shipped one what they write, and keep the rest', () => {
    const { repertoire } = gathered({ techniques: [{ id: 'shuffle', assumed: 'true', title: 'Swing' }] });
    const shuffle = repertoire.byId.get('shuffle');
    expect(shuffle).toEqual({ ...SHIPPED_REPERTOIRE.byId.get('shuffle'), assumed: true, title: 'Swing' });
    expect(gathered({ techniques: [{ id: 'splits', requires: [] }] }).repertoire.byId.get('splits')?.requires).toEqual(
      [],
    );
  });

  it('carry the cautions of what they are kinds of, each once', () => {
    const cautions = cautionsFor(SHIPPED_REPERTOIRE, ['draw-3-half-step', 'draw-4-half-step', 'blow-bends']);
    expect(cautions).toHaveLength(2);
    expect(cautions[0]).toMatch(/^Stop when jaw/);
    expect(cautionsFor(SHIPPED_REPERTOIRE, ['shuffle', 'no such thing'])).toEqual([]);
  });

  it('are wider and narrower at any remove', () => {
    expect(SHIPPED_REPERTOIRE.wider.get('draw-3-whole-step')).toEqual(['whole-step-bends', 'draw-bends', 'bends']);
    expect(SHIPPED_REPERTOIRE.narrower.get('splits')).toEqual(
      expect.arrayContaining(['octave-splits', 'octave-splits-four-holes', 'octave-splits-five-holes', 'other-splits']),
    );
  });

  it('are reported where they repeat an id, lack something, or name what nobody knows', () => {
    expect(reported({ techniques: [train, train] })).toEqual([
      'techniques/1/id: There is a technique “train” above already.',
    ]);
    expect(reported({ techniques: [{ id: 'trains', title: 'T', about: 'A', group: 'time' }] })).toEqual([
      'techniques/0/id: The technique “trains” is new, and has no find.',
    ]);
    expect(reported({ techniques: [{ ...train, requires: ['chords', 'chord'], 'kind-of': 'rhythm' }] })).toEqual([
      'techniques/0/requires/1: There is no technique “chord”.',
      'techniques/0/kind-of/0: There is no technique “rhythm”.',
    ]);
  });

  it('are reported once where they go round in a cycle, and the shortest cycle is reported', () => {
    const ring = [
      { ...train, id: 'a', requires: ['b'] },
      { ...train, id: 'b', requires: ['c', 'a'] },
      { ...train, id: 'c', requires: ['b'] },
    ];
    expect(reported({ techniques: ring })).toEqual([
      'techniques/0/requires: These techniques require each other in a cycle: a → b → a.',
      'techniques/1/requires: These techniques require each other in a cycle: b → c → b.',
    ]);
    expect(reported({ techniques: [{ id: 'bends', 'kind-of': ['draw-3-half-step'] }] })).toEqual([
      'techniques/0/kind-of: These techniques are kinds of each other in a cycle: bends → draw-3-half-step → half-step-bends → draw-bends → bends.',
    ]);
  });

  it.each(['title', 'about', 'group', 'find'])('that are new and have no %s are known by their name alone', (key) => {
    const { [key as 'title']: _, ...rest } = train;
    expect(reported({ techniques: [rest] })).toEqual([
      `techniques/0/id: The technique “train” is new, and has no ${key}.`,
    ]);
    expect(gathered({ techniques: [rest] }).repertoire.byId.get('train')).toEqual({
      ...{ id: 'train', title: 'train', about: 'train', group: 'tone' },
      ...{ requires: [], kindOf: [], cautions: [], assumed: true, find: 'not-in-score' },
    });
  });

  it('that may be meant to change one that ships are reported as that', () => {
    const help = (id: string) => {
      const [fault] = gathered({ techniques: [{ ...train, id, title: undefined }] }).faults;
      return fault && TECHNIQUE_PROBLEMS[fault.code].help?.(fault.facts as never);
    };
    expect(help('shufle')).toContain('its id may be “shuffle”');
    expect(help('quite-another-thing')).toBe('Write a line title: …');
  });

  it('keep what is sound of one with an unknown name', () => {
    const { repertoire } = gathered({ techniques: [{ ...train, requires: ['chords', 'nothing'] }] });
    expect(repertoire.byId.get('train')?.requires).toEqual(['chords']);
  });
});

describe('the file of techniques', () => {
  const complaints = (file: unknown): string[] => {
    const read = techniquesFileSchema.safeParse(file);
    return read.success ? [] : read.error.issues.map(({ path, message }) => `${path.join('/')}: ${message}`);
  };

  it('takes values as they are or as text', () => {
    const find = { note: { hole: '3', bend: '1-2', split: 'false' }, run: '4' };
    expect(complaints({ techniques: [{ ...train, find, assumed: 'true' }] })).toEqual([]);
    expect(techniquesFileSchema.parse({ techniques: [{ ...train, find }] }).techniques[0]?.find).toEqual({
      note: { hole: { least: 3, most: 3 }, bend: { least: 1, most: 2 }, split: false },
      run: 4,
    });
  });

  it('says of a wrong value what is wanted, at its own path', () => {
    const of = (find: unknown) => complaints({ techniques: [{ id: 'x', find }] });
    expect(of({ note: { hole: 'three' } })).toEqual([
      'techniques/0/find/note/hole: is a number, or a fraction such as 1/16',
    ]);
    expect(of({ note: { hole: '4-2' } })).toEqual([
      'techniques/0/find/note/hole: goes from the lower number to the higher',
    ]);
    expect(of({ note: { hole: {} } })).toEqual([
      'techniques/0/find/note/hole: has at least one of least, most and below',
    ]);
    expect(of({ note: { mark: ['slap', 'bang'] } })[0]).toMatch(
      /^techniques\/0\/find\/note\/mark\/1: is one of shake, slap, pull/,
    );
    expect(of({ note: { split: 'perhaps' } })).toEqual([
      'techniques/0/find/note/split: is true or false, not “perhaps”',
    ]);
    expect(of({ note: { role: 'third' } })[0]).toMatch(/role\/0: is a role/);
    expect(of({ block: { meter: 'four' } })[0]).toMatch(/meter\/0: is a meter/);
    expect(of({ run: '4' })).toEqual(['techniques/0/find: has at least one of block, note, next and between']);
    expect(of({ note: {}, next: {}, run: '3' })[0]).toMatch(/run and next/);
    expect(of({ note: {}, run: '1' })).toEqual(['techniques/0/find/run: is a whole number from 2 to 999, not “1”']);
    expect(of('never')).toEqual(['techniques/0/find: is a rule, or the word not-in-score']);
    expect(of({ any: [] })).toEqual(['techniques/0/find/any: is an empty list']);
    expect(of({ note: { holes: '1' }, any: [] })).not.toEqual([]);
  });

  it('takes no id but small letters, digits and single hyphens', () => {
    const of = (id: string) => complaints({ techniques: [{ ...train, id }] });
    for (const id of ['train', 'the-2-trains', '7']) expect(of(id)).toEqual([]);
    for (const id of ['Train', 'a--b', '-a', 'a-', 'a b', 'a_b', 'ä'])
      expect(of(id), id).toEqual(['techniques/0/id: is an id: small letters, digits and single hyphens']);
  });

  it('names the neighbours of an unknown key', () => {
    expect(complaints({ techniques: [{ id: 'x', find: { note: { bendd: '1' } } }] })).toEqual([
      expect.stringMatching(/^techniques\/0\/find\/note: breath hole bend /),
    ]);
  });
});
