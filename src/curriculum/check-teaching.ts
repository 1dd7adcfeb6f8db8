/** Whether lessons teach what their blocks use. */
import { nameMeant } from '../document/meant.ts';
import type { Repertoire } from '../technique/repertoire.ts';
import type { Technique } from '../technique/technique.ts';
import { itemAt } from '../values/checked.ts';
import { placeOfUse, type Report } from './finding.ts';
import { reaches } from './graph.ts';
import type { PathLesson } from './lesson.ts';
import type { NumberedPath } from './numbered.ts';
import { type MissingTechnique, teacherBefore } from './technique-needs.ts';

/** Checks that what blocks use was taught before, and that what is taught is used. */
export function checkTeaching(curriculum: NumberedPath, add: Report): void {
  checkEntries(curriculum, add);
  checkFirsts(curriculum, add);
  checkGaps(curriculum, add);
}

const at = (curriculum: NumberedPath, number: number): PathLesson => itemAt(curriculum.lessons, number);

/** Each entry of `teaches`: known, said once, practised in a block, and built on what was taught before. */
function checkEntries(curriculum: NumberedPath, add: Report): void {
  const { lessons, repertoire, surveys } = curriculum;
  lessons.forEach((lesson, number) => {
    const survey = surveys[number] ?? [];
    // In a block that cannot be read anything may be used.
    const readable = survey.every((block) => block !== undefined);
    const used = new Set(survey.flatMap((block) => block?.found.map(({ technique }) => technique.id) ?? []));
    const seen = new Set<string>();
    lesson.frontMatter.teaches.forEach((id, index) => {
      const place = { frontMatter: `teaches/${index}` };
      const technique = repertoire.byId.get(id);
      if (!technique)
        add(lesson, place, 'teaches-unknown', { id, ...nameMeant(id, repertoire.techniques, repertoire.former) });
      else if (seen.has(id)) add(lesson, place, 'named-twice', { id, key: 'teaches' });
      else {
        if (readable && technique.find !== 'not-in-score' && !used.has(id))
          add(lesson, place, 'taught-unused', { technique });
        checkFoundation(curriculum, number, technique, place.frontMatter, add);
      }
      seen.add(id);
    });
  });
}

/** What a technique builds on has been taught on the way, if the course teaches it at all. */
function checkFoundation(
  curriculum: NumberedPath,
  number: number,
  technique: Technique,
  frontMatter: string,
  add: Report,
): void {
  const { repertoire, teachers } = curriculum;
  const way = { repertoire, teachers, reach: curriculum.way.reach };
  for (const id of technique.requires) {
    const teacher = teachers.get(id)?.[0];
    const needs = repertoire.byId.get(id);
    if (teacher === undefined || !needs) continue;
    const standIns = [id, ...(repertoire.narrower.get(id) ?? [])];
    if (standIns.some((one) => teacherBefore(way, one, number) !== undefined)) continue;
    const facts = { technique, needs, teacher: at(curriculum, teacher).id };
    add(at(curriculum, number), { frontMatter }, 'taught-too-early', facts);
  }
}

/** Of the lessons that teach a technique, one comes before all the others. */
function checkFirsts(curriculum: NumberedPath, add: Report): void {
  const { teachers, repertoire, way } = curriculum;
  for (const [id, numbers] of teachers) {
    const technique = repertoire.byId.get(id);
    if (!technique || numbers.length < 2) continue;
    const firsts: number[] = [];
    for (const number of numbers) {
      if (firsts.some((first) => reaches(way.reach, first, number))) continue;
      if (!numbers.some((other) => reaches(way.reach, other, number))) firsts.push(number);
    }
    const [first, ...others] = firsts;
    if (first === undefined) continue;
    for (const number of others) {
      const lesson = at(curriculum, number);
      const place = { frontMatter: `teaches/${lesson.frontMatter.teaches.indexOf(id)}` };
      add(lesson, place, 'taught-twice', { technique, first: at(curriculum, first).id });
    }
  }
}

/** More untaught techniques than this in one lesson are reported in one finding: its course has only begun to teach by name. */
const EACH = 3;

/** Where in its block a technique is missed: the block as a whole is before its first event. */
const placeIn = ({ match }: MissingTechnique): number => match.at ?? Number.NEGATIVE_INFINITY;

/** What is used too early, for each lesson; what is never taught, once for the course, where it is first used. */
function checkGaps(curriculum: NumberedPath, add: Report): void {
  const { gaps, rank, repertoire } = curriculum;
  const inOrder = [...gaps].sort((a, b) => itemAt(rank, a.lesson) - itemAt(rank, b.lesson));
  const reported = new Set<string>();
  const never = new Map<number, MissingTechnique[]>();
  const meant = meantTechniques(curriculum);
  for (const gap of inOrder) {
    const { lesson: number, technique, block, match, teachers } = gap;
    // It is taught under a mistyped name, which has been reported.
    if ([technique.id, ...(repertoire.wider.get(technique.id) ?? [])].some((id) => meant.has(id))) continue;
    const lesson = at(curriculum, number);
    const place = placeOfUse(lesson, block, match, technique);
    const teacher = teachers[0];
    if (teacher !== undefined) {
      const later = itemAt(rank, teacher) > itemAt(rank, number);
      const facts = { technique, lesson: lesson.id, teacher: at(curriculum, teacher).id, later };
      add(lesson, place, 'used-before-taught', facts);
    } else if (!reported.has(technique.id)) {
      reported.add(technique.id);
      never.set(number, [...(never.get(number) ?? []), gap]);
    }
  }
  for (const [number, missed] of never) {
    const lesson = at(curriculum, number);
    missed.sort((a, b) => a.block - b.block || placeIn(a) - placeIn(b));
    const groups = missed.length > EACH ? [missed] : missed.map((gap) => [gap]);
    for (const [first, ...others] of groups) {
      if (!first) continue;
      const { technique, block, match } = first;
      const more = others.map((gap) => gap.technique.id);
      add(lesson, placeOfUse(lesson, block, match, technique), 'never-taught', { technique, more, lesson: lesson.id });
    }
  }
}

/** What lessons probably mean to teach under unknown names. */
function meantTechniques({ lessons, repertoire }: NumberedPath): Set<string> {
  const unknown = lessons.flatMap(({ frontMatter }) => frontMatter.teaches.filter((id) => !repertoire.byId.has(id)));
  return new Set(unknown.flatMap((id) => meantBy(id, repertoire) ?? []));
}

/** The technique an unknown id probably means, by its id or its title. */
const meantBy = (id: string, { techniques, former }: Repertoire): string | undefined =>
  nameMeant(id, techniques, former).nearest;
