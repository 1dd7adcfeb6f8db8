/** The engraver off the page's own thread: takes one job at a time and answers on the port that came with it. */
import type { FigureOnHarp } from '../../engrave/figure/figure.ts';
import type { Pitching } from '../../instrument/temperament.ts';
import { type Chosen, studentsHarp } from './chosen.ts';
import { musicAt } from './music.ts';

/** What the worker is asked to draw, for the chosen harp. */
export type RedrawJob = Pick<Chosen, 'harp' | 'tuned'> &
  (
    | {
        readonly kind: 'block';
        /** The address of its lesson's music. */
        readonly music: string;
        readonly block: string;
        /** Begins the ids of its parts on a page that shows blocks of several lessons; else their usual beginning. */
        readonly parts?: string | undefined;
      }
    /** All that a lesson's page says of its music. */
    | { readonly kind: 'said'; readonly music: string }
    | { readonly kind: 'figure'; readonly figure: FigureOnHarp; readonly pitching: Pitching }
  );

/** What the worker answers: the markup to put in place. */
export interface Drawn {
  readonly html: string;
  /** The outlines the markup draws. */
  readonly sheet?: string;
}

async function draw(job: RedrawJob): Promise<Drawn> {
  if (job.kind === 'figure') {
    const [{ harpOfFigure, isRare, moveFigure }, { withNotesOf }] = await Promise.all([
      import('../../engrave/figure/figure.ts'),
      import('../../engrave/figure/other-tuning.ts'),
    ]);
    const { figure, pitching } = job;
    const own = harpOfFigure(figure);
    const harp = studentsHarp(job, own);
    const moved = moveFigure(harp.tuning.id === own.tuning.id ? figure : withNotesOf(figure, harp), harp);
    if (isRare(moved)) {
      const { drawRare } = await import('../../engrave/figure/draw-rare.ts');
      return { html: drawRare(moved, pitching) };
    }
    const { drawCommon } = await import('../../engrave/figure/draw-common.ts');
    return { html: drawCommon(moved, pitching) };
  }
  if (job.kind === 'said') return { html: await say(job.music, job) };
  const [{ engraveBlock, glyphSheet }, { onStudentsHarp }, { missingNotes }, { escapeText }, { scores }] =
    await Promise.all([
      import('../../engrave/block.ts'),
      import('./on-harp.ts'),
      import('./missing-notes.ts'),
      import('../../engrave/markup.ts'),
      musicAt(job.music),
    ]);
  const found = Object.hasOwn(scores, job.block) ? scores[job.block] : undefined;
  if (!found) throw new Error(`there is no score of ${job.block}`);
  const { id, score } = found;
  const { score: moved, replaced } = onStudentsHarp(score, job);
  const { html, glyphs } = engraveBlock(moved, { id: job.parts ?? id });
  const missing = missingNotes(replaced);
  return {
    html: html + (missing === undefined ? '' : `<p class="not-on-harp">${escapeText(missing)}</p>`),
    sheet: glyphSheet(glyphs),
  };
}

/** An element for each place, with its name. */
async function say(music: string, chosen: Pick<Chosen, 'harp' | 'tuned'>): Promise<string> {
  const [{ drawInline }, { moveInline }, { head, said }] = await Promise.all([
    import('../../engrave/inline/words.ts'),
    import('../../engrave/inline/inline.ts'),
    musicAt(music),
  ]);
  const inWords = (words: typeof said, tuned: Chosen['tuned']): string[] =>
    Object.entries(words).map(([place, inline]) => {
      const moved = moveInline(inline, studentsHarp({ harp: chosen.harp, tuned }, inline.harp));
      return `<span data-said="${place}">${drawInline(moved)}</span>`;
    });
  return [...inWords(head, chosen.tuned), ...inWords(said, undefined)].join('');
}

addEventListener('message', ({ data, ports }: MessageEvent<RedrawJob>) => {
  const [port] = ports;
  draw(data).then(
    (drawn) => port?.postMessage(drawn),
    (error: unknown) => port?.postMessage({ failed: String(error) }),
  );
});
