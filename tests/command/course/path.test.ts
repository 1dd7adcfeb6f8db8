import { describe, expect, test } from 'vitest';
import { courseOf, lesson } from '../../course/some-course.ts';
import { typed } from '../some-terminal.ts';

const BENT = "```tab\nid: licks\nslot: 1/4\n4 -4' -4 4\n```\n";
const course = (files: Readonly<Record<string, string>> = {}): string =>
  courseOf({
    'course.yaml': 'title: A course\nstages:\n  - { id: start, title: The start }\n',
    'lessons/first.mdx': lesson('', 'title: First\nstage: start'),
    'lessons/bend.mdx': lesson(BENT, 'title: Say "bend"\nstage: start\nrequires: first\nteaches: draw-4-half-step'),
    'lessons/riff.mdx': lesson(
      `${BENT}\n\`\`\`tab\n<bend/licks>\n\`\`\`\n`,
      'title: Riff\nrequires: [first, bend]\nstage: start',
    ),
    ...files,
  });

interface Printed {
  readonly order: readonly string[];
  readonly lessons: readonly Record<string, unknown>[];
  readonly edges: readonly Record<string, unknown>[];
}

describe('reedway path', () => {
  test('prints the order, what each lesson comes after and why, what it teaches and uses', async () => {
    const { code, out } = await typed(['path', course()]);
    expect(code).toBe(0);
    expect(out).toBe(`The start

  1  first: First

  2  bend: Say "bend" (difficulty 1.7 of 10)
     after    first: required
     teaches  draw-4-half-step
     uses     single-notes, lip-pursing, breath-turns, middle-holes, bends, draw-bends,
              half-step-bends, draw-4-half-step, bends-from-nothing, first-position

  3  riff: Riff (difficulty 1.7 of 10)
     after    first: required
     after    bend: required; 1 quotes its licks; licks uses draw-4-half-step
     uses     single-notes, lip-pursing, breath-turns, middle-holes, bends, draw-bends,
              half-step-bends, draw-4-half-step, bends-from-nothing, first-position
`);
  });

  test('prints the same as data', async () => {
    const { code, out } = await typed(['path', course(), '--json']);
    expect(code).toBe(0);
    const { order, lessons, edges } = JSON.parse(out) as Printed;
    expect(order).toEqual(['first', 'bend', 'riff']);
    expect(lessons[1]).toMatchObject({
      id: 'bend', number: 2, title: 'Say "bend"', stage: 'start', draft: false, teaches: ['draw-4-half-step'],
      needs: ['first'], opens: ['riff'],
    }); // biome-ignore format: as it is read
    expect(lessons[1]?.['uses']).toContainEqual({ technique: 'draw-4-half-step', blocks: ['licks'] });
    expect(edges).toContainEqual({
      from: 'bend',
      to: 'riff',
      direct: true,
      reasons: [
        { kind: 'requires' },
        { kind: 'quotes', block: '1', quoted: 'licks' },
        { kind: 'technique', technique: 'draw-4-half-step', block: 'licks' },
      ],
    });
    expect(edges).toContainEqual({ from: 'first', to: 'riff', direct: false, reasons: [{ kind: 'requires' }] });
  });

  test('prints a graph in DOT, with the ties that a longer way brings along dashed', async () => {
    const { out } = await typed(['path', course(), '--dot']);
    expect(out).toContain('    label="The start"');
    expect(out).toContain('    "bend" [label="Say \\"bend\\""]');
    expect(out).toContain('  "bend" -> "riff" [tooltip="requires, quotes, draw-4-half-step"]');
    expect(out).toContain('  "first" -> "riff" [tooltip="requires", style=dashed]');
  });

  test('prints a cycle as an error and shows the rest', async () => {
    const dir = course({ 'lessons/first.mdx': lesson('', 'title: First\nstage: start\nrequires: bend') });
    const { code, out, err } = await typed(['path', dir]);
    expect(code).toBe(1);
    expect(out).toContain('riff: Riff');
    expect(err).toContain('These lessons need each other in a cycle: “bend” requires “first” requires “bend”.');
  });

  test('refuses two shapes at once', async () => {
    const { code, err } = await typed(['path', course(), '--json', '--dot']);
    expect(code).toBe(2);
    expect(err).toContain('--json and --dot do not go together.');
  });
});

describe('reedway techniques', () => {
  test('prints how hard a block is and why, and which notes take what', async () => {
    const { code, out } = await typed(['techniques', 'bend/licks', '--course', course()]);
    expect(code).toBe(0);
    expect(out).toContain('bend/licks (block 0): difficulty 1.7 of 10\n');
    expect(out).toContain(
      '  One bent note, the hardest draw 4 bent a half step, struck from another hole'.slice(0, 40),
    );
    expect(out).toContain("\n  draw-4-half-step (Draw 4 bent a half step)\n    Bar 1: -4'.\n");
    expect(out).toContain("\n  breath-turns (Turning the breath)\n    Bar 1: 4 -4', -4 4.\n");
    expect(out).toContain('\n  first-position (First position)\n    The whole block.\n');
  });

  test('prints the same as data, for every block of a lesson', async () => {
    const { out } = await typed(['techniques', 'riff', '--course', course(), '--json']);
    const blocks = JSON.parse(out) as {
      block: string;
      difficulty: { level: number };
      techniques: Record<string, unknown>[];
    }[];
    expect(blocks.map(({ block }) => block)).toEqual(['licks', '1']);
    for (const { techniques, difficulty } of blocks) {
      expect(difficulty.level).toBeGreaterThan(0);
      expect(techniques).toContainEqual({
        id: 'draw-4-half-step',
        title: 'Draw 4 bent a half step',
        taughtHere: false,
        places: [{ bar: 1, at: 1, events: [1], notes: "-4'" }],
      });
    }
  });

  test('lists the techniques of a course where no block is named, its own among them', async () => {
    const dir = course({
      'techniques.yaml':
        'techniques:\n  - id: home\n    title: Coming home\n    about: The last note.\n    group: harmony\n    find: { note: { hole: 4 } }\n',
    });
    const { out } = await typed(['techniques', '--course', dir]);
    expect(out).toContain('\n  home (Coming home)\n    The last note.\n');
    expect(out).toMatch(/draw-4-half-step [^(]*\([^)]*\)\n[^)]*? Taught\s+in\s+bend\./);
    expect(out).toMatch(/single-notes .*\n {4}.*Taken for granted\./);
    const { out: data } = await typed(['techniques', '--course', dir, '--json']);
    expect((JSON.parse(data) as { id: string }[]).at(-1)?.id).toBe('home');
  });

  test('prints the words a rule is made of, each with its meaning', async () => {
    const { out } = await typed(['techniques', '--words']);
    for (const word of ['catalogue', 'kind-of', 'held-over', 'notes-per-second', 'run', 'any'])
      expect(out).toContain(`\n  ${word}\n    `);
    expect(out).not.toMatch(/\n {4}\.\n/);
  });

  test('prints what is wrong with a block that cannot be read, and names the nearest of what there is not', async () => {
    const dir = course({ 'lessons/broken.mdx': lesson("```tab\n-4'''' 4\n```\n", 'title: Broken') });
    const broken = await typed(['techniques', 'broken', '--course', dir]);
    expect(broken.code).toBe(1);
    expect(broken.out).toContain('This block has an error.');
    expect(broken.err).toContain('bend-too-deep');
    expect((await typed(['techniques', 'bent', '--course', dir])).err).toContain('Did you mean bend?');
  });
});
