/** What a thread that engraves receives and sends. */
import type { MessagePort } from 'node:worker_threads';
import type { Score } from '../../score/score.ts';
import type { Engraved } from '../../site/engraver.ts';

/** A block by its score, or an example by its text. */
export type EngravingJob = { readonly key: string } & ({ readonly score: Score } | { readonly text: string });

/** A batch that is done. */
export type Done = readonly (readonly [key: string, engraved: Engraved])[];

/** What a thread needs to begin. */
export interface Start {
  readonly batches: readonly (readonly EngravingJob[])[];
  readonly port: MessagePort;
  /** One number: how many batches were sent, or {@link ENDED} after the last. Waiting threads are notified of each change. */
  readonly state: Int32Array;
}

/** The message after the last job. */
export const ENDED = -1;
