/** What holds along the bars of a score with endings. */

/** Follows what holds from bar to bar: a later ending begins with what held before the first one. `opened` is the ending that begins there. */
export function throughEndings<State>(start: State): (now: State, opened: readonly number[] | undefined) => State {
  let before = start;
  return (now, opened) => {
    if (opened?.includes(1)) before = now;
    return opened && !opened.includes(1) ? before : now;
  };
}
