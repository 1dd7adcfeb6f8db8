/** An engraved block with some of its notes marked. */

/** Adds the class `found` to the groups of these events. */
export function withFound(html: string, events: ReadonlySet<number>): string {
  return html.replace(/<g class="e"( id="[^"]*")? data-event="(\d+)">/g, (group, id = '', event: string) =>
    events.has(Number(event)) ? `<g class="e found"${id} data-event="${event}">` : group,
  );
}
