/** Shows what is heard of a loop, when each thing begins. */
import { audibleTimeOf } from './player/audible-time.ts';
import { type Showing, TICK, type Transport } from './transport.ts';

/** Draws what is heard; call it when the state changes too. Until the transport stops it looks again when the next thing is due. */
export function showPlaying(
  context: AudioContext,
  transport: Pick<Transport, 'showing' | 'state'>,
  show: (showing: Showing | undefined) => void,
): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  return function draw(): void {
    clearTimeout(timer);
    const heard = audibleTimeOf(context);
    const showing = transport.showing(heard);
    show(showing);
    if (transport.state() === 'stopped') return;
    timer = setTimeout(draw, showing ? Math.max(4, Math.min(TICK, (showing.until - heard) * 1000)) : TICK);
  };
}
