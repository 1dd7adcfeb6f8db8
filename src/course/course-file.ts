/** course.yaml, read: what every lesson starts from. */
import type { Diagnostic } from '../diagnostics/diagnostic.ts';
import { locate, type Problem, placeOf } from '../diagnostics/place.ts';
import { checkYaml } from '../document/check-yaml.ts';
import { readYaml, type YamlPlaces, yamlPlaces } from '../document/yaml.ts';
import type { Tables } from '../notation/setting-values.ts';
import { DEFAULTS, type Settings } from '../notation/settings.ts';
import { type CourseFile, courseSchema, tablesOf } from './course-schema.ts';
import type { TextFile } from './folder.ts';
import { lessonSchema } from './lesson-schema.ts';

/** `course.yaml`, with the problems found in it. */
export interface CourseFileRead {
  /** What was read; undefined where there was nothing. */
  readonly text: string | undefined;
  readonly file: CourseFile;
  readonly places: YamlPlaces;
  readonly tables: Tables;
  readonly defaults: Settings;
  /** Reads the front matter of a lesson of this course. */
  readonly lessonSchema: ReturnType<typeof lessonSchema>;
  /** Keys whose values are wrong and left out. */
  readonly wrong: ReadonlySet<string>;
  readonly problems: readonly Problem[];
}

/** `name` is what the course is called if it does not say. */
export function readCourseFile(
  courseFile: TextFile | undefined,
  name: string,
  before: CourseFileRead | undefined,
): CourseFileRead {
  const text = courseFile?.text;
  if (before && before.text === text) return before;
  const read = readYaml(text ?? '');
  const tables = tablesOf(read.value);
  const { value: file, wrong, diagnostics } = checkYaml(courseSchema(tables), read, { title: name }, 'course');
  const placed = placeOf(text ?? '');
  const here = (diagnostic: Diagnostic): Problem => locate(diagnostic, courseFile?.file ?? '', placed);
  return {
    text,
    file,
    places: yamlPlaces(read.spans, placed),
    tables,
    defaults: { ...DEFAULTS, ...file.settings },
    lessonSchema: lessonSchema(tables),
    wrong,
    // A file that does not exist has been reported.
    problems: courseFile ? [...read.diagnostics, ...diagnostics].map(here) : [],
  };
}
