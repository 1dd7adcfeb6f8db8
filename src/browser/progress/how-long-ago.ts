/** How long ago something was, in words, by days of the calendar. */

const DAY = 86_400_000;

/** `today`, `yesterday`, `3 days ago`, `last week`; undefined where it is not known, or where a clock says that it is still to come. */
export function howLongAgo(at: number, now: number, language: string): string | undefined {
  const days = Math.round((midnight(now) - midnight(at)) / DAY);
  if (at === 0 || days < 0) return undefined;
  const words = new Intl.RelativeTimeFormat(language, { numeric: 'auto' });
  if (days < 7) return words.format(-days, 'day');
  if (days < 31) return words.format(-Math.floor(days / 7), 'week');
  if (days < 365) return words.format(-Math.floor(days / 30.5), 'month');
  return words.format(-Math.floor(days / 365), 'year');
}

/** The midnight before a moment. A day with a change of the clocks is an hour longer or shorter, so days are rounded. */
const midnight = (at: number): number => new Date(at).setHours(0, 0, 0, 0);
