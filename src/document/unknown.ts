/** Values of which nothing is known yet. */

/** What a value has of its own under a key; undefined where it has nothing there. */
export const fieldOf = (value: unknown, key: PropertyKey): unknown =>
  typeof value === 'object' && value !== null && Object.hasOwn(value, key) ? Reflect.get(value, key) : undefined;
