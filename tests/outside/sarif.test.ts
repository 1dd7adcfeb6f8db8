/**
 * What `check --format sarif` prints, against the standard: Static Analysis Results Interchange Format (SARIF) Version 2.1.0 Plus
 * Errata 01, OASIS Standard (https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/sarif-v2.1.0-errata01-os.html). Its
 * schema is asked as types: @types/sarif is made from it, so that a property it does not know or a value of another kind does not compile.
 * No well-kept package carries the schema itself.
 */
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Log, Region, Run } from 'sarif';
import { describe, expect, test } from 'vitest';
import { sarifOfCourse } from '../../src/command/course/check-sarif.ts';
import { ALL_PROBLEMS } from '../../src/course/catalogue.ts';
import { loadCourse } from '../../src/course/load.ts';
import { present } from '../../src/values/checked.ts';
import { courseOf, folderOf, lesson } from '../course/some-course.ts';

const some = () =>
  courseOf({
    'course.yaml': 'title: A course\nlanguag: en\n',
    'lessons/first.mdx': lesson('🎵 {a} [x](nowhere)\r\n\r<80\n\n```tab\nslot: 1/4\n🎵 99 4 4\n```\n'),
    'lessons/a b#c.mdx': lesson('```Tab\n```\n'),
  });

const logOf = (dir: string, cwd: string): Log => sarifOfCourse(loadCourse(dir), cwd);
const runOf = (log: Log): Run => present(log.runs[0], 'a run');

describe('a SARIF log', () => {
  test('names its version and its columns (§3.13.2, §3.14.17)', () => {
    const log = logOf(some(), '/');
    expect(log.version).toBe('2.1.0');
    expect(log.runs).toHaveLength(1);
    expect(runOf(log).columnKind).toBe('utf16CodeUnits');
  });

  test('has every code as a rule, once, and results that point at theirs (§3.19.23, §3.27.6)', () => {
    const { tool, results } = runOf(logOf(some(), '/'));
    const rules = present(tool.driver.rules, 'rules');
    expect(rules.map(({ id }) => id)).toEqual(Object.keys(ALL_PROBLEMS));
    for (const { ruleId, ruleIndex } of present(results, 'results'))
      expect(rules[present(ruleIndex, 'an index')]?.id).toBe(ruleId);
  });

  test('has relative addresses that lead to the files from the folder they are relative to (§3.4.3, §3.14.14)', () => {
    const dir = some();
    const course = loadCourse(dir);
    for (const cwd of [dir, '/', folderOf({})]) {
      const { originalUriBaseIds, results } = runOf(logOf(dir, cwd));
      const base = present(originalUriBaseIds?.['%SRCROOT%']?.uri, 'an address');
      expect(base).toMatch(/^file:\/\/\/.*\/$|^file:\/\/\/$/);
      const files = present(results, 'results').map(({ locations }) => {
        const { uri, uriBaseId } = present(locations?.[0]?.physicalLocation?.artifactLocation, 'a location');
        expect(uriBaseId).toBe('%SRCROOT%');
        // RFC 3986: no scheme, no blank, nothing behind # or ?.
        expect(uri).toMatch(/^(?:[\w.~!*'()-]|%[0-9A-F]{2}|\/)+$/);
        return fileURLToPath(new URL(present(uri, 'an address'), base));
      });
      expect(files).toEqual(course.problems.map(({ file }) => fileURLToPath(pathToFileURL(`${dir}/${file}`))));
    }
  });

  test('has regions that hold what is meant, in UTF-16 units, with the line ends that it names (§3.14.16, §3.30)', () => {
    const dir = some();
    const course = loadCourse(dir);
    const { newlineSequences, results } = runOf(logOf(dir, dir));
    const ends = new RegExp(present(newlineSequences, 'line ends').join('|'));
    const meant = (file: string, { startLine = 0, startColumn = 0, endColumn = 0 }: Region): string =>
      present(course.sources.get(file), file)
        .split(ends)
        [startLine - 1]?.slice(startColumn - 1, endColumn - 1) ?? '';
    const found = present(results, 'results').map(({ ruleId, locations }, index) => [
      ruleId,
      meant(
        present(course.problems[index], 'a problem').file,
        present(locations?.[0]?.physicalLocation?.region, 'a region'),
      ),
    ]);
    expect(found).toContainEqual(['link-unknown', 'nowhere']);
    expect(found).toContainEqual(['mdx-syntax', '<80']);
    expect(found).toContainEqual(['not-a-slot', '🎵']);
    expect(found).toContainEqual(['no-hole', '99']);
    expect(found).toContainEqual(['key-unknown', 'languag']);
  });

  test('has fixes that replace what they are for (§3.55, §3.57)', () => {
    const dir = some();
    const { results } = runOf(logOf(dir, dir));
    const fixed = present(results, 'results').find(({ ruleId }) => ruleId === 'key-unknown');
    expect(fixed?.fixes?.[0]?.artifactChanges[0]).toEqual({
      artifactLocation: { uri: 'course.yaml', uriBaseId: '%SRCROOT%' },
      replacements: [
        {
          deletedRegion: { startLine: 2, startColumn: 1, endLine: 2, endColumn: 8 },
          insertedContent: { text: 'language' },
        },
      ],
    });
  });

  test('names the files it has no text of, and the folder itself, without a region', () => {
    const { results } = runOf(logOf('/nowhere/at/all', '/nowhere/at'));
    expect(results?.[0]?.locations).toEqual([
      { physicalLocation: { artifactLocation: { uri: 'all', uriBaseId: '%SRCROOT%' } } },
    ]);
  });
});
