/** A course of random blocks, for music that nobody would think of writing. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { sample } from '../oracle/oracle.ts';

const IN_A_LESSON = 25;

/** Writes a course with so many blocks: those of the oracle from a seed on. */
export function writeRandomCourse(folder: string, blocks: number, seed = 1): void {
  mkdirSync(join(folder, 'lessons'), { recursive: true });
  writeFileSync(join(folder, 'course.yaml'), 'title: Random blocks\n');
  for (let first = 0; first < blocks; first += IN_A_LESSON) {
    const seeds = Array.from({ length: Math.min(IN_A_LESSON, blocks - first) }, (_, index) => seed + first + index);
    // A block is found again by its seed.
    const fences = seeds.map(
      (own) => `\`\`\`tab\nid: seed-${own}\n${sample(own).text.replace(/^id: .*\n/m, '')}\n\`\`\`\n`,
    );
    const name = `from-${seeds[0]}`;
    writeFileSync(join(folder, 'lessons', `${name}.mdx`), `---\ntitle: Blocks ${name}\n---\n\n${fences.join('\n')}`);
  }
}
