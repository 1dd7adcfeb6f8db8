/** Checked access: what the code knows to be there is handed out as such, and where it is not, that is a bug and throws. */

/** The item at an index that lies in the list. */
export function itemAt<Item>(list: ArrayLike<Item>, index: number): Item {
  const item = list[index];
  if (item === undefined) throw new RangeError(`no item ${index} in a list of ${list.length}`);
  return item;
}

/** The last item of a list that is not empty. */
export const lastOf = <Item>(list: ArrayLike<Item>): Item => itemAt(list, list.length - 1);

/** The value of a key that the map has. */
export function valueAt<Key, Value>(map: { get(key: Key): Value | undefined }, key: Key): Value {
  const value = map.get(key);
  if (value === undefined) throw new RangeError(`no value for ${String(key)}`);
  return value;
}

/** A value that is known to be there; `what` names it in the error that is thrown where it is not. */
export function present<Value>(value: Value | undefined | null, what: string): Value {
  if (value === undefined || value === null) throw new RangeError(`${what} is missing`);
  return value;
}

/** Whether a value is one of a few. */
export const isOneOf = <Item>(list: readonly Item[], value: unknown): value is Item =>
  list.some((item) => item === value);

/** A record with a value for each key. */
export function recordOf<Key extends string, Value>(
  keys: readonly Key[],
  valueFor: (key: Key, index: number) => Value,
): Record<Key, Value> {
  const entries = keys.map((key, index) => [key, valueFor(key, index)] as const);
  // The library's type forgets which keys there are.
  return Object.fromEntries(entries) as Record<Key, Value>;
}
