/** Puts more items at the end of a list. There may be more of them than the arguments that a call can have, as in `push(...more)`. */
export function append<Item>(list: Item[], more: Iterable<Item>): void {
  for (const item of more) list.push(item);
}
