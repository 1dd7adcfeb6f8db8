/** techniques.yaml, read: the techniques a course works with. A course without one works with those that ship. */
import { surveyor } from '../curriculum/survey.ts';
import { reporter } from '../diagnostics/catalogue.ts';
import { locate, type Problem, placeOf } from '../diagnostics/place.ts';
import { checkYaml } from '../document/check-yaml.ts';
import { fieldOf } from '../document/unknown.ts';
import { nearestPlace, readYaml, type YamlRead } from '../document/yaml.ts';
import { TECHNIQUE_PROBLEMS } from '../technique/problems.ts';
import { type Repertoire, repertoireFromFile } from '../technique/repertoire.ts';
import { courseTechniqueSchema, type TechniquesFile, techniquesFileSchema } from '../technique/technique.ts';
import type { TextFile } from './folder.ts';

/** `techniques.yaml`, with the problems found in it. */
export interface CourseTechniques {
  /** What was read; undefined where there was nothing. */
  readonly text: string | undefined;
  readonly repertoire: Repertoire;
  /** What blocks take of it; a block that was surveyed before is not surveyed again. */
  readonly survey: ReturnType<typeof surveyor>;
  readonly problems: readonly Problem[];
}

const report = reporter(TECHNIQUE_PROBLEMS);

/** Reads techniques.yaml; the result is reused while its text is unchanged. */
export function readTechniques(file: TextFile | undefined, before: CourseTechniques | undefined): CourseTechniques {
  const text = file?.text;
  if (before && before.text === text) return before;
  const read = readYaml(text ?? '');
  const { value, wrong, diagnostics } = checkYaml(techniquesFileSchema, read, {}, 'techniques');
  const broken = new Set<number>();
  const { repertoire, faults } = repertoireFromFile(
    wrong.has('techniques') ? { ...value, techniques: sound(read, broken) } : value,
  );
  const found = faults
    // What is wrong with such an entry has been reported.
    .filter(({ path }) => !broken.has(Number(path[1])))
    .map(({ code, path, facts }) => {
      const spans = nearestPlace(read.spans, path);
      return report(code, spans?.value ?? { from: 0, to: 0 }, facts as never);
    });
  const placed = placeOf(text ?? '');
  return {
    text,
    repertoire,
    survey: surveyor(repertoire),
    problems: file ? [...read.diagnostics, ...diagnostics, ...found].map((one) => locate(one, file.file, placed)) : [],
  };
}

/** The entries that can be read, and of the others their names. */
function sound(read: YamlRead, broken: Set<number>): TechniquesFile['techniques'] {
  const list = fieldOf(read.value, 'techniques');
  if (!Array.isArray(list)) return [];
  const techniques: TechniquesFile['techniques'][number][] = [];
  for (const entry of list) {
    const whole = courseTechniqueSchema.safeParse(entry);
    const named = whole.success ? whole : courseTechniqueSchema.safeParse({ id: fieldOf(entry, 'id') });
    if (!named.success) continue;
    if (!whole.success) broken.add(techniques.length);
    techniques.push(named.data);
  }
  return techniques;
}
