import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, test } from 'vitest';
import { blockKeys, exampleKey } from '../../../src/course/block-key.ts';
import type { Course } from '../../../src/course/course.ts';
import { loadCourse } from '../../../src/course/load.ts';
import { engraveBlock } from '../../../src/engrave/block.ts';
import { engraverAhead } from '../../../src/publish/engraving/ahead.ts';
import { engraverWith } from '../../../src/publish/engraving/engrave.ts';
import { engraver } from '../../../src/publish/engraving/engraver.ts';
import { NO_RECORD_STORE, openRecordStore } from '../../../src/publish/engraving/record-store.ts';
import type { Score } from '../../../src/score/score.ts';
import type { Engraver } from '../../../src/site/engraver.ts';
import { EXAMPLES, MARKED } from '../../../src/site/examples.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { courseOf, folderOf, lesson } from '../../course/some-course.ts';

const block = (text: string): string => `\`\`\`tab\n${text}\n\`\`\`\n\n`;
const load = (files: Readonly<Record<string, string>>): Course => {
  const course = loadCourse(courseOf(files));
  expect(course.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return course;
};
const all = (course: Course, from: Engraver) =>
  course.lessons.flatMap((one) => one.blocks.map((own) => from.block(course, one, own)));
const neverCalled = (): never => {
  throw new Error('Something is engraved again.');
};

const MUSIC =
  'title: <b>="ID-e0"</b> & more\nharp: A\nposition: 2\nform: twelve-bar\n-2 3 -3\' -3 4 5 -4 4 | (1 4)[tongue] =3 -2 =3';
const COURSE = {
  'lessons/first.mdx': lesson(block(MUSIC.replace('form: twelve-bar\n', '')) + block('slot: 1/4\n4 -4 5 -5')),
};

describe('a block', () => {
  test('is what the engraver makes under the same name, byte for byte, whatever its text holds', () => {
    const course = load(COURSE);
    const [first] = course.lessons;
    for (const [index, own] of (first?.blocks ?? []).entries()) {
      const { html, glyphs } = engraveBlock(present(own.score, 'the score'), { id: `b-${index}` });
      expect(engraverWith(NO_RECORD_STORE).block(course, first as never, own)).toEqual({ html, glyphs });
      expect(engraverWith(NO_RECORD_STORE).block(course, first as never, own, 'other')?.html).toBe(
        engraveBlock(present(own.score, 'the score'), { id: 'other' }).html,
      );
    }
  });

  test('that is kept is not engraved again, under any name, in any later run', () => {
    const folder = folderOf({});
    const course = load(COURSE);
    const store = openRecordStore(folder);
    const before = all(course, engraverWith(store));
    const example = engraverWith(store).example('lanes', 'slot: 1/4\n4 5 6 7');
    store.close();
    const later = engraver({ store: openRecordStore(folder), blockEngraver: neverCalled });
    expect(all(course, later)).toEqual(before);
    expect(all(load(COURSE), later)).toEqual(before);
    expect(later.example('lanes', 'slot: 1/4\n4 5 6 7')).toEqual(example);
  });

  test('is right from a store that was damaged', () => {
    const folder = folderOf({});
    const course = load(COURSE);
    const store = openRecordStore(folder);
    const before = all(course, engraverWith(store));
    store.close();
    const file = join(folder, itemAt(readdirSync(folder), 0));
    const whole = readFileSync(file);
    for (let part = 1; part < 20; part++) {
      const hurt = Buffer.from(whole);
      hurt.fill(part, Math.floor((hurt.length * part) / 20), Math.floor((hurt.length * part) / 20) + 40);
      writeFileSync(file, hurt);
      expect(all(course, engraverWith(openRecordStore(folder)))).toEqual(before);
      for (const name of readdirSync(folder)) if (!file.endsWith(name)) writeFileSync(join(folder, name), '');
    }
  });
});

describe('a second thread', () => {
  const MANY = Object.fromEntries(
    Array.from({ length: 20 }, (_, number) => [
      `lessons/lesson-${number}.mdx`,
      lesson(
        Array.from({ length: 4 }, (_, own) =>
          block(`slot: 1/4\n${(number % 9) + 1} -${own + 1} 5 -${(number % 6) + 1}`),
        ).join(''),
        `title: Lesson ${number}`,
      ),
    ]),
  );

  test('makes what this one would have made, and all of it is kept', async () => {
    const folder = folderOf({});
    const course = load({ 'lessons/first.mdx': lesson('Hello.\n'), ...MANY });
    const here = all(course, engraverWith(NO_RECORD_STORE));
    const store = openRecordStore(folder);
    const { engraver: ahead, stop } = engraverAhead(course, store);
    // Whether the thread was quicker or this one, the pages are the same.
    expect(all(course, ahead)).toEqual(here);
    await stop();
    store.close();
    expect(all(course, engraver({ store: openRecordStore(folder), blockEngraver: neverCalled }))).toEqual(here);
  });

  test('has done its share when it was given time', async () => {
    const course = load({ 'lessons/first.mdx': lesson('Hello.\n'), ...MANY });
    const kept = new Set<string>();
    const store = { ...NO_RECORD_STORE, put: (key: string) => void kept.add(key) };
    const { engraver: ahead, stop } = engraverAhead(course, store);
    const blocks = course.lessons.flatMap((one) => one.blocks.map((own) => [one, own] as const));
    let asked = 0;
    // More is kept than was asked for: the rest is the thread's.
    while (kept.size <= asked && asked < blocks.length) {
      await sleep(500);
      ahead.block(course, ...itemAt(blocks, asked++));
    }
    expect(kept.size).toBeGreaterThan(asked);
    await stop();
  });

  test('is waited for, and no other engraves a block or an example of a page', async () => {
    const course = load({ 'lessons/first.mdx': lesson('Hello.\n'), ...MANY });
    const kept = new Map<string, string>();
    // A drawing of a bar is cached by the code that engraves, not here.
    const { engraver: ahead, stop } = engraverAhead(course, {
      ...NO_RECORD_STORE,
      put: (key, text) => void kept.set(key, text),
    });
    const examples = Object.entries(EXAMPLES).map(([id, text]) => ahead.example(id, text));
    const made = all(course, ahead);
    await stop();
    expect(examples).toEqual(
      Object.entries(EXAMPLES).map(([id, text]) => engraverWith(NO_RECORD_STORE).example(id, text)),
    );
    expect(made).toEqual(all(course, engraverWith(NO_RECORD_STORE)));
    const key = blockKeys(course);
    const whole = new Set([
      ...course.lessons.flatMap((one) => one.blocks.map((own) => key(one, own))),
      ...[...Object.values(EXAMPLES), ...MARKED.map(({ text }) => text)].map(exampleKey),
    ]);
    expect([...kept.keys()].filter((one) => !whole.has(one))).toEqual([]);
  });

  test('that fails costs time and nothing else', async () => {
    const course = load({ 'lessons/first.mdx': lesson('Hello.\n'), ...MANY });
    const hurt: Course = {
      ...course,
      lessons: course.lessons.map((one, number) =>
        number === 4 ? { ...one, blocks: one.blocks.map((own) => ({ ...own, score: {} as Score })) } : one,
      ),
    };
    const { engraver: ahead, stop } = engraverAhead(hurt, NO_RECORD_STORE);
    for (const [number, one] of hurt.lessons.entries()) {
      for (const own of one.blocks) {
        if (number === 4) expect(() => ahead.block(hurt, one, own)).toThrow();
        else expect(ahead.block(hurt, one, own)).toEqual(engraverWith(NO_RECORD_STORE).block(hurt, one, own));
      }
    }
    await stop();
  });

  test('that was stopped is not waited for', async () => {
    const course = load({ 'lessons/first.mdx': lesson('Hello.\n'), ...MANY });
    const { engraver: ahead, stop } = engraverAhead(course, NO_RECORD_STORE);
    await stop();
    expect(all(course, ahead)).toEqual(all(course, engraverWith(NO_RECORD_STORE)));
  });
});
