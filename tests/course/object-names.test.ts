/**
 * Names that every JavaScript object has, wherever an author can write a name: each is a name like any other, so it is unknown
 * or taken, and never ends the program or disappears.
 */
import { describe, expect, it } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { courseOf } from './some-course.ts';

const NAMES = Object.getOwnPropertyNames(Object.prototype);

/** A course that has a name at every place where one can be. */
const courseNaming = (name: string): string =>
  courseOf({
    'course.yaml': [
      'title: One',
      ...[
        'harp',
        'tuning',
        'position',
        'meter',
        'tempo',
        'feel',
        'slot',
        'form',
        'mouth',
        'temperament',
        'language',
      ].map((key) => `${key}: ${name}`),
      `${name}: 3`,
      `severity:\n  ${name}: warning`,
      `forms:\n  ${name}: ${name}`,
      `tunings:\n  ${name}: { blow: ${name}, draw: D }`,
      `stages:\n  - id: ${name}\n    title: A stage\n    ${name}: 1\n`,
    ].join('\n'),
    'techniques.yaml': [
      `catalogue: ${name}`,
      'techniques:',
      `  - id: ${name}`,
      '    title: A technique',
      '    about: About it.',
      `    group: ${name}`,
      `    requires: ${name}`,
      `    kind-of: ${name}`,
      `    find: { note: { ${name}: 1, mark: ${name}, role: ${name}, chord: ${name} } }`,
      `  - id: second\n    find: ${name}\n`,
    ].join('\n'),
    'lessons/first.mdx': [
      `---\ntitle: First\nstage: ${name}\nrequires: ${name}\nteaches: ${name}\n${name}: 4`,
      `allow:\n  - code: ${name}\n    reason: none`,
      `clips:\n  ${name}: { src: media/x.mp3, ${name}: 2 }\n---\n`,
      `[a](/${name}) [b](/techniques/${name}) [c](/harps/${name}) [d](${name}) [e](#${name}) [f](/guide#${name}) ![g](media/${name})\n`,
      `<Clip name="${name}" />\n`,
      `<HarpMap show="${name}" scale="${name}" chord="${name}" ${name}="1" />\n`,
      `<RoleTable notes="${name}" form="${name}" harp="${name}" />\n`,
      `<FormChart form="${name}" targets="${name}" />\n`,
      `<TargetNotes form="${name}" holes="${name}" />\n<RhythmLine rhythm="${name}" syllables="${name}" />\n`,
      `<SideBySide block="${name}" harps="${name}, ${name}" />\n<NoteLengths slot="${name}" />\n`,
      `<${name} />\n`,
      `<Clip src="media/x.mp3" cues={[{ ${name}: 3, at: 1 }]} />\n`,
      `\`\`\`tab\nid: ${name}\nharp: ${name}\nmouth: ${name}\n${name}: 4\nform: ${name}\nfeel: ${name}\nslot: ${name}`,
      `chords: C${name} | I${name}\nphrase ${name}: 4 5\npart: ${name}`,
      `"C${name}" "I${name}" "${name}" 4[${name}] 4[shake ${name}] @${name} ${name} <${name}> <${name}/${name}:${name}>`,
      `words: ${name}\n\`\`\`\n`,
    ].join('\n'),
  });

describe('a name that every object has', () => {
  it.each(NAMES)('%s is read as any other name', (name) => {
    const { problems } = loadCourse(courseNaming(name));
    // What a lookup in a plain object would have put into a message.
    for (const { message, help } of problems) expect(`${message} ${help}`).not.toMatch(/\[native code\]|\[object/);
    const codes = new Set(problems.map(({ code }) => code));
    const unknown = ['chord-unknown', 'mark-unknown', 'mouth-unknown', 'figure-choice'];
    unknown.push(name === '__proto__' ? 'key-reserved' : 'key-unknown');
    // A setting's name begins with a letter; other lines are music.
    if (/^[a-z]/i.test(name)) unknown.push('header-unknown');
    expect(unknown.filter((code) => !codes.has(code))).toEqual([]);
  });
});
