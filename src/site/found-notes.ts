/** An engraved block with some of its notes marked. */
import { CLASS } from '../engrave/classes.ts';

const EVENT_GROUP = new RegExp(`<g class="${CLASS.event}"((?: id="[^"]*")?) data-event="(\\d+)">`, 'g');

/** Adds the class `found` to the groups of these events. */
export function withFound(html: string, events: ReadonlySet<number>): string {
  return html.replace(EVENT_GROUP, (group, id: string, event: string) =>
    events.has(Number(event)) ? `<g class="${CLASS.event} found"${id} data-event="${event}">` : group,
  );
}
