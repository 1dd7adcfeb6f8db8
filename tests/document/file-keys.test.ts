/** The table of keys by file agrees with what the schemas read. */
import { expect, test } from 'vitest';
import { courseSchema } from '../../src/course/course-schema.ts';
import { glossarySchema } from '../../src/course/inline/glossary.ts';
import { lessonSchema } from '../../src/course/lesson-schema.ts';
import { ALL_KEYS, FILE_KEYS, keyCalled, placeOfKey } from '../../src/document/file-keys.ts';
import { HEADER_KEYS } from '../../src/notation/parse.ts';
import { SHIPPED_TABLES } from '../../src/notation/setting-values.ts';
import { techniquesFileSchema } from '../../src/technique/technique.ts';

const SCHEMAS = {
  course: courseSchema(SHIPPED_TABLES),
  lesson: lessonSchema(SHIPPED_TABLES),
  glossary: glossarySchema,
  techniques: techniquesFileSchema,
};

test.each(['course', 'lesson', 'glossary', 'techniques'] as const)('the keys of %s are those of its schema', (file) => {
  const result = SCHEMAS[file].safeParse({ 'no-such-key': 1 });
  const unknown = result.error?.issues.find(({ code }) => code === 'unrecognized_keys');
  expect(unknown?.message.split(' ')).toEqual(FILE_KEYS[file]);
});

test('a key that only the head of a block takes is said to be one', () => {
  const only = HEADER_KEYS.filter((key) => !FILE_KEYS.lesson.includes(key));
  expect(only.filter((key) => !ALL_KEYS.has(key))).toEqual([]);
  expect(only.filter((key) => key !== 'title').map((key) => placeOfKey(key, 'lesson'))).toEqual(
    only.map(() => 'the head of a block'),
  );
  expect(placeOfKey('title', 'lesson')).toBeUndefined();
  expect(placeOfKey('stages', 'lesson')).toBe('course.yaml');
});

test('another name is that of a key only where the file takes it', () => {
  expect(keyCalled('duration', FILE_KEYS.lesson)).toBe('minutes');
  expect(keyCalled('duration', FILE_KEYS.course)).toBeUndefined();
  expect(keyCalled('time', ['at', 'until'])).toBe('at');
});
