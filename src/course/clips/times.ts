/** Times and bars of a cue: how they are read, and what is meant by them in another form. */

/** Reads `1:42`, `1:02:03.5` or `102`; undefined for what is no time. */
export function secondsOf(text: string): number | undefined {
  const match = /^(?:(?:(\d{1,2}):)?(\d{1,3}):)?(\d{1,5}(?:\.\d{1,3})?)$/.exec(text.trim());
  if (!match) return undefined;
  const [, hours = '0', minutes, seconds = '0'] = match;
  if (minutes !== undefined && Number(seconds) >= 60) return undefined;
  if (match[1] !== undefined && Number(minutes) >= 60) return undefined;
  return Number(hours) * 3600 + Number(minutes ?? 0) * 60 + Number(seconds);
}

/** `1:42`, as a reader sees it. */
export function timeInWords(seconds: number): string {
  const whole = Math.floor(seconds);
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  const two = (value: number): string => `${value}`.padStart(2, '0');
  return hours > 0 ? `${hours}:${two(minutes)}:${two(rest)}` : `${minutes}:${two(rest)}`;
}

/** What is meant by a time in another form: `1m20s`, `4 s`, `0:04,5`, `0:75`. */
export function timeMeant(text: string): { readonly time: string; readonly certain: boolean } | undefined {
  const plain = text
    .trim()
    .toLowerCase()
    .replace(/(\d),(\d{1,3})$/, '$1.$2');
  if (secondsOf(plain) !== undefined) return { time: plain, certain: true };
  const units =
    /^(?:(\d{1,3})\s*(?:m|min|mins|minutes?|['’′])\s*)?(?:(\d{1,3}(?:\.\d{1,3})?)\s*(?:s|secs?|seconds?|["”″]|'')?)?$/.exec(
      plain,
    );
  const [, minutes = '0', seconds = '0'] = units ?? [];
  const over = units ?? /^(\d{1,3}):(\d{2,3})$/.exec(plain);
  if (!over) return undefined;
  const total = units ? Number(minutes) * 60 + Number(seconds) : Number(over[1]) * 60 + Number(over[2]);
  const rest = Math.round((total % 1) * 1000) / 1000;
  const time = `${timeInWords(total)}${rest === 0 ? '' : `${rest}`.slice(1)}`;
  return { time, certain: units !== null && total > 0 };
}

/** What is meant by bars in another form: `1 to 4`, `1, 2`, `4-1`. */
export function barsMeant(text: string): { readonly bars: string; readonly certain: boolean } | undefined {
  const two = /^\D*(\d{1,4})\s*(-|–|—|\.{2,3}|to|until|through|bis|and|&|,|\/|:|\s)\s*(\d{1,4})\s*$/i.exec(text.trim());
  if (!two) return undefined;
  const [first, last] = [Number(two[1]), Number(two[3])];
  const isRun = /^(?:-|–|—|\.+|to|until|through|bis)$/i.test(two[2] ?? '');
  if (first > last) return { bars: `${last}-${first}`, certain: false };
  return { bars: `${first}-${last}`, certain: isRun || last === first + 1 };
}
