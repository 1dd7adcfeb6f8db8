/** The engraver off the page's own thread: takes one job at a time and answers on the port that came with it. */
import type { Figure } from '../../engrave/figure/figure.ts';
import type { Pitching } from '../../instrument/temperament.ts';
import { moveToHarp } from '../../score/move.ts';
import { type ChosenHarp, onTuning } from './chosen.ts';
import { musicAt } from './music.ts';

/** What the worker is asked to draw, for the chosen harp or (undefined) for the harp of the lesson. */
export type RedrawJob = { readonly harp: ChosenHarp | undefined } & (
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
  | { readonly kind: 'figure'; readonly figure: Figure; readonly pitching: Pitching }
);

/** What the worker answers: the markup to put in place. */
export interface Drawn {
  readonly html: string;
  /** The outlines the markup draws. */
  readonly sheet?: string;
}

async function draw(job: RedrawJob): Promise<Drawn> {
  const { harp } = job;
  if (job.kind === 'figure') {
    const [{ drawFigure }, { moveFigure }] = await Promise.all([
      import('../../engrave/figure/draw.ts'),
      import('../../engrave/figure/figure.ts'),
    ]);
    const { figure } = job;
    return { html: drawFigure(harp ? moveFigure(figure, onTuning(harp, figure.harp.tuning)) : figure, job.pitching) };
  }
  if (job.kind === 'said') return { html: await say(job.music, harp) };
  const [{ engraveBlock, glyphSheet }, { scores }] = await Promise.all([
    import('../../engrave/block.ts'),
    musicAt(job.music),
  ]);
  const found = Object.hasOwn(scores, job.block) ? scores[job.block] : undefined;
  if (!found) throw new Error(`there is no score of ${job.block}`);
  const { id, score } = found;
  const moved = harp ? moveToHarp(score, onTuning(harp, score.harp.tuning)) : score;
  const { html, glyphs } = engraveBlock(moved, { id: job.parts ?? id });
  return { html, sheet: glyphSheet(glyphs) };
}

/** An element for each place, with its name. */
async function say(music: string, harp: ChosenHarp | undefined): Promise<string> {
  const [{ drawInline }, { moveInline }, { said }] = await Promise.all([
    import('../../engrave/inline/words.ts'),
    import('../../engrave/inline/inline.ts'),
    musicAt(music),
  ]);
  return Object.entries(said)
    .map(([place, inline]) => {
      const moved = harp ? moveInline(inline, onTuning(harp, inline.harp.tuning)) : inline;
      return `<span data-said="${place}">${drawInline(moved)}</span>`;
    })
    .join('');
}

addEventListener('message', ({ data, ports }: MessageEvent<RedrawJob>) => {
  const [port] = ports;
  draw(data).then(
    (drawn) => port?.postMessage(drawn),
    (error: unknown) => port?.postMessage({ failed: String(error) }),
  );
});
