/** A former name leads to one thing: nothing else is called so, and nothing else was. */
import { reporter } from '../../diagnostics/catalogue.ts';
import { locate, type Problem, placeOf } from '../../diagnostics/place.ts';
import { readYaml } from '../../document/yaml.ts';
import { formerIdsIn } from '../../notation/header.ts';
import type { Course } from '../course.ts';
import { COURSE_FILE, TECHNIQUES_FILE } from '../folder.ts';
import { COURSE_PROBLEMS } from '../problems.ts';
import { placeAt } from '../severity.ts';

type CheckedCourse = Pick<Course, 'file' | 'lessons' | 'places' | 'repertoire' | 'sources'>;
type Code = 'former-in-use' | 'former-twice';

const report = reporter(COURSE_PROBLEMS);
const SOMEWHERE = { from: 0, to: 0 };

/** Reports former names that are in use, or that two things had. */
export function formerNamesAreFree(course: CheckedCourse): Problem[] {
  return [...ofLessons(course), ...course.lessons.flatMap(ofBlocks), ...ofTechniques(course), ...ofStages(course)];
}

/** Finds what is wrong with each former name of one kind of thing, in their order. */
function watch(kind: string, inUse: Iterable<string>, keyOf: (name: string) => string = (name) => name) {
  const used = new Set([...inUse].map(keyOf));
  const first = new Map<string, string>();
  return (
    former: string,
    owner: string,
  ): { code: Code; facts: { kind: string; name: string; other: string } } | undefined => {
    const key = keyOf(former);
    const other = first.get(key);
    if (used.has(key)) return { code: 'former-in-use', facts: { kind, name: former, other: owner } };
    if (other !== undefined) return { code: 'former-twice', facts: { kind, name: former, other } };
    first.set(key, owner);
    return undefined;
  };
}

function ofLessons({ lessons }: CheckedCourse): Problem[] {
  // A folder of the site may be on a machine that ignores case.
  const faultOf = watch(
    'lesson',
    lessons.map(({ id }) => id),
    (name) => name.toLowerCase(),
  );
  return lessons.flatMap(({ id, file, places, frontMatter }) =>
    frontMatter.formerly.flatMap((old, index) => {
      const fault = faultOf(old, id);
      if (!fault) return [];
      return placeAt(report(fault.code, SOMEWHERE, fault.facts), file, places, ['formerly', index], 'value');
    }),
  );
}

function ofBlocks({ file, blocks }: Course['lessons'][number]): Problem[] {
  const faultOf = watch(
    'block',
    blocks.map(({ id }) => id),
  );
  return blocks.flatMap(({ id, tree, placed }) =>
    formerIdsIn(tree).flatMap((old) => {
      const fault = faultOf(old.id, id);
      return fault ? locate(report(fault.code, old.span, fault.facts), file, placed) : [];
    }),
  );
}

function ofTechniques({ repertoire, sources }: CheckedCourse): Problem[] {
  if (repertoire.former.size === 0) return [];
  const source = sources.get(TECHNIQUES_FILE) ?? '';
  const { spans } = readYaml(source);
  const placed = placeOf(source);
  const faultOf = watch('technique', repertoire.byId.keys());
  const written = [...spans].filter(([path]) => /^techniques(?:\/\d+)?\/formerly(?:\/\d+)?$/.test(path));
  return written.flatMap(([path, { value: span }]) => {
    // A list has a place of its own besides those of its items.
    if (spans.has(`${path}/0`)) return [];
    const old = source.slice(span.from, span.to).replace(/^(["'])(.*)\1$/s, '$2');
    const owner = spans.get(path.replace(/formerly.*$/, 'id'))?.value;
    const fault = faultOf(old, owner ? source.slice(owner.from, owner.to) : old);
    return fault ? locate(report(fault.code, span, fault.facts), TECHNIQUES_FILE, placed) : [];
  });
}

function ofStages({ file, places }: CheckedCourse): Problem[] {
  const faultOf = watch('stage', ['none', ...file.stages.map(({ id }) => id)]);
  return file.stages.flatMap(({ id, formerly }, stage) =>
    formerly.flatMap((old, index) => {
      const fault = faultOf(old, id);
      if (!fault) return [];
      const path = ['stages', stage, 'formerly', index];
      return placeAt(report(fault.code, SOMEWHERE, fault.facts), COURSE_FILE, places, path, 'value');
    }),
  );
}
